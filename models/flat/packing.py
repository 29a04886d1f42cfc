"""Rectangles side by side on a bed or a sheet: the one door to the packing library (rpack, optimal for one bed).

Nothing is random: the same rectangles in the same order give the same places. All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from scarfwright.models.flat.loop import Point

UNIT = 0.01  # the library counts in whole numbers; sizes are rounded up to this [mm]


def fit(sizes: Sequence[tuple[float, float]], length: float, width: float, spacing: float) -> list[Point] | None:
    """Lower left corners of rectangles on one bed from (0, 0) to (length, width), `spacing` apart; None if they don't
    all go."""
    import rpack

    if any(side > bed + 1e-6 for size in sizes for side, bed in zip(size, (length, width), strict=True)):
        return None
    # every rectangle carries its spacing on its right and upper side
    room_x, room_y = (math.floor((bed + spacing) / UNIT + 1e-6) for bed in (length, width))
    # one as large as the bed must not be rounded out of it
    steps = [(min(_whole(x + spacing), room_x), min(_whole(y + spacing), room_y)) for x, y in sizes]
    if sum(x * y for x, y in steps) > room_x * room_y:
        return None
    try:
        corners = rpack.pack(steps, max_width=room_x, max_height=room_y)
    except rpack.PackingImpossibleError:
        return None
    return [(x * UNIT, y * UNIT) for x, y in corners]


def _whole(size: float) -> int:
    return math.ceil(size / UNIT - 1e-6)
