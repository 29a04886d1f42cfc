"""Edge cases of the clamps' limits that a random search seldom meets, each by hand."""

from __future__ import annotations

import math

import pytest
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.blade import Blade, Jaw


def test_a_bar_just_as_high_as_the_blade_rides_over_it() -> None:
    joint, blade = Joint(12, 22, 60, 0.4), Blade(254, 2.5, 66, 0.4)
    assert Jaw(66.0, 25, 12, 10, bar_edge=66.0).least_station(500, joint, blade) == 25
    assert Jaw(66.0, 25, 12, 10, bar_edge=65.9).least_station(500, joint, blade) > 100
    assert Jaw(66.0, 25, 12, 10, bar_edge=66.0).limit(0, joint, blade) is None


def test_on_steep_stock_the_blade_plane_and_not_the_jaws_corner_sets_the_station() -> None:
    """1 in 2: the corner at the work's face lies beyond the plane by 1, between t cos and t / cos.

    A jaw of no clearance begins at u; its first point beyond the plane (Y = heel + gap) stands where the plane's line
    crosses the jaw's end, v = (gap + u sin) / cos, so X = u cos + v sin = u / cos + gap sin / cos.
    """
    joint, blade = Joint(2, 22, 60, 0.4), Blade(254, 2.5, 66, 0.4)
    sin, cos = 1 / math.sqrt(5), 2 / math.sqrt(5)
    u = (22 * cos + 1.0 - 0.4) / sin
    assert 22 < (0.4 + u * sin) / cos < 22 + 12  # within the jaw, beyond its corner
    front = u / cos + 0.4 * sin / cos
    travel = front - math.sqrt(127**2 - (10 + 61) ** 2)
    jaw = Jaw(10.0, 25, 12, 0.0)
    assert jaw.least_station(travel, joint, blade) == pytest.approx(u + 25)
    assert jaw.limit(u + 25, joint, blade) == pytest.approx(travel)


def test_a_bar_that_meets_the_blade_over_the_work_counts() -> None:
    """1 in 2, the bar only 2 over the pads' lower edge: it crosses the plane 5 inside the work's face, before the jaw.

    Its limit is u cos + v sin - f(12) with v = 17, the jaw's u cos + 22 sin - f(10), which is later.
    """
    joint, blade = Joint(2, 22, 60, 0.4), Blade(254, 2.5, 66, 0.4)
    sin, cos = 1 / math.sqrt(5), 2 / math.sqrt(5)
    u = (17 * cos - 0.4) / sin
    at_bar = u * cos + 17 * sin - math.sqrt(127**2 - (12 + 61) ** 2)
    at_jaw = u * cos + 22 * sin - math.sqrt(127**2 - (10 + 61) ** 2)
    assert at_bar < at_jaw - 0.5
    assert Jaw(10.0, 25, 12, 0.0, bar_edge=12.0).limit(u + 25, joint, blade) == pytest.approx(at_bar)
    assert Jaw(10.0, 25, 12, 0.0).limit(u + 25, joint, blade) == pytest.approx(at_jaw)


def test_half_a_millimetre_of_jaw_beyond_the_plane_counts() -> None:
    """1 in 12, clearance 10: where the plane less 10 crosses the jaw's end 33.5 out, of 34."""
    joint, blade = Joint(12, 22, 60, 0.4), Blade(254, 2.5, 66, 0.4)
    sin, cos = 1 / math.hypot(1, 12), 12 / math.hypot(1, 12)
    u = (33.5 * cos - (0.4 - 10)) / sin
    met = u * cos + 33.5 * sin - math.sqrt(127**2 - (10 + 61) ** 2)
    assert Jaw(10.0, 25, 12, 10).limit(u + 25, joint, blade) == pytest.approx(met)
    assert Jaw(10.0, 25, 11.4, 10).limit(u + 25, joint, blade) is None
