"""What the commands print: findings and tables."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text
from scarfwright.models.findings import Finding, Level
from scarfwright.models.lengths.say import say_in, slope
from scarfwright.models.workup import Workup

_STYLES = {Level.FAULT: "bold red", Level.CAUTION: "bold yellow", Level.NOTE: "bold cyan"}


def console() -> Console:
    return Console(highlight=False)


def findings(found: Iterable[Finding], to: Console | None = None) -> None:
    """Each finding: its level and code on a line, its text below."""
    out = to or console()
    for item in found:
        stops_the_part_only = item.level is Level.FAULT and item.part
        word, style = ("left out", _STYLES[Level.CAUTION]) if stops_the_part_only else (item.level, _STYLES[item.level])
        out.print(Text.assemble((word, style), f"  {item.code}"))
        out.print(Padding(Text(item.text), (0, 0, 0, 4)))


def sled_numbers(work: Workup) -> Table:
    """The five numbers a user writes on the sled."""
    say = say_in(work.job.units)
    heel = next(c for c in work.way.layout.clamps if c.where == "heel")
    table = Table(title="Write on the sled", title_justify="left", show_header=False)
    table.add_row("slope", slope(work.way.sled.ratio))
    table.add_row("fence", f"{say(work.way.fence)}: heel as measured + {say(work.way.blade.gap)}")
    table.add_row("blade height", say(work.way.blade.height))
    table.add_row("overlap", f"{say(work.joint.overlap)} taken by each joint")
    table.add_row("heel station", f"{say(heel.station)} from the heel along the work edge")
    return table
