"""Rules of thumb of the trade that the formulas must reproduce. Common practice, no source."""

from __future__ import annotations

import pytest
from scarfwright.models.findings import Level
from scarfwright.models.job.file import job_from_text
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import parse_length
from scarfwright.models.sled.sled import from_plank
from scarfwright.models.solve import advised, work_out
from scarfwright.models.workup import Workup

INCH = 25.4

# 60 in of 5 1/2 in plank marked at 4 1/2 in, 3/4 x 2 1/2 in stock, 10 in blade 1/4 in above the work, 1 in pads
# 20 mm high, 1/2 in jaws, 1 1/2 in notches, margin 50 mm, hold
RULE_OF_THUMB = """
units = "in"
[stock]
thickness = "3/4 in"
height = "2 1/2 in"
[joint]
ratio = 16
[saw]
blade_diameter = "10 in"
blade_above_work = "1/4 in"
travel_margin = "50 mm"
end_of_cut = "hold"
[clamp]
pad_width = "1 in"
pad_height = "20 mm"
jaw = "1/2 in"
[sled]
plank = ["1 1/2 in", "5 1/2 in"]
length = "60 in"
round_marks = "1/2 in"
notch_length = "1 1/2 in"
nose_min = "7/8 in"
heel_station = "{station}"
"""


def thumb(station: str) -> Workup:
    return work_out(job_from_text(RULE_OF_THUMB.replace("{station}", station)))


def test_sixty_inches_marked_at_four_and_a_half_is_1_in_17_14() -> None:
    """M = 4 1/2 in is 4 1/2 in from one edge and 1 in from the other: 3 1/2 in in 60."""
    sled = from_plank(5.5 * INCH, 1.5 * INCH, 60 * INCH, 16, INCH / 8, INCH / 2)
    assert sled.mark == pytest.approx(4.5 * INCH)  # the exact mark, 4 5/8 in, is no half inch
    assert sled.ratio == pytest.approx(17.14, abs=0.005)
    assert sled.ratio == pytest.approx(60 / 3.5)


def test_one_in_sixteen_in_three_quarter_stock_is_twelve_inches() -> None:
    assert Joint(16, 0.75, 2.5, 0).overlap == pytest.approx(12.0)


def test_a_sixty_fourth_of_gap_leaves_eleven_and_a_half() -> None:
    joint = Joint(16, 0.75 * INCH, 2.5 * INCH, INCH / 64)
    assert joint.overlap / INCH == pytest.approx(11.50, abs=0.005)


def test_a_heel_notch_at_eighteen_inches_is_safe() -> None:
    codes = [f.code for f in thumb("18 in").findings]
    assert "clamp.meets_blade" not in codes
    assert not [f for f in thumb("18 in").findings if f.level is Level.FAULT]


def test_a_heel_notch_at_fourteen_inches_is_not() -> None:
    work = advised(job_from_text(RULE_OF_THUMB.replace("{station}", "14 in")))
    (found,) = [f for f in work.findings if f.code == "clamp.meets_blade"]
    assert found.level is Level.FAULT
    told = float(str(found.numbers["least_station_mm"])) / INCH
    assert 14 < told < 18
    assert parse_length(found.text.split("Put the heel notch ")[1].split(" from")[0]) >= told * INCH
