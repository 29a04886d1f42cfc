"""A body as triangles: corners, and which three of them make each triangle, counter-clockwise seen from outside."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

Place = tuple[float, float, float]
Triangle = tuple[int, int, int]


@dataclass(frozen=True)
class Mesh:
    """Corners (x, y, z) [mm] and triangles as three numbers of corners each."""

    corners: tuple[Place, ...]
    triangles: tuple[Triangle, ...]

    @property
    def volume(self) -> float:
        """What the triangles enclose [mm3], positive where they are wound outward: tetrahedra to the first corner."""
        x0, y0, z0 = self.corners[0]
        total = 0.0
        for triangle in self.triangles:
            a, b, c = ((x - x0, y - y0, z - z0) for x, y, z in (self.corners[i] for i in triangle))
            total += _dot(a, _cross(b, c))
        return total / 6

    @property
    def area(self) -> float:
        """The whole surface [mm2]."""
        total = 0.0
        for triangle in self.triangles:
            a, b, c = (self.corners[i] for i in triangle)
            total += math.hypot(*_cross(_from(a, b), _from(a, c))) / 2
        return total

    @property
    def closed(self) -> bool:
        """Whether every edge belongs to two triangles that run along it in opposite directions."""
        runs = Counter((t[i], t[(i + 1) % 3]) for t in self.triangles for i in range(3))
        return all(count == 1 and runs[(b, a)] == 1 for (a, b), count in runs.items())

    def moved(self, dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> Mesh:
        """The same body moved [mm]."""
        return self._each(lambda p: (p[0] + dx, p[1] + dy, p[2] + dz))

    def turned(self, angle: float) -> Mesh:
        """Turned about z, counter-clockwise from above [rad]."""
        c, s = math.cos(angle), math.sin(angle)
        return self._each(lambda p: (c * p[0] - s * p[1], s * p[0] + c * p[1], p[2]))

    def laid_along_x(self) -> Mesh:
        """What was drawn in (y, z) and pulled along x: local x, y, z become y, z, x."""
        return self._each(lambda p: (p[2], p[0], p[1]))

    def laid_along_y(self) -> Mesh:
        """What was drawn in (x, z) and pulled along y: y and z change places, so the triangles run the other way."""
        laid = self._each(lambda p: (p[0], p[2], p[1]))
        return Mesh(laid.corners, tuple((a, c, b) for a, b, c in laid.triangles))

    def _each(self, place: Callable[[Place], Place]) -> Mesh:
        return Mesh(tuple(place(p) for p in self.corners), self.triangles)


def _from(a: Place, b: Place) -> Place:
    return (b[0] - a[0], b[1] - a[1], b[2] - a[2])


def _cross(a: Place, b: Place) -> Place:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _dot(a: Place, b: Place) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
