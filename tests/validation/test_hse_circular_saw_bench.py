"""HSE, "Circular saw bench (Rip saw)", and its sheets WIS16 (rev. 2) and WIS38 (rev. 1), as read in copies.

Push stick 450 mm or more; 1200 mm or more from the spindle to the table's rear edge where somebody takes off; the blade
at rest within 10 s, by a brake if need be. Only what the tool tells of them is asked here.
"""

from __future__ import annotations

import pytest
from scarfwright.models.lengths.length import parse_length
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import support
from scarfwright.models.words.at_the_saw.at_every_cut import push_stick
from scarfwright.models.words.at_the_saw.procedure import order_of_work

from tests.cut_jobs import worked


@pytest.mark.parametrize("units", ["mm", "in"])
def test_push_stick_of_450_mm_or_more(units: str) -> None:
    told = push_stick("mm" if units == "mm" else "in")
    assert 450 <= parse_length(told) < 475


@pytest.mark.parametrize(("back", "told"), [("1199 mm", True), ("1200 mm", False)])
def test_somebody_who_takes_off_only_receives_unless_the_table_is_1200_mm_long(back: str, told: bool) -> None:
    need = worked(saw={"table_back": back}).cut.support
    assert need.short_table is told
    assert ("only receives and never pulls" in support.outfeed(need, say_in("mm"))) is told


def test_run_down_of_10_s_with_a_brake() -> None:
    steps = order_of_work(worked())
    assert sum("10 s or less with a brake (HSE WIS38), longer without" in step for step in steps) == 1


def test_nobody_leaves_the_sled_before_the_blade_is_at_rest() -> None:
    """Switch, then stay, then the offcut: in this order, for every way to end the cut."""
    for end in ("hold", "run_on", "draw_back"):
        steps = order_of_work(worked(saw={"end_of_cut": end}))
        order = ["STOPPED", "never let go", "push stick"]
        places = [next(i for i, step in enumerate(steps) if word in step) for word in order]
        assert places == sorted(places)
        assert len(set(places)) == 3
