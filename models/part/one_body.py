"""Whether a part's loops make one body: the safety net under every part's own check.

Arcs are taken as chords; that is near enough to tell what crosses from what does not.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from scarfwright.models.flat.loop import Loop, Point, segment_distance
from scarfwright.models.part.part import Operation, Part, Raised

SAGITTA = 0.1
FINEST = 0.001  # edges shorter than this are slips, not shapes [mm]
LARGEST = 100_000.0
LEAST = 0.05  # material between two loops, below which they are taken to touch [mm]

Segment = tuple[Point, Point]
Box = tuple[float, float, float, float]


def unsound(part: Part) -> list[str]:
    """What is wrong with the part's shapes, each as half a sentence; empty if it makes one body."""
    loops = [part.outline, *(f.loop for f in part.features), *(r.loop for r in part.raised)]
    if not all(math.isfinite(v) and abs(v) < LARGEST for loop in loops for vertex in loop.vertices for v in vertex):
        return ["has sizes beyond all measure"]
    if not LEAST <= part.thickness < LARGEST:
        return [f"is {part.thickness:g} mm thick"]
    if any(edge.length < FINEST for loop in loops for edge in loop.edges()):
        return ["has edges too short to make"]
    if part.outline.area <= 0:
        return ["has an outline that encloses nothing or runs clockwise"]
    if _crosses_itself(part.outline):
        return ["has an outline that crosses itself"]
    return [*_features(part), *_raised(part)]


def _features(part: Part) -> Iterator[str]:
    cut = [f for f in part.features if f.operation is not Operation.ENGRAVE and f.writing is None]
    border = _segments(part.outline)
    rings = [_segments(f.loop) for f in cut]
    for feature, ring in zip(cut, rings, strict=True):
        if feature.depth is not None and feature.depth >= part.thickness:
            yield f"has a {feature.name} {feature.depth:g} mm deep in {part.thickness:g} mm"
        if _near(ring, border) or not inside(ring[0][0], border):
            yield f"has a {feature.name} that runs over its outline"
    boxes = [f.loop.bounds for f in cut]
    for (one, ring, box), (other, second, there) in combinations(zip(cut, rings, boxes, strict=True), 2):
        if not _boxes_apart(box, there) and _meet(ring, second):
            yield f"has a {one.name} and a {other.name} that run into each other"


def _boxes_apart(one: Box, other: Box) -> bool:
    (a, b, c, d), (e, f, g, h) = one, other
    return a - LEAST > g or e - LEAST > c or b - LEAST > h or f - LEAST > d


def _meet(ring: list[Segment], second: list[Segment]) -> bool:
    return _near(ring, second) or inside(ring[0][0], second) or inside(second[0][0], ring)


def _raised(part: Part) -> Iterator[str]:
    border = _segments(part.outline)
    for raised in part.raised:
        if raised.top - raised.bottom < LEAST:
            yield f"has a {raised.name} of no height"
        elif raised.top <= part.thickness:
            if not _shares_edge(raised, border):
                yield f"has a {raised.name} that stands apart"
        elif raised.bottom > part.thickness or not all(_within(v.point, border) for v in raised.loop.vertices):
            yield f"has a {raised.name} that stands over its edge"


def _shares_edge(raised: Raised, border: list[Segment]) -> bool:
    on = [v.point for v in raised.loop.vertices if _distance(v.point, border) < 1e-6]
    return len(on) >= 2


def _within(point: Point, border: list[Segment]) -> bool:
    return inside(point, border) or _distance(point, border) < 1e-6


def _distance(point: Point, border: list[Segment]) -> float:
    return min(segment_distance(point, point, a, b) for a, b in border)


def _segments(loop: Loop) -> list[Segment]:
    points = loop.points(SAGITTA)
    return list(zip(points, [*points[1:], points[0]], strict=True))


def _near(one: list[Segment], other: list[Segment]) -> bool:
    return any(segment_distance(a, b, c, d) < LEAST for a, b in one for c, d in other)


def _crosses_itself(loop: Loop) -> bool:
    ring = _segments(loop)
    count = len(ring)
    for i, j in combinations(range(count), 2):
        (a, b), (c, d) = ring[i], ring[j]
        if j - i == 1 or (i == 0 and j == count - 1):
            folded = _folds_back((a, b), (c, d)) if j - i == 1 else _folds_back((c, d), (a, b))
            if folded:
                return True
        elif segment_distance(a, b, c, d) < FINEST:
            return True
    return False


def _folds_back(one: Segment, following: Segment) -> bool:
    """Whether a segment runs back over the one before it."""
    (ax, ay), (bx, by) = one
    cx, cy = following[1]
    ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
    return ux * vx + uy * vy < 0 and abs(ux * vy - uy * vx) < 1e-6 * math.hypot(ux, uy) * math.hypot(vx, vy)


def inside(point: Point, border: list[Segment]) -> bool:
    """Whether a point lies inside a ring of segments: even-odd rule."""
    x, y = point
    found = False
    for (x1, y1), (x2, y2) in border:
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            found = not found
    return found
