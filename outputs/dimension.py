"""Dimensions, leaders and scale bars as display list items; every measure here is in page mm."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Literal

from scarfwright.models.outline import Point, Vertex
from scarfwright.models.units import Unit, show
from scarfwright.outputs.drawing import THIN, Anchor, Item, Path, Text, View, box, line, readable

SIZE = 2.9  # of the figures
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
        at = (middle[0] + sign * 1.2, middle[1] - 0.27 * size)
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


def running(zero: Point, u: Point, n: Point, marks: Sequence[tuple[Point, str]], *, size: float = SIZE) -> list[Item]:
    """Stations counted from one zero: one line along u, an arrow and a figure at each mark.

    zero: on the dimension line, where counting starts; u: unit vector along it; n: unit vector away from the part
    marks: the point each extension line starts at, and the figure
    The figures stand along u where there is room, else square to it and spread so that they keep clear.
    """
    feet = [_foot(p, zero, u) for p, _ in marks]
    stations = [_dot(u, (f[0] - zero[0], f[1] - zero[1])) for f in feet]
    items: list[Item] = [line([zero, _plus(zero, u, max(stations))]), _origin(zero)]
    for (p, _), foot in zip(marks, feet, strict=True):
        items += [*_extension(p, foot), arrow(foot, u)]
    order = sorted(range(len(marks)), key=lambda i: stations[i])
    widths = [Text(0, 0, marks[i][1], size).width for i in order]
    along = [stations[i] for i in order]
    gaps = [b - a for a, b in itertools.pairwise(along)]
    if all(g >= (v + w) / 2 + 1.5 for g, v, w in zip(gaps, widths, widths[1:], strict=False)):
        angle = readable(math.atan2(u[1], u[0]))
        up = (-math.sin(angle), math.cos(angle))
        base = 0.22 * size if _dot(up, n) > 0 else 0.76 * size
        for i in order:
            at = _plus(_plus(feet[i], n, BEYOND + GAP), up, base if _dot(up, n) > 0 else -base)
            items.append(Text(*at, marks[i][1], size, "middle", angle))
        return items
    angle = readable(math.atan2(n[1], n[0]))
    anchor: Anchor = "start" if _dot(n, (math.cos(angle), math.sin(angle))) > 0 else "end"
    up = (-math.sin(angle), math.cos(angle))
    for i, place in zip(order, spread(along, 1.25 * size), strict=True):
        knee = _plus(_plus(zero, u, place), n, BEYOND + 3.0)
        items.append(line([_plus(feet[i], n, BEYOND), knee]))
        items.append(Text(*_plus(_plus(knee, n, GAP), up, -0.27 * size), marks[i][1], size, anchor, angle))
    return items


def spread(places: Sequence[float], apart: float) -> list[float]:
    """Rising places moved as little as needs be so that each is `apart` from the next.

    Neighbours that are too close form a block about their mean; blocks that meet join.
    """
    blocks: list[tuple[float, int]] = []  # sum of wished starts, count
    for i, place in enumerate(places):
        total, count = place - i * apart, 1
        while blocks and blocks[-1][0] / blocks[-1][1] > total / count:
            before = blocks.pop()
            total, count = total + before[0], count + before[1]
        blocks.append((total, count))
    starts = [total / count for total, count in blocks for _ in range(count)]
    return [start + i * apart for i, start in enumerate(starts)]


def leader(tip: Point, knee: Point, text: str, *, size: float = SIZE, bold: bool = False) -> list[Item]:
    """An arrow at the thing, a line to the knee, and the text beyond it."""
    u = _unit(knee, tip)
    right = knee[0] >= tip[0]
    at = (knee[0] + (1.0 if right else -1.0), knee[1] - 0.27 * size)
    return [line([tip, knee]), arrow(tip, u, 0.8 * ARROW), Text(*at, text, size, "start" if right else "end", 0, bold)]


def scale_bar(at: Point, view: View, units: Unit, most: float = 60.0, size: float = 2.4) -> list[Item]:
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
        figure = show(i * step, units) if i else "0"
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
