"""Stress on the glue plane of a scarf under an axial stress of 1: equilibrium, computed to the digits given.

The same by another route: the stress tensor turned into the plane's frame by matrices.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.strength.slope import plane_stress

# N: shear, normal
TABLE = {8: (0.123077, 0.015385), 10: (0.099010, 0.009901), 12: (0.082759, 0.006897), 20: (0.049875, 0.002494)}


@pytest.mark.parametrize("ratio", TABLE)
def test_table(ratio: int) -> None:
    assert plane_stress(1.0, ratio) == pytest.approx(TABLE[ratio], abs=5e-7)


@given(st.floats(1, 100), st.floats(0.1, 200))
def test_against_the_tensor(ratio: float, axial: float) -> None:
    angle = math.atan(1 / ratio)
    normal = np.array([-math.sin(angle), math.cos(angle)])
    traction = np.array([[axial, 0.0], [0.0, 0.0]]) @ normal
    across = float(traction @ normal)
    along = float(np.linalg.norm(traction - across * normal))
    assert plane_stress(axial, ratio) == pytest.approx((along, across), rel=1e-9)
