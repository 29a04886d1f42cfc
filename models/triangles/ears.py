"""A flat ring with holes as triangles: each hole is joined to the ring round it by a bridge there and back, then ears
are cut off the one long ring that is left.

An ear is a convex corner whose triangle holds no other corner of the ring; every simple ring of more than three
corners has two (G. H. Meisters, Polygons have ears, 1975). A hole's corner furthest to the right always sees a corner
of the ring round it when holes are taken from right to left: nothing that is still to come lies on its right.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from scarfwright.models.flat.loop import Point

Triangle = tuple[int, int, int]

TOUCH = 1e-9  # a corner that lies within this of an edge [mm, as area over length] counts as on it


def triangulated(ring: Sequence[Point], holes: Sequence[Sequence[Point]] = ()) -> list[Triangle]:
    """Triangles of what lies inside `ring` (counter-clockwise) and outside `holes` (clockwise) [mm].

    Each triangle is three numbers into ring and holes one after the other, counter-clockwise. Every edge of ring and
    holes is an edge of just one triangle, corners along a straight run included. Holes touch neither each other nor
    the ring. Raises ValueError where the rings cross or run the wrong way round, so that no triangles cover them.
    """
    if area(ring) <= 0 or any(area(hole) >= 0 for hole in holes):
        raise ValueError("the rings cross each other, or run the wrong way round")
    points = list(ring)
    joined = list(range(len(points)))
    inner: list[list[int]] = []
    for hole in holes:
        inner.append(list(range(len(points), len(points) + len(hole))))
        points += hole
    inner.sort(key=lambda hole: max(points[i] for i in hole), reverse=True)
    while inner:
        hole = inner.pop(0)
        joined = _bridged(points, joined, hole, inner)
    triangles = _ears(points, joined)
    _must_cover(points, triangles, [ring, *holes])
    return triangles


def area(ring: Sequence[Point]) -> float:
    """Signed area of a ring of straight lines [mm2], positive counter-clockwise."""
    onward = [*ring[1:], *ring[:1]]
    x0, y0 = ring[0]
    return sum((a[0] - x0) * (b[1] - y0) - (b[0] - x0) * (a[1] - y0) for a, b in zip(ring, onward, strict=True)) / 2


def _side(a: Point, b: Point, p: Point) -> float:
    """Twice the area of the triangle a, b, p: positive where p lies left of the line from a to b."""
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


# -- bridges -------------------------------------------------------------------------------------------------


def _bridged(points: list[Point], ring: list[int], hole: list[int], others: list[list[int]]) -> list[int]:
    """The ring with a hole run through in one go, over the shortest bridge that nothing is in the way of."""
    first = max(range(len(hole)), key=lambda i: points[hole[i]])
    start = points[hole[first]]
    edges = [(r[i - 1], r[i]) for r in (ring, hole, *others) for i in range(len(r))]
    for at in sorted(range(len(ring)), key=lambda i: math.dist(points[ring[i]], start)):
        end = points[ring[at]]
        if _opens_to(points, ring, at, start) and not any(_crosses(start, end, points[a], points[b]) for a, b in edges):
            return [*ring[: at + 1], *hole[first:], *hole[: first + 1], *ring[at:]]
    raise ValueError("a hole lies outside the ring, or touches it")


def _opens_to(points: list[Point], ring: list[int], at: int, towards: Point) -> bool:
    """Whether the inside of the ring at one of its corners lies in the direction of a point."""
    before, here, after = (points[ring[i % len(ring)]] for i in (at - 1, at, at + 1))
    left_in, left_out = _side(before, here, towards) > 0, _side(here, after, towards) > 0
    return (left_in and left_out) if _side(before, here, after) >= 0 else (left_in or left_out)


def _crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the edge c, d gets into the way of the bridge a, b; at their ends they may meet."""
    if c in (a, b) or d in (a, b):
        # one that leaves from an end of the bridge is in its way where it lies along it
        return any(end not in (a, b) and _between(a, b, end) for end in (c, d))
    one, other = _side(a, b, c), _side(a, b, d)
    near, far = _side(c, d, a), _side(c, d, b)
    return one * other <= 0 and near * far <= 0 and not (one == other == 0 and not _between(a, b, c))


def _between(a: Point, b: Point, p: Point) -> bool:
    """Whether p lies on the line between a and b."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = (p[0] - a[0]) * dx + (p[1] - a[1]) * dy
    return abs(_side(a, b, p)) <= TOUCH * math.hypot(dx, dy) and 0 < along < dx * dx + dy * dy


# -- ears ----------------------------------------------------------------------------------------------------


def _ears(points: list[Point], ring: list[int]) -> list[Triangle]:
    """Ears cut off one after another. A corner on a straight run goes only when no true ear is left: its triangle has
    no area, but its edges stay those of the walls below."""
    ring, triangles, at = list(ring), [], 0
    while len(ring) > 3:
        count = len(ring)
        found = next((i % count for i in range(at, at + count) if _is_ear(points, ring, i % count)), None)
        if found is None:
            found = min(range(count), key=lambda i: abs(_corner(points, ring, i)))
        triangles.append((ring[found - 1], ring[found], ring[(found + 1) % count]))
        del ring[found]
        at = found  # on from the next corner but one round, so that no fan of slivers grows from one corner
    return [*triangles, (ring[0], ring[1], ring[2])]


def _corner(points: list[Point], ring: list[int], at: int) -> float:
    before, here, after = (points[ring[i % len(ring)]] for i in (at - 1, at, at + 1))
    return _side(before, here, after)


def _is_ear(points: list[Point], ring: list[int], at: int) -> bool:
    a, b, c = (points[ring[i % len(ring)]] for i in (at - 1, at, at + 1))
    if _side(a, b, c) <= TOUCH * math.dist(a, c):
        return False
    low_x, high_x = min(a[0], b[0], c[0]), max(a[0], b[0], c[0])
    low_y, high_y = min(a[1], b[1], c[1]), max(a[1], b[1], c[1])
    for index in ring:
        p = points[index]
        if not (low_x <= p[0] <= high_x and low_y <= p[1] <= high_y) or p in (a, b, c):
            continue
        if _side(a, b, p) >= 0 and _side(b, c, p) >= 0 and _side(c, a, p) >= 0:
            return False
    return True


def _must_cover(points: list[Point], triangles: list[Triangle], rings: Sequence[Sequence[Point]]) -> None:
    """The triangles are as large together as the rings, and none is wound the wrong way."""
    wanted = sum(area(ring) for ring in rings)
    sizes = [_side(*(points[i] for i in t)) / 2 for t in triangles]
    room = 1e-9 * max(1.0, sum(abs(area(ring)) for ring in rings)) + 1e-6
    if abs(sum(sizes) - wanted) > room or min(sizes) < -room:
        raise ValueError("the rings cross each other, or run the wrong way round")
