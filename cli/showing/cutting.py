"""What `check` says of the cut: cautions, how to end it, and what to set and look at before it."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from scarfwright.cli.showing.say import pairs
from scarfwright.models.cut.endings import TravelAdvice
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.at_the_saw import endings, feed, knife_and_guard
from scarfwright.models.words.at_the_saw.procedure import before_the_cut, cautions
from scarfwright.models.workup import Workup


def show_cut(work: Workup, out: Console) -> None:
    """Cautions first, then the endings, the numbers of the cut in words, and the check list."""
    say, advice = say_in(work.job.units), work.cut.advice
    out.print("At the saw", style="bold")
    bullets = Table.grid(padding=(0, 1))
    for text in cautions(work):
        bullets.add_row("  !", text)
    out.print(bullets)
    out.print(_endings(advice, say))
    out.print(pairs("The cut", _in_words(work, advice, say)))
    out.print(pairs("Before the cut", [(c.what, c.text) for c in before_the_cut(work)]))


def _endings(advice: TravelAdvice, say: Say) -> Table:
    table = Table(title="Ways to end the cut", title_justify="left", show_lines=True)
    for heading in ("way", "with these clamps", "risk"):
        table.add_column(heading)
    for ending in advice.endings:
        name = f"{endings.NAMES[ending.name]} (chosen)" if ending.asked else endings.NAMES[ending.name]
        table.add_row(name, endings.why(ending, say), endings.RISKS[ending.name].removeprefix("Risk: "))
    return table


def _in_words(work: Workup, advice: TravelAdvice, say: Say) -> list[tuple[str, str]]:
    one = work.cut.feed
    return [
        ("start", endings.start(advice.start, say)),
        ("limit", endings.limit(advice, say)),
        ("lip", endings.go_on(advice, say)),
        ("offcut", endings.offcut(advice.offcut, say)),
        ("guard", knife_and_guard.guard(work.cut.guard, say)),
        ("feed", " ".join((feed.feed(one, say), *feed.advice(one, say)))),
    ]
