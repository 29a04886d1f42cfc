"""Slopes and angles: 1 in N, and the degrees people mix it up with. Plane trigonometry."""

from __future__ import annotations

import math


def degrees(ratio: float) -> float:
    """The angle of a slope of 1 in `ratio` [degrees]: 1 in 10 is 5.71."""
    return math.degrees(math.atan(1 / ratio))


def ratio_of_degrees(angle: float) -> float:
    """N of the slope that has this angle [degrees]."""
    return 1 / math.tan(math.radians(angle))
