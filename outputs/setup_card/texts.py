"""The words of the set-up card: cautions, what to set, the check list, the order of work, the ways to end the cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.models.lengths.drawn import slope_mark
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.layout import pad_lower_edge
from scarfwright.models.words.at_the_saw import feed
from scarfwright.models.words.at_the_saw.endings import NAMES
from scarfwright.models.words.at_the_saw.place import in_a_table, limit_in_a_table
from scarfwright.models.words.at_the_saw.procedure import before_the_cut, cautions, order_of_work
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import EDGE, Item, Pen, Text, box
from scarfwright.outputs.drawing.panels import LEADING, PAD, Row, panel, table

Area = tuple[float, float, float, float]
RED, PALE_RED = "#b00000", "#fbe9e7"
WHERE = {"heel": "Heel clamp", "extra": "Clamp", "nose": "Nose clamp", "nose_flat": "Nose clamp"}
# the other checks stand among the settings or the cautions
SET_ALREADY = ("Riving knife", "Fence", "Blade height", "Stop block", "Infeed", "Outfeed", "Hands")
LEAST = 3.0  # no letter smaller [page mm]: readable at arm's length
LARGEST = 3.8
HEADING = 1.2  # of the text's size
BETWEEN = 0.35  # from one item of a list to the next, of the text's size


@dataclass(frozen=True)
class Listing:
    """A list with its heading: marks (a bullet, a number) and texts."""

    heading: str
    items: tuple[tuple[str, str], ...]


def caution_band(work: Workup, area: Area) -> tuple[list[Item], float]:
    """The cautions in two columns under a red heading, at the top of the area; and how high the band is."""
    x, y, width, height = area
    told = Listing("", tuple(("-", text) for text in cautions(work)))
    size, column = 3.3, (width - 3 * PAD) / 2
    runs = _broken(told, size, column, strong=1)
    half = _balanced([len(run) for run in runs])
    lines = max(sum(map(len, runs[:half])), sum(map(len, runs[half:])))
    high = lines * size * LEADING + 9.5
    top = y + height
    items: list[Item] = [
        box(x, top - high, width, high, Pen(0.6, RED), PALE_RED),
        Text(x + PAD, top - 5.4, "BEFORE ANYTHING ELSE: sawing can maim", 4.0, bold=True, colour=RED),
    ]
    for number, run in enumerate(runs):
        if number in (0, half):
            left, at = x + PAD + (column + PAD if number else 0.0), top - 7.2
        drawn, at = _one(("-", told.items[number][1]), run, left, at, size, number < 1)
        items += drawn
    return items, high


def _balanced(lines: Sequence[int]) -> int:
    """How many bullets go into the first column so that the longer column is shortest."""
    return min(range(1, len(lines) + 1), key=lambda n: (max(sum(lines[:n]), sum(lines[n:])), -n))


def _indent(told: Listing, size: float) -> float:
    return max(lettering.width(mark, size) for mark, _ in told.items) + 0.4 * size


def _broken(told: Listing, size: float, column: float, strong: int = 0) -> list[list[str]]:
    room = column - _indent(told, size)
    return [lettering.wrap(text, size, room, n < strong) or [""] for n, (_, text) in enumerate(told.items)]


def _one(
    item: tuple[str, str], run: Sequence[str], left: float, top: float, size: float, bold: bool, indent: float = 0.0
) -> tuple[list[Item], float]:
    """One item of a list from `top` down, and where the next may begin."""
    inward = indent or lettering.width(item[0], size) + 0.4 * size
    items: list[Item] = [Text(left, top - size * LEADING, item[0], size, bold=bold)]
    for text in run:
        top -= size * LEADING
        items.append(Text(left + inward, top, text, size, bold=bold))
    return items, top


def checks(work: Workup) -> Listing:
    """The check list; what the settings say already is left out."""
    told = [f"{check.what}: {check.text}" for check in before_the_cut(work) if check.what not in SET_ALREADY]
    return Listing("Check before the cut", tuple(("-", text) for text in told))


def steps(work: Workup) -> Listing:
    """The order of work, numbered."""
    return Listing("Order of work", tuple((str(n), text) for n, text in enumerate(order_of_work(work), 1)))


def columns_of(lists: Sequence[Listing], area: Area) -> list[list[Item]]:
    """The lists one after the other in two columns: on one sheet as large as fits, on further ones if the letters
    would fall under LEAST. Each inner list is what stands on one sheet."""

    def pages_at(size: float) -> tuple[bool, list[list[Item]]]:
        pages = _flow(lists, area, size)
        return len(pages) == 1, pages

    return lettering.largest_size(pages_at, lettering.by_steps(LARGEST, 0.05, LEAST))[1]


def _flow(lists: Sequence[Listing], area: Area, size: float) -> list[list[Item]]:
    x, y, width, height = area
    column = (width - 3 * PAD) / 2
    pages: list[list[Item]] = [[]]
    at, left = y + height - PAD, x + PAD

    def next_column() -> None:
        nonlocal at, left
        at = y + height - PAD
        if left > x + PAD:
            pages.append([])
            left = x + PAD
        else:
            left += column + PAD

    for told in lists:
        indent = _indent(told, size)
        runs = _broken(told, size, column)
        big = size * HEADING
        if at - big * LEADING - (len(runs[0]) + 1) * size * LEADING < y:
            next_column()
        if at < y + height - PAD:
            at -= size
        at -= big * LEADING
        pages[-1].append(Text(left, at, told.heading, big, bold=True))
        at -= BETWEEN * size
        for item, run in zip(told.items, runs, strict=True):
            if at - len(run) * size * LEADING < y + BETWEEN * size:
                next_column()
            drawn, at = _one(item, run, left, at, size, False, indent)
            pages[-1] += drawn
            at -= BETWEEN * size
    return pages


def settings(work: Workup, area: Area) -> list[Item]:
    """What to set and where, label and figure."""
    say, advice, fence = say_in(work.job.units), work.cut.advice, work.cut.fence
    knife, low = work.cut.knife, pad_lower_edge(work.job, work.way.sled)
    thick = f"{say.fine(knife.thickness)} thick. Top: {say.down(knife.top)} up or lower"
    rows = [
        Row(slope_mark(work.way.sled.ratio), "Slope"),
        Row(f"{say(fence.to_tooth)} = heel by callipers + {say(fence.gap)}", f"Fence, {fence.side}", True),
        Row(f"to a tooth set towards the fence; to the plate: heel + {say.fine(fence.plate_gap)}", " "),
        Row(f"{say(work.way.blade.height)} above the table", "Blade height", True),
        Row(thick if knife.fitted else "NONE", "Riving knife", not knife.fitted),
        *_clamp_rows(work, say),
        Row(f"lower edge {say(low)} above the table, not lower", "Pads"),
        Row(f"{say(advice.stop.from_front)} from the table's front edge", "Stop block", True),
        Row(f"heel {say(advice.start.from_front)} inside the front edge", "Start"),
        Row(f"{say(work.way.layout.hand_line)} from the heel", "Hand line", True),
        *_support_rows(work, say),
    ]
    if work.cut.feed.time_range is not None:
        rows.append(Row(f"{feed.seconds(work.cut.feed)} from first touch to taper complete", "Feed"))
    return panel(area, "Set", rows, LARGEST)


def _clamp_rows(work: Workup, say: Say) -> list[Row]:
    """A row a clamp; further clamps that nothing ever meets share one."""
    rows, free = [], [c for c in work.way.layout.clamps if c.where == "extra" and c.limit is None]
    for clamp in work.way.layout.clamps:
        if clamp in free[1:]:
            continue
        at = ", ".join(say(c.station) for c in free) if clamp in free else say(clamp.station)
        limit = "" if clamp.limit is None else f"; {clamp.meets} at travel {limit_in_a_table(clamp.limit, say)}"
        label = "Clamps" if clamp in free and len(free) > 1 else WHERE[clamp.where]
        rows.append(Row(f"at {at}, closes on {say(clamp.opening)}{limit}", label))
    return rows


def _support_rows(work: Workup, say: Say) -> list[Row]:
    need = work.cut.support
    level = "level or a hair high, never low"
    if need.stand is None:
        rows = [Row("none needed", "Infeed")]
    elif need.stand.fits:
        between = f"{say(need.stand.nearest)} to {say(need.stand.furthest)}"
        rows = [Row(f"{between} out from the front edge; {level}", "Infeed support", True)]
    else:
        rows = [Row(f"front edge to {say(need.stand.nearest)} out or more; {level}", "Infeed support", True)]
    past = f"{say.up(need.past_back)} past the table's far edge"
    return [*rows, Row(past if need.past_back else "on the table", "Heel ends")]


def endings(work: Workup, area: Area) -> list[Item]:
    """The three ways to end the cut with these clamps."""
    say = say_in(work.job.units)
    x, y, width, height = area
    rows = [
        (
            f"{NAMES[ending.name]}{' (this job)' if ending.asked else ''}",
            "possible" if ending.possible else "NOT with these clamps",
            in_a_table(ending.travel, say),
            say.up(ending.least_station),
            say.up(ending.least_length),
        )
        for ending in work.cut.advice.endings
    ]
    columns = ("Way to end the cut", "", "over at travel", "heel notch from", "sled from")
    hung = table((x + PAD, y + height - 0.5), width - 2 * PAD, "", columns, rows, height - 1.0, LEAST)
    return [box(x, y, width, height, EDGE), *hung]
