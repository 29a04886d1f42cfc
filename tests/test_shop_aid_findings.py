"""Shop aids that a job can't use are left out, with a finding; just on the good side of the limit they are made."""

from __future__ import annotations

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.solve import work_up

from tests.shops import FULL_SHOP

JOB = """
[stock]
thickness = 22
height = 60
[joint]
ratio = 12
[saw]
kerf = 2.5
plate = 1.8
riving_knife = 2.2
[clamp]
opening = {opening}
[sled]
plank = ["38 mm", "184 mm"]
length = {length}
hand_line = {hand_line}
"""


def codes(opening: float = 100, length: float = 1500, hand_line: float = 600) -> dict[str, dict[str, object]]:
    job = job_from_text(FULL_SHOP + JOB.format(opening=opening, length=length, hand_line=hand_line))
    return {f.code: dict(f.numbers) for f in work_up(job).findings}


def test_a_wedge_wants_a_clamp_that_opens_for_it() -> None:
    found = codes(opening=51)["nose_wedge.no_grip"]
    needed = float(str(found["needed_mm"]))
    assert needed > 51
    assert "nose_wedge.no_grip" in codes(opening=needed - 0.1)
    assert "nose_wedge.no_grip" not in codes(opening=needed + 0.1)


def test_a_stop_wants_a_hand_line_on_the_sled() -> None:
    assert "hand_stop.no_line" in codes(hand_line=1600)
    assert "hand_stop.no_line" not in codes(hand_line=900)


def test_a_stop_sticks_out_of_a_narrow_sled() -> None:
    """The sled is 28.25 mm wide at the nose and a twelfth of a mm wider for each mm towards the heel."""
    found = codes(hand_line=1440)["hand_stop.sticks_out"]
    width = float(str(found["width_mm"]))
    stop = float(str(found["stop_mm"]))
    assert width < stop
    assert width == pytest.approx(28.2457 + (1500 - 1440) / 12, abs=3.0)
    assert "hand_stop.sticks_out" not in codes(hand_line=900)
