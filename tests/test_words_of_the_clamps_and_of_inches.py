"""Beside the three jobs of words_at_the_saw.py: what the check list says of other clamps, how it reads in inches, the
time of the feed, and the figure that each check turns on.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scarfwright.models.words.at_the_saw.procedure import before_the_cut, cautions, order_of_work
from scarfwright.models.workup import Workup

from tests.words_at_the_saw import expected_checks, work_of

CLAMPS = expected_checks("hold")["Clamps"]
DEEP = " Do not push a clamp down until it bottoms: the blade would reach it sooner."
BAR = "A bar past the fence edge must pass over the fence (65 mm): it is 78 mm up."


def hold(units: str = "mm", **clamp: float) -> Workup:
    """The job that holds at the block, its clamps changed [mm]."""
    work = work_of("hold")
    job = work.job.model_copy(update={"units": units, "clamp": work.job.clamp.model_copy(update=clamp)})
    return replace(work, job=job, way=replace(work.way, job=job))


def check(work: Workup, what: str) -> str:
    (text,) = [one.text for one in before_the_cut(work) if one.what == what]
    return text


@pytest.mark.parametrize(
    ("throat", "bar"),
    [
        (60.0, BAR),
        (47.04, "A bar past the fence edge must pass over the fence (65 mm): it is 65.04 mm up."),
        (47.0, "No bar past the fence edge: 65 mm up, it would meet the fence (65 mm)."),
        (44.0, "No bar past the fence edge: 62 mm up, it would meet the fence (65 mm)."),
    ],
)
def test_whether_a_bar_may_pass_the_fence_edge(throat: float, bar: str) -> None:
    """The pads' lower edge is 38 - 20 above the table, the bar the clamp's throat above that; the fence is 65 high."""
    assert check(hold(throat=throat), "Clamps") == CLAMPS.replace(BAR, bar)


def test_a_clamp_that_bottoms_where_it_is_set_need_not_be_kept_up() -> None:
    """Work 60 high: a throat of 42 bottoms with its pads 18 above the table, one of 42.1 a tenth lower."""
    assert DEEP in check(hold(throat=42.1), "Clamps")
    assert DEEP not in check(hold(throat=42.0), "Clamps")
    assert "each pad 18 mm above the table. Outer jaws" in check(hold(throat=42.0), "Clamps")


def test_jaws_are_told_short() -> None:
    assert "Outer jaws 12.3 mm off the board at most" in check(hold(jaw_outer=12.38), "Clamps")


def test_what_is_loose_ends_at_the_pad_of_the_first_clamp() -> None:
    """The heel clamp's middle is 395 from the heel: half a pad of 31 before it; a pad of 800 leaves nothing loose."""
    work = hold(pad_width=31.0)
    layout = replace(work.way.layout, clamps=tuple(reversed(work.way.layout.clamps)))
    work = replace(work, way=replace(work.way, layout=layout))
    assert "along the 379.5 mm from the heel to the first clamp" in check(work, "Board tight")
    assert check(work, "Feather").startswith("Loose over the 379.5 mm from the heel to the first clamp")
    assert "along the 0 mm from the heel" in check(hold(pad_width=800.0), "Board tight")
    assert "tight, at 837.5 mm, 395 mm from the heel" in check(work, "Clamps")


def test_the_figure_each_check_turns_on() -> None:
    """22 x 60 on a sled of 850 x 38 at 850 / 71, blade 254 raised 66 with a kerf of 2.5."""
    heel = 127.5 - 1.25 * math.hypot(71, 850) / 850
    expected = {
        "Riving knife": 66 - 2, "Guard": 60, "Fence": heel + 0.4, "Fence parallel": 2 * math.sqrt(127**2 - 61**2),
        "Blade height": 66, "Stop block": 1021, "Board upright": 60, "Board tight": 395 - 15, "Clamps": 38 - 20,
        "Outfeed": 0, "Hands": 540,
    }  # fmt: skip
    values = {one.what: one.value for one in before_the_cut(work_of("hold")) if one.value is not None}
    assert values == pytest.approx(expected)
    run_on = {one.what: one.value for one in before_the_cut(work_of("run_on"))}
    assert (run_on["Infeed"], run_on["Outfeed"]) == (860, 53)


INCHES = {
    "Blade height": 'Raise it 2 19/32 in above the table: the board\'s 2 23/64 in and 15/64 in.',
    "Board upright": "Try square from the table, full 2 23/64 in, at the heel and at each clamp.",
    "Hands": "Keep both on your side of the line 21 17/64 in from the heel, to the end of the cut.",
    "Push stick": "Lay one 18 in or longer within reach, for the offcut.",
}  # fmt: skip


def test_in_inches() -> None:
    """66, 60, 6 and 540 mm in 64ths; the time, where teeth and speed are known, to tenths on its safe side."""
    work = hold("in")
    work = replace(work, cut=replace(work.cut, feed=replace(work.cut.feed, time_range=(3.91, 10.39))))
    assert {what: check(work, what) for what in INCHES} == INCHES
    assert cautions(work)[2].startswith("HANDS: keep both on your side of the line 21 17/64 in from the heel.")
    steps = order_of_work(work)
    assert steps[6] == (
        "Press the sled against the fence and down on the table, both hands on your side of the line. Feed steadily, "
        "heel first, 4.0 to 10.3 s to the end of the taper."
    )
    assert steps[10].startswith("Now take the offcut off with a push stick 18 in or longer.")
    assert steps[8].startswith("Stop at the stop block, 8 45/64 in beyond the blade's centre: the taper is complete.")
