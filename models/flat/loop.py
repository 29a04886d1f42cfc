"""Closed loops of straight lines and circular arcs, exact.

A loop is a ring of vertices (x, y, bulge) in mm. The bulge belongs to the edge that leaves the vertex and is
tan(included angle / 4): 0 a straight line, 1 a half circle turning left, negative turning right. It is the
form the DXF reference gives for polylines, so nothing is approximated on the way to a file.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

Point = tuple[float, float]


class Vertex(NamedTuple):
    """Corner of a loop [mm] and the bulge of the edge that leaves it."""

    x: float
    y: float
    bulge: float = 0.0

    @property
    def point(self) -> Point:
        return (self.x, self.y)


class Edge(NamedTuple):
    """One edge of a loop: start, end, bulge."""

    start: Point
    end: Point
    bulge: float

    @property
    def length(self) -> float:
        """Length along the edge [mm]."""
        chord = math.dist(self.start, self.end)
        if self.bulge == 0:
            return chord
        angle = 4 * math.atan(abs(self.bulge))
        return self.radius * angle

    @property
    def radius(self) -> float:
        """Radius of an arc [mm]; infinity for a line."""
        if self.bulge == 0:
            return math.inf
        chord = math.dist(self.start, self.end)
        return chord * (1 + self.bulge**2) / (4 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Centre of an arc [mm]. Raises ValueError for a line."""
        if self.bulge == 0:
            raise ValueError("a straight edge has no centre")
        (x1, y1), (x2, y2) = self.start, self.end
        # distance from chord to centre, signed to the left of the chord
        h = (1 - self.bulge**2) / (4 * self.bulge)
        return ((x1 + x2) / 2 - h * (y2 - y1), (y1 + y2) / 2 + h * (x2 - x1))

    @property
    def middle(self) -> Point:
        """The point half way along the edge [mm]."""
        (x1, y1), (x2, y2) = self.start, self.end
        # sagitta is bulge * chord / 2, to the right of the chord for a left turn
        s = self.bulge / 2
        return ((x1 + x2) / 2 + s * (y2 - y1), (y1 + y2) / 2 - s * (x2 - x1))

    def point_at(self, share: float) -> Point:
        """The point at `share` (0 to 1) of the edge's length."""
        (x1, y1), (x2, y2) = self.start, self.end
        if self.bulge == 0:
            return (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
        cx, cy = self.centre
        turn = 4 * math.atan(self.bulge) * share
        dx, dy = x1 - cx, y1 - cy
        c, s = math.cos(turn), math.sin(turn)
        return (cx + c * dx - s * dy, cy + s * dx + c * dy)


@dataclass(frozen=True)
class Loop:
    """A closed ring of lines and arcs; the last vertex joins the first."""

    vertices: tuple[Vertex, ...]

    def __post_init__(self) -> None:
        if len(self.vertices) < 2:
            raise ValueError("a loop needs at least two vertices")

    def edges(self) -> Iterator[Edge]:
        return iter(self._edges)

    @cached_property
    def _edges(self) -> tuple[Edge, ...]:
        points = [(x, y) for x, y, _ in self.vertices]
        bulges = [bulge for _, _, bulge in self.vertices]
        return tuple(map(Edge, points, [*points[1:], points[0]], bulges))

    @cached_property
    def area(self) -> float:
        """Signed area [mm2], positive counter-clockwise: shoelace plus the circular segments."""
        total = 0.0
        for edge in self.edges():
            (x1, y1), (x2, y2) = edge.start, edge.end
            total += (x1 * y2 - x2 * y1) / 2
            if edge.bulge:
                angle = 4 * math.atan(edge.bulge)
                total += edge.radius**2 * (angle - math.sin(angle)) / 2
        return total

    @property
    def perimeter(self) -> float:
        """Length once round [mm]."""
        return sum(edge.length for edge in self.edges())

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [mm], arcs included."""
        points = [v.point for v in self.vertices]
        for edge in self.edges():
            if edge.bulge:
                points += _extremes(edge)
        xs, ys = zip(*points, strict=True)
        return (min(xs), min(ys), max(xs), max(ys))

    @property
    def circle(self) -> tuple[Point, float] | None:
        """Centre and radius if the loop is a whole circle of two half-circle edges, else None."""
        if len(self.vertices) != 2:
            return None
        a, b = self.vertices
        if abs(abs(a.bulge) - 1) > 1e-12 or abs(a.bulge - b.bulge) > 1e-12:
            return None
        return (((a.x + b.x) / 2, (a.y + b.y) / 2), math.dist(a.point, b.point) / 2)

    def reversed(self) -> Loop:
        """The same ring run the other way."""
        count = len(self.vertices)
        return Loop(
            tuple(
                Vertex(*self.vertices[-i % count].point, -self.vertices[(-i - 1) % count].bulge) for i in range(count)
            )
        )

    def counter_clockwise(self) -> Loop:
        return self if self.area > 0 else self.reversed()

    def clockwise(self) -> Loop:
        return self if self.area < 0 else self.reversed()

    def moved(self, dx: float, dy: float) -> Loop:
        return Loop(tuple(Vertex(v.x + dx, v.y + dy, v.bulge) for v in self.vertices))

    def scaled(self, factor: float) -> Loop:
        """Larger by a factor, about the origin."""
        return Loop(tuple(Vertex(factor * v.x, factor * v.y, v.bulge) for v in self.vertices))

    def turned(self, angle: float, about: Point = (0.0, 0.0)) -> Loop:
        """Turned counter-clockwise by `angle` [rad] about a point."""
        c, s = math.cos(angle), math.sin(angle)
        ax, ay = about
        return Loop(
            tuple(
                Vertex(ax + c * (v.x - ax) - s * (v.y - ay), ay + s * (v.x - ax) + c * (v.y - ay), v.bulge)
                for v in self.vertices
            )
        )

    def mirrored_y(self) -> Loop:
        """The mirror image y -> -y; an outline that ran counter-clockwise does so again."""
        flipped = Loop(tuple(Vertex(v.x, -v.y, -v.bulge) for v in self.vertices))
        return flipped.reversed()

    def points(self, sagitta: float = 0.01) -> list[Point]:
        """Points round the loop, arcs cut into chords no further than `sagitta` [mm] from them."""
        out: list[Point] = []
        for edge in self.edges():
            steps = 1
            if edge.bulge:
                angle = 4 * math.atan(abs(edge.bulge))
                widest = 2 * math.acos(max(1 - sagitta / edge.radius, -1.0)) if edge.radius > sagitta else angle
                steps = max(2, math.ceil(angle / max(widest, 1e-3)))
            out += [edge.point_at(i / steps) for i in range(steps)]
        return out


def _extremes(edge: Edge) -> list[Point]:
    """Points of an arc where x or y is extreme."""
    cx, cy = edge.centre
    radius = edge.radius
    start = math.atan2(edge.start[1] - cy, edge.start[0] - cx)
    sweep = 4 * math.atan(edge.bulge)
    found = []
    for quarter in range(4):
        angle = quarter * math.pi / 2
        turn = (angle - start) % math.tau if sweep > 0 else -((start - angle) % math.tau)
        if abs(turn) <= abs(sweep):
            found.append((cx + radius * math.cos(angle), cy + radius * math.sin(angle)))
    return found


# -- makers --------------------------------------------------------------------------------------------


def polygon(points: Iterable[Point]) -> Loop:
    """A loop of straight edges."""
    return Loop(tuple(Vertex(x, y) for x, y in points))


def rectangle(x: float, y: float, width: float, height: float) -> Loop:
    """An upright rectangle from its lower left corner [mm], counter-clockwise."""
    return polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])


def circle(x: float, y: float, radius: float) -> Loop:
    """A circle as two half circles [mm], counter-clockwise."""
    return Loop((Vertex(x + radius, y, 1.0), Vertex(x - radius, y, 1.0)))


def slot(start: Point, end: Point, width: float) -> Loop:
    """A slot with round ends, as drilled and sawn, counter-clockwise.

    Parameters: start and end, centres of the two end holes [mm]; width, their diameter [mm].
    """
    length = math.dist(start, end)
    if length < 1e-9:
        return circle(*start, width / 2)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    nx, ny = -uy * width / 2, ux * width / 2
    return Loop(
        (
            Vertex(start[0] - nx, start[1] - ny),
            Vertex(end[0] - nx, end[1] - ny, 1.0),
            Vertex(end[0] + nx, end[1] + ny),
            Vertex(start[0] + nx, start[1] + ny, 1.0),
        )
    )


def rounded(points: list[Point], radius: float) -> Loop:
    """A polygon with every corner rounded by `radius` [mm], tangent arcs.

    Raises ValueError where an edge is too short for the roundings at its ends.
    """
    return rounded_each(points, [radius] * len(points))


def rounded_each(points: list[Point], radii: list[float]) -> Loop:
    """A polygon with corner i rounded by radii[i] [mm]; 0 leaves a corner sharp.

    Raises ValueError where an edge is too short for the roundings at its ends.
    """
    count = len(points)
    setbacks, bulges = [], []
    for i, radius in enumerate(radii):
        (ax, ay), (bx, by), (cx, cy) = points[i - 1], points[i], points[(i + 1) % count]
        turn = math.remainder(math.atan2(cy - by, cx - bx) - math.atan2(by - ay, bx - ax), math.tau)
        setbacks.append(radius * abs(math.tan(turn / 2)))
        bulges.append(math.tan(turn / 4))
    out: list[Vertex] = []
    for i, (x, y) in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % count]
        into, away = math.dist(before, (x, y)), math.dist((x, y), after)
        if setbacks[i] + setbacks[(i + 1) % count] > away + 1e-9:
            raise ValueError("an edge is too short for the roundings at its ends")
        if setbacks[i] == 0:
            out.append(Vertex(x, y))
            continue
        s = setbacks[i]
        out.append(Vertex(x + s * (before[0] - x) / into, y + s * (before[1] - y) / into, bulges[i]))
        out.append(Vertex(x + s * (after[0] - x) / away, y + s * (after[1] - y) / away))
    return Loop(tuple(out))
