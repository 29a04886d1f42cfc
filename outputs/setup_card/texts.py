"""The words of the set-up card: cautions, what to set, checks, the order of work, the ways to end the cut."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.cut.sides import sides
from scarfwright.models.lengths.say import Say, say_in, slope
from scarfwright.models.sled.layout import pad_lower_edge
from scarfwright.models.words.endings import NAMES
from scarfwright.models.words.procedure import before_the_cut, cautions, order_of_work
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import EDGE, Item, Pen, Text, box
from scarfwright.outputs.drawing.panels import LEADING, PAD, Row, panel, table

Area = tuple[float, float, float, float]
RED, PALE_RED = "#b00000", "#fbe9e7"
WHERE = {"heel": "Heel clamp", "extra": "Clamp", "nose": "Nose clamp", "nose_flat": "Nose clamp"}
# the other checks stand among the settings
CHECKED = ("Fence parallel", "Blade square", "Board's end", "Work square", "Light", "Clamps", "Dry run")
INDENT = 2.2


def caution_band(work: Workup, area: Area) -> list[Item]:
    """The cautions in two columns under a red heading."""
    x, y, width, height = area
    heading = Text(x + PAD, y + height - 4.6, "BEFORE ANYTHING ELSE: sawing can maim", 3.8, bold=True, colour=RED)
    told = _two_columns(cautions(work), (x, y, width, height - 5.6), 3.1, 1)
    return [box(x, y, width, height, Pen(0.6, RED), PALE_RED), heading, *told]


def checks(work: Workup, area: Area) -> list[Item]:
    """The check list in two columns; what the settings say already is left out."""
    x, y, width, height = area
    told = [f"{check.what}: {check.text}" for check in before_the_cut(work) if check.what in CHECKED]
    heading = Text(x + PAD, y + height - 4.2, "Check before the cut", 3.0, bold=True)
    return [box(x, y, width, height, EDGE), heading, *_two_columns(told, (x, y, width, height - 5.0), 2.6, 0)]


def _two_columns(texts: Sequence[str], area: Area, size: float, strong: int) -> list[Item]:
    """Bullets in two columns, the first `strong` of them bold, as large as `size` and no larger than fits."""
    x, y, width, height = area
    column = (width - 3 * PAD) / 2
    while True:
        runs = [
            lettering.wrap(text, size, column - 2 * INDENT, number < strong) or [""]
            for number, text in enumerate(texts)
        ]
        half = _balanced([len(run) for run in runs])
        lines = max(sum(map(len, runs[:half])), sum(map(len, runs[half:])))
        if lines * size * LEADING + 1.2 <= height or size < 1.2:
            break
        size *= 0.97
    left, items = x + PAD, list[Item]()
    top = y + height
    for number, run in enumerate(runs):
        if number == half:
            left, top = left + column + PAD, y + height
        items.append(Text(left, top - size * LEADING, "-", size, bold=number < strong))
        for text in run:
            top -= size * LEADING
            items.append(Text(left + INDENT, top, text, size, bold=number < strong))
    return items


def _balanced(lines: Sequence[int]) -> int:
    """How many bullets go into the first column so that the longer column is shortest."""
    return min(range(1, len(lines) + 1), key=lambda n: (max(sum(lines[:n]), sum(lines[n:])), -n))


def settings(work: Workup, area: Area) -> list[Item]:
    """What to set and where, label and figure."""
    say, advice, side = say_in(work.job.units), work.cut.advice, sides(work.job)
    knife, low = work.cut.knife, pad_lower_edge(work.job, work.way.sled)
    thick = f"{say.fine(knife.thickness)} thick, its top {say.down(knife.top)} up or less"
    rows = [
        Row(slope(work.way.sled.ratio), "Slope"),
        Row(f"{say(work.way.fence)} = heel as measured + {say(work.way.blade.gap)}", f"Fence, {side.fence}", True),
        Row(f"{say(work.way.blade.height)} above the table", "Blade height", True),
        Row(thick if knife.fitted else "NONE", "Riving knife", not knife.fitted),
        *_clamp_rows(work, say),
        Row(f"lower edge {say(low)} above the table, not lower", "Pads"),
        Row(f"{say(advice.stop.from_front)} from the table's front edge", "Stop block", True),
        Row(f"heel {say.down(advice.start.from_front)} inside the front edge", "Start"),
        Row(f"{say(work.way.layout.hand_line)} from the heel", "Hand line"),
        *_support_rows(work, say),
    ]
    times = work.cut.feed.time_range
    if times is not None:
        rows.append(Row(f"{times[0]:.0f} to {times[1]:.0f} s from first touch to taper complete", "Feed"))
    return panel(area, "Set", rows, 2.9)


def _clamp_rows(work: Workup, say: Say) -> list[Row]:
    rows = []
    for clamp in work.way.layout.clamps:
        limit = "" if clamp.limit is None else f"; {clamp.meets} at travel {say.down(clamp.limit)}"
        rows.append(Row(f"at {say(clamp.station)}, closes on {say(clamp.opening)}{limit}", WHERE[clamp.where]))
    return rows


def _support_rows(work: Workup, say: Say) -> list[Row]:
    need = work.cut.support
    level = "level with the table"
    if need.stand is None:
        rows = [Row("none needed", "Infeed")]
    elif need.stand.fits:
        between = f"{say(need.stand.nearest)} to {say(need.stand.furthest)}"
        rows = [Row(f"{between} before the front edge, {level}", "Infeed stand", True)]
    else:
        rows = [Row(f"front edge to {say(need.stand.nearest)} before it or more, {level}", "Infeed table", True)]
    past = f"{say.up(need.past_back)} past the table's back edge"
    return [*rows, Row(past if need.past_back else "on the table", "Heel ends")]


def steps(work: Workup, area: Area) -> list[Item]:
    """The order of work, numbered."""
    rows = [Row(text, str(number)) for number, text in enumerate(order_of_work(work), 1)]
    return panel(area, "Order of work", rows, 2.9)


def endings(work: Workup, area: Area) -> list[Item]:
    """The three ways to end the cut with these clamps."""
    say = say_in(work.job.units)
    x, y, width, height = area
    rows = [
        (
            f"{NAMES[ending.name]}{' (asked)' if ending.asked else ''}",
            "possible" if ending.possible else "NOT with these clamps",
            say(ending.travel),
            say.up(ending.least_station),
            say.up(ending.least_length),
        )
        for ending in work.cut.advice.endings
    ]
    columns = ("Way to end the cut", "", "ends at travel", "heel station, least", "sled, least")
    hung = table((x + PAD, y + height - 0.5), width - 2 * PAD, "", columns, rows, height - 1.0)
    return [box(x, y, width, height, EDGE), *hung]
