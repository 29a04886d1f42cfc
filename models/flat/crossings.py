"""Loops cut apart and joined again: turns between edges, distances, and chains of what is kept.

Shared by offsets, reliefs and tool paths; where edges cross is told by `arcs`. Plane geometry, no source.
All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from scarfwright.models.flat.arcs import crossings, pieces, share_at, split_at
from scarfwright.models.flat.loop import Edge, Loop, Point, Vertex

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


def split(edges: list[Edge], tools: list[Edge] | None = None) -> list[Edge]:
    """Edges cut wherever they meet one another, or wherever they meet `tools` if given."""
    if tools is None:
        return [piece for cut in pieces(edges, SAME) for piece in cut]
    return [piece for edge in edges for piece in cut_at(edge, [p for t in tools for p in crossings(edge, t, SAME)])]


def cut_at(edge: Edge, points: Sequence[Point]) -> list[Edge]:
    """An edge cut at points on it; pieces shorter than SAME are not made."""
    return split_at(edge, points, SAME)


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
