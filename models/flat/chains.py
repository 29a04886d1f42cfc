"""Loose edges put together into closed loops: what is kept of shapes cut apart becomes shapes again.

Offsets, pens, overlaps and reliefs all cut edges where they meet, keep some of the pieces and chain those.
All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from scarfwright.models.flat.crossings import SAME, crossings, pieces, split_at
from scarfwright.models.flat.loop import Edge, Loop, Point, Vertex

NEXT = 4 * SAME  # an edge that starts this near where another ends follows on it


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


def split(edges: Sequence[Edge], tools: Sequence[Edge] | None = None) -> list[Edge]:
    """Edges cut wherever they meet one another, or wherever they meet `tools` if given."""
    if tools is None:
        return [piece for cut in pieces(edges, SAME) for piece in cut]
    return [piece for edge in edges for piece in cut_at(edge, [p for t in tools for p in crossings(edge, t, SAME)])]


def cut_at(edge: Edge, points: Sequence[Point]) -> list[Edge]:
    """An edge cut at points on it; pieces shorter than SAME are not made."""
    return split_at(edge, points, SAME)


def chain(edges: Sequence[Edge], reach: float = NEXT, *, whole: bool = False) -> list[Loop]:
    """Loops from loose edges, each joined to the nearest one that starts where it ends, at most `reach` [mm] away.

    Where several edges leave a point the sharpest turn to the left is taken, so that loops with their inside on the
    left stay apart where they touch. Doubled edges are taken once. Runs that do not close are left out; with `whole`
    they raise ValueError.
    """
    left = _distinct(edges)
    loops = []
    while left:
        run = [left.pop(0)]
        while (index := _following(run, left, reach)) is not None:
            run.append(left.pop(index))
        open_by = math.dist(run[-1].end, run[0].start)
        if open_by > reach:
            if whole:
                raise ValueError(f"the edges do not close at {run[-1].end}")
        elif len(run) > 1:
            loops.append(Loop(tuple(Vertex(*e.start, e.bulge) for e in run)))
    return loops


def _following(run: list[Edge], left: list[Edge], reach: float) -> int | None:
    """Index of the edge that goes on where a run ends; None if the run closes there or nothing is near."""
    x, y = run[-1].end
    near = [i for i, e in enumerate(left) if abs(e.start[0] - x) <= reach and abs(e.start[1] - y) <= reach]
    home = math.dist(run[0].start, (x, y))
    closest = min([home, *(math.dist(left[i].start, (x, y)) for i in near)])
    there = [i for i in near if math.dist(left[i].start, (x, y)) <= closest + NEXT]
    if closest > reach or not there:
        return None
    best = max(there, key=lambda i: turn(run[-1], left[i])) if len(there) > 1 else there[0]
    if home <= closest + NEXT and turn(run[-1], run[0]) >= turn(run[-1], left[best]):
        return None
    return best


def _distinct(edges: Sequence[Edge]) -> list[Edge]:
    found: list[Edge] = []
    for edge in edges:
        x, middle = edge.start[0], edge.middle
        if edge.length > SAME and not any(
            abs(e.start[0] - x) < NEXT
            and math.dist(edge.start, e.start) < NEXT
            and math.dist(edge.end, e.end) < NEXT
            and math.dist(middle, e.middle) < NEXT
            for e in found
        ):
            found.append(edge)
    return found


def tidied(loop: Loop) -> Loop:
    """The same ring without edges of no length and without vertices along a straight or round run.

    Raises ValueError where nothing is left of it.
    """
    edges = [e for e in loop.edges() if math.dist(e.start, e.end) > SAME]
    if len(edges) < 2:
        raise ValueError("nothing is left of the loop")
    # a dropped edge leaves its neighbours a hair apart: each starts where the one before it ends
    run = [Edge(e.start, edges[(i + 1) % len(edges)].start, e.bulge) for i, e in enumerate(edges)]
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
    if abs(before.radius - after.radius) > NEXT or math.dist(before.centre, after.centre) > NEXT:
        return False
    return abs(math.atan(before.bulge) + math.atan(after.bulge)) <= math.pi / 4 + 1e-12


def _merge(before: Edge, after: Edge) -> Edge:
    if before.bulge == 0:
        return Edge(before.start, after.end, 0.0)
    return Edge(before.start, after.end, math.tan(math.atan(before.bulge) + math.atan(after.bulge)))
