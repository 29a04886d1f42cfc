"""Ends of the cut, stop block, nose clamp, support and feed, each figure by a second route: bodies that are moved."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import pytest
from hypothesis import HealthCheck, given, seed, settings
from hypothesis import strategies as st
from scarfwright.models.cut.sides import sides
from scarfwright.models.flat.room import Capsule
from scarfwright.models.job.board import ASSUMED_LENGTH
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.sled.blade import Blade, Jaw
from scarfwright.models.sled.layout import pad_lower_edge
from scarfwright.models.solve import work_out
from scarfwright.models.words.at_the_saw import endings as words
from scarfwright.models.words.at_the_saw import feed, support
from scarfwright.models.words.at_the_saw.procedure import Check, before_the_cut, cautions, order_of_work
from scarfwright.models.workup import Workup
from scarfwright.outputs.formats.text import as_json
from scarfwright.outputs.setup_card.card import setup_card
from shapely import LineString, Point, Polygon, affinity, box, unary_union

from tests.cut_jobs import job, raw, worked
from tests.proof_jobs import faultless
from tests.strategies import jobs

WIDE = 5000.0


def cautions_of(work: Workup) -> tuple[str, ...]:
    return cautions(work)


def steps_of(work: Workup) -> tuple[str, ...]:
    return order_of_work(work)


def checks_of(work: Workup) -> tuple[Check, ...]:
    return before_the_cut(work)


def sled_at(work: Workup, travel: float) -> Polygon:
    """The sled's outline in the saw's frame: the axis at x = 0, x away from the operator, the fence at y = 0."""
    return affinity.translate(Polygon(work.way.sled.corners()), travel - work.way.sled.length, 0.0)


def push_until(touches: object, low: float, high: float) -> float:
    """The travel at which something first touches, by bisection: false at `low`, true at `high`."""
    assert callable(touches)
    assert not touches(low)
    assert touches(high)
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if touches(middle) else (middle, high)
    return high


# -- the stop block --------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["hold", "run_on", "draw_back"])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_stop_block_stops_the_sled_when_the_taper_is_complete(end: str, units: str) -> None:
    """Push the outline against a block drawn from the table's front edge; then look at the face, tooth by tooth."""
    work = worked(saw={"end_of_cut": end}, sled={"length": "auto"}, stock={"length": None}, clamp={"opening": "150 mm"})
    work = work if units == "mm" else worked_in_inches(end)
    stop = work.cut.advice.stop
    front_edge = -float(work.job.saw.table_front)
    block = box(front_edge + stop.from_front, 0.0, front_edge + stop.from_front + 60.0, work.way.sled.heel * 0.9)

    def touches(travel: float) -> bool:
        return bool(sled_at(work, travel).distance(block) <= 0.0)

    stopped = push_until(touches, work.way.travel.start, stop.from_axis + 50.0)
    assert stopped == pytest.approx(stop.from_axis, abs=1e-6)
    step = 1.0 if units == "mm" else 25.4 / 16
    assert 0 <= stopped - work.way.travel_end < step + 1e-6
    assert uncut(work, stopped) == 0.0
    if end != "run_on":  # a little sooner a lip is left
        assert uncut(work, work.way.travel.done - 0.5) > 0.3


def worked_in_inches(end: str) -> Workup:
    return worked_with_units("in", saw={"end_of_cut": end}, sled={"length": "auto"}, stock={"length": None})


def worked_with_units(units: str, **tables: dict[str, object]) -> Workup:
    return work_out(job_from_dict({**raw(**tables), "units": units}))


def uncut(work: Workup, travel: float) -> float:
    """How much of the taper's end [mm] no tooth has passed, by looking at points up the face."""
    blade, joint = work.way.blade, work.joint
    # where the blade's near face leaves the board: the outer face v = t at Y = heel + gap
    u = (joint.thickness * math.cos(joint.angle) - blade.gap) / math.sin(joint.angle)
    end = u * math.cos(joint.angle) + joint.thickness * math.sin(joint.angle)
    left = 0.0
    for i in range(201):
        z = joint.height * i / 200
        inside = blade.radius**2 - (z + blade.axis_depth) ** 2
        left = max(left, end - (travel + math.sqrt(inside)))
    return max(left, 0.0)


def test_the_cleat_meets_the_front_edge_when_the_taper_is_complete() -> None:
    work = worked()
    cleat = work.cut.advice.stop.cleat
    assert cleat is None  # 800 of table and 221 of travel are more than the sled's 850
    work = worked(saw={"table_front": "430 mm"})
    cleat = work.cut.advice.stop.cleat
    assert cleat is not None
    heel_past_axis = cleat - 430  # the cleat stands at the edge, the heel `cleat` further on
    assert 0 <= heel_past_axis - work.way.travel.done < 1
    assert cleat <= work.way.sled.length


def test_the_start_leaves_the_teeth_free() -> None:
    work = worked()
    inside = work.cut.advice.start.from_front
    heel = box(-800 + inside - 100, 0, -800 + inside, 300)
    disc = Point(0, -work.way.blade.axis_depth).buffer(work.way.blade.radius, quad_segs=256)
    at_table = disc.intersection(box(-WIDE, 0, WIDE, WIDE)).bounds[0]  # the foremost tooth at or above the table
    assert 25 - 0.01 <= at_table - heel.bounds[2] < 26  # the next whole millimetre away


# -- endings -----------------------------------------------------------------------------------------------


def test_endings_come_in_order_with_their_risks() -> None:
    endings = worked().cut.advice.endings
    assert [e.name for e in endings] == ["hold", "run_on", "draw_back"]
    assert [e.asked for e in endings] == [True, False, False]
    for ending in endings:
        assert words.RISKS[ending.name].startswith("Risk: ")
        assert words.RISKS[ending.name].endswith(".")
    assert "KICKBACK" in words.RISKS[endings[2].name]


def test_an_ending_is_possible_exactly_if_a_job_that_asks_for_it_has_no_such_fault() -> None:
    meets = {"clamp.meets_blade", "clamp.meets_fence", "board.meets_fence"}
    for length in ("760 mm", "800 mm", "850 mm", "1000 mm", "1100 mm", "1300 mm"):
        for front in ("300 mm", "450 mm", "700 mm"):
            tables = {"sled": {"length": length, "heel_station": "560 mm"}, "stock": {"length": "2.4 m"}}
            advice = worked(saw={"fence_front": front}, **tables).cut.advice
            for ending in advice.endings:
                asked = worked(saw={"fence_front": front, "end_of_cut": ending.name}, **tables)
                faults = {f.code for f in asked.findings} & meets
                assert ending.possible == (not faults), (length, front, ending.name)
                assert ("Possible" in words.why(ending, say_in("mm"))) == ending.possible


def test_what_an_ending_would_need_does_it() -> None:
    """The slope is exact here; on a plank whose mark is rounded another length has a slightly other slope."""
    sheet = {"made_from": "sheet", "nose_min": "55 mm"}
    for ending in worked(sled=sheet).cut.advice.endings:
        station = f"{ending.least_station} mm"
        length = f"{ending.least_length + 0.01:.2f} mm"
        asked = {"end_of_cut": ending.name}
        work = worked(saw=asked, sled={**sheet, "heel_station": station, "length": length})
        (there,) = [e for e in work.cut.advice.endings if e.name == ending.name]
        assert there.possible, ending.name
        short = worked(saw=asked, sled={**sheet, "heel_station": f"{ending.least_station - 1} mm"})
        assert any(f.code == "clamp.meets_blade" for f in short.findings), ending.name


def test_go_on_is_what_the_blade_still_has_to_do_when_the_offcut_drops() -> None:
    """The offcut is loose when the kerf's far side has left the board: draw both pieces and push."""
    work = worked()
    sled = work.way.sled
    outer = Polygon(
        [sled.at_work_edge(0, 0), sled.at_work_edge(0, -22), sled.at_work_edge(850, -22), sled.at_work_edge(850, 0)]
    )
    ahead = work.way.blade.reach(60)  # the blade's front at the work's top, the last to be reached

    def whole_kerf_cut(far_side: bool) -> float:
        plane = work.way.fence + (work.way.blade.kerf if far_side else 0.0)
        beyond = outer.intersection(box(-WIDE, plane, WIDE, WIDE))
        return float(sled.length - beyond.bounds[0] - ahead)

    free, done = whole_kerf_cut(True), whole_kerf_cut(False)
    advice = work.cut.advice
    assert free == pytest.approx(work.way.travel.offcut_free, abs=1e-6)
    assert done == pytest.approx(work.way.travel.done, abs=1e-6)
    assert advice.go_on == pytest.approx(done - free)
    assert advice.go_on == pytest.approx(2.5 * sled.ratio)
    wedge = outer.intersection(box(-WIDE, work.way.fence + 2.5, WIDE, WIDE))
    assert advice.offcut.thick == pytest.approx(wedge_end(wedge), abs=1e-6)
    assert advice.offcut.length == pytest.approx(wedge_length(wedge, work), abs=1e-6)


def wedge_end(wedge: Polygon) -> float:
    """Length of the wedge's short side, its heel end."""
    return min(math.dist(a, b) for a, b in itertools.pairwise(wedge.exterior.coords))


def wedge_length(wedge: Polygon, work: Workup) -> float:
    """Extent of the wedge along the board."""
    cos, sin = math.cos(work.way.sled.angle), math.sin(work.way.sled.angle)
    along = [x * cos + y * sin for x, y in wedge.exterior.coords]
    return float(max(along) - min(along))


def test_the_offcut_falls_on_the_free_side() -> None:
    for fence, free in (("right", "left"), ("left", "right")):
        work = worked(saw={"fence_side": fence})
        assert (sides(work.job).fence, sides(work.job).free) == (fence, free)
        offcut = work.cut.advice.offcut
        assert offcut.side == free
        assert f"falls on the {free}" in words.offcut(offcut, say_in("mm"))
        told = " ".join(
            (
                *cautions_of(work),
                *steps_of(work),
                *(c.text for c in checks_of(work)),
            )
        )
        assert f"on the {free}" in told
        assert f"on the {fence} (" in told


def test_a_kerf_as_wide_as_the_stock_leaves_no_offcut() -> None:
    work = worked(stock={"thickness": "3 mm"}, saw={"kerf": "3.2 mm", "riving_knife": "2.5 mm"})
    assert "no offcut" in words.offcut(work.cut.advice.offcut, say_in("mm"))


# -- clamps ------------------------------------------------------------------------------------------------


@settings(max_examples=40, deadline=None)
@given(
    length=st.integers(500, 1600), flat=st.integers(15, 90), jaw=st.integers(1, 40), pad=st.integers(10, 60),
    front=st.integers(100, 800), ratio=st.floats(4, 25),
)  # fmt: skip
def test_the_nose_clamp_against_the_fence_by_moving_its_jaw(
    length: int, flat: int, jaw: int, pad: int, front: int, ratio: float
) -> None:
    """The fence-side jaw drawn on the nose flat, slid to its step, pushed until it meets the fence's front end."""
    work = worked(
        joint={"ratio": ratio},
        saw={"fence_front": f"{front} mm"},
        clamp={"jaw": f"{jaw} mm", "pad_width": f"{pad} mm"},
        sled={"length": f"{length} mm", "nose_flat": f"{flat} mm", "plank": ["38 mm", "400 mm"]},
    )
    (clamp,) = [c for c in work.way.layout.clamps if c.where == "nose_flat"]
    sled = work.way.sled
    inner = sled.station_of_x(sled.nose_flat, sled.across_nose)  # the flat's end at its step
    low = min(inner, clamp.station - pad / 2)
    high = sled.station_of_x(0.0, sled.across_nose)  # the nose: so far it slides the other way
    depth = sled.across_nose
    corners = ((low, depth), (high, depth), (high, depth + jaw), (low, depth + jaw))
    seat = Polygon([sled.at_work_edge(s, d) for s, d in corners])
    below = seat.intersection(box(-WIDE, -WIDE, WIDE, -1e-9))  # what stands past the fence edge
    fence = box(-front, -WIDE, WIDE, 0.0)

    def meets(travel: float) -> bool:
        return bool(affinity.translate(below, travel - sled.length, 0.0).distance(fence) <= 0)

    assert clamp.at_fence == pytest.approx(push_until(meets, -WIDE, WIDE), abs=1e-4)


def test_pads_over_the_fence_never_meet_it() -> None:
    low = pad_lower_edge(job(), worked().way.sled)
    assert low == 18
    (over,) = [c for c in worked(saw={"fence_height": "18 mm"}).way.layout.clamps if c.where == "nose_flat"]
    (under,) = [c for c in worked(saw={"fence_height": "18.1 mm"}).way.layout.clamps if c.where == "nose_flat"]
    assert over.at_fence is None
    assert under.at_fence is not None


@settings(max_examples=60, deadline=None)
@given(
    ratio=st.floats(1, 25), thickness=st.floats(4, 80), gap=st.floats(0.1, 2), low=st.floats(0, 60),
    throat=st.floats(1, 80), station=st.floats(0, 900), stand=st.floats(2, 40), side=st.floats(0, 25),
    reach=st.floats(2, 60), above=st.floats(0.5, 20),
)  # fmt: skip
def test_jaw_and_bar_against_sampled_bodies(
    ratio: float, thickness: float, gap: float, low: float, throat: float, station: float, stand: float, side: float,
    reach: float, above: float,
) -> None:  # fmt: skip
    """The clamp as two boxes, sampled: the blade's disc must not reach a point beyond F - side before the limit."""
    joint, blade = Joint(ratio, thickness, 60, 0.0), Blade(2 * (60 + above) + 80, 2.5, 60 + above, gap)
    jaw = Jaw(low, reach, stand, side, low + throat)
    cos, sin = math.cos(joint.angle), math.sin(joint.angle)
    found = math.inf
    for z, inner in ((low, thickness), (low + throat, -60.0)):
        if z >= blade.height:
            continue
        front = math.sqrt(blade.radius**2 - (z + blade.radius - blade.height) ** 2)
        for i in range(121):
            u = station - reach + 2 * reach * i / 120
            first = max(inner, (gap - side + u * sin) / cos)  # the first point beyond F - side across the clamp
            if first <= thickness + stand:
                found = min(found, u * cos + first * sin - front)
    limit = jaw.limit(station, joint, blade)
    assert (math.inf if limit is None else limit) == pytest.approx(found, abs=1e-6)
    least = jaw.least_station(250.0, joint, blade)
    at_least = jaw.limit(least + 1e-6, joint, blade)
    assert at_least is None or at_least >= 250.0 - 1e-5
    if least > reach + 1e-6:
        sooner = jaw.limit(least - 1e-3, joint, blade)
        assert sooner is not None
        assert sooner < 250.0


def test_a_bar_low_over_steep_stock_comes_first() -> None:
    """Where jaws stand short and the slope is steep the bar, not the jaw, meets the blade first."""
    joint, blade = Joint(2, 70, 60, 0.4), Blade(254, 2.5, 66, 0.4)
    jaw, both = Jaw(58, 25, 12, 10), Jaw(58, 25, 12, 10, 61)
    without, with_bar = jaw.limit(100, joint, blade), both.limit(100, joint, blade)
    assert without is not None
    assert with_bar is not None
    assert with_bar < without - 5


def test_pushed_down_a_clamp_meets_the_blade_sooner() -> None:
    work = worked()
    (heel,) = [c for c in work.way.layout.clamps if c.where == "heel"]
    assert heel.limit is not None
    assert heel.pushed_down is not None
    # pads at 18 or on the table: the blade's front there, on the circle of 127 about 61 below the table
    sooner = math.sqrt(127**2 - 61**2) - math.sqrt(127**2 - 79**2)
    assert heel.limit - heel.pushed_down == pytest.approx(sooner)


def test_the_guard_may_reach_to_the_nearest_clamp() -> None:
    work = worked()
    ahead = work.cut.guard.free_ahead
    assert ahead is not None
    (heel,) = [c for c in work.way.layout.clamps if c.where == "heel"]
    corners = [
        work.way.sled.at_work_edge(heel.station + side * 25, depth) for side in (-1, 1) for depth in (-22 - 12, 25 + 12)
    ]
    nearest = min(work.way.sled.length - x for x, _ in corners)
    assert ahead == pytest.approx(nearest - work.way.travel_end)


# -- support -----------------------------------------------------------------------------------------------


def slots_of(slots: Sequence[Capsule]) -> Polygon:
    return unary_union([LineString((s.start, s.end)).buffer(s.radius, quad_segs=64) for s in slots])


@settings(max_examples=50, deadline=None)
@given(
    length=st.integers(400, 1500), board=st.integers(300, 4000), thickness=st.integers(10, 50),
    front=st.integers(150, 900), ratio=st.floats(5, 20),
)  # fmt: skip
def test_balance_by_drawn_bodies(length: int, board: int, thickness: int, front: int, ratio: float) -> None:
    """Centre of mass by shapely, sled and board drawn; a stand where it is told carries from start to end."""
    work = worked(
        joint={"ratio": ratio},
        stock={"length": f"{board} mm", "thickness": f"{thickness} mm"},
        saw={"table_front": f"{front} mm"},
        sled={"length": f"{length} mm", "plank": ["38 mm", "400 mm"]},
    )
    sled, joint = work.way.sled, work.joint
    ground = Polygon(sled.corners())
    lies = [sled.at_work_edge(u, -v) for u, v in ((0, 0), (0, thickness), (board, thickness), (board, 0))]
    whole = Polygon(lies)
    left = whole.intersection(box(-WIDE, -WIDE, WIDE, work.way.fence))
    slots = [notch.capsule(sled) for notch in work.way.layout.notches]
    ground = ground if not slots else ground.difference(slots_of(slots))
    need = work.cut.support
    for balance, piece in zip(need.balances, (whole, left, left), strict=True):
        parts = ((ground, sled.thickness), (piece, joint.height))
        mass = sum(p.area * t for p, t in parts)
        x = sum(p.area * t * p.centroid.x for p, t in parts) / mass
        if board > joint.taper_run or balance.name == "start":
            # a notch that breaks out of the sled is a fault, and no body that can be drawn
            inside = all(Polygon(sled.corners()).contains(LineString((s.start, s.end)).buffer(s.radius)) for s in slots)
            assert not inside or balance.centre == pytest.approx(sled.length - x, abs=0.05)  # arcs as chords
        assert balance.over_front == pytest.approx(balance.centre - balance.travel - front)
    tail = max(board * math.cos(sled.angle), sled.length)
    if need.stand is None:
        assert need.balances[0].over_front <= -50
        # nor does a hand on the far handle lift it: moments about the table's edge, in the lightest wood
        volume = ground.area * sled.thickness + whole.area * joint.height
        edge = work.way.travel.start + front
        lifts = 100 * (need.handle - edge)
        assert lifts <= volume * 1e-9 * 320 * 9.81 * (edge - need.balances[0].centre) + 1e-6 * abs(lifts)
    elif need.stand.fits:
        for p in (need.stand.nearest, need.stand.best, need.stand.furthest):
            for i in range(51):
                travel = work.way.travel.start + (work.way.travel_end - work.way.travel.start) * i / 50
                centre = max(b.centre for b in need.balances)
                over = centre - travel - front
                if over > -50:  # then the stand must be under it, beyond the centre of mass
                    assert tail >= travel + front + p - 1e-6
                    if i == 0:
                        assert p >= need.balances[0].over_front
                        assert p >= need.handle - (travel + front) - 1e-6  # and beyond the far handle


def test_an_assumed_board_is_said() -> None:
    need = worked(stock={"length": None}).cut.support
    assert need.assumed
    assert need.board_length == ASSUMED_LENGTH["mm"] == 2400
    assert "assumed" in support.infeed(need, say_in("mm"))
    inches = worked_with_units("in", stock={"length": None}).cut.support
    assert inches.board_length == pytest.approx(96 * 25.4)


def test_no_infeed_support_stands_at_the_top_of_the_cautions() -> None:
    assert "INFEED" in cautions_of(worked(stock={"length": "2.4 m"}))[0]
    assert not any("INFEED" in c for c in cautions_of(worked()))


# -- feed --------------------------------------------------------------------------------------------------


def test_the_time_range_gives_the_range_of_tooth_feed() -> None:
    for end, each in zip((0, 1), (0.1, 0.02), strict=True):
        work = worked(saw={"teeth": 10, "rpm": 4000})  # few teeth: a hand feeds them 0.1 mm each
        times = work.cut.feed.time_range
        assert times is not None
        again = worked(saw={"teeth": 10, "rpm": 4000, "feed_time": times[end]}).cut.feed
        assert again.tooth_feed == pytest.approx(each)


def test_the_default_range_says_it_has_no_source_and_a_users_does_not() -> None:
    speed = {"teeth": 24, "rpm": 4000}
    assert "0.1 mm per tooth (common practice, no source)" in feed.feed(worked(saw=speed).cut.feed, say_in("mm"))
    own = worked(saw={**speed, "tooth_feed": ["0.03 mm", "0.1 mm"]}).cut.feed
    assert "0.03 mm to 0.1 mm per tooth, and no faster" in feed.feed(own, say_in("mm"))


def test_a_burnt_face_is_cut_again() -> None:
    assert any("cut it again" in text for text in feed.advice(worked().cut.feed, say_in("mm")))
    assert any("cut it again" in text for text in steps_of(worked()))


# -- what is written ---------------------------------------------------------------------------------------


def test_numbers_carry_it_all() -> None:
    saw = numbers(worked())["saw"]
    assert {"advice", "riving", "feed", "support", "cautions", "before_the_cut", "order_of_work"} <= set(saw)
    assert saw["advice"]["stop_block"]["from_table_front_mm"] == pytest.approx(1021.0)
    assert saw["support"]["infeed"] is None


def test_every_check_says_something_and_draw_back_warns_first() -> None:
    work = worked(saw={"end_of_cut": "draw_back"})
    assert "KICKBACK" in cautions_of(work)[0]
    assert "KICKBACK" in " ".join(steps_of(work))
    for check in checks_of(work):
        assert check.text.strip().endswith(".")
    named = {c.what for c in checks_of(work)}
    assert {
        "Guard",
        "Dust",
        "Fence",
        "Fence parallel",
        "Board tight",
        "Board upright",
        "Clamps",
        "Hands",
        "Stop block",
    } <= named


@seed(3)
@settings(max_examples=50, deadline=None, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_whatever_the_job_numbers_and_words_come_out(found: Job) -> None:
    """Wide ranges: nothing raises, every figure is finite, and an ending is possible exactly if nothing lacks."""
    work = work_out(found)
    as_json(numbers(work))
    for ending in work.cut.advice.endings:
        assert ending.possible == (not ending.lacks)
        assert ending.least_station >= 0
    for text in (
        *cautions_of(work),
        *steps_of(work),
        *(c.text for c in checks_of(work)),
    ):
        assert "nan" not in text.split()
        assert "inf" not in text.split()
    meets = {"clamp.meets_blade", "clamp.meets_fence", "board.meets_fence"}
    (asked,) = [e for e in work.cut.advice.endings if e.asked]
    told = {f.code for f in work.findings}
    alone = {"stock.above_reach", "notch.off_sled"}  # which may be all that is said of a cut that is not possible
    assert asked.possible == (not told & meets) or (told & alone and not asked.possible)


# random jobs that may be cut: all ways to end the cut, both fence sides, both units, plank and sheet
CARDS = (1, 2, 3, 4, 5, 8)
some_cards = [*CARDS, *(pytest.param(number, marks=pytest.mark.slow) for number in range(100, 160))]


@pytest.mark.parametrize("number", some_cards)
def test_whatever_the_job_a_card_comes_out(number: int) -> None:
    """Its own figures stand on it, all of it on the page, and the sled drawn where the cut ends as asked."""
    work = faultless(number)
    sheet, *further = setup_card(work)
    texts = [t.text for page in (sheet, *further) for t in page.texts()]
    assert not {"nan", "inf", "None"} & {word for text in texts for word in text.split()}
    fence = say_in(work.job.units)(work.way.sled.heel + float(work.job.saw.fence_gap))
    assert any(text.startswith(f"{fence} = heel by") for text in texts)
    assert sum(text.endswith("(this job)") for text in texts) == 1
    for text in (t for page in (sheet, *further) for t in page.texts()):
        for x, y in text.box():
            assert sheet.margin <= x <= sheet.width - sheet.margin, text.text
            assert sheet.margin <= y <= sheet.height - sheet.margin, text.text
    (scale,) = [float(t.partition("scale 1:")[2]) for t in texts if t.startswith("At the end of the cut")]
    spans = {
        name: [x for p in sheet.paths() if p.name == name for x, _ in p.points(0.001)] for name in ("sled", "blade")
    }
    axis = (min(spans["blade"]) + max(spans["blade"])) / 2
    asked = work.way.travel.clear if work.job.saw.end_of_cut == "run_on" else work.way.travel.done
    assert (max(spans["sled"]) - axis) * scale == pytest.approx(asked, abs=0.05)


def test_those_cards_are_of_all_kinds() -> None:
    found = [faultless(number).job for number in CARDS]
    assert {j.saw.end_of_cut for j in found} == {"hold", "run_on", "draw_back"}
    assert {(j.units, j.saw.fence_side) for j in found} == set(itertools.product(("mm", "in"), ("left", "right")))
    assert {j.sled.made_from for j in found} == {"plank", "sheet"}
