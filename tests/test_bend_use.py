"""Use along a curve, and the stretches where a joint may stand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.bending.curve import curve_through, reading_error
from scarfwright.models.bending.use import below, bend_to
from scarfwright.models.strength.wood import Wood

ASH = Wood("ash", rupture=100.0, modulus=12000.0, kind="hardwood")


def arch(radius: float, points: int = 9, chord: float = 2400.0) -> list[tuple[float, float]]:
    half = chord / 2
    stations = [chord * i / (points - 1) for i in range(points)]
    return [(x, math.sqrt(radius**2 - (x - half) ** 2) - math.sqrt(radius**2 - half**2)) for x in stations]


def test_use_of_a_circle_by_hand() -> None:
    """R 3000, 25 deep: stress 12000 x 25 / 6000 = 50 MPa; twice that is all of 100 MPa, and 1 / 0.9 in a joint."""
    bend = bend_to(curve_through(arch(3000.0)), 25.0, ASH, 2.0, 0.9, 240.0, None)
    assert bend.stress == pytest.approx(50.0, rel=1e-6)
    assert bend.strain == pytest.approx(25 / 6000, rel=1e-6)
    assert max(bend.use) == pytest.approx(1.0, rel=1e-6)
    assert max(bend.use_joint) == pytest.approx(1 / 0.9, rel=1e-6)
    assert bend.allowed == ()
    assert bend.least_radius == pytest.approx(3000)
    assert bend.least_radius_joint == pytest.approx(3000 / 0.9)


def test_joints_stand_where_the_bend_is_easy() -> None:
    """y = k x^3 / 6 has the curvature k x (nearly): use in a joint is 1 at x = 2 MOR share / (factor E d k)."""
    k = 7.5e-8
    points = [(x, k * x**3 / 6) for x in (0.0, 250.0, 500.0, 750.0, 1000.0, 1250.0, 1500.0)]
    bend = bend_to(curve_through(points), 80.0, ASH, 2.0, 0.9, 240.0, None)
    limit = 2 * 100 * 0.9 / (2 * 12000 * 80 * k)
    ((low, high),) = bend.allowed
    assert low == 0
    assert high == pytest.approx(limit, rel=0.01)  # slopes up to 0.06: kappa is a little less than y''


def test_a_stretch_too_short_for_a_joint_is_left_out() -> None:
    points = [(x, 3.0e-7 * x**3 / 6) for x in (0.0, 500.0, 1000.0, 1500.0)]
    allowed = bend_to(curve_through(points), 20.0, ASH, 2.0, 0.9, 240.0, None).allowed
    assert allowed
    assert bend_to(curve_through(points), 20.0, ASH, 2.0, 0.9, allowed[0][1] + 1, None).allowed == ()


def test_the_blank_ends_before_the_curve_does() -> None:
    curve = curve_through(arch(9000.0))
    bend = bend_to(curve, 20.0, ASH, 2.0, 0.9, 240.0, 1500.0)
    assert bend.allowed == ((0.0, 1500.0),)


@given(st.lists(st.floats(0, 2), min_size=2, max_size=30), st.floats(0, 35))
def test_below_by_sampling(values: list[float], end: float) -> None:
    """Every stretch is under the limit, and every point under it lies in a stretch: looked at point by point."""
    places = [float(i) for i in range(len(values))]
    found = below(places, values, 1.0, end)
    assert all(a <= b for a, b in found)
    for i in range(20 * (len(values) - 1)):
        s = i / 20
        k = int(s)
        value = values[k] + (s - k) * (values[k + 1] - values[k])
        inside = any(a - 1e-9 <= s <= b + 1e-9 for a, b in found)
        assert inside or value > 1 - 1e-6 or s > end - 1e-9
        assert not inside or value <= 1 + 1e-6


def test_reading_error_follows_the_marks() -> None:
    """Whole millimetres 100 apart: 1/sqrt(12) x sqrt(6) / 100^2."""
    whole = [(0.0, 0.0), (100.0, 7.0), (200.0, 9.0), (300.0, 8.0)]
    assert reading_error(whole) == pytest.approx(math.sqrt(6 / 12) / 100**2)
    inch = [(i * 304.8, y * 25.4 / 16) for i, y in enumerate((0, 5, 9, 11))]
    assert reading_error(inch) == pytest.approx(25.4 / 16 * math.sqrt(0.5) / 304.8**2)
    assert reading_error([(x, y + 0.0371) for x, y in whole]) == 0.0


def test_reading_error_by_drawing_lots() -> None:
    """Offsets of a fair curve rounded to 1 mm: second differences scatter as told."""
    import numpy as np

    rng = np.random.default_rng(1)
    off = rng.uniform(-0.5, 0.5, (20000, 3))
    scatter = float((off[:, 0] - 2 * off[:, 1] + off[:, 2]).std()) / 100**2
    whole = [(0.0, 0.0), (100.0, 7.0), (200.0, 9.0), (300.0, 8.0)]
    assert reading_error(whole) == pytest.approx(scatter, rel=0.02)
