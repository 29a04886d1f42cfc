"""Every figure of the travel advice, by hand: worked case and quiet job, in mm and in inches."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scarfwright.models.cut.endings import Bound, StopBlock, TravelAdvice, bounds, travel_advice
from scarfwright.models.cut.feed import feed_of_cut, rpm_for
from scarfwright.models.cut.knife_and_guard import Knife, guard, riving_knife

from tests.cut_jobs import worked
from tests.validation.test_worked_case import case

DONE, CLEAR = 221.5404776894587, 431.5062832585851  # of the worked case, see there
COS, SIN = 12 / math.hypot(1, 12), 1 / math.hypot(1, 12)


def advice(end: str = "hold") -> TravelAdvice:
    return travel_advice(case(end).way)


def test_the_three_endings_in_figures() -> None:
    hold, run_on, draw_back = advice().endings
    assert [e.name for e in (hold, run_on, draw_back)] == ["hold", "run_on", "draw_back"]
    assert [e.asked for e in (hold, run_on, draw_back)] == [True, False, False]
    assert advice().asked is not None
    assert advice().asked.name == "hold"
    assert [e.travel for e in (hold, run_on, draw_back)] == pytest.approx([DONE, CLEAR, DONE])
    assert [e.needed for e in (hold, run_on, draw_back)] == pytest.approx([DONE + 50, CLEAR + 50, DONE + 50])
    assert [e.least_station for e in (hold, run_on, draw_back)] == pytest.approx([395.5, 549.0, 395.5])
    assert [e.possible for e in (hold, run_on, draw_back)] == [True, False, True]
    # the heel clamp, its jaw from 25 nearer the heel, meets the blade at u cos + t sin - f(18), see the worked case
    limit = 370.5 * COS + 22 * SIN - math.sqrt(127**2 - 79**2)
    assert hold.first is not None
    assert hold.first == Bound("heel", 395.5, hold.first.travel, "blade")
    assert hold.first.travel == pytest.approx(limit)
    assert [e.spare for e in (hold, run_on, draw_back)] == pytest.approx([limit - DONE, limit - CLEAR, limit - DONE])
    assert run_on.lacks == (hold.first,)
    assert hold.lacks == draw_back.lacks == ()


def test_what_limits_the_travel_nearest_first() -> None:
    """Nose clamp: on the flat of 40 it may slide to its step, its jaw 12 thick; the fence begins 450 before the "
    "axis."""
    found = bounds(case().way)
    assert [(b.where, b.meets, b.sure) for b in found] == [
        ("heel", "blade", True),
        ("nose_flat", "fence", True),
        ("board", "fence", False),
    ]
    step = (1500 - 40 + (184 - 154.5 - 1.25 / COS) * COS * SIN) / COS  # station of the flat's inner end
    across = (184 - 154.5 - 1.25 / COS) * COS + 12
    crosses = (154.5 - 1.25 / COS - across * COS) / SIN
    assert found[1].travel == pytest.approx(max(step, crosses) * COS - across * SIN - 450)
    assert found[2].travel == pytest.approx(1388.948, abs=5e-4)
    assert found[2].station is None
    long = worked(stock={"length": "3 m"}).way
    assert [b.sure for b in bounds(long) if b.where == "board"] == [True]


def test_half_a_millimetre_short_of_the_margin_is_short() -> None:
    """The heel clamp meets the blade 50.07 past the end: a margin of 50 has room, one of 50.5 has not."""
    way = case().way
    saw = way.job.saw.model_copy(update={"travel_margin": 50.5})
    found = travel_advice(replace(way, job=way.job.model_copy(update={"saw": saw})))
    assert found.bounds == bounds(way)
    assert found.asked.lacks == (found.bounds[0],)
    assert not found.asked.possible


def test_where_nothing_comes_into_the_way() -> None:
    """A board of 900 never reaches the fence's front end; the clamps are left out."""
    way = worked().way
    found = travel_advice(replace(way, layout=replace(way.layout, clamps=())))
    assert found.bounds == ()
    assert [(e.first, e.lacks, e.spare, e.possible) for e in found.endings] == [(None, (), None, True)] * 3


def test_the_shortest_sled_of_each_ending_holds_its_notch_and_its_nose_clamp() -> None:
    """Off by half a mark the slope may be flatter: the figure for another length is stretched by 1 / (1 - r N / L)."""
    fence = bounds(case().way)[1].travel
    for ending, station, needed in zip(advice().endings, (395.5, 549.0, 395.5), (DONE, CLEAR, DONE), strict=True):
        exact = max((station + 25) * COS, 1500 + needed + 50 - fence)
        slack = 1 / (1 - 0.5 * 12 / exact)
        assert ending.least_length == pytest.approx((exact - 450) * slack + 450)


def test_the_heel_notch_must_fit_on_the_shortest_sled() -> None:
    """With the nose clamp nowhere near the fence: the station and half a slot of 50, along the fence edge."""
    way = case().way
    bare = replace(way, layout=replace(way.layout, clamps=()))
    assert bare.shortest_for(300, 700) == pytest.approx(725 * COS)
    fence = bounds(way)[1].travel
    assert way.shortest_for(300, 700) == pytest.approx(1500 + 300 - fence)
    assert 725 * COS < 1500 + 300 - fence < 1225 * COS
    assert way.shortest_for(300, 1200) == pytest.approx(1225 * COS)


def test_a_kerf_wider_than_the_stock_leaves_no_offcut() -> None:
    way = case().way
    found = travel_advice(replace(way, blade=replace(way.blade, kerf=30.0))).offcut
    assert (found.thick, found.length) == (0, 0)


def test_a_sheet_sled_needs_no_more_than_its_exact_length() -> None:
    way = worked(sled={"made_from": "sheet", "sheet_thickness": "18 mm", "plank": None}).way
    for ending in travel_advice(way).endings:
        assert ending.least_length == way.shortest_for(ending.needed, ending.least_station)


def test_offcut_stop_and_start() -> None:
    found = advice()
    assert found.go_on == pytest.approx(30)
    assert found.lip == 2.5
    thick = 22 - 0.4 / COS - 2.5 / COS
    assert (found.offcut.thick, found.offcut.length) == pytest.approx((thick, thick * 12))
    assert found.offcut.side == "left"
    # 430 to the axis and 221.54 past it: 652, on a table that ends 380 behind the axis
    assert found.stop == StopBlock(652.0, 222.0, -158.0, 652.0)
    assert found.stop.on_table
    assert advice("run_on").stop == StopBlock(862.0, 432.0, 52.0, 862.0)
    assert not advice("run_on").stop.on_table
    assert StopBlock(810.0, 380.0, 0.0, None).on_table
    assert not StopBlock(810.5, 380.5, 0.5, None).on_table
    assert (found.start.from_front, found.start.from_axis) == (293.0, 137.0)  # 430 - 136.39, the mark before it


def test_a_sled_shorter_than_the_way_to_the_block_has_no_cleat() -> None:
    way = case().way
    for length, cleat in ((652.0, 652.0), (651.9, None)):
        found = travel_advice(replace(way, sled=replace(way.sled, length=length)))
        assert found.stop.cleat == cleat


# -- knife and hood --------------------------------------------------------------------------------------------


def test_knife_and_hood_in_figures() -> None:
    way = case().way
    assert riving_knife(way) == Knife(2.4, 2.2, 2.5, 2.2 + 0.2, 2.5, 64.0)
    assert riving_knife(way).fitted
    found = guard(way)
    assert found.over == 60
    assert found.over_clamps == 18 + 60  # the pads' lower edge and the throat
    # the jaw of 12 behind a web of 25; its slot of 50 lets it slide 25 to the heel
    assert found.free_ahead == pytest.approx(370.5 * COS - 37 * SIN - DONE)
    assert found.passes is None


def test_a_sled_higher_than_the_work_is_what_the_hood_lifts_over() -> None:
    way = worked(stock={"height": "30 mm"}).way
    assert guard(way).over == 38
    assert guard(way).over_clamps == pytest.approx(30 - way.job.clamp.pad_height + way.job.clamp.throat)


def test_where_only_the_nose_is_held_the_hood_has_the_flat_to_reach() -> None:
    """The pad of 30 slides on a flat of 40: half of that nearer to the heel than its middle."""
    way = case().way
    nose = replace(way, layout=replace(way.layout, clamps=way.layout.clamps[1:]))
    across = (184 - 154.5 - 1.25 / COS) * COS
    station = (1500 - 20 + across * SIN) / COS
    assert guard(nose).free_ahead == pytest.approx((station - 20) * COS - (across + 12) * SIN - DONE)
    assert guard(replace(way, layout=replace(way.layout, clamps=()))).free_ahead is None


@pytest.mark.parametrize(("height", "front", "passes"), [
    (60.0, 100.0, True), (59.9, 100.0, False), (60.0, 144.607, True), (60.0, 144.608, False),
    (None, 100.0, None), (60.0, None, None),
])  # fmt: skip
def test_a_known_hood(height: float | None, front: float | None, passes: bool | None) -> None:
    way = case().way
    saw = way.job.saw.model_copy(update={"guard_height": height, "guard_front": front})
    known = replace(way, job=way.job.model_copy(update={"saw": saw}))
    assert guard(known).passes is passes
    if height is not None and front is not None:
        bare = replace(known, layout=replace(way.layout, clamps=()))
        assert guard(bare).passes is (height >= 60)


def test_a_knife_of_nothing_is_none() -> None:
    found = Knife(0.0, 2.2, 2.5, 2.4, 2.5, 64.0)
    assert not found.fitted
    assert not found.thick_enough
    assert replace(found, thickness=0.1).fitted
    assert not replace(found, thickness=2.5).thinner_than_kerf
    assert replace(found, thickness=2.499).thinner_than_kerf
    assert replace(found, thickness=2.4).thick_enough
    assert not replace(found, thickness=2.399).thick_enough
    low = replace(case().way, blade=replace(case().way.blade, height=1.0))
    assert riving_knife(low).top == 0
    assert riving_knife(replace(low, blade=replace(low.blade, height=2.5))).top == pytest.approx(0.5)


# -- feed ------------------------------------------------------------------------------------------------------

PATH = DONE + math.sqrt(127**2 - 61**2)  # of the worked case; the quiet job's is near it


def test_feed_where_the_job_says_nothing() -> None:
    found = feed_of_cut(case().way)
    assert found.path == pytest.approx(PATH)
    assert (found.kerf, found.shortest) == pytest.approx((2.5, PATH / (5000 / 60)))
    assert (found.rim_speed, found.time, found.feed, found.tooth_feed, found.time_range) == (None,) * 5
    assert (found.tooth_range, found.usual_range, found.rubs) == ((0.02, 0.1), True, False)


def test_feed_of_24_teeth_at_4000() -> None:
    """1600 teeth a second: 0.02 to 0.1 mm each is 32 to 160 mm/s, of which a hand pushes 83.3 at most."""
    way = worked(saw={"teeth": 24, "rpm": 4000, "feed_time": 8}).way
    found = feed_of_cut(way)
    path = way.travel.done + math.sqrt(127**2 - 61**2)
    assert found.rim_speed == pytest.approx(math.pi * 0.254 * 4000 / 60)
    assert (found.time, found.feed) == pytest.approx((8, path / 8))
    assert found.tooth_feed == pytest.approx(path / 8 / 1600)
    assert found.time_range == pytest.approx((path * 60 / 5000, path / 32))
    assert not found.rubs
    slow = feed_of_cut(worked(saw={"teeth": 24, "rpm": 4000, "tooth_feed": ["0.02 mm", "0.03 mm"]}).way)
    assert slow.time_range == pytest.approx((path / 48, path / 32))
    assert slow.tooth_feed is None
    assert not slow.usual_range


def test_so_many_teeth_that_no_hand_feeds_them_rub() -> None:
    found = feed_of_cut(worked(saw={"teeth": 100, "rpm": 4000, "feed_time": 8}).way)
    assert found.rubs  # 6667 teeth a second want 133 mm/s at least
    assert found.time_range is None
    assert found.tooth_feed is not None
    half = feed_of_cut(worked(saw={"rpm": 4000, "feed_time": 8}).way)
    assert (half.tooth_feed, half.time_range, half.rubs) == (None, None, False)
    assert half.rim_speed is not None
    other = feed_of_cut(worked(saw={"teeth": 24, "feed_time": 8}).way)
    assert (other.rim_speed, other.tooth_feed, other.time_range, other.rubs) == (None, None, None, False)


def test_the_speed_that_gives_a_rim_speed() -> None:
    """A blade of 254 goes 0.79796 m round a turn: 80 m/s are 100.26 turns a second."""
    assert rpm_for(80, 254) == pytest.approx(6015.3, abs=0.1)
    assert rpm_for(100, 305) == pytest.approx(100 / (math.pi * 0.305) * 60)


def test_a_cut_that_is_over_before_it_begins_has_no_path() -> None:
    way = case().way
    assert feed_of_cut(replace(way, travel=replace(way.travel, done=-200.0))).path == 0
