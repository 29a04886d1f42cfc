"""Thin or steep stock: the cut is over before the heel gets to the blade's centre, or the clamps run past the blade.
No figure that is read at the saw stands below nothing then."""

from __future__ import annotations

import re
from typing import Any

import pytest
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import endings
from scarfwright.models.words.at_the_saw.procedure import before_the_cut, order_of_work
from scarfwright.models.words.the_book.of_the_saw import travel_figures
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Text
from scarfwright.outputs.narrow.endings import ending_scenes
from scarfwright.outputs.setup_card import texts as card

from tests.cut_jobs import worked

BELOW = re.compile(r"(?<![\w.:])[-\u2212]\d")
# 5 at slope 8: the blade leaves the board 37.1 from the heel, and at its top reaches 49.4 ahead of its centre
THIN: dict[str, Any] = {
    "stock": {"thickness": "5 mm", "height": "40 mm", "finished_thickness": None},
    "joint": {"ratio": 8},
    "saw": {"blade_above_work": "10 mm", "kerf": "2.8 mm"},
    "sled": {"round_marks": 0},
}
STEEP: dict[str, Any] = {
    "stock": {"thickness": "20 mm", "height": "45 mm", "finished_thickness": None},
    "joint": {"ratio": 5},
    "saw": {"end_of_cut": "run_on"},
    "clamp": {"opening": "120 mm"},
    "sled": {"plank": ["45 mm", "220 mm"], "length": "800 mm"},
}


JOBS = {"thin": THIN, "steep": STEEP, "thin, too far in": {**THIN, "sled": {"heel_station": "60 mm"}}}


def told(work: Workup) -> list[str]:
    say, advice = say_in(work.job.units), work.cut.advice
    found = [f.text for f in work.findings] + [c.text for c in before_the_cut(work)] + list(order_of_work(work))
    found += [endings.limit(advice, say), endings.start(advice.start, say)]
    found += [endings.why(e, say) for e in advice.endings]
    for figure in travel_figures(work):
        found += [figure.value, figure.origin.text]
    drawn = [*card.endings(work, (0.0, 0.0, 250.0, 40.0)), *(i for s in ending_scenes(work) for i in s.sheet.items)]
    return found + [item.text for item in drawn if isinstance(item, Text)]


@pytest.mark.parametrize("name", JOBS)
def test_nothing_read_at_the_saw_is_below_nothing(name: str) -> None:
    every = told(worked(**JOBS[name]))
    assert len(every) > 40
    assert [text for text in every if BELOW.search(text)] == []


def test_a_cut_that_is_over_before_the_centre_is_told_from_there() -> None:
    """The blade leaves the face 5 sqrt(65) - 0.4 x 8 = 37.11 from the heel; at the board's top, 40 + 77 above its
    centre, it reaches sqrt(127^2 - 117^2) = 49.40 ahead: the heel is 12.3 short of the centre, the block 12."""
    work = worked(**THIN)
    assert work.way.travel.done == pytest.approx(37.1113 - 49.3964, abs=1e-3)
    every = told(work)
    assert any("The cut is over with the heel 12.3 mm short of the blade's centre" in text for text in every)
    assert any("Stop at the stop block, 12 mm short of the blade's centre" in text for text in every)
    assert any("(12 mm short of the blade's centre)" in text for text in every)


def test_a_guard_where_the_clamps_run_past_the_blade() -> None:
    work = worked(**STEEP)
    free = work.cut.guard.free_ahead
    assert free is not None
    assert free < 0
    (guard,) = [c.text for c in before_the_cut(work) if c.what == "Guard"]
    assert f"the nearest is {say_in('mm').up(-free)} past the blade's centre" in guard
    assert "reach no further" not in guard
