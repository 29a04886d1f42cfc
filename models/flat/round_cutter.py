"""Inside corners under a round cutter: relieved where a mating part fills them, filleted elsewhere.

        filleted: the cutter's own radius            relieved: the cutter goes on into the corner
        |        |                                    |        |
        |        |                                    |        |
         \\______/                                    (________)

A relief is the cutter set so that its edge just passes through the corner (common practice, no source). What the
cutter leaves of a shape is its offset by the cutter's radius, offset back; where more than the corners is lost, a slot
is too narrow for it. All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from itertools import combinations

from scarfwright.models.flat.chains import chain, split, tangents, tidied, turn
from scarfwright.models.flat.crossings import SAME
from scarfwright.models.flat.loop import Edge, Loop, Point, circle
from scarfwright.models.flat.offset import offset
from scarfwright.models.flat.overlap import inside
from scarfwright.models.flat.room import room_to, segment_distance

WIDEST_TURN = math.radians(120)  # a corner that turns more than this is a slot, not a corner to be rounded


def relieved(loop: Loop, corners: Iterable[Point], radius: float, *, void: bool) -> Loop:
    """The loop with the cutter run into those of its inside corners that are listed.

    `void`: the loop encloses a hole, else wood. Corners that point outwards need nothing and are left.
    """
    ring = loop.clockwise() if void else loop.counter_clockwise()  # wood on the left
    for corner in corners:
        centre = _relief_centre(ring, corner, radius)
        if centre is not None:
            ring = _without_disc(ring, centre, radius)
    return ring


def _relief_centre(ring: Loop, corner: Point, radius: float) -> Point | None:
    edges = list(ring.edges())
    for before, after in zip(edges, edges[1:] + edges[:1], strict=True):
        if math.dist(before.end, corner) > 10 * SAME:
            continue
        (_, (ax, ay)), ((bx, by), _) = tangents(before), tangents(after)
        if ax * by - ay * bx >= 0:  # turns left: the wood's own corner, nothing to reach into
            return None
        mx, my = bx - ax, by - ay
        size = math.hypot(mx, my)
        return (corner[0] + radius * mx / size, corner[1] + radius * my / size)
    return None


def _without_disc(ring: Loop, centre: Point, radius: float) -> Loop:
    """The ring's wood less a disc: its edges outside the disc, and the disc's edge where it runs through wood."""
    disc = list(circle(*centre, radius).reversed().edges())
    edges = list(ring.edges())
    kept = [e for e in split(edges, disc) if math.dist(e.middle, centre) >= radius - SAME]
    wood_inside = ring.area > 0
    kept += [e for e in split(disc, edges) if inside(ring, e.middle) == wood_inside]
    loops = [tidied(r) for r in chain(kept)]
    return max(loops, key=lambda r: abs(r.area)) if loops else ring


def reached(loop: Loop, radius: float, *, void: bool) -> Loop | None:
    """The loop as a cutter of this radius leaves it, inside corners filleted; None where it does not get in at all.

    A part of the loop it can't get into is lost: `unreached` tells.
    """
    ring = loop.counter_clockwise()
    paths = offset(ring, -radius if void else radius)
    if not paths:
        return None
    back = offset(paths[0], radius if void else -radius)
    return tidied(back[0]) if back else None


@lru_cache(maxsize=1024)
def unreached(loop: Loop, radius: float, *, void: bool) -> bool:
    """Whether a cutter of this radius leaves more undone than rounded corners: a slot or a gap narrower than it."""
    left = reached(loop, radius, void=void)
    if left is None:
        return True
    if len(offset(loop, -radius if void else radius)) > 1:
        return True
    ring = loop.clockwise() if void else loop.counter_clockwise()
    edges = list(ring.edges())
    own = [_rounding(edge, radius) for edge in edges]
    at_start = [_corner_loss(edges[i - 1], edges[i], radius) for i in range(len(edges))]
    for i, edge in enumerate(edges):
        after = (i + 1) % len(edges)
        if _bottom_too_short(edges[i - 1], edge, edges[after], radius):
            return True
        here = max(at_start[i], own[i], own[i - 1])
        along = max(at_start[i], at_start[after], own[i], own[i - 1], own[after])
        if room_to(left, edge.start) > here + 10 * SAME or room_to(left, edge.middle) > along + 10 * SAME:
            return True
    return False


def _bottom_too_short(before: Edge, edge: Edge, after: Edge, radius: float) -> bool:
    """Whether an edge is the bottom of a slot or notch whose two rounded corners would overlap."""
    first, second = -turn(before, edge), -turn(edge, after)
    if edge.bulge != 0 or min(first, second) <= 0 or first + second <= WIDEST_TURN or max(first, second) > 3.0:
        return False
    return edge.length < radius * (math.tan(first / 2) + math.tan(second / 2)) - 10 * SAME


def _corner_loss(before: Edge, after: Edge, radius: float) -> float:
    """How far a corner stands from the cutter's edge when it is filleted [mm]; wood on the left of the edges."""
    return _loss(-turn(before, after), radius)


def _rounding(edge: Edge, radius: float) -> float:
    """The same for a corner that is already rounded, more tightly than the cutter."""
    if edge.bulge >= 0 or edge.radius >= radius:
        return 0.0
    return _loss(-4 * math.atan(edge.bulge), radius - edge.radius)


def _loss(angle: float, radius: float) -> float:
    if not 0 < angle <= WIDEST_TURN + 1e-9:
        return 0.0
    return radius * (1 / math.cos(angle / 2) - 1)


def widest_cutter(loop: Loop, *, void: bool, limit: float) -> float:
    """The widest cutter diameter that reaches all of a loop, up to `limit` [mm], to 0.01 mm below."""
    narrowest = _narrowest_slot(loop, void=void)
    if narrowest < limit:  # nearly always right, and a good deal quicker than looking for it
        below, above = narrowest - 0.005, narrowest + 0.005
        if not unreached(loop, below / 2, void=void) and unreached(loop, above / 2, void=void):
            return below
    low, high = 0.0, limit
    while high - low > 0.01:
        middle = (low + high) / 2
        if unreached(loop, middle / 2, void=void):
            high = middle
        else:
            low = middle
    return low


def _narrowest_slot(loop: Loop, *, void: bool) -> float:
    """Least distance between two straight edges that face each other across what is cut away [mm]."""
    ring = loop.clockwise() if void else loop.counter_clockwise()
    lines = [e for e in ring.edges() if e.bulge == 0]
    found = [segment_distance(*a[:2], *b[:2]) for a, b in combinations(lines, 2) if _faces(a, b) and _faces(b, a)]
    return min((width for width in found if width > 0), default=math.inf)


def _faces(edge: Edge, other: Edge) -> bool:
    """Whether `other` runs the opposite way on the cut-away side of `edge`, which has wood on its left."""
    dx, dy = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
    ox, oy = other.end[0] - other.start[0], other.end[1] - other.start[1]
    mx, my = other.middle[0] - edge.middle[0], other.middle[1] - edge.middle[1]
    return dx * ox + dy * oy < 0 and dy * mx - dx * my > 0
