"""The project's own worked case, checked by cutting solids (board, blade with kerf, jaws): every figure.

N 12, t 22, h 60, plank 184 x 38 x 1500, kerf 2.5, gap 0.4, blade 254 standing 6 above the work, web 25, notch 50 x 16,
pads 30 wide 20 high, jaw 12, side clearance 10, margin 50, fence front 450. Printed to 4 decimals unless said.
"""

from __future__ import annotations

import math
from functools import cache

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.sled.layout import slot_jaw
from scarfwright.models.solve import work_out
from scarfwright.models.workup import Workup

TEXT = """
[stock]
thickness = 22
height = 60
[joint]
ratio = 12
[saw]
kerf = 2.5
riving_knife = 2.4
fence_gap = 0.4
blade_diameter = 254
blade_above_work = 6
side_clearance = 10
travel_margin = 50
fence_front = 450
end_of_cut = "{end}"
[clamp]
opening = 60
pad_width = 30
pad_height = 20
jaw = 12
[sled]
plank = [38, 184]
length = 1500
web = 25
notch_length = 50
notch_width = 16
"""


@cache
def case(end: str = "hold") -> Workup:
    return work_out(job_from_text(TEXT.replace("{end}", end)))


def test_theta() -> None:
    assert math.degrees(case().joint.angle) == pytest.approx(4.763642, abs=5e-7)


def test_mark_heel_nose_fence() -> None:
    work = case()
    found = (work.way.sled.mark, work.way.sled.heel, work.way.sled.nose, work.way.fence)
    assert found == pytest.approx((154.5, 153.2457, 28.2457, 153.6457), abs=5e-5)
    assert work.way.sled.ratio == pytest.approx(12, rel=1e-12)  # 154.5 is on a mark: nothing was rounded


def test_tip_taper_run_overlap() -> None:
    joint = case().joint
    assert joint.tip == pytest.approx(0.401386, abs=5e-7)
    assert (joint.taper_run, joint.overlap) == pytest.approx((259.1834, 254.3667), abs=5e-5)


def test_blade_height_and_axis() -> None:
    assert (case().way.blade.height, case().way.blade.axis_depth) == (66, 61)


def test_reach_and_start() -> None:
    blade = case().way.blade
    assert (blade.reach(0), blade.reach(60)) == pytest.approx((111.3912, 38.5746), abs=5e-5)
    assert case().way.travel.start == pytest.approx(-136.3912, abs=5e-5)


def test_travels() -> None:
    t = case().way.travel
    printed = (260.1151, 191.5405, 221.5405, 431.5063)
    assert (t.exit_x, t.offcut_free, t.done, t.clear) == pytest.approx(printed, abs=5e-5)
    assert t.done - t.offcut_free == pytest.approx(30)  # k N: go on so far after the offcut drops


def test_pads() -> None:
    work = case()
    jaw = slot_jaw(work.job, work.way.sled)
    assert jaw.lower_edge == 18
    assert {c.swallowed for c in work.way.layout.clamps} == {42}
    assert work.way.blade.reach(18) == pytest.approx(99.4384, abs=5e-5)


@pytest.mark.parametrize(("station", "limit"), [(400, 276.0932), (450, 326.2347)])
def test_limit_of_a_clamp(station: float, limit: float) -> None:
    work = case()
    found = slot_jaw(work.job, work.way.sled).limit(station, work.joint, work.way.blade)
    assert found == pytest.approx(limit, abs=5e-5)


@pytest.mark.parametrize(("end", "least"), [("hold", 395.4315), ("run_on", 548.5993)])
def test_least_heel_station(end: str, least: float) -> None:
    assert case(end).way.layout.least_station == pytest.approx(least, abs=5e-5)


def test_run_on_lies_wholly_inside_the_blade_plane() -> None:
    """From 548.5993 on nothing of the jaw lies within 10 mm of the blade plane: no limit at all."""
    work = case("run_on")
    jaw = slot_jaw(work.job, work.way.sled)
    assert jaw.limit(548.5994, work.joint, work.way.blade) is None
    just_before = jaw.limit(548.5992, work.joint, work.way.blade)
    assert just_before is not None
    assert just_before < work.way.travel.clear + 50


def test_board_meets_the_fence_line() -> None:
    work = case()
    assert work.way.sled.heel * work.way.sled.ratio - 450 == pytest.approx(1388.948, abs=5e-4)
    assert work.way.board_limit == pytest.approx(1388.948, abs=5e-4)


def test_nose_flat_and_glue_area() -> None:
    work = case()
    assert work.job.saw.kerf * work.way.sled.ratio == pytest.approx(30.0)
    assert (work.way.sled.nose_flat, work.way.sled.flat_step) == pytest.approx((40.0, 40 / 12))  # the pad and 5 a side
    assert work.joint.glue_area == pytest.approx(15_314.9, abs=0.05)


def test_nothing_is_wrong_with_it() -> None:
    """But for the infeed support that a board of usual length needs, and the plank thinner than the board is high."""
    assert [f.code for f in case().findings] == ["support.infeed_needed", "backing.partial"]
