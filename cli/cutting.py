"""What `check` says of the cut: cautions, how to end it, and what to set and look at before it."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from scarfwright.models.cut.endings import NAMES, TravelAdvice
from scarfwright.models.cut.order_of_work import before_the_cut, cautions
from scarfwright.models.workup import Workup


def show_cut(work: Workup, out: Console) -> None:
    """Cautions first, then the endings, the numbers of the cut in words, and the check list."""
    advice = work.cut.advice
    out.print("At the saw", style="bold")
    bullets = Table.grid(padding=(0, 1))
    for text in cautions(work.way, work.cut):
        bullets.add_row("  !", text)
    out.print(bullets)
    out.print(_endings(advice))
    out.print(_pairs("The cut", _in_words(work, advice)))
    out.print(_pairs("Before the cut", [(c.what, c.text) for c in before_the_cut(work.way, work.cut)]))


def _endings(advice: TravelAdvice) -> Table:
    table = Table(title="Ways to end the cut", title_justify="left", show_lines=True)
    for heading in ("way", "with these clamps", "risk"):
        table.add_column(heading)
    for ending in advice.endings:
        name = f"{NAMES[ending.name]} (asked for)" if ending.asked else NAMES[ending.name]
        table.add_row(name, ending.why, ending.risk.removeprefix("Risk: "))
    return table


def _in_words(work: Workup, advice: TravelAdvice) -> list[tuple[str, str]]:
    feed = work.cut.feed
    return [
        ("start", advice.start.text),
        ("limit", advice.limit_text),
        ("lip", advice.go_on_text),
        ("offcut", advice.offcut.text),
        ("guard", work.cut.guard.text),
        ("feed", " ".join((feed.text, *feed.advice))),
    ]


def _pairs(title: str, rows: list[tuple[str, str]]) -> Table:
    table = Table(title=title, title_justify="left", show_header=False)
    for name, text in rows:
        table.add_row(name, text)
    return table
