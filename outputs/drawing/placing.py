"""Finding room on a sheet: what is drawn so far, and the first of several places where a label keeps clear of it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from scarfwright.models.flat.loop import Point
from scarfwright.outputs.drawing.display import Clip, Item, Path, Text, flat, readable

Place = Sequence[Item]  # what a label is made of where it might stand
CLEAR = 0.35  # least room round a text [page mm]
THIN_STROKE = 0.15  # half the width of a stroke that is looked at as a mere line [page mm]
SAME = 1e-9  # opposite sides of a box are parallel to within this [page mm]
Axis = tuple[float, float, float, float]  # a direction, and from where to where a shape's shadow on it reaches


@dataclass(frozen=True)
class Taken:
    """A convex shape (polygon or segment), the upright box round it, and the axes that may part it from another one.

    Worked out once a shape: each is held against many.
    """

    points: Sequence[Point]
    box: tuple[float, float, float, float]

    @cached_property
    def axes(self) -> tuple[Axis, ...]:
        found = []
        for (ax, ay), (bx, by) in _sides(self.points):
            dx, dy = bx - ax, by - ay
            for nx, ny in ((-dy, dx), (dx, dy)):
                shadow = [x * nx + y * ny for x, y in self.points]
                found.append((nx, ny, min(shadow), max(shadow)))
        return tuple(found)

    def apart(self, other: Taken) -> bool:
        """Whether the two have no point in common.

        Separating axes: two convex shapes are apart exactly if some edge's normal, or for segments its direction, has
        their shadows apart.
        """
        return _parted(self.axes, other.points) or _parted(other.axes, self.points)


def taken(points: Sequence[Point]) -> Taken:
    """A shape with its box."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Taken(points, (min(xs), min(ys), max(xs), max(ys)))


def apart(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two convex shapes (polygons or segments) have no point in common."""
    return taken(one).apart(taken(other))


def _parted(axes: Sequence[Axis], points: Sequence[Point]) -> bool:
    for nx, ny, low, high in axes:
        shadow = [x * nx + y * ny for x, y in points]
        if min(shadow) > high or max(shadow) < low:
            return True
    return False


def _sides(points: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """The sides, each direction once: one of a segment, two of a parallelogram."""
    if len(points) == 2:
        yield points[0], points[1]
        return
    count = len(points)
    if count == 4:
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
        if abs(ax - bx + cx - dx) < SAME and abs(ay - by + cy - dy) < SAME:
            count = 2
    for i in range(count):
        yield points[i], points[(i + 1) % len(points)]


SHARES = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.55, 0.45, 0.65, 0.35, 0.75, 0.25, 0.85, 0.15, 0.9, 0.1)


def along(
    p: Point,
    q: Point,
    text: str,
    away: float,
    *,
    size: float = 2.7,
    bold: bool = False,
    shares: Sequence[float] = SHARES,
) -> list[Place]:
    """Places for a label along the line from p to q, its middle `away` [page mm] to the left of the line."""
    length = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / length, (q[1] - p[1]) / length
    angle = readable(math.atan2(uy, ux))
    down = 0.27 * size  # from the middle of the letters to their base line
    found: list[Place] = []
    for share in shares:
        x = p[0] + share * (q[0] - p[0]) - uy * away + down * math.sin(angle)
        y = p[1] + share * (q[1] - p[1]) + ux * away - down * math.cos(angle)
        found.append([Text(x, y, text, size, "middle", angle, bold)])
    return found


class Room:
    """The texts and strokes on a sheet, to be kept clear of, inside the rectangle (x, y, width, height)."""

    def __init__(self, area: tuple[float, float, float, float]) -> None:
        x, y, width, height = area
        self.low, self.high = (x, y), (x + width, y + height)
        self.boxes: list[Taken] = []
        self.strokes: list[Taken] = []

    def take(self, items: Iterable[Item]) -> None:
        """Remember items as taken room. Of a clipped group only the window counts."""
        for item in items:
            if isinstance(item, Clip):
                self.boxes.append(taken(item.window.points(0.1)))
            elif isinstance(item, Text):
                self.boxes.append(taken(item.box()))
            else:
                self.strokes += [taken(stroke) for stroke in strokes(item)]

    def hits(self, items: Iterable[Item], enough: float = math.inf) -> int:
        """How many things a group of items would run into; off the area counts heavily. Counts no further than
        `enough`."""
        count = 0
        for item in flat(items):
            if count >= enough:
                break
            if isinstance(item, Text):
                corners = item.box(CLEAR)
                count += 100 * sum(not self._within(p) for p in corners)
                shape = taken(corners)
                count += _meeting(shape, self.boxes) + _meeting(shape, self.strokes)
            else:
                for stroke in strokes(item):
                    count += 100 * sum(not self._within(p) for p in stroke)
                    count += _meeting(taken(_as_wide(stroke, item)), self.boxes)
        return count

    def put(self, choices: Iterable[Sequence[Item]]) -> Sequence[Item]:
        """The first choice that runs into nothing, else the one that runs into least; it is taken."""
        best: Sequence[Item] = ()
        least = math.inf
        for items in choices:
            count = self.hits(items, least)
            if count < least:
                best, least = items, count
            if count == 0:
                break
        self.take(best)
        return best

    def _within(self, p: Point) -> bool:
        return self.low[0] <= p[0] <= self.high[0] and self.low[1] <= p[1] <= self.high[1]


def _as_wide(stroke: tuple[Point, Point], path: Path) -> Sequence[Point]:
    """The corners of a stroke as wide as it is drawn, or its ends where it is thin."""
    half = 0.0 if path.pen is None else path.pen.width / 2
    length = math.dist(*stroke)
    if half < THIN_STROKE or length == 0:
        return stroke
    (x0, y0), (x1, y1) = stroke
    dx, dy = half * (y1 - y0) / length, half * (x1 - x0) / length
    return [(x0 - dx, y0 + dy), (x1 - dx, y1 + dy), (x1 + dx, y1 - dy), (x0 + dx, y0 - dy)]


def _meeting(shape: Taken, others: Sequence[Taken]) -> int:
    """How many of the others a convex shape meets; those beyond its upright box are passed over quickly."""
    left, low, right, high = shape.box
    count = 0
    for other in others:
        x0, y0, x1, y1 = other.box
        if x0 <= right and x1 >= left and y0 <= high and y1 >= low and not shape.apart(other):
            count += 1
    return count


def strokes(path: Path) -> list[tuple[Point, Point]]:
    """A path's lines, arcs as chords. A filled shape without a pen counts by its edges."""
    points = path.points()
    return list(itertools.pairwise(points))
