"""`scarfwright parts` and `scarfwright part`: the registry listed, and one part built alone."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from rich.table import Table
from rich.text import Text
from scarfwright.cli.interruption import Interruption
from scarfwright.cli.problems import problem, refuse
from scarfwright.cli.showing import say
from scarfwright.cli.terminal import json_out, visible
from scarfwright.models.findings import Finding, Level
from scarfwright.models.lengths.length import show
from scarfwright.models.part.part import Part
from scarfwright.models.parts import refused, registry
from scarfwright.models.parts.check import check_part
from scarfwright.models.parts.kind import Origin, PartKind
from scarfwright.models.parts.plug_ins import reason
from scarfwright.models.parts.words import WordError, find_kind, read, words
from scarfwright.models.printing.bed import height, size
from scarfwright.models.wanted.plug_ins import not_loaded, writable
from scarfwright.models.words.sentences import worded

SUFFIXES = (".stl", ".3mf", ".step", ".dxf")


def list_parts(name: str | None, json: bool) -> int:
    """Returns the exit code: 2 for a part that is none."""
    try:
        kinds = list(registry().values()) if name is None else [find_kind(name)]
    except WordError as error:
        return refuse(str(error))
    if json:
        lost = [{"name": r.name, "from": _from(r.origin), "why": r.why} for r in refused()]
        json_out({"parts": [_as_json(kind) for kind in kinds], "not_loaded": lost})
        return 0
    out = say.console()
    for kind in kinds:
        whose = _from(kind.origin)
        out.print(Text.assemble((kind.name, "bold"), f"  {visible(kind.summary)}"))
        out.print(Text(f"    from {whose['package']} {whose['version']}"))
        out.print(_table(kind))
    if name is None:
        say.findings(worded(not_loaded(), "mm"), say.Screen(stderr=True))
    out.print("One alone: scarfwright part NAME key=value ... --out FILE, a suffix of " + ", ".join(SUFFIXES))
    return 0


def _from(origin: Origin | None) -> dict[str, str]:
    """The package a part comes from, and its version."""
    if origin is None:
        return {"package": "scarfwright", "version": version("scarfwright")}
    return {"package": origin.package, "version": origin.version}


def _as_json(kind: PartKind) -> dict[str, object]:
    return {
        "name": kind.name,
        "summary": kind.summary,
        "from": _from(kind.origin),
        "goes_to": sorted(kind.goes_to),
        "parameters": [word.as_json() for word in words(kind)],
    }


def _table(kind: PartKind) -> Table:
    table = Table(show_header=False, box=None, padding=(0, 1, 0, 4))
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold", max_width=36)
    table.add_column()
    for word in words(kind):
        unit = f" {word.unit}" if word.unit and word.shown() else ""
        table.add_row(Text(word.name), Text(f"{word.shown()}{unit}"), Text(word.about))
    return table


def make_part(name: str, given: Sequence[str], out: Path, force: bool) -> int:
    """Build one part and put its file in place whole. Returns the exit code: 1 if it can't be so, 2 for bad words."""
    if out.suffix not in SUFFIXES:
        return refuse(f"{out}: expected a file name that ends in one of {', '.join(SUFFIXES)}")
    if out.is_dir() or not out.parent.is_dir():
        what = "is a folder" if out.is_dir() else f"there is no folder {out.parent}"
        return refuse(f"{out}: {what}; expected a file to write in a folder that is there")
    if out.exists() and not force:
        return refuse(f"{out}: is there already and is left as it is; expected a name not yet taken, or --force")
    try:
        kind = find_kind(name)
        parameters = read(kind, given)
    except WordError as error:
        return refuse(str(error))
    try:
        found = worded(check_part(kind, None, parameters), "mm")
        if any(f.level is Level.FAULT for f in found):
            say.findings(found, say.Screen(stderr=True))
            problem(f"{name}: can't be made in these sizes, so nothing was written")
            return 1
        part = kind.drawn(parameters)
        if kind.origin is not None:
            writable(part, name)
    except (Exception, SystemExit) as error:
        if kind.origin is None:
            raise
        problem(f"{name} of {kind.origin}: {reason(error)}; nothing was written")
        return 1
    _write(part, out)
    Interruption.so_far = f"{out} is written"
    _report(part, out, found)
    return 0


def _write(part: Part, out: Path) -> None:
    """Beside the target first, so that what was there stays until the new file is whole. Raises OSError."""
    from scarfwright.outputs.formats.table import write

    room = Path(tempfile.mkdtemp(prefix=".scarfwright-building-", dir=out.parent))
    try:
        beside = room / out.name
        if out.suffix == ".dxf":
            write(part, beside)
        else:
            from scarfwright.models.solids.solids import bodies

            write(bodies(part), beside)
        os.replace(beside, out)
    finally:
        shutil.rmtree(room, ignore_errors=True)


def _report(part: Part, out: Path, found: Sequence[Finding]) -> None:
    long, wide = size(part)
    sides = " x ".join(show(side, "mm") for side in (long, wide, height(part)))
    to = say.console()
    to.print(f"{out}: {part.title}, {sides}, {part.volume / 1000:.1f} cm3", soft_wrap=True)
    if part.use:
        to.print(part.use)
    say.findings(found, to)
