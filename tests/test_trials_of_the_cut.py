"""Jobs that showed something wrong about the cut; the head of each says what is wanted. One row a wish."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from scarfwright.models.findings import Level
from scarfwright.models.job.file import job_from_text
from scarfwright.models.lengths.say import say_in
from scarfwright.models.solve import work_out
from scarfwright.models.words.at_the_saw import feed
from scarfwright.models.words.at_the_saw.procedure import cautions
from scarfwright.models.workup import Workup

TRIALS = Path(__file__).parent / "trials"


def levels(work: Workup) -> dict[str, Level]:
    return {f.code: f.level for f in work.findings}


def rim_is_a_fault(work: Workup) -> bool:
    return levels(work).get("blade.rim_too_fast") is Level.FAULT


def no_feed_faster_than_a_hand(work: Workup) -> bool:
    """254 mm of 24 teeth at 30000 a minute: at 5 m/min each tooth cuts 0.007 mm, and no time is told."""
    one = work.cut.feed
    told = feed.feed(one, say_in("mm"))
    return one.time_range is None and "rubs" in told and "from first touch" not in told


def a_hand_tips_it(work: Workup) -> bool:
    """5 N on the far handle lift this sled: support is asked for, and the stand is beyond the handle at the start."""
    stand, edge = work.cut.support.stand, work.way.travel.start + float(work.job.saw.table_front)
    asked = levels(work).get("support.infeed_needed") is Level.CAUTION and "INFEED" in cautions(work)[0]
    return asked and stand is not None and stand.nearest >= work.cut.support.handle - edge


WANTED: list[tuple[str, Callable[[Workup], bool]]] = [
    ("arbor-too-fast", rim_is_a_fault),
    ("arbor-too-fast", no_feed_faster_than_a_hand),
    ("light-board", a_hand_tips_it),
]


@pytest.mark.parametrize(("name", "wanted"), WANTED, ids=lambda v: v if isinstance(v, str) else v.__name__)
def test_what_the_trial_wants(name: str, wanted: Callable[[Workup], bool]) -> None:
    assert wanted(work_out(job_from_text((TRIALS / f"{name}.toml").read_text())))
