"""Rules of thumb about the cut itself that the numbers must reproduce. Common practice, no source."""

from __future__ import annotations

import pytest
from scarfwright.models.findings import Level
from scarfwright.models.job.file import job_from_text
from scarfwright.models.solve import work_out

INCH = 25.4
# 3/4 x 2 1/2 in stock at about 1 in 17 with a 10 in blade 1/4 in above it, sled of 5 1/2 in plank
JOB = """
units = "in"
[stock]
thickness = "3/4 in"
height = "2 1/2 in"
[joint]
ratio = 16
[saw]
end_of_cut = "{end}"
[clamp]
opening = "3 in"
jaw = "1/2 in"
[sled]
plank = ["1 1/2 in", "5 1/2 in"]
length = "{length}"
round_marks = "1/2 in"
notch_length = "1 1/2 in"
nose_min = "7/8 in"
heel_station = "{station}"
"""


@pytest.mark.parametrize(("station", "safe"), [("18 in", True), ("14 in", False)])
def test_hold_is_possible_with_a_notch_at_18_in_and_not_at_14(station: str, safe: bool) -> None:
    work = work_out(job_from_text(JOB.format(end="hold", length="60 in", station=station)))
    hold, _, _ = work.cut.advice.endings
    assert hold.possible is safe
    assert 14 * INCH < hold.least_station <= 18 * INCH


def test_a_sled_of_five_feet_serves_every_ending() -> None:
    """Sleds are about 5 ft long: that is what running on takes, with a board of any length."""
    for end in ("hold", "run_on", "draw_back"):
        work = work_out(job_from_text(JOB.format(end=end, length="60 in", station="auto")))
        assert not [f.code for f in work.findings if f.level is Level.FAULT]
        (asked,) = [e for e in work.cut.advice.endings if e.asked]
        assert asked.possible
        assert 27 * INCH < asked.least_length < 60 * INCH


def test_the_fence_stands_a_64th_over_the_heel() -> None:
    work = work_out(job_from_text(JOB.format(end="hold", length="60 in", station="auto")))
    assert work.way.fence - work.way.sled.heel == pytest.approx(INCH / 64)
