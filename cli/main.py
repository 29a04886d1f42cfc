"""The commands. Each reads its words, calls models and outputs, prints; heavy rooms are imported inside."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Any, Literal

import typer
from scarfwright.cli.interruption import Interruption
from scarfwright.cli.problems import as_data, problem, refuse
from scarfwright.cli.terminal import CannotPrintError, ClosedPipeError, json_out, out, to_nowhere

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
JobOrZip = Annotated[
    Path | None,
    typer.Argument(
        metavar="[JOB]",
        help="Job file, or a zip that was shared; without one, the packaged first example.",
        show_default=False,
    ),
]
JobZipOrFolder = Annotated[
    Path | None,
    typer.Argument(
        metavar="[JOB]",
        help="Job file, a zip that was shared, or a folder of files; without one, the packaged first example.",
        show_default=False,
    ),
]
ShopFile = Annotated[
    Path | None,
    typer.Option("--shop", metavar="FILE", help="Saw, clamps and machines from this file where the job gives none."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for machines instead of tables.")]


INTERRUPTED, CLOSED_PIPE = 130, 141
MOST_PROBLEMS = 20  # lines of them on the screen; JSON has all
DEBIAN = {  # the package of each shared library the CAD kernel loads
    "libGL": "libgl1",
    "libGLU": "libglu1-mesa",
    "libEGL": "libegl1",
    "libX11": "libx11-6",
    "libXrender": "libxrender1",
    "libexpat": "libexpat1",
}


def version() -> str:
    from importlib.metadata import version as installed_version

    return installed_version("scarfwright")


def _print_version(wanted: bool) -> None:
    if wanted:
        out(f"scarfwright {version()}")
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
    job: JobOrZip = None,
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
    shop: ShopFile = None,
    json: AsJson = False,
) -> None:
    """Make every file of a job: solids, cutting files, prints, drawings, numbers."""
    instead: dict[str, Any] = {"machine": machine, "dxf": dxf, "dxf_units": dxf_units, "tool_path": tool_path or None}
    from scarfwright.cli.sharing.choosing import make_any

    raise typer.Exit(make_any(job, out, only, json, version(), instead, shop))


@app.command()
def check(
    job: JobZipOrFolder = None,
    cut: Annotated[bool, typer.Option("--cut", help="Also the cut: how to end it, what to look at.")] = False,
    sled: Annotated[bool, typer.Option("--sled", help="Also every size of the sled and travel of the cut.")] = False,
    joint: Annotated[bool, typer.Option("--joint", help="Also fit, strength, glue-up, planing and bends.")] = False,
    everything: Annotated[bool, typer.Option("--all", help="All of these, and every finding in full.")] = False,
    shop: ShopFile = None,
    json: AsJson = False,
) -> None:
    """Work a job out: the numbers for the sled, what needs doing, what to do next. Writes nothing.

    Of a zip or a folder, also whether it is whole, untouched, and its numbers still true.
    """
    from scarfwright.cli.sharing.choosing import check_any
    from scarfwright.cli.showing.checking import Tables

    raise typer.Exit(check_any(job, Tables(cut, sled, joint, everything), shop, json))


@app.command()
def share(
    job: JobFile = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="NAME.zip", help='Zip to write; by default "<job name>.zip" beside the job.'),
    ] = None,
    licence: Annotated[
        str | None,
        typer.Option("--licence", metavar="SPDX", help="Such as CC-BY-4.0; without it all rights stay with you."),
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Replace the zip if there is one.")] = False,
    shop: ShopFile = None,
    json: AsJson = False,
) -> None:
    """Put a job and all its files into one zip to pass on. The same job gives the same zip."""
    from scarfwright.cli.sharing.packing import share_job

    raise typer.Exit(share_job(job, out, licence, force, json, version(), shop))


@app.command()
def tune(
    job: JobFile = None,
    measured: Annotated[
        Path | None,
        typer.Option("--measured", metavar="FILE", help="Figures of test joints (TOML); without it you type them in."),
    ] = None,
    shop: ShopFile = None,
    json: AsJson = False,
    log: Annotated[bool, typer.Option("--log", help="Add the figures to a log of test joints beside the job.")] = False,
) -> None:
    """Tell from a test joint what is wrong with the set-up, and what to change."""
    from scarfwright.cli.tuning import tune_job

    raise typer.Exit(tune_job(job, measured, json, log, shop))


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
    shop: ShopFile = None,
    json: AsJson = False,
) -> None:
    """Find which board goes where: blanks out of boards with the fewest joints and the least wood."""
    from scarfwright.cli.planning import plan_command

    raise typer.Exit(plan_command(job, out, seconds, json, version(), shop))


@app.command()
def page(
    job: Annotated[
        Path | None,
        typer.Argument(metavar="[JOB]", help="Job file to begin with; it is only read.", show_default=False),
    ] = None,
    port: Annotated[
        int, typer.Option("--port", metavar="N", min=0, max=65535, help="Port to listen on; 0 for any that is free.")
    ] = 0,
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the address and open no browser.")] = False,
) -> None:
    """Type a job in the browser and see sled, cut and warnings at once; for one person on this machine."""
    from scarfwright.cli.serving.serve import serve_page

    raise typer.Exit(serve_page(job, port, open_it=not no_open))


@app.command()
def start(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Job file to write; never overwritten.")],
    units: Annotated[
        Literal["mm", "in"] | None,
        typer.Option("--units", help="Units; mm without it.", show_default=False),
    ] = None,
    ask: Annotated[bool, typer.Option("--ask", help="Ask five questions first; on a terminal only.")] = False,
    like: Annotated[
        str | None,
        typer.Option("--like", metavar="NAME", help="A packaged example instead; a name it has not lists them."),
    ] = None,
    source: Annotated[
        Path | None,
        typer.Option("--from", metavar="ZIP", help="Make a job that was shared your own: a zip, or its folder."),
    ] = None,
    shop: Annotated[
        Path | None,
        typer.Option("--shop", metavar="FILE", help="With --from: your saw, clamps and machines."),
    ] = None,
) -> None:
    """Write a commented job file to begin from."""
    if source is not None or shop is not None:
        from scarfwright.cli.sharing.choosing import start_own

        given = [*(["--units"] if units else []), *(["--ask"] if ask else []), *(["--like"] if like else [])]
        raise typer.Exit(start_own(file, source, shop, given))
    from scarfwright.cli.starting import ask_and_start, start_job, start_like

    if like is not None:
        if ask or units is not None:
            raise typer.Exit(refuse("start --like: found --ask or --units too; an example has its own units and sizes"))
        raise typer.Exit(start_like(file, like))
    raise typer.Exit(ask_and_start(file, units) if ask else start_job(file, units or "mm"))


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
    force: Annotated[bool, typer.Option("--force", help="Replace the file if there is one.")] = False,
) -> None:
    """Build one part alone. Lengths as in a job file; a bare number is mm."""
    from scarfwright.cli.parting import make_part

    raise typer.Exit(make_part(name, values or [], out, force))


@app.command()
def schema(
    units: Annotated[
        Literal["mm", "in"], typer.Option("--units", help="Units of the job, which decide the defaults.")
    ] = "mm",
) -> None:
    """Print the JSON Schema of the job file, for editors that complete and check."""
    from scarfwright.models.job.forms.schema import job_schema

    json_out(job_schema(units))


def main() -> int:
    """Read the words, run the command; returns the exit code. One line, no traceback, for what users can mend."""
    from scarfwright.models.job.problems import JobError

    try:
        code = app(standalone_mode=False)
        if code == INTERRUPTED:  # the command line library's own word for it
            raise KeyboardInterrupt
        return code if isinstance(code, int) else 0
    except typer.Abort:
        raise KeyboardInterrupt from None
    except (ClosedPipeError, SystemExit):  # the command line library leaves so when its help is not read to the end
        to_nowhere(sys.stdout)
        return CLOSED_PIPE
    except CannotPrintError as error:
        return refuse(f"the output can't be written ({error}); {Interruption.so_far}")
    except JobError as error:
        for one in error.problems[:MOST_PROBLEMS]:
            problem(one.text)
        if "--json" in sys.argv[1:]:
            as_data([one.as_json() for one in error.problems])
        return 2
    except ImportError as error:
        return _missing(error)
    except OSError as error:
        return refuse(f"{error.filename or 'writing'}: {error.strerror or error}; {Interruption.so_far}")
    except Exception as error:
        if not hasattr(error, "format_message"):
            raise
        return refuse(f"{error.format_message()} (see: scarfwright --help)")


def _missing(error: ImportError) -> int:
    """A library of the system that the CAD kernel needs is not there: one line says which package has it."""
    import re

    found = re.search(r"(\S+\.so[.\d]*): cannot open shared object file", str(error))
    if found is None:
        raise error
    package = DEBIAN.get(found[1].split(".so")[0])
    way = f"on Debian or Ubuntu: apt install {package}" if package else "install the package of your system that has it"
    return refuse(f"the CAD kernel needs {found[1]}, which is not here; {way}; {Interruption.so_far}")
