"""Dimensions, leaders and scale bars as display list items; every measure here is in page mm."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, overload

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.outputs.drawing.display import THIN, Anchor, Item, Path, Text, View, box, line, readable

SIZE = 3.0  # of the figures
ARROW = 2.4
GAP = 0.8  # between the thing and its extension line, and between a line and its text
BEYOND = 1.2  # extension line past the dimension line
FREE = "#ffffff"
Along = Literal["aligned", "horizontal", "vertical"]


def _plus(p: Point, u: Point, by: float) -> Point:
    return (p[0] + u[0] * by, p[1] + u[1] * by)


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def arrow(tip: Point, u: Point, size: float = ARROW) -> Path:
    """A filled arrow head that points along the unit vector u."""
    back, n = _plus(tip, u, -size), (-u[1], u[0])
    corners = (tip, _plus(back, n, size / 6), _plus(back, n, -size / 6))
    return Path(tuple(Vertex(*c) for c in corners), True, None, "#000000")


def linear(
    p: Point,
    q: Point,
    through: Point,
    text: str,
    along: Along = "aligned",
    *,
    outside: Literal["p", "q"] = "q",
    beside: Literal["left", "right"] | None = None,
    size: float = SIZE,
) -> list[Item]:
    """A dimension from p to q whose line passes through a point.

    along: measured as the crow flies, or across, or up the page
    outside: the end past which the text goes if it does not fit between
    beside: the text stands level, to the left or right of the line's middle
    """
    u = {"aligned": _unit(p, q), "horizontal": (1.0, 0.0), "vertical": (0.0, 1.0)}[along]
    if _dot(u, (q[0] - p[0], q[1] - p[1])) < 0:
        u = (-u[0], -u[1])
    a, b = _foot(p, through, u), _foot(q, through, u)
    span = math.dist(a, b)
    items: list[Item] = [*_extension(p, a), *_extension(q, b)]
    angle = readable(math.atan2(u[1], u[0]))
    up = (-math.sin(angle), math.cos(angle))
    letters = Text(0, 0, text, size)
    inside = letters.width + 1.0 <= span
    if span >= 2.5 * ARROW:
        items += [line([a, b]), arrow(a, (-u[0], -u[1])), arrow(b, u)]
    else:
        items += [
            line([_plus(a, u, -2 * ARROW), _plus(b, u, 2 * ARROW)]),
            arrow(a, u),
            arrow(b, (-u[0], -u[1])),
        ]
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    if beside is not None:
        sign = 1.0 if beside == "right" else -1.0
        rise = max(span / 2, 0.5 * size + 0.8)  # of a short dimension the text stays off what p stands on
        at = (a[0] + u[0] * rise + sign * (BEYOND + 0.6), a[1] + u[1] * rise - 0.27 * size)
        return [*items, Text(*at, text, size, "start" if sign > 0 else "end")]
    if inside:
        at = _plus(middle, up, GAP + 0.22 * size)
        return [*items, Text(*at, text, size, "middle", angle)]
    end, way = (b, u) if outside == "q" else (a, (-u[0], -u[1]))
    start = _plus(end, way, BEYOND if span >= 2.5 * ARROW else 2 * ARROW)
    items.append(line([end, _plus(start, way, letters.width + 1.0)]))
    forward = _dot(way, (math.cos(angle), math.sin(angle))) > 0
    anchor: Anchor = "start" if forward else "end"
    at = _plus(_plus(start, way, 0.6), up, GAP + 0.22 * size)
    return [*items, Text(*at, text, size, anchor, angle)]


def running(
    zero: Point,
    u: Point,
    n: Point,
    marks: Sequence[tuple[Point, str]],
    *,
    far: float = math.inf,
    size: float = SIZE,
) -> list[Item]:
    """Stations counted from one zero: one line along u, an arrow and a figure at each mark.

    zero: on the dimension line, where counting starts; u: unit vector along it; n: unit vector away from the part
    marks: the point each extension line starts at, and the figure
    far: the figures stay between zero and this far along u, clear of the lines that stand there
    The figures stand along u where there is room, else square to it and spread so that they keep clear.
    """
    marks = sorted(marks, key=lambda mark: _dot(u, mark[0]))
    feet = [_foot(p, zero, u) for p, _ in marks]
    stations = [_dot(u, (f[0] - zero[0], f[1] - zero[1])) for f in feet]
    items: list[Item] = [line([zero, _plus(zero, u, stations[-1])]), _origin(zero)]
    for (p, _), foot in zip(marks, feet, strict=True):
        items += [*_extension(p, foot), arrow(foot, u)]
    limits = (0.8 if math.isfinite(far) else -math.inf, far - 0.8)
    level = [Text(0, 0, text, size).width + 1.5 for _, text in marks]
    places = spread(stations, level, *limits)
    near = all(abs(place - station) < 0.5 * wide for place, station, wide in zip(places, stations, level, strict=True))
    if near and places[0] - level[0] / 2 >= limits[0] - 1e-9 and places[-1] + level[-1] / 2 <= limits[1] + 1e-9:
        angle = readable(math.atan2(u[1], u[0]))
        up = (-math.sin(angle), math.cos(angle))
        base = GAP + 0.22 * size if _dot(up, n) > 0 else -GAP - 0.76 * size
        for place, (_, text) in zip(places, marks, strict=True):
            at = _plus(_plus(_plus(zero, u, place), n, BEYOND), up, base)
            items.append(Text(*at, text, size, "middle", angle))
        return items
    angle = readable(math.atan2(n[1], n[0]))
    anchor: Anchor = "start" if _dot(n, (math.cos(angle), math.sin(angle))) > 0 else "end"
    up = (-math.sin(angle), math.cos(angle))
    places = spread(stations, [1.25 * size] * len(marks), *limits)
    for place, foot, (_, text) in zip(places, feet, marks, strict=True):
        knee = _plus(_plus(zero, u, place), n, BEYOND + 3.0)
        items.append(line([_plus(foot, n, BEYOND), knee]))
        items.append(Text(*_plus(_plus(knee, n, GAP), up, -0.27 * size), text, size, anchor, angle))
    return items


def spread(
    places: Sequence[float], widths: Sequence[float], low: float = -math.inf, high: float = math.inf
) -> list[float]:
    """Rising places of things so many wide, moved as little as needs be so that none touches the next.

    Neighbours that are too close form a block about their mean, blocks that meet join, and all stay between `low`
    and `high`, at the cost of overlaps if there are too many of them.
    """
    offsets = [0.0]
    for one, other in itertools.pairwise(widths):
        offsets.append(offsets[-1] + (one + other) / 2)
    blocks: list[tuple[float, int]] = []  # sum of wished starts, count
    for place, offset in zip(places, offsets, strict=True):
        total, count = place - offset, 1
        while blocks and blocks[-1][0] / blocks[-1][1] > total / count:
            before = blocks.pop()
            total, count = total + before[0], count + before[1]
        blocks.append((total, count))
    least, most = low + widths[0] / 2, high - widths[-1] / 2 - offsets[-1]
    starts = [max(min(total / count, most), least) for total, count in blocks for _ in range(count)]
    return [start + offset for start, offset in zip(starts, offsets, strict=True)]


def leader(tip: Point, knee: Point, text: str, *, size: float = SIZE, bold: bool = False) -> list[Item]:
    """An arrow at the thing, a line to the knee, and the text beyond it."""
    u = _unit(knee, tip)
    right = knee[0] >= tip[0]
    at = (knee[0] + (1.0 if right else -1.0), knee[1] - 0.27 * size)
    return [line([tip, knee]), arrow(tip, u, 0.8 * ARROW), Text(*at, text, size, "start" if right else "end", 0, bold)]


@dataclass(frozen=True)
class Led(Sequence[Item]):
    """A leader that is drawn only when it is looked at: of many places tried one is taken."""

    tip: Point
    knee: Point
    text: str
    size: float
    bold: bool

    @cached_property
    def items(self) -> list[Item]:
        return leader(self.tip, self.knee, self.text, size=self.size, bold=self.bold)

    def __len__(self) -> int:
        return len(self.items)

    @overload
    def __getitem__(self, index: int) -> Item: ...

    @overload
    def __getitem__(self, index: slice) -> list[Item]: ...

    def __getitem__(self, index: int | slice) -> Item | list[Item]:
        return self.items[index]


def pointed(tips: Sequence[Point], text: str, *, size: float = SIZE, bold: bool = False) -> Iterator[Sequence[Item]]:
    """Places for a label that stands away from its thing on a leader, nearest first."""
    steep = (60, 120, 30, 150, 85, 95, 45, 135, 75, 105, 15, 165)
    turns = [math.radians(sign * angle) for angle in steep for sign in (-1, 1)]
    for reach in (6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 40.0):
        for tip in tips:
            for turn in turns:
                knee = (tip[0] + reach * math.cos(turn), tip[1] + reach * math.sin(turn))
                yield Led(tip, knee, text, size, bold)


def scale_bar(at: Point, view: View, units: Unit, most: float = 60.0, size: float = SIZE) -> list[Item]:
    """A bar of round lengths at the view's scale, at most `most` page mm long, from its lower left corner."""
    steps = (
        (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)
        if units == "mm"
        else tuple(25.4 * s for s in (0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0, 48.0))
    )
    fitting = [s for s in steps if view.length(4 * s) <= most]
    step = fitting[-1] if fitting else steps[0]
    unit = view.length(step)
    items: list[Item] = []
    for i in range(4):
        items.append(box(at[0] + i * unit, at[1], unit, 1.2, THIN, "#000000" if i % 2 == 0 else FREE))
    for i in (0, 2, 4):
        figure = drawn_in(units)(i * step) if i else "0"
        items.append(Text(at[0] + i * unit, at[1] + 2.2, figure, size, "middle"))
    return items


def _origin(at: Point) -> Path:
    r = 0.8
    return Path((Vertex(at[0] + r, at[1], 1.0), Vertex(at[0] - r, at[1], 1.0)), True, THIN, FREE)


def _extension(p: Point, foot: Point) -> list[Item]:
    reach = math.dist(p, foot)
    if reach < GAP:
        return []
    u = _unit(p, foot)
    return [line([_plus(p, u, GAP), _plus(foot, u, BEYOND)])]


def _foot(p: Point, on: Point, u: Point) -> Point:
    """The foot of p on the line through `on` along u."""
    return _plus(on, u, _dot(u, (p[0] - on[0], p[1] - on[1])))


def _unit(p: Point, q: Point) -> Point:
    length = math.dist(p, q)
    return ((q[0] - p[0]) / length, (q[1] - p[1]) / length) if length else (1.0, 0.0)
