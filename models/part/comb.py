"""A comb: a plate with slots open at its lower edge, for forks that are slid over wood.

 ____________________________   y = depth + back
|                            |
|__   __    __     __      __|
|  | |  |  |  |   |  |    |  |   slots `depth` deep
|__| |__|  |__|   |__|    |__|   y = 0
"""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.flat.loop import Loop, Point, polygon


def comb(slots: Sequence[float], depth: float, wall: float, back: float) -> Loop:
    """The outline, counter-clockwise from the origin.

    slots: their widths from left to right [mm]; depth: of the slots [mm]; wall: between and beside them [mm];
    back: plate above the slots [mm]
    """
    points: list[Point] = [(0.0, 0.0)]
    x = 0.0
    for width in slots:
        x += wall
        points += [(x, 0.0), (x, depth), (x + width, depth), (x + width, 0.0)]
        x += width
    right = x + wall
    return polygon([*points, (right, 0.0), (right, depth + back), (0.0, depth + back)])


def comb_width(slots: Sequence[float], wall: float) -> float:
    """Overall width [mm]."""
    return sum(slots) + wall * (len(slots) + 1)


def slot_middles(slots: Sequence[float], wall: float) -> list[float]:
    """x of the middle of each slot [mm]."""
    found, x = [], 0.0
    for width in slots:
        x += wall
        found.append(x + width / 2)
        x += width
    return found
