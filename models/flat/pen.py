"""The outline of what a round pen draws: everything within a radius of a path of lines and arcs, exact.

The edge of that shape runs on the path's offsets to either side and on circles round its corners. All of these are
cut where they meet; a piece belongs to the outline if its middle is no nearer to the path than the radius.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import chain

from scarfwright.models.flat.arcs import joined, pieces
from scarfwright.models.flat.loop import Edge, Loop, Point, Vertex

NEAR = 1e-6  # points nearer than this are one [mm]; rounding is some thousand times finer


def pen_outline(path: Sequence[Edge], dots: Iterable[Point], radius: float) -> list[tuple[Loop, tuple[Loop, ...]]]:
    """Outlines of the shape drawn by a round pen, each counter-clockwise with the openings inside it.

    Parameters: path, edges of the pen's middle; dots, single points it touches; radius, of the pen, all [mm].
    """
    corners = _distinct([*dots, *(p for edge in path for p in (edge.start, edge.end))])
    curves = [curve for edge in path for curve in _sides(edge, radius)]
    curves += [half for corner in corners for half in _circle(corner, radius)]
    kept: list[Edge] = []
    for piece in chain.from_iterable(pieces(curves, NEAR)):
        middle = piece.middle
        if _distance(middle, path, corners) > radius - NEAR / 10 and not _twin(piece, kept):
            kept.append(piece)
    loops = [_simpler(loop) for loop in joined(kept, 100 * NEAR)]
    outer = [loop for loop in loops if loop.area > 0]
    inner = [loop for loop in loops if loop.area < 0]
    return [(loop, tuple(i for i in inner if _holder(i, outer) is loop)) for loop in outer]


def _sides(edge: Edge, radius: float) -> list[Edge]:
    """The offsets of an edge, each with the pen's track on its left."""
    if edge.bulge == 0:
        length = math.dist(edge.start, edge.end)
        nx = -(edge.end[1] - edge.start[1]) / length * radius
        ny = (edge.end[0] - edge.start[0]) / length * radius
        (ax, ay), (bx, by) = edge.start, edge.end
        return [Edge((ax - nx, ay - ny), (bx - nx, by - ny), 0.0), Edge((bx + nx, by + ny), (ax + nx, ay + ny), 0.0)]
    (cx, cy), turn = edge.centre, edge.radius

    def at(point: Point, distance: float) -> Point:
        return (cx + (point[0] - cx) * distance / turn, cy + (point[1] - cy) * distance / turn)

    left = edge.bulge > 0
    outer, inner = turn + radius, turn - radius
    ahead = Edge(at(edge.start, outer), at(edge.end, outer), edge.bulge)
    found = [ahead if left else Edge(ahead.end, ahead.start, -edge.bulge)]
    if inner > NEAR:
        within = Edge(at(edge.start, inner), at(edge.end, inner), edge.bulge)
        found.append(Edge(within.end, within.start, -edge.bulge) if left else within)
    return found


def _circle(centre: Point, radius: float) -> list[Edge]:
    x, y = centre
    return [Edge((x + radius, y), (x - radius, y), 1.0), Edge((x - radius, y), (x + radius, y), 1.0)]


def _distinct(points: list[Point]) -> list[Point]:
    found: list[Point] = []
    for point in points:
        if all(math.dist(point, other) > NEAR for other in found):
            found.append(point)
    return found


def _distance(point: Point, path: Sequence[Edge], corners: list[Point]) -> float:
    """From a point to the path [mm]."""
    nearest = min(math.dist(point, corner) for corner in corners)
    for edge in path:
        nearest = min(nearest, _beside(point, edge))
    return nearest


def _beside(point: Point, edge: Edge) -> float:
    """Distance to the inside of an edge where the foot falls on it, else infinite (its ends are looked at apart)."""
    (ax, ay), (bx, by) = edge.start, edge.end
    if edge.bulge == 0:
        length = math.dist(edge.start, edge.end)
        along = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length
        across = ((point[0] - ax) * (by - ay) - (point[1] - ay) * (bx - ax)) / length
        return abs(across) if 0 <= along <= length else math.inf
    cx, cy = edge.centre
    sweep = 4 * math.atan(edge.bulge)
    start = math.atan2(ay - cy, ax - cx)
    turn = math.atan2(point[1] - cy, point[0] - cx) - start
    turned = turn % math.tau if sweep > 0 else -turn % math.tau
    return abs(math.dist(point, (cx, cy)) - edge.radius) if turned <= abs(sweep) else math.inf


def _twin(piece: Edge, kept: list[Edge]) -> bool:
    """Whether the same piece is there already, from another stroke that ends on the same curve."""
    near = 10 * NEAR
    return any(
        math.dist(piece.start, other.start) < near
        and math.dist(piece.end, other.end) < near
        and math.dist(piece.middle, other.middle) < near
        for other in kept
    )


def _simpler(loop: Loop) -> Loop:
    """Neighbouring edges on one line or one circle made into one."""
    edges = list(loop.edges())
    changed = True
    while changed and len(edges) > 2:
        changed = False
        for i in range(len(edges)):
            one, two = edges[i - 1], edges[i]
            merged = _merged(one, two)
            if merged is not None:
                edges[i] = merged
                del edges[i - 1]
                changed = True
                break
    return Loop(tuple(Vertex(*edge.start, edge.bulge) for edge in edges))


def _merged(one: Edge, two: Edge) -> Edge | None:
    if one.bulge == 0 and two.bulge == 0:
        (ax, ay), (bx, by), (cx, cy) = one.start, one.end, two.end
        across = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        ahead = (bx - ax) * (cx - bx) + (by - ay) * (cy - by)
        straight = abs(across) < NEAR * math.dist(one.start, two.end) and ahead > 0
        return Edge(one.start, two.end, 0.0) if straight else None
    if one.bulge * two.bulge <= 0 or math.dist(one.centre, two.centre) > 10 * NEAR:
        return None
    angle = math.atan(one.bulge) + math.atan(two.bulge)
    if abs(one.radius - two.radius) > 10 * NEAR or abs(angle) > 1.2:  # stay well short of a whole turn
        return None
    return Edge(one.start, two.end, math.tan(angle))


def _holder(inner: Loop, outer: list[Loop]) -> Loop:
    """The smallest outer loop whose box holds the inner one; outer loops do not touch each other."""
    x0, y0, x1, y1 = inner.bounds
    around = []
    for loop in outer:
        a0, b0, a1, b1 = loop.bounds
        if a0 <= x0 and b0 <= y0 and a1 >= x1 and b1 >= y1:
            around.append(loop)
    return min(around, key=lambda loop: loop.area)
