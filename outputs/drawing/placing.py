"""Finding room on a sheet: what is drawn so far, and the first of several places where a label keeps clear of it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence

from scarfwright.models.flat.loop import Point
from scarfwright.outputs.drawing.display import Clip, Item, Path, Text, flat, readable

Taken = tuple[tuple[float, float, float, float], Sequence[Point]]  # a shape, and its upright box before it
CLEAR = 0.35  # least room round a text [page mm]


def apart(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two convex shapes (polygons or segments) have no point in common.

    Separating axes: two convex shapes are apart exactly if some edge's normal, or for segments its direction, has
    their shadows apart.
    """
    for a, b in _sides(one, other):
        dx, dy = b[0] - a[0], b[1] - a[1]
        for nx, ny in ((-dy, dx), (dx, dy)):
            first = [p[0] * nx + p[1] * ny for p in one]
            second = [p[0] * nx + p[1] * ny for p in other]
            if max(first) < min(second) or max(second) < min(first):
                return True
    return False


def _sides(one: Sequence[Point], other: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    for corners in (one, other):
        yield from zip(corners, (*corners[1:], corners[0]), strict=True)


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
) -> list[list[Item]]:
    """Places for a label along the line from p to q, its middle `away` [page mm] to the left of the line."""
    length = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / length, (q[1] - p[1]) / length
    angle = readable(math.atan2(uy, ux))
    down = 0.27 * size  # from the middle of the letters to their base line
    found: list[list[Item]] = []
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
                self.boxes.append(_taken(item.window.points(0.1)))
            elif isinstance(item, Text):
                self.boxes.append(_taken(item.box()))
            else:
                self.strokes += [_taken(stroke) for stroke in strokes(item)]

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
                count += _meeting(corners, self.boxes) + _meeting(corners, self.strokes)
            else:
                for stroke in strokes(item):
                    count += 100 * sum(not self._within(p) for p in stroke)
                    count += _meeting(stroke, self.boxes)
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


def _taken(shape: Sequence[Point]) -> Taken:
    xs, ys = [x for x, _ in shape], [y for _, y in shape]
    return (min(xs), min(ys), max(xs), max(ys)), shape


def _meeting(shape: Sequence[Point], others: Sequence[Taken]) -> int:
    """How many of the others a convex shape meets; those beyond its upright box are passed over quickly."""
    (left, low, right, high), _ = _taken(shape)
    return sum(
        not apart(shape, other)
        for (x0, y0, x1, y1), other in others
        if x0 <= right and x1 >= left and y0 <= high and y1 >= low
    )


def strokes(path: Path) -> list[tuple[Point, Point]]:
    """A path's lines, arcs as chords. A filled shape without a pen counts by its edges."""
    points = path.points()
    return list(itertools.pairwise(points))
