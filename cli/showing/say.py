"""What the commands print: the numbers for the sled, and findings by what they ask of the reader."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from rich.console import Console
from rich.table import Table
from rich.text import Text
from scarfwright.cli.terminal import given_up, visible
from scarfwright.models.findings import Finding, Level
from scarfwright.models.lengths.say import say_in
from scarfwright.models.lengths.slopes import degrees
from scarfwright.models.workup import Workup

GROUPS = ("Stops the job", "Needs care", "Good to know")
_STYLES = ("bold red", "bold yellow", "bold cyan")


class Screen(Console):
    """A console to which text is text: brackets are no markup, control characters are shown and not sent.

    Raises ClosedPipeError or CannotPrintError.
    """

    def __init__(self, *, stderr: bool = False) -> None:
        super().__init__(highlight=False, markup=False, emoji=False, stderr=stderr)

    def print(self, *objects: Any, **options: Any) -> None:
        try:
            super().print(*objects, **options)
        except OSError as error:
            raise given_up(error) from None

    def render_str(self, text: str, **options: Any) -> Text:
        return super().render_str(visible(text), **options)

    def on_broken_pipe(self) -> None:
        raise given_up(BrokenPipeError())


def console() -> Screen:
    return Screen()


def group_of(found: Finding) -> int:
    """0 stops the job, 1 needs care, 2 is good to know: what an optional part has is no fault of the job."""
    if found.stops:
        return 0
    return 1 if found.level is Level.CAUTION and not found.part else 2


def findings(found: Iterable[Finding], to: Console | None = None, *, whole: bool = True) -> None:
    """The findings by group, each once, with its code; `whole` False cuts what is good to know to a sentence."""
    screen = to or console()
    once = list({(f.code, f.text): f for f in found}.values())
    for group, (heading, style) in enumerate(zip(GROUPS, _STYLES, strict=True)):
        mine = [f for f in once if group_of(f) == group]
        if not mine:
            continue
        screen.print(heading, style=style)
        table = Table.grid(padding=(0, 1))
        for one in mine:
            text = one.text if whole or group < 2 else _first_sentence(one.text)
            table.add_row("  -", f"{text} ({one.code})")
        screen.print(table)


def _first_sentence(text: str) -> str:
    first, stop, _ = text.partition(". ")
    return first + stop.strip()


def slope_in_words(ratio: float) -> str:
    """ "12:1 (4.76 degrees)"."""
    return f"{ratio:.2f}".rstrip("0").rstrip(".") + f":1 ({degrees(ratio):.2f} degrees)"


def pairs(title: str, rows: Iterable[tuple[str, str]]) -> Table:
    """Names and what is said of each, without lines, to be read down."""
    table = Table.grid(padding=(0, 2))
    table.title, table.title_justify, table.title_style = title, "left", "bold"
    table.add_column(no_wrap=True)
    for name, text in rows:
        table.add_row(f"  {name}", text)
    return table


def sled_numbers(work: Workup) -> Table:
    """The five numbers a user writes on the sled."""
    say, way = say_in(work.job.units), work.way
    heel = next(c for c in way.layout.clamps if c.where == "heel")
    return pairs(
        "Write on the sled",
        [
            ("slope", slope_in_words(way.sled.ratio)),
            ("fence", f"heel as measured + {say(way.blade.gap)}: {say(way.fence)} if the heel is {say(way.sled.heel)}"),
            ("blade height", f"{say(way.blade.height)} above the table"),
            ("overlap", f"{say(work.joint.overlap)} per joint"),
            ("heel station", f"{say(heel.station)} from the heel along the work edge"),
        ],
    )
