"""Where lines and arcs meet, and edges cut there: exact, no chords. All lengths mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from scarfwright.models.flat.loop import Edge, Point

Box = tuple[float, float, float, float]
SAME = 1e-6  # points nearer than this are one [mm]; a thousandth of what any machine can move


def edge_box(edge: Edge) -> Box:
    """A box that holds the edge (for an arc it may be larger than need be) [mm]."""
    (ax, ay), (bx, by) = edge.start, edge.end
    if edge.bulge == 0:
        return (min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
    if abs(edge.bulge) <= 1:
        # an arc of at most half a turn stays within its sagitta of the chord
        grow = abs(edge.bulge) * math.dist(edge.start, edge.end) / 2
        return (min(ax, bx) - grow, min(ay, by) - grow, max(ax, bx) + grow, max(ay, by) + grow)
    (cx, cy), radius = edge.centre, edge.radius
    return (cx - radius, cy - radius, cx + radius, cy + radius)


def share_at(edge: Edge, point: Point, near: float) -> float | None:
    """How far along the edge (0 to 1) a point on it lies; None if it is further than `near` [mm] off the edge."""
    (ax, ay), (bx, by) = edge.start, edge.end
    if edge.bulge == 0:
        length = math.dist(edge.start, edge.end)
        along = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length
        across = ((point[0] - ax) * (by - ay) - (point[1] - ay) * (bx - ax)) / length
        share, slack = along / length, near / length
        off = abs(across)
    else:
        (cx, cy), radius, sweep, start = _arc(edge)
        off = abs(math.dist(point, (cx, cy)) - radius)
        if off > near:
            return None
        turn = math.atan2(point[1] - cy, point[0] - cx) - start
        turned = turn % math.tau if edge.bulge > 0 else -turn % math.tau
        slack = near / (radius * sweep)
        share = turned / sweep
        if share > 1 + slack and math.tau - turned < near / radius:
            share = 0.0
    if off > near or not -slack <= share <= 1 + slack:
        return None
    return min(max(share, 0.0), 1.0)


@lru_cache(maxsize=4096)
def _arc(edge: Edge) -> tuple[Point, float, float, float]:
    """Centre, radius, size of the turn and direction of the start, asked for over and over."""
    cx, cy = edge.centre
    start = math.atan2(edge.start[1] - cy, edge.start[0] - cx)
    return (cx, cy), edge.radius, abs(4 * math.atan(edge.bulge)), start


def crossings(one: Edge, other: Edge, near: float) -> list[Point]:
    """Points that two edges have in common [mm]: where they cross or touch, and ends of one that lie on the other.

    Edges that run on the same line or circle have no crossings, only such ends.
    """
    x0, y0, x1, y1 = edge_box(one)
    a0, b0, a1, b1 = edge_box(other)
    if x0 > a1 + near or a0 > x1 + near or y0 > b1 + near or b0 > y1 + near:
        return []
    found = [p for p in (one.start, one.end) if share_at(other, p, near) is not None]
    found += [p for p in (other.start, other.end) if share_at(one, p, near) is not None]
    for point in _common(one, other, near):
        if share_at(one, point, near) is not None and share_at(other, point, near) is not None:
            found.append(point)
    return found


def _common(one: Edge, other: Edge, near: float) -> list[Point]:
    """Common points of the whole lines or circles; those that miss each other by no more than `near` [mm] touch."""
    if one.bulge == 0 and other.bulge == 0:
        return _lines(one, other)
    if one.bulge == 0:
        return _line_circle(one, *_arc(other)[:2], near)
    if other.bulge == 0:
        return _line_circle(other, *_arc(one)[:2], near)
    return _circles(*_arc(one)[:2], *_arc(other)[:2], near)


def _lines(one: Edge, other: Edge) -> list[Point]:
    (ax, ay), (bx, by) = one.start, one.end
    (cx, cy), (dx, dy) = other.start, other.end
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    cross = ux * vy - uy * vx
    if abs(cross) <= 1e-12 * math.hypot(ux, uy) * math.hypot(vx, vy):
        return []
    t = ((cx - ax) * vy - (cy - ay) * vx) / cross
    return [(ax + t * ux, ay + t * uy)]


def _line_circle(line: Edge, centre: Point, radius: float, near: float) -> list[Point]:
    (ax, ay), (bx, by) = line.start, line.end
    (cx, cy), length = centre, math.dist(line.start, line.end)
    ux, uy = (bx - ax) / length, (by - ay) / length
    along = (cx - ax) * ux + (cy - ay) * uy
    square = radius**2 - ((cx - ax) * uy - (cy - ay) * ux) ** 2
    if square < -2 * radius * near:
        return []
    half = math.sqrt(max(square, 0.0))
    return [(ax + s * ux, ay + s * uy) for s in {along - half, along + half}]


def _circles(a: Point, ra: float, b: Point, rb: float, near: float) -> list[Point]:
    apart = math.dist(a, b)
    if apart < near:
        return []
    along = (apart**2 + ra**2 - rb**2) / (2 * apart)
    square = ra**2 - along**2
    if square < -2 * ra * near:
        return []
    half = math.sqrt(max(square, 0.0))
    ux, uy = (b[0] - a[0]) / apart, (b[1] - a[1]) / apart
    return [(a[0] + along * ux - s * uy, a[1] + along * uy + s * ux) for s in {half, -half}]


def part_of(edge: Edge, start: float, end: float) -> Edge:
    """The piece of an edge between two shares of its length."""
    bulge = 0.0 if edge.bulge == 0 else math.tan(math.atan(edge.bulge) * (end - start))
    first = edge.start if start == 0 else edge.point_at(start)
    last = edge.end if end == 1 else edge.point_at(end)
    return Edge(first, last, bulge)


def split_at(edge: Edge, points: Sequence[Point], near: float) -> list[Edge]:
    """An edge cut at the given points on it; pieces shorter than `near` [mm] are joined to their neighbour."""
    length = edge.length
    shares = sorted(s for p in points if (s := share_at(edge, p, near)) is not None)
    kept = [0.0]
    for share in shares:
        if share * length - kept[-1] * length > near and (1 - share) * length > near:
            kept.append(share)
    return [part_of(edge, a, b) for a, b in zip(kept, [*kept[1:], 1.0], strict=True)]


def pieces(curves: Sequence[Edge], near: float) -> list[list[Edge]]:
    """The pieces of each edge, cut wherever the edges meet each other."""
    boxes = [edge_box(curve) for curve in curves]
    at: list[list[Point]] = [[] for _ in curves]
    for i, one in enumerate(curves):
        x0, y0, x1, y1 = boxes[i]
        for j in range(i + 1, len(curves)):
            a0, b0, a1, b1 = boxes[j]
            if x0 > a1 + near or a0 > x1 + near or y0 > b1 + near or b0 > y1 + near:
                continue
            points = crossings(one, curves[j], near)
            at[i] += points
            at[j] += points
    return [split_at(curve, points, near) for curve, points in zip(curves, at, strict=True)]
