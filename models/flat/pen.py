"""The outline of what a round pen draws: everything within a radius of a path of lines and arcs, exact.

The edge of that shape runs on the path's offsets to either side and on circles round its corners. All of these are
cut where they meet; a piece belongs to the outline if its middle is no nearer to the path than the radius.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from scarfwright.models.flat.chains import chain, split, tidied
from scarfwright.models.flat.crossings import SAME
from scarfwright.models.flat.loop import Edge, Loop, Point, circle
from scarfwright.models.flat.offset import moved
from scarfwright.models.flat.room import distance


def pen_outline(path: Sequence[Edge], dots: Iterable[Point], radius: float) -> list[tuple[Loop, tuple[Loop, ...]]]:
    """Outlines of the shape drawn by a round pen, each counter-clockwise with the openings inside it.

    Parameters: path, edges of the pen's middle; dots, single points it touches; radius, of the pen, all [mm].
    """
    alone = list(dots)
    corners = _distinct([*alone, *(p for edge in path for p in (edge.start, edge.end))])
    sides = [moved(way, radius) for edge in path for way in (edge, Edge(edge.end, edge.start, -edge.bulge))]
    curves = [side for side in sides if side is not None]
    curves += [half for corner in corners for half in circle(*corner, radius).edges()]

    def away(point: Point) -> float:
        return min([distance(edge, point) for edge in path] + [math.dist(dot, point) for dot in alone])

    kept = [piece for piece in split(curves) if away(piece.middle) >= radius - SAME]
    loops = [tidied(loop) for loop in chain(kept, whole=True)]
    outer = [loop for loop in loops if loop.area > 0]
    inner = [loop for loop in loops if loop.area < 0]
    return [(loop, tuple(i for i in inner if _holder(i, outer) is loop)) for loop in outer]


def _distinct(points: list[Point]) -> list[Point]:
    found: list[Point] = []
    for point in points:
        if all(math.dist(point, other) > SAME for other in found):
            found.append(point)
    return found


def _holder(inner: Loop, outer: list[Loop]) -> Loop:
    """The smallest outer loop whose box holds the inner one; outer loops do not touch each other."""
    x0, y0, x1, y1 = inner.bounds
    around = []
    for loop in outer:
        a0, b0, a1, b1 = loop.bounds
        if a0 <= x0 and b0 <= y0 and a1 >= x1 and b1 >= y1:
            around.append(loop)
    return min(around, key=lambda loop: loop.area)
