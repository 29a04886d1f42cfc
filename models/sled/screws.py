"""Screws that hold two pieces of wood together: how long, and where there is wood for them. All lengths mm.

How deep a screw should bite and how much wood stays round it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.room import Capsule, between, inside_by

DIAMETER = 4.5
COUNTERSUNK = 3.0  # the head of such a screw lies this deep in the face it goes in at
CLEAR = 10.0  # wood between a screw and any edge, notch, hole or kerf
BITE = 10.0  # least depth in the second piece
LEAST_ABOVE = 2.0  # wood left over the point in a thin piece


@dataclass(frozen=True)
class ScrewLength:
    """Length of a screw, from `least` to `most`, its head `sunk` below the face it goes in at."""

    least: float
    most: float
    sunk: float = COUNTERSUNK


def screw_length(through: float, into: float) -> ScrewLength | None:
    """For a screw through a piece `through` thick into one `into` thick; None where that is too thin for it.

    The point lies from through + 10 to through + into - 10 beyond the face; in a piece under 20 mm the wood that is
    left over the bite is shared with what stays above the point.
    """
    above = min(CLEAR, (into - BITE) / 2)
    if above < LEAST_ABOVE:
        return None
    return ScrewLength(through + BITE - COUNTERSUNK, through + into - above - COUNTERSUNK)


def has_wood(at: Point, corners: list[Point], openings: Sequence[Capsule]) -> bool:
    """Whether a screw there keeps its distance from every edge, notch and hole."""
    screw = Capsule(at, at, DIAMETER / 2)
    return all(between(screw, other) >= CLEAR for other in openings) and inside_by(screw, corners) >= CLEAR
