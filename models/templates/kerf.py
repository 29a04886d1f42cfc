"""The laser's path beside the line: outlines half a kerf outside, openings half a kerf inside, exact in lines and arcs.

What is cut then has its nominal size. Where the kerf is too wide for that it is told before anything is cut.
All lengths mm. Source: plane geometry, the project's own derivation.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scarfwright.models.flat.chains import turn
from scarfwright.models.flat.crossings import edge_box
from scarfwright.models.flat.loop import Edge, Loop
from scarfwright.models.flat.offset import offset
from scarfwright.models.flat.room import room_to
from scarfwright.models.part.part import Feature, Operation, Part

ROUNDING = 1e-6  # how far two offsets may be out [mm]


@dataclass(frozen=True)
class Lost:
    """Something the kerf does away with: what, its narrowest width [mm], and whether it is a web that burns away
    (else an opening that closes)."""

    what: str
    width: float
    web: bool


def compensated(part: Part, kerf: float) -> Part:
    """The part as the laser's path. Raises ValueError where an opening is narrower than the kerf.

    Engraved lines stay where they are; pockets become engraved lines too, for a laser cuts no depth.
    """
    return replace(
        part,
        outline=_single(part.outline, kerf / 2),
        features=tuple(path for feature in part.features for path in _paths(feature, kerf)),
        raised=(),
    )


def _paths(feature: Feature, kerf: float) -> list[Feature]:
    if feature.through:
        return [replace(feature, operation=Operation.CUT_INSIDE, loop=_single(feature.loop, -kerf / 2))]
    loops = (feature.loop, *feature.islands)
    return [replace(feature, operation=Operation.SCORE, loop=loop, depth=None, islands=()) for loop in loops]


def _single(loop: Loop, by: float) -> Loop:
    found = offset(loop, by)
    if len(found) != 1:
        raise ValueError("the kerf is too wide for this loop")
    return found[0]


def lost(part: Part, kerf: float) -> list[Lost]:
    """What the kerf does away with: openings narrower than it, and webs narrower than it."""
    if kerf <= 0:
        return []
    found = []
    nick = kerf**2  # what is smaller than the kerf square is not missed
    through = [feature for feature in part.features if feature.through]
    for feature in through:
        if _closes(feature.loop, -kerf / 2, nick):
            found.append(Lost(feature.name, _narrowest(feature.loop, -kerf / 2), False))
    if _closes(part.outline, kerf / 2, nick):
        found.append(Lost("a slot in its outline", _narrowest(part.outline, kerf / 2), False))
    if _closes(part.outline, -kerf / 2, nick):
        found.append(Lost("its thinnest place", _narrowest(part.outline, -kerf / 2), True))
    loops = [("its edge", part.outline), *((feature.name, feature.loop) for feature in through)]
    for i, (name, one) in enumerate(loops):
        for other_name, other in loops[i + 1 :]:
            web = _between(one, other, kerf)
            if web < kerf:
                found.append(Lost(f"between {other_name} and {name}", web, True))
    return found


def _closes(loop: Loop, by: float, nick: float) -> bool:
    """Whether an offset and the same way back do not give the loop again, but for its corners and for `nick` [mm2].

    A beam of radius r leaves r^2 (tan(turn / 2) - turn / 2) in each corner that points to its side.
    """
    if loop.circle is not None:
        return loop.circle[1] + by <= ROUNDING
    there = offset(loop, by)
    if len(there) != 1:
        return True
    back = sum(abs(ring.area) for ring in offset(there[0], -by))
    edges = list(loop.counter_clockwise().edges())
    corners = 0.0
    for before, after in zip(edges, edges[1:] + edges[:1], strict=True):
        angle = -turn(before, after) if by > 0 else turn(before, after)
        if angle > 0:
            corners += by**2 * (math.tan(min(angle, 3.1) / 2) - angle / 2)
    return abs(abs(loop.area) - back) > corners + nick + ROUNDING * loop.perimeter


def _narrowest(loop: Loop, by: float) -> float:
    """The width at which something closes, no more than 2 |by| [mm]."""
    if loop.circle is not None:
        return 2 * loop.circle[1]
    low, high = 0.0, abs(by)
    for _ in range(12):
        middle = (low + high) / 2
        if _closes(loop, math.copysign(middle, by), 0.0):
            high = middle
        else:
            low = middle
    return 2 * high


def _between(one: Loop, other: Loop, enough: float) -> float:
    """Least wood between two loops [mm], as far as it is less than `enough`; exact for lines, else within 0.01."""
    ax, ay, bx, by = one.bounds
    x0, y0, x1, y1 = other.bounds
    inside = ax < x0 and ay < y0 and x1 < bx and y1 < by
    if not inside and (x0 - bx > enough or ax - x1 > enough or y0 - by > enough or ay - y1 > enough):
        return math.inf
    near = [edge for edge in one.edges() if _near(edge, other.bounds, enough)]
    if not near:
        return math.inf
    points = [*other.points(0.005), *(p for p in _ends(near))]
    return min(room_to(one, p) if i < len(points) - len(near) else room_to(other, p) for i, p in enumerate(points))


def _near(edge: Edge, bounds: tuple[float, float, float, float], enough: float) -> bool:
    x0, y0, x1, y1 = edge_box(edge)
    return (
        x0 <= bounds[2] + enough and x1 >= bounds[0] - enough and y0 <= bounds[3] + enough and y1 >= bounds[1] - enough
    )


def _ends(edges: list[Edge]) -> list[tuple[float, float]]:
    return [edge.start for edge in edges]
