"""Exact offsets of loops of lines and arcs: where the middle of a round cutter or of a kerf has to run.

Every point of an offset lies exactly the distance from the loop. It can only lie on one of the edges moved sideways
or on a circle round a corner, so those are drawn, cut wherever they cross, and what comes nearer to the loop than
the distance is thrown away; what is left is joined again. Plane geometry, no source. All lengths mm.
"""

from __future__ import annotations

import math

from scarfwright.models.flat.chains import chain, split, tangents, tidied, turn
from scarfwright.models.flat.crossings import SAME
from scarfwright.models.flat.loop import Edge, Loop
from scarfwright.models.flat.room import room_to

LEAST_AREA = 1e-3  # [mm2]: a path there and back along one line is no loop


def offset(loop: Loop, by: float) -> list[Loop]:
    """The loops that run `by` [mm] outside a loop, or inside it where `by` is negative; largest first.

    They run counter-clockwise round what the loop encloses, clockwise round the islands a wide offset leaves. Empty
    where nothing is that far inside.
    """
    ring = loop.counter_clockwise()
    if abs(by) < SAME:
        return [ring]
    kept = [e for e in split(_candidates(ring, by)) if room_to(ring, e.middle) >= abs(by) - SAME]
    found = [tidied(r) for r in chain(kept) if abs(r.area) > LEAST_AREA]
    return sorted(found, key=lambda r: -abs(r.area))


def _candidates(ring: Loop, by: float) -> list[Edge]:
    edges = list(ring.edges())
    out = []
    for edge, after in zip(edges, edges[1:] + edges[:1], strict=True):
        beside = moved(edge, by)
        if beside is not None:
            out.append(beside)
        corner = _corner(edge, after, by)
        if corner is not None:
            out.append(corner)
    return out


def moved(edge: Edge, by: float) -> Edge | None:
    """The edge moved `by` [mm] to its right; None where an arc shrinks to nothing."""
    if edge.bulge != 0 and edge.radius + math.copysign(by, by * edge.bulge) <= SAME:
        return None
    (ax, ay), (bx, by_) = tangents(edge)
    (x1, y1), (x2, y2) = edge.start, edge.end
    return Edge((x1 + by * ay, y1 - by * ax), (x2 + by * by_, y2 - by * bx), edge.bulge)


def _corner(before: Edge, after: Edge, by: float) -> Edge | None:
    """The arc round a corner that points to the side of the offset."""
    angle = turn(before, after)
    if abs(angle * by) < SAME or angle * by < 0:
        return None
    (_, (ax, ay)), ((bx, by_), _) = tangents(before), tangents(after)
    x, y = before.end
    return Edge((x + by * ay, y - by * ax), (x + by * by_, y - by * bx), math.tan(angle / 4))
