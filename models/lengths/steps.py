"""The steps that sizes in a shop are rounded to, so that a rule shows them; common practice, no source."""

from __future__ import annotations

from scarfwright.models.lengths.length import Unit

SHOP_STEPS: dict[Unit, tuple[float, float]] = {"mm": (10.0, 50.0), "in": (25.4 / 2, 2 * 25.4)}


def fine_step(units: Unit) -> float:
    """For hand lines, stands, boards [mm]: 10 mm, or 1/2 in."""
    return SHOP_STEPS[units][0]


def coarse_step(units: Unit) -> float:
    """For lengths of sleds [mm]: 50 mm, or 2 in."""
    return SHOP_STEPS[units][1]
