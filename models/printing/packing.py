"""Rectangles arranged on as few beds as will do, none over another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

STEP = 0.01  # sizes are rounded up to this [mm]: the packer counts in whole steps


class Spot(NamedTuple):
    """Where rectangle `item` goes: bed number, its lower left corner [mm], and whether it is turned a quarter."""

    item: int
    bed: int
    x: float
    y: float
    turned: bool


def pack(sizes: Sequence[tuple[float, float]], bed_x: float, bed_y: float, spacing: float) -> list[Spot]:
    """Places for all rectangles, `spacing` [mm] apart, in the order given.

    Parameters: sizes, length and width of each [mm]; bed_x, bed_y [mm].
    Large ones are placed first, each on the first bed that takes it, turned a quarter where only that goes.
    Raises ValueError if one does not go on an empty bed.
    """
    beds: list[_Bed] = []
    order = sorted(range(len(sizes)), key=lambda i: (-max(sizes[i]), -min(sizes[i]), i))
    for index in order:
        for turned in (False, True):
            size = sizes[index][::-1] if turned else sizes[index]
            if any(bed.take(index, size, turned) for bed in beds):
                break
        else:
            bed = _Bed(bed_x, bed_y, spacing)
            if not any(bed.take(index, sizes[index][::-1] if t else sizes[index], t) for t in (False, True)):
                long, wide = sizes[index]
                raise ValueError(f"{long:g} by {wide:g} does not go on a bed of {bed_x:g} by {bed_y:g}")
            beds.append(bed)
    spots = [spot for number, bed in enumerate(beds) for spot in bed.spots(number)]
    return sorted(spots, key=lambda spot: spot.item)


class _Bed:
    """A bed being filled; every rectangle carries its share of the spacing on its right and upper side."""

    def __init__(self, bed_x: float, bed_y: float, spacing: float) -> None:
        self.bed = (bed_x, bed_y)
        self.spacing = math.ceil(spacing / STEP - 1e-6)
        self.room = (math.floor(bed_x / STEP + 1e-6) + self.spacing, math.floor(bed_y / STEP + 1e-6) + self.spacing)
        self.held: list[tuple[int, tuple[int, int], bool]] = []
        self.corners: list[tuple[int, int]] = []

    def take(self, index: int, size: tuple[float, float], turned: bool) -> bool:
        """Whether the rectangle finds room with all that is there already; if so it is kept."""
        import rpack

        if any(side > bed + 1e-6 for side, bed in zip(size, self.bed, strict=True)):
            return False
        # one as large as the bed must not be rounded out of it
        steps = [min(math.ceil(s / STEP - 1e-6) + self.spacing, room) for s, room in zip(size, self.room, strict=True)]
        trial = [*self.held, (index, (steps[0], steps[1]), turned)]
        if sum(a * b for _, (a, b), _ in trial) > self.room[0] * self.room[1]:
            return False
        try:
            corners = rpack.pack([s for _, s, _ in trial], max_width=self.room[0], max_height=self.room[1])
        except rpack.PackingImpossibleError:
            return False
        self.held, self.corners = trial, corners
        return True

    def spots(self, number: int) -> list[Spot]:
        return [
            Spot(index, number, x * STEP, y * STEP, turned)
            for (index, _, turned), (x, y) in zip(self.held, self.corners, strict=True)
        ]
