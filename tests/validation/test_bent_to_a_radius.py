"""Laminating and bending to a radius.

Curvature factor 1 - 2000 (t/R)^2: National Design Specification 5.3.8 (formula seen), figures computed; its limits
R/t 100 and 125 from memory, high. DIN 1052-1:1988: 6.60 m for 33 mm, 200 t (seen, quoted by a glulam association).
Stress of a straight stick bent to R: E t / (2 R), computed.
"""

from __future__ import annotations

import pytest
from scarfwright.models.bending.laminations import TIGHT, curvature_factor, laminate, thickest_lamination
from scarfwright.models.bending.use import bend_stress, least_radius, use_of
from scarfwright.models.strength.wood import Wood

INCH = 25.4
SOFT = Wood("soft", rupture=70.0, modulus=10800.0, kind="softwood")
HARD = Wood("hard", rupture=103.0, modulus=12000.0, kind="hardwood")


@pytest.mark.parametrize(
    ("thickness", "radius", "factor"),
    [(1, 100, 0.8), (1, 125, 0.872), (INCH / 4, 36 * INCH, 0.903549), (0.75 * INCH, 84 * INCH, 0.840561)],
)
def test_curvature_factor(thickness: float, radius: float, factor: float) -> None:
    assert curvature_factor(thickness, radius) == pytest.approx(factor, abs=5e-7)


def test_straight_stick_bent_to_125_thicknesses() -> None:
    assert bend_stress(SOFT, 1.0, 1 / 125) == pytest.approx(43.2)


def test_tight_begins_at_two_hundred_thicknesses() -> None:
    assert pytest.approx(6600 / 33) == TIGHT


def test_laminations_keep_to_the_limits() -> None:
    """Strong, limber wood is held by R/t alone; a factor of 2 and 0.9 share ask 2 E / (2 MOR share) = 171 R/t."""
    limber = Wood("limber", rupture=500.0, modulus=10000.0, kind="hardwood")
    assert 1000 / thickest_lamination(limber, 1000, 2.0, 0.9) == pytest.approx(100)
    limber_soft = Wood("limber", rupture=500.0, modulus=10000.0, kind="softwood")
    assert 1000 / thickest_lamination(limber_soft, 1000, 2.0, 0.9) == pytest.approx(125)
    assert 1000 / thickest_lamination(SOFT, 1000, 2.0, 0.9) == pytest.approx(10800 / (70 * 0.9))


@pytest.mark.parametrize("wood", [SOFT, HARD])
@pytest.mark.parametrize("radius", [700.0, 2000.0, 9000.0])
def test_fewest_laminations(wood: Wood, radius: float) -> None:
    found = laminate(45.0, wood, radius, 2.0, 0.9)
    assert found.count * found.thickness == pytest.approx(45.0)
    assert use_of(wood, found.thickness, 1 / radius, 2.0, 0.9) <= 1 + 1e-9
    if found.count > 1:
        thicker = 45.0 / (found.count - 1)
        limit = 100 if wood.kind == "hardwood" else 125
        assert use_of(wood, thicker, 1 / radius, 2.0, 0.9) > 1 or radius / thicker < limit


def test_least_radius_uses_up_the_strength() -> None:
    radius = least_radius(HARD, 20.0, 2.0, 0.9)
    assert radius == pytest.approx(2 * 12000 * 20 / (2 * 103 * 0.9))
    assert use_of(HARD, 20.0, 1 / radius, 2.0, 0.9) == pytest.approx(1.0)
