"""California Code of Regulations, title 8, section 4300.1, and Washington Administrative Code 296-806-48012: a hood
over the blade rides on the work, or is fixed within 1/4 in of it.

Section 4296 (a) and WAC 296-806-48002, -48012: where the standard guard can't be used, jigs or featherboards, and a
barrier as safe as the guard. 29 CFR 1910.213(c) asks for the hood and gives no figure.
"""

from __future__ import annotations

import pytest
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.lengths.length import Unit, parse_length
from scarfwright.models.lengths.say import say_in
from scarfwright.models.solve import work_out
from scarfwright.models.words.at_the_saw import knife_and_guard

from tests.cut_jobs import raw, worked

QUARTER_INCH = 6.35


@pytest.mark.parametrize(("units", "told"), [("mm", "6 mm"), ("in", "1/4 in")])
def test_a_hood_that_does_not_ride_on_the_work_is_within_a_quarter_inch_of_it(units: Unit, told: str) -> None:
    text = knife_and_guard.guard(work_out(job_from_dict({**raw(), "units": units})).cut.guard, say_in(units))
    assert f"within {told} of it" in text
    assert QUARTER_INCH - 0.5 < parse_length(told) <= QUARTER_INCH


def test_the_hood_must_lift_over_the_higher_of_board_and_sled() -> None:
    """It encloses the blade above the table and above the work: what it rides on is all that goes through."""
    assert worked().cut.guard.over == 60
    assert worked(sled={"plank": ["65 mm", "184 mm"]}).cut.guard.over == 65


def test_where_it_cannot_stay_on_another_guard_and_the_local_rules_are_named() -> None:
    text = knife_and_guard.guard(worked().cut.guard, say_in("mm"))
    assert "a guard on an arm of its own" in text
    assert "local rules" in text
