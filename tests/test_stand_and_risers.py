"""Where things stand beside the saw and on the gluing bench: the stand's far end, the risers' places, by hand."""

from __future__ import annotations

import math

import pytest
from scarfwright.models.gluing.plan import glue_plan
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import support
from scarfwright.models.workup import Workup

from tests.cut_jobs import worked

# told of a board of 4 m, held or drawn back at the end of the cut, and run on until the blade is clear
TOLD = {
    "hold": "810 mm to 2960 mm out from its edge (best 1890 mm)",
    "draw_back": "810 mm to 2960 mm out from its edge (best 1890 mm)",
    "run_on": "810 mm to 2750 mm out from its edge (best 1780 mm)",
}


@pytest.mark.parametrize("end", ["hold", "run_on", "draw_back"])
def test_the_stands_far_end_is_under_the_board_to_the_end_of_the_cut(end: str) -> None:
    """A long board is carried by its stand to the very end: its tail must not have passed the stand by then.

    The table alone would carry it only once the centre of mass lies 50 inside the edge, and that never comes.
    """
    work = worked(saw={"end_of_cut": end}, stock={"length": "4 m"})
    n = 850 / 71
    slant = math.hypot(1, n)
    done = 22 * slant - 0.4 * n - math.sqrt(127**2 - 121**2)
    clear = 22 * slant - 0.4 * n + math.sqrt(127**2 - 61**2) + 5 * n
    at_end = clear if end == "run_on" else done
    stand = work.cut.support.stand
    assert stand is not None
    tail = 4000 * n / slant - (at_end + 800)  # before the front edge, when the cut has ended
    assert 0 <= tail - stand.furthest < 10
    # and beyond the centre of mass at the start: the board's middle, drawn to the heel by the sled
    heel, nose = 127.5 - 1.25 * slant / n, 56.5 - 1.25 * slant / n
    sled = (heel + nose) / 2 * 850 * 38
    middle = 850 * (heel + 2 * nose) / (3 * (heel + nose))
    wood = 4000 * 22 * 60
    centre = (sled * middle + wood * (2000 * n + 11) / slant) / (sled + wood)
    start = -(math.sqrt(127**2 - 61**2) + 25)
    over = centre - (start + 800)
    assert 0 <= stand.nearest - (over + 50) < 10.5  # the nose flat's sliver left out here
    assert centre + 50 - 800 > clear  # the table alone never carries it
    assert TOLD[end] in support.infeed(work.cut.support, say_in("mm"))


# -- the gluing bench ------------------------------------------------------------------------------------------


def overlap_of(work: Workup) -> float:
    """By hand: (t - 2 tips) N, a tip being the gap aslant; the sled's own slope."""
    n = 850 / 71
    assert work.way.sled.ratio == pytest.approx(n)
    return (22 - 2 * 0.4 * math.hypot(1, n) / n) * n


@pytest.mark.parametrize("end", ["hold", "run_on"])
def test_the_first_riser_stands_clear_of_the_joint_and_its_last_clamp(end: str) -> None:
    """Pads of 30 on a pitch of 50.8 end inside the joint: the riser, 40 wide, keeps 5 from its end."""
    work = worked(saw={"end_of_cut": end}, clamp={"pad_width": "30 mm"}, stock={"length": "2.4 m"})
    overlap = overlap_of(work)
    assert overlap == pytest.approx(253.77, abs=0.01)
    places = [s.place for s in work.glue.supports]
    mine, other = [p for p in places if p < 0], [p for p in places if p > overlap]
    assert max(mine) == pytest.approx(-(5 + 20))
    assert min(other) == pytest.approx(overlap + 5 + 20)


@pytest.mark.parametrize(("pad", "over"), [(80, 0), (100, (300 - 253.77) / 2)])
def test_outermost_pads_stand_flush_with_the_tips_and_the_first_riser_beside_them(pad: int, over: float) -> None:
    """Pads of 80 on a joint of 253.8: three clamps, the outer ones with their pads' edges at the tips; 5 clear, then
    a riser 40 wide. Three pads of 100 have no room between the tips: they stand side by side over both."""
    work = worked(clamp={"pad_width": f"{pad} mm"}, sled={"notch_length": "120 mm"}, stock={"length": "2.4 m"})
    overlap = overlap_of(work)
    assert len(work.glue.clamps) == math.ceil(overlap / (pad + 22)) == 3
    ends = (pad / 2 - over, overlap - pad / 2 + over)
    assert (work.glue.clamps[0], work.glue.clamps[-1]) == pytest.approx(ends, abs=0.01)
    supports = work.glue.supports
    assert max(s.place for s in supports if s.place < 0) == pytest.approx(-(over + 5 + 20), abs=0.01)
    assert min(s.place for s in supports if s.place > overlap) == pytest.approx(overlap + over + 5 + 20, abs=0.01)


def test_as_many_clamps_stand_as_are_counted_with() -> None:
    """The pressure is worked out with the clamps that are drawn: all there are, as far as pads have room (10 of 25 on
    an edge of 253.8), none that would stand on another."""
    for count, drawn in ((None, 12), (9, 12), (14, 14), (17, 16), (40, 20)):
        clamp = {"pad_width": "25 mm", "force": "800 N"} | ({} if count is None else {"count": count})
        work = worked(clamp=clamp, stock={"length": "2.4 m"}, adhesive={"kind": "PVA"})
        plan = glue_plan(work.job, work.joint, work.glue, None)
        assert (work.glue.clamp_count, work.glue.room) == (drawn, 20), count
        assert plan.amounts.used == min(drawn, count or drawn)


def test_the_last_riser_and_those_between() -> None:
    """Boards of 2400: the last one a riser's width from the end, those between no more than 800 apart, lips outside."""
    work = worked(stock={"length": "2.4 m"})
    last = 2400 - overlap_of(work) - 40
    places = [-s.place for s in reversed(work.glue.supports) if s.place < 0]
    assert places == pytest.approx([25 + (last - 25) * i / 3 for i in range(4)])
    assert (last - 25) / 3 <= 800 < (last - 25) / 2
    lips = [s.lip for s in reversed(work.glue.supports) if s.place < 0]
    assert lips == [True, False, False, True]


@pytest.mark.parametrize(("board", "places"), [("400 mm", [-25, -106.23]), ("395 mm", [-25])])
def test_a_short_board_has_room_for_one_riser_only(board: str, places: list[float]) -> None:
    """Of 400 lie 146 outside the joint: two risers' middles 81 apart; of 395 they would be 76 apart, and want 80."""
    mine = [s for s in reversed(worked(stock={"length": board}).glue.supports) if s.place < 0]
    assert [s.place for s in mine] == pytest.approx(places, abs=0.01)
    assert all(s.lip for s in mine)
