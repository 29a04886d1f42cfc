"""Whether a part's loops make one body: the safety net under every part's own check.

Arcs are taken as chords; that is near enough to tell what crosses from what does not.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations

from scarfwright.models.flat.loop import Loop, Point
from scarfwright.models.flat.room import Segment, in_ring, segment_distance
from scarfwright.models.part.part import Operation, Part, Raised

SAGITTA = 0.1
FINEST = 0.001  # edges shorter than this are slips, not shapes [mm]
LARGEST = 100_000.0
LEAST = 0.05  # material between two loops, below which they are taken to touch [mm]

Box = tuple[float, float, float, float]


def unsound(part: Part) -> list[str]:
    """What is wrong with the part's shapes, each as half a sentence; empty if it makes one body."""
    return list(_unsound(part))


@lru_cache(maxsize=128)
def _unsound(part: Part) -> list[str]:
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
    cut = [f for f in part.features if f.operation is not Operation.SCORE and f.writing is None]
    border = _segments(part.outline)
    rings = [_segments(f.loop) for f in cut]
    for feature, ring in zip(cut, rings, strict=True):
        if feature.depth is not None and feature.depth >= part.thickness:
            yield f"has a {feature.name} {feature.depth:g} mm deep in {part.thickness:g} mm"
        if _near(ring, border) or not in_ring(ring[0][0], border):
            yield f"has a {feature.name} that runs over its outline"
    boxes = [f.loop.bounds for f in cut]
    for (one, ring, box), (other, second, there) in combinations(zip(cut, rings, boxes, strict=True), 2):
        if not _boxes_apart(box, there) and _meet(ring, second):
            yield f"has a {one.name} and a {other.name} that run into each other"


def _boxes_apart(one: Box, other: Box) -> bool:
    (a, b, c, d), (e, f, g, h) = one, other
    return a - LEAST > g or e - LEAST > c or b - LEAST > h or f - LEAST > d


def _meet(ring: list[Segment], second: list[Segment]) -> bool:
    return _near(ring, second) or in_ring(ring[0][0], second) or in_ring(second[0][0], ring)


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
    return in_ring(point, border) or _distance(point, border) < 1e-6


def _distance(point: Point, border: list[Segment]) -> float:
    return min(segment_distance(point, point, a, b) for a, b in border)


def _segments(loop: Loop) -> list[Segment]:
    points = loop.points(SAGITTA)
    return list(zip(points, [*points[1:], points[0]], strict=True))


def _near(one: list[Segment], other: list[Segment]) -> bool:
    """Whether two rings come nearer than LEAST; only segments near the other ring's box are looked at."""
    theirs = _reaching(other, _box(one))
    mine = _reaching(one, _box(theirs)) if theirs else []
    return any(
        not _boxes_apart(box, there) and segment_distance(*segment, *facing) < LEAST
        for segment, box in zip(mine, map(_ends_box, mine), strict=True)
        for facing, there in zip(theirs, map(_ends_box, theirs), strict=True)
    )


def _reaching(ring: list[Segment], box: Box) -> list[Segment]:
    return [segment for segment in ring if not _boxes_apart(_ends_box(segment), box)]


def _box(ring: list[Segment]) -> Box:
    xs, ys = [x for (x, _), _ in ring], [y for (_, y), _ in ring]
    xs += [x for _, (x, _) in ring]
    ys += [y for _, (_, y) in ring]
    return (min(xs), min(ys), max(xs), max(ys))


def _ends_box(segment: Segment) -> Box:
    (ax, ay), (bx, by) = segment
    return (ax if ax < bx else bx, ay if ay < by else by, bx if ax < bx else ax, by if ay < by else ay)


def _crosses_itself(loop: Loop) -> bool:
    ring = _segments(loop)
    count = len(ring)
    if any(_folds_back(ring[i - 1], ring[i]) for i in range(count)):
        return True
    boxes = [_ends_box(segment) for segment in ring]
    for i, ((a, b), box) in enumerate(zip(ring, boxes, strict=True)):
        for j in range(i + 2, count - (i == 0)):
            if not _boxes_apart(box, boxes[j]) and segment_distance(a, b, *ring[j]) < FINEST:
                return True
    return False


def _folds_back(one: Segment, following: Segment) -> bool:
    """Whether a segment runs back over the one before it."""
    (ax, ay), (bx, by) = one
    cx, cy = following[1]
    ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
    return ux * vx + uy * vy < 0 and abs(ux * vy - uy * vx) < 1e-6 * math.hypot(ux, uy) * math.hypot(vx, vy)
