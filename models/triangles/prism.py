"""Loops of lines and arcs pulled up to a body of triangles: two flat ends and the walls between them."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.flat.loop import Loop, Point
from scarfwright.models.triangles.ears import triangulated
from scarfwright.models.triangles.mesh import Mesh, Triangle

SAGITTA = 0.1  # chords this close to arcs [mm]


def prism(loop: Loop, bottom: float, top: float, holes: Sequence[Loop] = (), sagitta: float = SAGITTA) -> Mesh:
    """What lies inside a loop and outside its holes, from z = `bottom` up to `top` [mm], closed and wound outward.

    Arcs become chords no further than `sagitta` [mm] from them, their ends on the arc. The loops may run either way
    round. Raises ValueError where top is not over bottom, or where no triangles cover the loops.
    """
    if top <= bottom:
        raise ValueError("a body needs its top over its bottom")
    rings: list[list[Point]] = [loop.counter_clockwise().points(sagitta)]
    rings += [hole.clockwise().points(sagitta) for hole in holes]
    points = [p for ring in rings for p in ring]
    count = len(points)
    upper = triangulated(rings[0], rings[1:])
    triangles: list[Triangle] = [(a + count, b + count, c + count) for a, b, c in upper]
    triangles += [(a, c, b) for a, b, c in upper]
    first = 0
    for ring in rings:
        for i in range(len(ring)):
            here, there = first + i, first + (i + 1) % len(ring)
            triangles += [(here, there, there + count), (here, there + count, here + count)]
        first += len(ring)
    corners = tuple((x, y, z) for z in (bottom, top) for x, y in points)
    return Mesh(corners, tuple(triangles))
