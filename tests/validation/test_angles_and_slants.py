"""Angle and slant length of slopes 1 in N: exact plane geometry, computed to the digits printed in the sources.

theta = atan(1/N); slant / thickness = sqrt(N^2 + 1).
"""

from __future__ import annotations

import math

import pytest
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.say import slope
from scarfwright.models.lengths.slopes import degrees, ratio_of_degrees

# N: degrees to 4 places, slant length / thickness to 5
TABLE = {8: (7.1250, 8.06226), 10: (5.7106, 10.04988), 12: (4.7636, 12.04159), 15: (3.8141, 15.03330),
         20: (2.8624, 20.02498)}  # fmt: skip


@pytest.mark.parametrize("ratio", TABLE)
def test_angle(ratio: int) -> None:
    angle = TABLE[ratio][0]
    assert degrees(ratio) == pytest.approx(angle, abs=5e-5)
    assert math.degrees(Joint(ratio, 20, 60, 0.4).angle) == pytest.approx(angle, abs=5e-5)
    assert ratio_of_degrees(angle) == pytest.approx(ratio, rel=2e-5)  # half of the last printed digit


@pytest.mark.parametrize("ratio", TABLE)
def test_slant_length(ratio: int) -> None:
    """With no gap the glue face of a joint of thickness 1 and height 1 has the slant length as its area."""
    assert Joint(ratio, 1, 1, 0).glue_area == pytest.approx(TABLE[ratio][1], abs=5e-6)


def test_one_in_ten_is_not_ten_degrees() -> None:
    """Common practice, no source: people mix the two up, so both are always shown."""
    assert slope(10) == "10:1, 5.71°"
    assert slope(12.5) == "12.5:1, 4.57°"
    assert ratio_of_degrees(10) == pytest.approx(5.67, abs=0.005)
