"""What hangs over nothing when a part is printed as it lies.

All sides of a part are upright, so only level undersides can hang over: what stands out beyond the plate, and, with
the part turned over, whatever its top had that was lower than its highest face.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from scarfwright.models.flat.loop import Loop
from scarfwright.models.flat.overlap import meet_area, uncovered
from scarfwright.models.part.part import Feature, Operation, Part, Raised
from scarfwright.models.printing.bed import height

LEAST = 0.01  # less is rounding [mm2]


class Ceiling(NamedTuple):
    """A level underside: its area [mm2] and how high above the bed it is printed [mm]."""

    area: float
    height: float


def best_face(part: Part) -> bool:
    """Whether the part is better printed turned over: with less hanging over, and something to stand on."""
    as_drawn = sum(c.area for c in ceilings(part))
    return as_drawn > LEAST and sum(c.area for c in ceilings(part, turned_over=True)) < as_drawn - LEAST


def ceilings(part: Part, *, turned_over: bool = False) -> list[Ceiling]:
    """Undersides that hang over, by height."""
    found = _from_above(part) if turned_over else _from_below(part)
    return sorted((c for c in found if c.area > LEAST), key=lambda c: c.height)


def _from_below(part: Part) -> Iterator[Ceiling]:
    """Undersides of raised material that neither the bed, the plate nor other raised material carries."""
    for raised in part.raised:
        if raised.bottom <= 0:
            continue
        others = [r.loop for r in part.raised if r is not raised and r.bottom < raised.bottom <= r.top]
        plate = [part.outline] if raised.bottom <= part.thickness else []
        bare = _bare(raised.loop, [*plate, *others])
        if plate:
            open_below = [f for f in part.features if _open_at(f, part, raised.bottom)]
            bare += sum(_shared(f, raised.loop) for f in open_below)
        yield Ceiling(bare, raised.bottom)


def _open_at(feature: Feature, part: Part, level: float) -> bool:
    """Whether a hole or pocket leaves air just below `level`."""
    if feature.operation is Operation.SCORE:
        return False
    return feature.depth is None or part.thickness - feature.depth < level


def _shared(feature: Feature, loop: Loop) -> float:
    return meet_area(feature.loop, loop) - sum(meet_area(island, loop) for island in feature.islands)


def _from_above(part: Part) -> Iterator[Ceiling]:
    """Faces that look up, lower than the highest: turned over they hang."""
    top = height(part)
    cuts = [f for f in part.features if f.operation is not Operation.SCORE]
    levels = {r.top for r in part.raised}
    if part.thickness < top - 1e-9:
        over = [r for r in part.raised if r.bottom <= part.thickness < r.top]
        bare = _bare(part.outline, [*(f.loop for f in cuts), *(r.loop for r in over)])
        islands = [i for f in cuts for i in f.islands]
        bare += sum(abs(island.area) for island in islands)
        yield Ceiling(bare, top - part.thickness)
    for feature in cuts:
        if feature.depth is not None:
            yield Ceiling(feature.area, top - part.thickness + feature.depth)
    for level in sorted(levels):
        if level < top - 1e-9:
            standing = [r for r in part.raised if r.top == level]
            over = [r for r in part.raised if r.bottom <= level < r.top]
            yield Ceiling(sum(_top_of(r, over) for r in standing), top - level)


def _top_of(raised: Raised, over: list[Raised]) -> float:
    return _bare(raised.loop, [r.loop for r in over])


def _bare(loop: Loop, covers: list[Loop]) -> float:
    return sum(found.area for found in uncovered(loop, covers))
