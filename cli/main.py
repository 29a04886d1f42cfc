"""The commands. Each reads its words, calls models and outputs, prints; heavy rooms are imported inside."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Literal

import typer
from scarfwright.cli.problems import problem

app = typer.Typer(
    name="scarfwright",
    help="Sleds, gauges and saw numbers for cutting long-slope scarf joints.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

JobFile = Annotated[
    Path | None,
    typer.Argument(metavar="[JOB]", help="Job file; without one, the packaged first example.", show_default=False),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for machines instead of tables.")]


INTERRUPTED = 130


def version() -> str:
    from importlib.metadata import version as installed_version

    return installed_version("scarfwright")


def _print_version(wanted: bool) -> None:
    if wanted:
        print(f"scarfwright {version()}")
        raise typer.Exit


@app.callback()
def top(
    _version: Annotated[
        bool, typer.Option("--version", callback=_print_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Sleds, gauges and saw numbers for cutting long-slope scarf joints."""


@app.command()
def make(
    job: JobFile = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help='Folder to write; by default "<job name>-files" beside the job.'),
    ] = None,
    only: Annotated[
        str | None, typer.Option("--only", metavar="LIST", help="Some groups only, of cad,cut,print,paper.")
    ] = None,
    machine: Annotated[
        Literal["router", "laser"] | None,
        typer.Option("--machine", help="Machine the cut files are for; instead of [files] machine."),
    ] = None,
    dxf: Annotated[
        Literal["r2010", "r12"] | None, typer.Option("--dxf", help="DXF version; instead of [files] dxf.")
    ] = None,
    dxf_units: Annotated[
        Literal["mm", "in"] | None, typer.Option("--dxf-units", help="Unit of the DXF; instead of [files] dxf_units.")
    ] = None,
    tool_path: Annotated[
        bool, typer.Option("--tool-path", help="Router: also sheets already offset by the cutter's radius.")
    ] = False,
    json: AsJson = False,
) -> None:
    """Make every file of a job: solids, cutting files, prints, drawings, numbers."""
    from scarfwright.cli.making import make_job

    instead = {"machine": machine, "dxf": dxf, "dxf_units": dxf_units, "tool_path": tool_path or None}
    raise typer.Exit(make_job(job, out, only, json, version(), instead))


@app.command()
def check(job: JobFile = None, json: AsJson = False) -> None:
    """Work a job out and list its numbers and findings; writes nothing."""
    from scarfwright.cli.checking import check_job

    raise typer.Exit(check_job(job, json))


@app.command()
def plan(
    job: JobFile = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help='Folder to write; by default "<job name>-files" beside the job.'),
    ] = None,
    seconds: Annotated[
        float | None, typer.Option("--seconds", metavar="N", help="Look so long; instead of [plan] effort.")
    ] = None,
    json: AsJson = False,
) -> None:
    """Find which board goes where: blanks out of boards with the fewest joints and the least wood."""
    from scarfwright.cli.planning import plan_command

    raise typer.Exit(plan_command(job, out, seconds, json, version()))


@app.command()
def start(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Job file to write; never overwritten.")],
    units: Annotated[Literal["mm", "in"], typer.Option("--units", help="Units of the new job.")] = "mm",
) -> None:
    """Write a commented job file to begin from."""
    from scarfwright.cli.starting import start_job

    raise typer.Exit(start_job(file, units))


@app.command()
def parts(
    name: Annotated[str | None, typer.Argument(metavar="[NAME]", help="One part only.", show_default=False)] = None,
    json: AsJson = False,
) -> None:
    """List the parts there are, each with its parameters, their defaults and units."""
    from scarfwright.cli.parting import list_parts

    raise typer.Exit(list_parts(name, json))


@app.command()
def part(
    name: Annotated[str, typer.Argument(metavar="NAME", help="As listed by: scarfwright parts.")],
    out: Annotated[
        Path,
        typer.Option("--out", metavar="FILE", help="File to write: .stl, .3mf, .step or .dxf."),
    ],
    values: Annotated[
        list[str] | None,
        typer.Argument(metavar="[KEY=VALUE]...", help="Such as length='3/4 in' stations=400,600.", show_default=False),
    ] = None,
) -> None:
    """Build one part alone. Lengths as in a job file; a bare number is mm."""
    from scarfwright.cli.parting import make_part

    raise typer.Exit(make_part(name, values or [], out))


@app.command()
def schema() -> None:
    """Print the JSON Schema of the job file, for editors that complete and check."""
    from scarfwright.models.job.start_text import job_schema
    from scarfwright.outputs.formats.text import as_json

    print(as_json(job_schema()), end="")


def main() -> int:
    """Read the words, run the command; returns the exit code. One line, no traceback, for what users can mend."""
    from scarfwright.models.job.file import JobError

    try:
        code = app(standalone_mode=False)
        if code == INTERRUPTED:  # the command line library's own word for it
            raise KeyboardInterrupt
        return code if isinstance(code, int) else 0
    except typer.Abort:
        raise KeyboardInterrupt from None
    except BrokenPipeError:
        sys.stderr.close()
        return 1
    except JobError as error:
        problem(str(error))
    except OSError as error:
        problem(f"{error.filename or 'writing'}: {error.strerror or error}; nothing was changed")
    except Exception as error:
        if not hasattr(error, "format_message"):
            raise
        problem(f"{error.format_message()} (see: scarfwright --help)")
    return 2
