"""Where lines and arcs cross: splitting edges there, and joining what is kept into loops again.

Shared by everything that needs an exact answer in lines and arcs: offsets, reliefs. Plane geometry, no source.
All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from scarfwright.models.outline import Edge, Loop, Point, Vertex

SAME = 1e-6  # points nearer than this are one; a thousandth of what any machine can move


def tangents(edge: Edge) -> tuple[Point, Point]:
    """Unit directions of travel at the start and at the end of an edge."""
    (x1, y1), (x2, y2) = edge.start, edge.end
    chord = math.dist(edge.start, edge.end)
    ux, uy = (x2 - x1) / chord, (y2 - y1) / chord
    half = 2 * math.atan(edge.bulge)
    c, s = math.cos(half), math.sin(half)
    return (c * ux + s * uy, c * uy - s * ux), (c * ux - s * uy, c * uy + s * ux)


def turn(before: Edge, after: Edge) -> float:
    """Turn from one edge into the next [rad], left positive; a cusp turns half round to the side it opens to."""
    (_, (ax, ay)), ((bx, by), _) = tangents(before), tangents(after)
    angle = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    if math.pi - abs(angle) > 1e-6:
        return angle
    bend = math.copysign(1 / before.radius, before.bulge) + math.copysign(1 / after.radius, after.bulge)
    return math.pi if bend < 0 else -math.pi


def share_at(edge: Edge, point: Point) -> float | None:
    """How far along an edge (0 to 1) a point lies; None if it is not on it."""
    length = edge.length
    if edge.bulge == 0:
        (x1, y1), (x2, y2) = edge.start, edge.end
        share = ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / length**2
    else:
        cx, cy = edge.centre
        if abs(math.dist(point, (cx, cy)) - edge.radius) > SAME:
            return None
        sweep = 4 * math.atan(edge.bulge)
        swept = math.atan2(point[1] - cy, point[0] - cx) - math.atan2(edge.start[1] - cy, edge.start[0] - cx)
        swept = swept % math.tau if sweep > 0 else -(-swept % math.tau)
        if abs(swept) > abs(sweep) and (math.tau - abs(swept)) * edge.radius < 2 * SAME:
            swept = 0.0  # a hair before the start
        share = swept / sweep
    if not -SAME <= share * length <= length + SAME:
        return None
    share = min(max(share, 0.0), 1.0)
    return share if math.dist(edge.point_at(share), point) <= 4 * SAME else None


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
    return abs(off - edge.radius) if share_at(edge, foot) is not None else ends


def room_to(loop: Loop, point: Point) -> float:
    """Least distance from a point to a loop [mm]."""
    return min(distance(edge, point) for edge in loop.edges())


def box(edge: Edge) -> tuple[float, float, float, float]:
    """A box that holds the edge: tight for lines, that of the whole circle for arcs."""
    if edge.bulge == 0:
        (x1, y1), (x2, y2) = edge.start, edge.end
        return (min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
    (cx, cy), r = edge.centre, edge.radius
    return (cx - r, cy - r, cx + r, cy + r)


def crossings(one: Edge, other: Edge) -> list[Point]:
    """Points the two edges have in common; of a stretch in common, its ends."""
    if one.bulge == 0 and other.bulge == 0:
        found = _lines(one, other)
    elif one.bulge == 0:
        found = _line_circle(one, other)
    elif other.bulge == 0:
        found = _line_circle(other, one)
    else:
        found = _circles(one, other)
    met = [p for p in found if share_at(one, p) is not None and share_at(other, p) is not None]
    met += [p for p in (one.start, one.end) if share_at(other, p) is not None]
    return met + [p for p in (other.start, other.end) if share_at(one, p) is not None]


def _lines(one: Edge, other: Edge) -> list[Point]:
    (x1, y1), (x2, y2) = one.start, one.end
    (x3, y3), (x4, y4) = other.start, other.end
    cross = (x2 - x1) * (y4 - y3) - (y2 - y1) * (x4 - x3)
    if abs(cross) <= 1e-12 * one.length * other.length:
        return []
    share = ((x3 - x1) * (y4 - y3) - (y3 - y1) * (x4 - x3)) / cross
    return [(x1 + share * (x2 - x1), y1 + share * (y2 - y1))]


def _line_circle(line: Edge, arc: Edge) -> list[Point]:
    (x1, y1), (x2, y2) = line.start, line.end
    cx, cy = arc.centre
    length = math.dist(line.start, line.end)
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    along = (cx - x1) * ux + (cy - y1) * uy
    square = arc.radius**2 - ((cx - x1) * uy - (cy - y1) * ux) ** 2
    if square < -2 * arc.radius * SAME:
        return []
    half = math.sqrt(max(square, 0.0))
    return [(x1 + s * ux, y1 + s * uy) for s in {along - half, along + half}]


def _circles(one: Edge, other: Edge) -> list[Point]:
    (ax, ay), (bx, by) = one.centre, other.centre
    apart = math.hypot(bx - ax, by - ay)
    if apart < SAME:
        return []
    along = (apart**2 + one.radius**2 - other.radius**2) / (2 * apart)
    square = one.radius**2 - along**2
    if square < -2 * one.radius * SAME:
        return []
    half = math.sqrt(max(square, 0.0))
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    return [(ax + along * ux - s * uy, ay + along * uy + s * ux) for s in {half, -half}]


def split(edges: list[Edge], tools: list[Edge] | None = None) -> list[Edge]:
    """Edges cut wherever they meet one another, or wherever they meet `tools` if given."""
    others = edges if tools is None else tools
    boxes = [box(edge) for edge in others]
    out = []
    for i, edge in enumerate(edges):
        low_x, low_y, high_x, high_y = box(edge)
        points = []
        for j, other in enumerate(others):
            a, b, c, d = boxes[j]
            apart = a > high_x + SAME or c < low_x - SAME or b > high_y + SAME or d < low_y - SAME
            if not apart and not (tools is None and i == j):
                points += crossings(edge, other)
        out += cut_at(edge, points)
    return out


def cut_at(edge: Edge, points: Iterable[Point]) -> list[Edge]:
    """An edge cut at points on it; pieces shorter than SAME are not made."""
    length = edge.length
    shares = sorted(s for s in (share_at(edge, p) for p in points) if s is not None)
    stops = [0.0]
    for share in shares:
        if (share - stops[-1]) * length > SAME and (1 - share) * length > SAME:
            stops.append(share)
    stops.append(1.0)
    angle = 4 * math.atan(edge.bulge)
    corners = [edge.start, *(edge.point_at(s) for s in stops[1:-1]), edge.end]
    return [
        Edge(a, b, math.tan(angle * (s2 - s1) / 4))
        for a, b, s1, s2 in zip(corners, corners[1:], stops, stops[1:], strict=False)
    ]


def chain(edges: list[Edge]) -> list[Loop]:
    """Loops from loose edges, each joined to the one that starts where it ends.

    Runs that do not close are left out, doubled edges are taken once; straight or round runs become one edge again.
    """
    left = _distinct(edges)
    loops = []
    while left:
        run = [left.pop(0)]
        while math.dist(run[-1].end, run[0].start) > 4 * SAME:
            near = [i for i, e in enumerate(left) if math.dist(e.start, run[-1].end) <= 4 * SAME]
            if not near:
                run = []
                break
            # where loops touch, the sharpest right turn parts them
            run.append(left.pop(min(near, key=lambda i: turn(run[-1], left[i]))))
        if len(run) > 1:
            loops.append(_joined(run))
    return loops


def _distinct(edges: list[Edge]) -> list[Edge]:
    found: list[Edge] = []
    for edge in edges:
        if edge.length > SAME and not any(
            math.dist(edge.start, e.start) < 4 * SAME
            and math.dist(edge.end, e.end) < 4 * SAME
            and math.dist(edge.middle, e.middle) < 4 * SAME
            for e in found
        ):
            found.append(edge)
    return found


def _joined(run: list[Edge]) -> Loop:
    merged: list[Edge] = []
    for edge in run:
        if merged and _one(merged[-1], edge):
            merged[-1] = _merge(merged[-1], edge)
        else:
            merged.append(edge)
    if len(merged) > 2 and _one(merged[-1], merged[0]):
        merged[0] = _merge(merged.pop(), merged[0])
    return Loop(tuple(Vertex(*e.start, e.bulge) for e in merged))


def _one(before: Edge, after: Edge) -> bool:
    """Both on one line, or on one circle with no more than half of it between them."""
    if (before.bulge == 0) != (after.bulge == 0) or abs(turn(before, after)) > 1e-7:
        return False
    if before.bulge == 0:
        return True
    if abs(before.radius - after.radius) > 4 * SAME or math.dist(before.centre, after.centre) > 4 * SAME:
        return False
    return abs(math.atan(before.bulge) + math.atan(after.bulge)) <= math.pi / 4 + 1e-12


def _merge(before: Edge, after: Edge) -> Edge:
    if before.bulge == 0:
        return Edge(before.start, after.end, 0.0)
    return Edge(before.start, after.end, math.tan(math.atan(before.bulge) + math.atan(after.bulge)))


def tidied(loop: Loop) -> Loop:
    """The same ring without edges of no length and without vertices along a straight or round run.

    Raises ValueError where nothing is left of it.
    """
    edges = [e for e in loop.edges() if math.dist(e.start, e.end) > SAME]
    if len(edges) < 2:
        raise ValueError("nothing is left of the loop")
    # a dropped edge leaves its neighbours a hair apart: each starts where the one before it ends
    return _joined([Edge(e.start, edges[(i + 1) % len(edges)].start, e.bulge) for i, e in enumerate(edges)])


def holds(loop: Loop, point: Point) -> bool:
    """Whether a point lies inside a loop (even-odd, arcs within 0.001 mm)."""
    x, y = point
    ring = loop.points(0.001)
    inside = False
    for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside
