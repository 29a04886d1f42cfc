"""What a narrow drawing is: a sheet 84 mm wide, which a screen 360 px wide shows at 4 px a mm.

So a letter of SIZE reads at 14 px there and at 12 px on a screen of 320. Long things stand upright, as the maker sees
them from where he pushes: the page's y is the feed. Names and figures stand beside them, each on a row of its own.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.dimension import ARROW, arrow, spread
from scarfwright.outputs.drawing.display import EDGE, Item, Path, Pen, Sheet, Text, View, line
from scarfwright.outputs.narrow.colours import INK

WIDTH = 84.0
SIZE = 3.5  # of the letters; the least there may be
ROW = 4.7  # from one row of letters to the next
MARGIN = 0.5
COLUMN = 27.0  # of names beside an upright picture
LEAD = Pen(0.18, "#555555")
HATCH = Pen(0.15, "#a00000")


@dataclass(frozen=True)
class Scene:
    """A drawing with its caption. `name`: short, of letters and hyphens, its own among all scenes of a job."""

    name: str
    caption: str
    sheet: Sheet


def scene(name: str, caption: str, height: float, *items: Item | Sequence[Item]) -> Scene:
    """A scene of a height [page mm] from its items."""
    sheet = Sheet(name, WIDTH, height, MARGIN)
    sheet.add(*items)
    return Scene(name, caption, sheet)


@dataclass(frozen=True)
class Label:
    """A name or figure of something at the height `y` [page mm]; its line begins at the thing, at `x`."""

    y: float
    text: str
    x: float
    bold: bool = False
    colour: str = INK


def rows_beside(
    labels: Sequence[Label], column: float, low: float, high: float, *, side: str = "right", room: float | None = None
) -> list[Item]:
    """Labels in one column, in the order of their heights and as near to them as they have room, each with a line.

    column: where the letters begin (side "right") or end (side "left"); they are broken into lines no wider than
    `room` [page mm], by default what the page has there. Between `low` and `high`.
    """
    wide = (WIDTH - MARGIN - column if side == "right" else column - MARGIN) if room is None else room
    ordered = sorted(labels, key=lambda one: one.y)
    broken = [lettering.wrap(one.text, SIZE, wide, one.bold) or [""] for one in ordered]
    heights = [ROW * len(lines) for lines in broken]
    if not ordered:
        return []
    places = spread([one.y for one in ordered], heights, low, high)
    sign = 1.0 if side == "right" else -1.0
    items: list[Item] = []
    for one, lines, place, tall in zip(ordered, broken, places, heights, strict=True):
        knee = column - sign * 1.2
        items.append(line([(one.x, one.y), (knee - sign * 3.0, place), (knee, place)], LEAD))
        top = place + tall / 2
        for number, text in enumerate(lines):
            at = (column, top - ROW * number - ROW / 2 - 0.27 * SIZE)
            items.append(Text(*at, text, SIZE, "start" if sign > 0 else "end", 0.0, one.bold, one.colour))
    return items


@dataclass(frozen=True)
class Thing:
    """A name or figure of something at a model point."""

    at: Point
    text: str
    bold: bool = False
    colour: str = INK


def things_beside(
    sides: Mapping[float, Sequence[Thing]], view: View, low: float, high: float, *, column: float = COLUMN
) -> tuple[list[Item], float]:
    """Names in a column on either side of an upright picture (key +1: the right one), and where the higher one ends.

    The columns begin at `low` and go up to `high` or as far as they need [page mm].
    """
    items: list[Item] = []
    top = high
    for sign, things in sides.items():
        side, begin = ("right", WIDTH - column) if sign > 0 else ("left", column)
        spots = [(view.point(thing.at), thing) for thing in things]
        labels = [Label(spot[1], thing.text, spot[0], thing.bold, thing.colour) for spot, thing in spots]
        end = max(high, low + tallest(labels, begin, side))
        items += rows_beside(labels, begin, low, end, side=side)
        top = max(top, end)
    return items, top


def tallest(labels: Sequence[Label], column: float, side: str = "right") -> float:
    """How high the column of these labels is [page mm]."""
    wide = WIDTH - MARGIN - column if side == "right" else column - MARGIN
    return sum(ROW * max(len(lettering.wrap(one.text, SIZE, wide, one.bold)), 1) for one in labels)


def centred(at: Point, text: str, *, bold: bool = False, colour: str = INK) -> Text:
    """A text whose middle lies at a point."""
    return Text(at[0], at[1] - 0.27 * SIZE, text, SIZE, "middle", 0.0, bold, colour)


def upright(scale: float, at: Point, origin: Point = (0.0, 0.0), *, mirrored: bool = False) -> View:
    """A view in which the feed runs up the page and the fence lies on the right; on the left if `mirrored`."""
    return View(scale, at, origin, math.pi / 2, mirrored)


def measure(
    p: Point,
    q: Point,
    level: float,
    text: str,
    *,
    above: bool = True,
    bold: bool = False,
    right_end: float = WIDTH - MARGIN,
) -> list[Item]:
    """A level dimension between two points: its line at the height `level`, the figure over or under its middle, kept
    on the page and left of `right_end`."""
    left, right = sorted((p, q))
    sign = 1.0 if above else -1.0
    items: list[Item] = [line([(left[0], level), (right[0], level)])]
    if right[0] - left[0] >= 2.4 * ARROW:
        items += [arrow((left[0], level), (-1.0, 0.0)), arrow((right[0], level), (1.0, 0.0))]
    for end in (left, right):
        if abs(level - end[1]) > 1.0:
            up = math.copysign(1.0, level - end[1])
            items.append(line([(end[0], end[1] + 0.6 * up), (end[0], level + 0.5 * up)]))
    half = lettering.width(text, SIZE, bold) / 2
    middle = min(max((left[0] + right[0]) / 2, MARGIN + half), right_end - half)
    items.append(centred((middle, level + sign * 3.1), text, bold=bold))
    return items


def filled(points: Sequence[Point], fill: str | None, pen: Pen | None = EDGE) -> Path:
    """A closed shape of straight lines."""
    return Path(tuple(Vertex(*p) for p in points), True, pen, fill)


def shortened(text: str, room: float, bold: bool = False) -> str:
    """A text that is cut off, with dots, where it is wider than `room` [page mm]."""
    return lettering.shortened(text, lambda short: lettering.width(short, SIZE, bold) <= room)
