"""What two loops have in common and what one leaves uncovered: exact in lines and arcs.

The loops' edges are cut where they meet; each piece is kept or not by where its middle lies.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from scarfwright.models.flat.chains import chain
from scarfwright.models.flat.crossings import SAME, edge_box, pieces, share_at
from scarfwright.models.flat.loop import Edge, Loop, Point

JOIN = 0.1  # where loops graze each other, ends of pieces may be this far apart and still follow on each other [mm]
SLIVER = 1e-3  # clipped pieces smaller than this are nothing [mm2]


def inside(loop: Loop, point: Point) -> bool:
    """Whether a point lies inside a loop; on the loop itself the answer may be either.

    Winding number: the angle under which each chord is seen, and a whole turn for each arc whose segment (between
    arc and chord) holds the point.
    """
    turned = 0.0
    px, py = point
    for edge in loop.edges():
        (ax, ay), (bx, by) = edge.start, edge.end
        ux, uy, vx, vy = ax - px, ay - py, bx - px, by - py
        # one number tells the side for the angle and for the segment alike, also for a point on the chord itself
        side = ux * vy - uy * vx + 0.0
        turned += math.atan2(side, ux * vx + uy * vy)
        on_arcs_side = edge.bulge != 0 and (side < 0) == (edge.bulge > 0)
        if on_arcs_side and math.dist(point, edge.centre) < edge.radius:
            turned += math.copysign(math.tau, edge.bulge)
    return abs(turned) > math.pi


def meet(loop: Loop, region: Loop) -> list[Loop]:
    """What lies inside both loops, counter-clockwise."""
    kept = _kept(loop.counter_clockwise(), region.counter_clockwise())
    return [found for found in chain(kept, JOIN, whole=True) if found.area > SLIVER] if kept else []


def meet_area(loop: Loop, region: Loop) -> float:
    """Area inside both loops [mm2]."""
    if not boxes_meet(loop, region):
        return 0.0
    return sum(found.area for found in meet(loop, region))


def uncovered(loop: Loop, covers: Iterable[Loop]) -> list[Loop]:
    """What of a loop no cover hides; openings in it run clockwise."""
    over = [cover.counter_clockwise() for cover in covers if boxes_meet(loop, cover)]
    rings = [loop.counter_clockwise(), *over]
    groups = _cut(rings)
    kept: list[Edge] = []
    for piece in groups[0]:
        if not any(_within(piece, cover, same_counts=True) for cover in over):
            kept.append(piece)
    for i in range(len(over)):
        for piece in groups[i + 1]:
            hidden = any(_hidden(piece, o, first=j < i) for j, o in enumerate(over) if j != i)
            if not hidden and _strictly_within(piece, rings[0]):
                kept.append(Edge(piece.end, piece.start, -piece.bulge))
    return [found for found in chain(kept, JOIN, whole=True) if abs(found.area) > SLIVER] if kept else []


def _kept(loop: Loop, region: Loop) -> list[Edge]:
    mine, its = _cut([loop, region])
    kept = [p for p in mine if _within(p, region, same_counts=True)]
    return kept + [p for p in its if _strictly_within(p, loop)]


def _cut(loops: Sequence[Loop]) -> list[list[Edge]]:
    """The edges of each loop cut wherever any of the loops meet."""
    owner = [i for i, loop in enumerate(loops) for _ in loop.edges()]
    curves = [edge for loop in loops for edge in loop.edges()]
    groups: list[list[Edge]] = [[] for _ in loops]
    for index, found in enumerate(pieces(curves, SAME)):
        groups[owner[index]] += found
    return groups


def _strictly_within(piece: Edge, loop: Loop) -> bool:
    return _on(piece, loop) is None and inside(loop, piece.middle)


def _within(piece: Edge, loop: Loop, *, same_counts: bool) -> bool:
    """Inside the loop; a piece that runs on the loop itself counts if it runs the same way and `same_counts`."""
    along = _on(piece, loop)
    return inside(loop, piece.middle) if along is None else along and same_counts


def _hidden(piece: Edge, cover: Loop, *, first: bool) -> bool:
    """Whether a cover's piece is no edge of all covers together: inside another one, between two that lie side by
    side, or on an edge both have, where the `first` of them shows it."""
    along = _on(piece, cover)
    return inside(cover, piece.middle) if along is None else not along or first


def _on(piece: Edge, loop: Loop) -> bool | None:
    """Whether the piece runs on an edge of the loop the same way (True) or against it (False); None if on none."""
    x, y = piece.middle
    near = 10 * SAME
    for edge in loop.edges():
        x0, y0, x1, y1 = edge_box(edge)
        if not (x0 - near <= x <= x1 + near and y0 - near <= y <= y1 + near):
            continue
        share = share_at(edge, piece.middle, near)
        if share is None:
            continue
        apart = math.remainder(_heading(piece, 0.5) - _heading(edge, share), math.tau)
        if abs(apart) < 1e-4:
            return True
        if abs(apart) > math.pi - 1e-4:
            return False
    return None


def _heading(edge: Edge, share: float) -> float:
    """Direction of travel along an edge [rad] at a share of its length."""
    chord = math.atan2(edge.end[1] - edge.start[1], edge.end[0] - edge.start[0])
    return chord + 2 * math.atan(edge.bulge) * (2 * share - 1)


def boxes_meet(one: Loop, other: Loop) -> bool:
    """Whether the boxes round two loops meet; if not, neither do the loops."""
    a, b = one.bounds, other.bounds
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]
