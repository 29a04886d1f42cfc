"""What is said while the cut is moved along on a screen: each moment's sentence whole, what the views show, and where
the heel is in words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scarfwright.models.cut.endings import Bound
from scarfwright.models.cut.moments import Moment, Passage, Stretch
from scarfwright.models.findings import Level
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import endings, moments, place
from scarfwright.models.workup import Workup

from tests.words_at_the_saw import work_of

MM = say_in("mm")
HEEL = Bound("heel", 394.98, 271.18, "blade")
FLAT = Bound("nose_flat", 837.46, 359.0, "fence")
TAIL = Bound("board", None, 0.0, "fence", sure=False)
FREE = Moment("offcut_free", -12.34)
WHOLE = Passage(-137.42, 271.18, 221, HEEL, (Moment("start", -137.42), FREE, Moment("done", 220.93)), ())
KICKBACK = "KICKBACK: if anything is not as it should be, hold and switch off instead."
STEADY = "The blade is in the board. Feed steadily, the sled against the fence and down on the table."
SWITCH = "switch off by knee or helper, and wait until the blade has STOPPED."


def said(kind: str, cut: Passage = WHOLE, job: str = "hold", units: Unit = "mm", clearance: float | None = None) -> str:
    work = work_of(job)
    saw = work.job.saw if clearance is None else work.job.saw.model_copy(update={"side_clearance": clearance})
    changed: Workup = replace(work, job=work.job.model_copy(update={"units": units, "saw": saw}))
    return moments.told(changed, cut, Stretch(kind, -137.42, -90.11, Level.NOTE, 12.93))


def test_moments_before_and_in_the_board() -> None:
    assert said("before") == (
        "Start with the heel 137.4 mm short of the blade's centre, the blade at full speed, touching nothing. It meets "
        "the board 47.3 mm further on."
    )
    assert said("cutting") == f"{STEADY} The offcut comes free with the heel 12.3 mm short of the blade's centre."
    late = replace(WHOLE, moments=(Moment("start", -137.42), Moment("offcut_free", 0.0)))
    assert said("cutting", late) == f"{STEADY} The offcut comes free with the heel 0 mm past the blade's centre."
    none = replace(WHOLE, moments=(Moment("start", -137.42), Moment("done", 220.93)))
    assert said("cutting", none) == f"{STEADY} There is no offcut: the kerf is as wide as the board is thick."


@pytest.mark.parametrize(("job", "free"), [("hold", "left"), ("draw_back", "right")])
def test_moment_with_a_lip_left(job: str, free: str) -> None:
    assert said("lip", job=job) == (
        "The offcut is free, the taper is not complete: keep pushing 13 mm. A lip up to 2.5 mm thick still stands on "
        f"the board. Leave the offcut where it fell, on the {free}."
    )


def test_moments_at_the_end() -> None:
    block = "stop block, 221 mm past the blade's centre"
    assert said("blade_in_taper", job="run_on") == (
        f"The taper is complete, the blade still runs beside it. Push on in one go to the {block}; never stop or draw "
        "back here."
    )
    assert said("at_block", job="run_on") == (
        f"The blade is clear of the taper. Hold the sled down and against the {block}, {SWITCH}"
    )
    assert said("at_block") == f"The taper is complete. Hold the sled down and against the {block}, {SWITCH}"
    assert said("at_block", job="draw_back") == (
        f"The taper is complete. Stop at the {block}, then draw straight back along the fence until the blade is free "
        f"of the work. {KICKBACK}"
    )
    short = replace(WHOLE, block=-12.0)
    assert "against the stop block, 12 mm short of the blade's centre, switch" in said("at_block", short)


def test_moments_past_the_end() -> None:
    assert said("past_block") == (
        "Past the end of the cut: only a sled that the stop block does not hold gets here. The heel clamp at 395 mm "
        "meets the blade at 271.1 mm of travel."
    )
    limit = "The travel limit. Never push so far: here the {} at {} {}."
    assert said("at_limit") == limit.format("heel clamp", "395 mm", "comes within 10 mm of the blade")
    assert said("at_limit", clearance=0.5) == limit.format("heel clamp", "395 mm", "comes within 0.5 mm of the blade")
    assert said("at_limit", clearance=0) == limit.format("heel clamp", "395 mm", "meets the blade")
    fence = replace(WHOLE, first=FLAT)
    assert said("at_limit", fence, units="in") == limit.format("nose clamp", "32 31/32 in", "meets the fence")


COLOURS = (
    "Plan and side view are seen from the free side, your {free}: you stand at the {you} edge of them and push to the "
    "{push}; the fence lies at the top. Red line on the sled: hands stay on your side of it."
)


def test_the_views_are_told_from_where_they_are_seen() -> None:
    """Fence on the right: seen from the left, whoever looks sees the operator at the right, pushing to the left."""
    right = COLOURS.format(free="left", you="right", push="left")
    left = COLOURS.format(free="right", you="left", push="right")
    yellow = " Yellow: the heel clamp at 395 mm, the first thing in the way."
    assert moments.colours(work_of("hold"), WHOLE) == right + yellow
    assert moments.colours(work_of("draw_back"), replace(WHOLE, first=None)) == left
    assert moments.colours(work_of("hold"), replace(WHOLE, first=TAIL)) == right
    assert moments.where(-0.5, MM) == "0.5 mm short of the blade's centre"
    assert moments.where(0.5, MM) == "0.5 mm past the blade's centre"


def test_how_each_way_to_end_the_cut_is_done_and_its_risk() -> None:
    assert endings.HOW == {
        "hold": "Against the stop block hold the sled down, switch off by knee or helper, and wait until the blade has "
        "stopped.",
        "run_on": "Push on in one go until the blade is clear of the taper, then switch off and wait until it has "
        "stopped.",
        "draw_back": "With the taper complete, draw the sled straight back out of the running blade, along the fence.",
    }
    assert endings.RISKS == {
        "hold": "Risk: a sled that moves or lifts while the blade runs down is marked or thrown. Keep both hands on "
        "it, on your side of the hand line; switch off by knee or helper.",
        "run_on": "Risk: the sled runs far past the blade, and its clamps come nearest to the teeth. Stop at the "
        "block: pushed further, a clamp meets the teeth.",
        "draw_back": "Risk: KICKBACK. The teeth at the far side of the blade rise and run towards you along the "
        "finished face; the least twist, or an offcut in the way, lets them throw sled and board at you. Last choice.",
    }


# -- where the heel is -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("at", "in_words", "from_centre", "in_a_table", "limit"),
    [
        (270.89, "at 270.9 mm", "270.9 mm beyond the blade's centre", "270.9 mm", "270.8 mm"),
        (0.51, "at 0.5 mm", "0.5 mm beyond the blade's centre", "0.5 mm", "0.5 mm"),
        (0.0, "at 0 mm", "0 mm beyond the blade's centre", "0 mm", "0 mm"),
        (-12.31, "with the heel 12.3 mm short of the blade's centre", "12.3 mm short of the blade's centre",
         "12.3 mm short of the centre", "12.4 mm short of the centre"),
    ],
)  # fmt: skip
def test_a_place_in_words(at: float, in_words: str, from_centre: str, in_a_table: str, limit: str) -> None:
    assert place.heel_at(at, MM) == in_words
    assert place.heel_at(at, MM, place.OF) == (in_words if at < 0 else f"{in_words} of travel")
    assert place.from_centre(at, MM) == from_centre
    assert (place.in_a_table(at, MM), place.limit_in_a_table(at, MM)) == (in_a_table, limit)


@pytest.mark.parametrize(
    ("at", "told"),
    [(271.18, "at 271.1 mm of travel"), (0.57, "at 0.5 mm of travel"),
     (-12.31, "12.4 mm before the heel reaches the blade's centre")],
)  # fmt: skip
def test_where_the_heel_is_when_something_meets_something(at: float, told: str) -> None:
    assert endings.meeting(at, MM) == told
