"""A free place on a section for its name, and the name there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.overlap import inside
from scarfwright.models.part.part import Mark, Part

LETTER = 0.75  # width of a letter by its height, generously: only for finding room
LEADING = 1.6
EDGE = 2.0  # from the text to the outline [mm]
LEAST = 1.5  # height below which nobody reads a text [mm]

Box = tuple[float, float, float, float]


def named(part: Part, lines: Sequence[str], height: float) -> list[Mark]:
    """The lines as marks inside the outline, where they cover least of what is there; smaller where room is short.

    Of a part too small for all of them the first line alone, at the least legible height.
    """
    second_best: list[Mark] = []
    for size, kept in _sizes(lines, height):
        wide = LETTER * size * max(len(text) for text in kept)
        tall = size * (1 + LEADING * (len(kept) - 1))
        place = _place(part, wide, tall)
        if place is None:
            continue
        covered, at = place
        if covered == 0:
            return _marks(at, kept, size)
        second_best = second_best or _marks(at, kept, size)
    if second_best:
        return second_best
    x0, y0, x1, y1 = part.outline.bounds
    return _marks(((x0 + x1) / 2, (y0 + y1) / 2), lines[:1], LEAST)


def _sizes(lines: Sequence[str], height: float) -> Iterator[tuple[float, Sequence[str]]]:
    for kept in (lines, lines[:1]):
        size = height
        while size >= LEAST:
            yield size, kept
            size *= 0.8


def _marks(at: Point, lines: Sequence[str], size: float) -> list[Mark]:
    top = at[1] + LEADING * size * (len(lines) - 1)
    return [
        Mark(((at[0], top - i * LEADING * size),), text, size, 0.0, "name" if i == 0 else "note")
        for i, text in enumerate(lines)
    ]


def overhangs(part: Part, mark: Mark) -> bool:
    """Whether a text reaches over the part's edge."""
    return not all(inside(part.outline, corner) for corner in _corners(mark))


def _place(part: Part, wide: float, tall: float) -> tuple[int, Point] | None:
    """Where a box inside the outline covers the fewest things: how many, and its lower left corner; None where it fits
    nowhere."""
    x0, y0, x1, y1 = part.outline.bounds
    taken = [feature.loop.bounds for feature in part.features] + [_box(mark) for mark in part.marks]
    ring = part.outline.points(0.1)
    best: tuple[int, Point] | None = None
    for i in range(1, 20):
        for j in range(1, 12):
            x = x0 + (x1 - x0 - wide) * i / 20
            y = y0 + (y1 - y0 - tall) * j / 12
            box = (x - EDGE, y - EDGE, x + wide + EDGE, y + tall + EDGE)
            if not _inside(ring, box):
                continue
            covered = sum(_meet(box, other) for other in taken)
            if best is None or covered < best[0]:
                best = (covered, (x, y))
    return best


def _inside(ring: list[Point], box: Box) -> bool:
    """Whether a box lies inside a ring of points: a corner does and no side enters it."""
    x0, y0 = box[:2]
    holds = False
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
        if _enters((ax, ay), (bx, by), box):
            return False
        if (ay > y0) != (by > y0) and x0 < ax + (y0 - ay) * (bx - ax) / (by - ay):
            holds = not holds
    return holds


def _enters(a: Point, b: Point, box: Box) -> bool:
    """Whether a segment has a point inside a box: clip it to the box side by side."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        d = b[axis] - a[axis]
        least, most = box[axis] - a[axis], box[axis + 2] - a[axis]
        if d == 0:
            if least > 0 or most < 0:
                return False
            continue
        first, last = sorted((least / d, most / d))
        low, high = max(low, first), min(high, last)
    return low <= high


def _box(mark: Mark) -> Box:
    """A box round a mark's line or text."""
    points = [*mark.points, *(_corners(mark) if mark.text else [])]
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def _corners(mark: Mark) -> list[Point]:
    """The corners of a box round a text."""
    (x, y), c, s = mark.points[0], math.cos(mark.angle), math.sin(mark.angle)
    wide, tall = LETTER * mark.height * len(mark.text), mark.height
    return [(x + c * dx - s * dy, y + s * dx + c * dy) for dx in (0.0, wide) for dy in (0.0, tall)]


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and one[2] > other[0] and one[1] < other[3] and one[3] > other[1]
