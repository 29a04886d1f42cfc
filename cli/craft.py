"""What `check` says of strength, glue-up and bends."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from scarfwright.models.words.craft import bend_lines, craft_lines
from scarfwright.models.workup import Workup


def show_craft(work: Workup, out: Console) -> None:
    """Strength, glue-up and planing in a few lines; then each bent member. Nothing for a job with faults."""
    if work.craft is None:
        return
    out.print(_pairs("Strength and glue-up", craft_lines(work.craft, work.joint, work.job.units)))
    for one in work.craft.members:
        out.print(_pairs(f"Bent: {one.name}", bend_lines(one, work.job.units)))


def _pairs(title: str, rows: list[tuple[str, str]]) -> Table:
    table = Table(title=title, title_justify="left", show_header=False)
    for name, text in rows:
        table.add_row(name, text)
    return table
