"""Room between shapes: least distances of points, segments, slots and loops. Plane geometry, no source. All mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from scarfwright.models.flat.crossings import SAME, share_at
from scarfwright.models.flat.loop import Edge, Loop, Point

Segment = tuple[Point, Point]


class Capsule(NamedTuple):
    """A slot or hole as the distance shape it is: all points within `radius` of a segment [mm]."""

    start: Point
    end: Point
    radius: float


def segment_distance(a: Point, b: Point, c: Point, d: Point) -> float:
    """Least distance [mm] between segments ab and cd; 0 where they cross."""
    if a == b:
        return _to_segment(a, c, d)
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = a, b, c, d
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    if (ux * (cy - ay) - uy * (cx - ax)) * (ux * (dy - ay) - uy * (dx - ax)) < 0 and (
        (vx * (ay - cy) - vy * (ax - cx)) * (vx * (by - cy) - vy * (bx - cx)) < 0
    ):
        return 0.0
    return min(_to_segment(a, c, d), _to_segment(b, c, d), _to_segment(c, a, b), _to_segment(d, a, b))


def _to_segment(p: Point, a: Point, b: Point) -> float:
    (px, py), (ax, ay) = p, a
    dx, dy = b[0] - ax, b[1] - ay
    square = dx * dx + dy * dy
    if square == 0:
        return math.dist(p, a)
    share = ((px - ax) * dx + (py - ay) * dy) / square
    if share <= 0:
        return math.hypot(px - ax, py - ay)
    if share > 1:
        share = 1.0
    return math.hypot(px - ax - share * dx, py - ay - share * dy)


def between(one: Capsule, other: Capsule) -> float:
    """Wood left between two capsules [mm], negative where they overlap."""
    return segment_distance(one.start, one.end, other.start, other.end) - one.radius - other.radius


def inside_by(shape: Capsule, corners: list[Point]) -> float:
    """How far a capsule stays inside a polygon [mm]; negative where it breaks out."""
    edges = list(zip(corners, corners[1:] + corners[:1], strict=True))
    start, end, radius = shape
    least = min([segment_distance(start, end, p, q) for p, q in edges])
    within = in_ring(start, edges) and (start == end or in_ring(end, edges))
    return least - radius if within else -least - radius


def in_ring(point: Point, ring: Sequence[Segment]) -> bool:
    """Whether a point lies inside a ring of segments: even-odd rule."""
    x, y = point
    found = False
    for (x1, y1), (x2, y2) in ring:
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            found = not found
    return found


def distance(edge: Edge, point: Point) -> float:
    """Least distance from a point to an edge [mm]."""
    ends = min(math.dist(point, edge.start), math.dist(point, edge.end))
    if edge.bulge == 0:
        (x1, y1), (x2, y2) = edge.start, edge.end
        square = (x2 - x1) ** 2 + (y2 - y1) ** 2
        share = ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / square
        if not 0 < share < 1:
            return ends
        return abs((x2 - x1) * (point[1] - y1) - (y2 - y1) * (point[0] - x1)) / math.sqrt(square)
    centre = edge.centre
    off = math.dist(point, centre)
    if off < 1e-12:
        return edge.radius
    scale = edge.radius / off
    foot = (centre[0] + scale * (point[0] - centre[0]), centre[1] + scale * (point[1] - centre[1]))
    return abs(off - edge.radius) if share_at(edge, foot, SAME) is not None else ends


def room_to(loop: Loop, point: Point) -> float:
    """Least distance from a point to a loop [mm]."""
    return min(distance(edge, point) for edge in loop.edges())
