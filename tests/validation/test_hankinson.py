"""Hankinson's formula, Q/P 0.04 and exponent 2 (Wood Handbook ch. 5): figures computed for grain that runs out 1 in N.

The handbook's own row for bending, 96/93/89/81/55 %, is from memory: compared as a range.
"""

from __future__ import annotations

import pytest
from scarfwright.models.strength.grain import MOST_RUN_OUT, grain_share

COMPUTED = {25: 0.963, 20: 0.944, 15: 0.904, 10: 0.808, 5: 0.520}
HANDBOOK = {25: 0.96, 20: 0.93, 15: 0.89, 10: 0.81, 5: 0.55}


@pytest.mark.parametrize("run_out", COMPUTED)
def test_computed(run_out: int) -> None:
    assert grain_share(run_out) == pytest.approx(COMPUTED[run_out], abs=5e-4)


@pytest.mark.parametrize("run_out", HANDBOOK)
def test_near_the_handbook(run_out: int) -> None:
    assert grain_share(run_out) == pytest.approx(HANDBOOK[run_out], abs=0.035)


def test_most_run_out_is_that_of_ac_43_13() -> None:
    """FAA AC 43.13-1B Table 1-1 and 1-39: 1 in 15."""
    assert MOST_RUN_OUT == 15
