"""EN 1870-19:2013 6.3 n): a blade never turns faster than the speed marked on it. Followed by EN ISO 19085-9 (2019,
2024), of which only the scope was read. WAC 296-78-70509 says the same.

HSE's least blade, 0.6 of the largest the saw was made for, needs the saw's largest, which the job doesn't ask: the tool
says nothing of it, and nothing is tested here.
"""

from __future__ import annotations

import pytest
from scarfwright.models.findings import Level

from tests.cut_jobs import of_code, worked


@pytest.mark.parametrize(("rpm", "raised"), [(5999, False), (6000, False), (6001, True)])
def test_never_above_the_speed_marked_on_the_blade(rpm: int, raised: bool) -> None:
    found = of_code(worked(saw={"rpm": rpm, "max_rpm": 6000}), "blade.over_marked_speed")
    assert bool(found) is raised
    assert all(f.level is Level.FAULT for f in found)


def test_a_blade_without_its_marked_speed_is_not_judged() -> None:
    assert not of_code(worked(saw={"rpm": 4000}), "blade.over_marked_speed")
