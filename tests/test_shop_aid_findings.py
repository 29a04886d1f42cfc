"""Shop aids that a job can't use are left out, with a finding; just on the good side of the limit they are made."""

from __future__ import annotations

import math

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.parts import registry
from scarfwright.models.parts.check import check_part
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


def codes(opening: float = 100, length: float = 1500, hand_line: float = 700) -> dict[str, dict[str, object]]:
    job = job_from_text(FULL_SHOP + JOB.format(opening=opening, length=length, hand_line=hand_line))
    return {f.code: dict(f.numbers) for f in work_up(job).findings}


def test_a_wedge_wants_a_clamp_that_opens_for_it() -> None:
    found = codes(opening=51)["nose_wedge.no_grip"]
    needed = float(str(found["needed_mm"]))
    assert needed > 51
    assert "nose_wedge.no_grip" in codes(opening=needed - 0.1)
    assert "nose_wedge.no_grip" not in codes(opening=needed + 0.1)


def test_a_wedge_is_as_long_as_the_fence_leaves_room_for() -> None:
    """Two pads of 25; on a sled of 800 the fence, 450 in front, lets a jaw come 800 - 450 - 1 - 272 = 77 in: all 50.
    Longer than that its clamp would meet the fence."""
    assert "nose_wedge.meets_fence" not in codes(length=800, hand_line=690)
    kind = registry()["nose_wedge"]
    work = work_up(job_from_text(JOB.format(opening=100, length=800, hand_line=690)))
    parameters = kind.from_job(work)
    assert parameters is not None
    assert parameters["length"] == 50
    longer = {**parameters, "length": 120.0}
    (found,) = check_part(kind, work, longer)
    assert found.code == "nose_wedge.meets_fence"
    slant = math.hypot(1, work.way.sled.ratio)
    assert found.numbers["limit_mm"] == pytest.approx(800 - 120 - 12 / slant - 450)


def test_a_stop_sticks_out_of_a_narrow_sled() -> None:
    """The sled is 16.25 mm wide at the nose and a twelfth of a mm wider for each mm towards the heel."""
    kind = registry()["hand_stop"]
    narrow = JOB.replace('"184 mm"', '"160 mm"').replace("[sled]", "[sled]\nnose_min = 5")
    work = work_up(job_from_text(narrow.format(opening=100, length=1500, hand_line=1390)))
    (found,) = check_part(kind, work, {"length": 40.0, "spacing": 20.0})
    assert found.code == "hand_stop.sticks_out"
    width = float(str(found.numbers["width_mm"]))
    assert width < 40
    assert width == pytest.approx(16.2457 + (1500 - 1390) / 12, abs=0.5)
    assert "hand_stop.sticks_out" not in codes(hand_line=900)
