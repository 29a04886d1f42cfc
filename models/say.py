"""How numbers read in sentences, in the job's units."""

from __future__ import annotations

from collections.abc import Callable

from scarfwright.models.joint import degrees
from scarfwright.models.units import Unit, show

Say = Callable[[float], str]


def say_in(units: Unit) -> Say:
    """A function that shows a length in mm in the job's units."""
    return lambda mm: show(mm, units)


def slope(ratio: float) -> str:
    """A slope in both forms, always: "1 in 12 (4.76 degrees)"."""
    return f"1 in {ratio:.2f}".rstrip("0").rstrip(".") + f" ({degrees(ratio):.2f} degrees)"
