"""How far a hood may reach: to the nearest clamp when the cut has ended as asked, not when the taper is complete.

And how high the riving knife may stand: told on the next mark below, never above.
"""

from __future__ import annotations

import math

import pytest
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.lengths.say import say_in
from scarfwright.models.solve import work_out
from scarfwright.models.words.at_the_saw import knife_and_guard
from scarfwright.models.workup import Workup

from tests.cut_jobs import of_code, worked

# told of the run-on job below, whose figures are worked out beside it
TOLD = "reach no further than 102.3 mm from the blade's centre towards you (the nearest clamp)."

KNIFE_TOP = "its top 2 21/32 in above the table or lower (EN 1870-19)."


def run_on(**saw: str) -> Workup:
    return worked(
        saw={"end_of_cut": "run_on", **saw},
        sled={"length": "1000 mm", "heel_station": "565 mm"},
        stock={"length": None},
    )


def by_hand() -> tuple[float, float]:
    """From the axis to the heel clamp with the blade clear, and with the taper complete [mm]: plank 184, mark 133.5."""
    n = 1000 / (2 * 133.5 - 184)
    slant = math.hypot(1, n)
    # the slot lets the clamp slide 25 towards the heel; its fence-side jaw is 25 + 12 deep in the sled
    corner = (565 - 25) * n / slant - (25 + 12) / slant
    exit_x = 22 * slant - 0.4 * n
    at_table, at_top = math.sqrt(127**2 - 61**2), math.sqrt(127**2 - 121**2)
    return corner - (exit_x + at_table + 5 * n), corner - (exit_x - at_top)


def test_run_on_the_hood_has_what_is_left_when_the_blade_is_clear() -> None:
    hood = run_on().cut.guard
    clear, done = by_hand()
    assert hood.free_ahead == pytest.approx(clear, abs=1e-6)
    assert done - clear > 200  # so the other end of the cut would be seen
    assert 0 <= clear - 102.3 < 0.1
    assert TOLD in knife_and_guard.guard(hood, say_in("mm"))


@pytest.mark.parametrize("end", ["hold", "draw_back"])
def test_held_or_drawn_back_it_has_what_is_left_when_the_taper_is_complete(end: str) -> None:
    work = worked(saw={"end_of_cut": end}, sled={"length": "1000 mm", "heel_station": "565 mm"}, stock={"length": None})
    assert work.cut.guard.free_ahead == pytest.approx(by_hand()[1], abs=1e-6)


def test_the_users_own_hood_passes_just_so_far() -> None:
    clear, _ = by_hand()
    for front, passes in ((clear - 0.1, True), (clear + 0.1, False)):
        work = run_on(guard_height="60 mm", guard_front=f"{front:.3f} mm")
        assert work.cut.guard.passes is passes
        assert bool(of_code(work, "guard.cannot_pass")) is not passes
    assert run_on(guard_height="59.9 mm", guard_front="50 mm").cut.guard.passes is False


def test_the_knifes_top_is_told_on_the_mark_below() -> None:
    """Blade raised 2 1/2 in and 1/4 in, the knife 2 mm lower: 2.6713 in, between 170/64 and 171/64."""
    stock = {"thickness": "3/4 in", "height": "2 1/2 in"}
    found = {"units": "in", "stock": stock, "joint": {"ratio": 14}, "saw": {"end_of_cut": "run_on"}}
    knife = work_out(job_from_dict(found)).cut.knife
    top = 2.75 - 2 / 25.4
    assert 170 / 64 < top < 171 / 64
    assert top - 170 / 64 > 0.5 / 64  # so the nearest mark is the one above
    assert knife.top == pytest.approx(top * 25.4)
    assert knife_and_guard.knife(knife, say_in("in")).endswith(KNIFE_TOP)
