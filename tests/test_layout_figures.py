"""Every place on the sled by hand: notches, clamps with their limits, hand line, holes, dowels."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from scarfwright.models.flat.room import Capsule
from scarfwright.models.job.tables import Job
from scarfwright.models.sled import layout as lay
from scarfwright.models.sled.blade import Blade, Jaw
from scarfwright.models.sled.holes import dowel_holes, fits
from scarfwright.models.sled.making import sled_way
from scarfwright.models.sled.sled import from_sheet
from scarfwright.models.sled.way import SledWay

from tests.cut_jobs import job, worked
from tests.validation.test_worked_case import case

COS, SIN = 12 / math.hypot(1, 12), 1 / math.hypot(1, 12)
DONE, CLEAR = 221.5404776894587, 431.5062832585851  # of the worked case
HEEL, NOSE = 154.5 - 1.25 / COS, 29.5 - 1.25 / COS
ACROSS = NOSE * COS


def reach(z: float) -> float:
    """Of the worked case's blade: 254 across, its axis 61 under the table."""
    return math.sqrt(127**2 - (z + 61) ** 2)


def way_of(length: float = 1500, units: str = "mm", **tables: dict[str, Any]) -> SledWay:
    """Worked out as asked, whatever the checks would say of it."""
    found = job(**tables)
    return sled_way(found.model_copy(update={"units": units}), length)[0]


# -- clamps ----------------------------------------------------------------------------------------------------


def test_the_two_clamps_of_the_worked_case() -> None:
    heel, nose = case().way.layout.clamps
    assert (heel.where, heel.station, heel.opening, heel.swallowed) == ("heel", 395.5, 25 + 22, 60 - 18)
    assert heel.limit == pytest.approx(370.5 * COS + 22 * SIN - reach(18))
    assert (heel.meets, heel.at_fence) == ("blade", None)
    # pushed down till its bar lies on the work: the pads' lower edge on the table, nearer to the axis
    assert heel.pushed_down == pytest.approx(370.5 * COS + 22 * SIN - reach(0))
    assert heel.least_board == 395.5 + 25
    assert nose.where == "nose_flat"
    assert nose.station == pytest.approx((1500 - 20 + ACROSS * SIN) / COS)
    assert nose.opening == pytest.approx(ACROSS + 22)
    assert nose.swallowed == 42
    assert (nose.meets, nose.limit) == ("fence", nose.at_fence)
    assert nose.pushed_down is None
    assert nose.least_board == pytest.approx(nose.station + 15)


def test_a_clamp_beside_the_blade_to_the_end_meets_nothing() -> None:
    """From 548.6 on a clamp in a slot stays within the fence's side of the blade: see the worked case."""
    heel = case("run_on").way.layout.clamps[0]
    assert (heel.where, heel.station, heel.limit, heel.meets) == ("heel", 549, None, None)


def test_pads_over_a_low_fence_meet_nothing() -> None:
    """Their lower edge stands 18 above the table: a fence of 18 passes under them."""
    for height, meets in (("18 mm", None), ("18.1 mm", "fence")):
        way = way_of(saw={"fence_height": height}, clamp={"pad_height": "20 mm"})
        nose = way.layout.clamps[-1]
        assert nose.where == "nose_flat"
        assert nose.meets == meets
        assert (nose.limit is None) is (meets is None)


def test_a_clamp_pushed_down_meets_a_fence_it_would_ride_over() -> None:
    """A throat of 50 on work of 60 leaves 10 under it: a fence of 18 stops it then, one of 10 never does. How
    low it hangs changes nothing of where that is: a high fence stops it there as it is set."""
    places = {}
    for height in ("65 mm", "18 mm", "10.1 mm", "10 mm"):
        clamp = {"pad_height": "20 mm", "throat": "50 mm"}
        nose = way_of(saw={"fence_height": height}, clamp=clamp).layout.clamps[-1]
        places[height] = (nose.at_fence, nose.low_at_fence)
    high = places["65 mm"][0]
    assert high is not None
    assert places == {"65 mm": (high, high), "18 mm": (None, high), "10.1 mm": (None, high), "10 mm": (None, None)}


def test_on_a_short_sled_the_nose_clamp_meets_the_blade_first() -> None:
    """300 long: its jaw, from the flat's step on, lies beyond the blade plane; the fence begins only 50 before the "
    "axis."""
    tables: dict[str, Any] = {"saw": {"fence_front": "50 mm"}, "clamp": {"pad_height": "20 mm", "throat": "60 mm"}}
    way = way_of(length=300, **tables)
    (nose,) = [c for c in way.layout.clamps if c.where == "nose_flat"]
    sin, cos = math.sin(way.sled.angle), math.cos(way.sled.angle)
    step = (300 - 40 + way.sled.nose * cos * sin) / cos
    assert nose.limit == pytest.approx(step * cos + 22 * sin - reach(18))
    assert nose.meets == "blade"
    assert nose.pushed_down == pytest.approx(step * cos + 22 * sin - reach(0))
    assert nose.at_fence is not None
    assert nose.limit is not None
    assert nose.at_fence > nose.limit


def test_behind_a_deep_step_the_fence_meets_the_jaws_side_and_not_its_corner() -> None:
    """A flat of 300 has a step of 25, the jaw is 12 thick: its corner lies within the fence edge.

    Its outer side, nose cos + 12 off the work edge, crosses the fence edge at X = (heel - that / cos) N.
    """
    way = way_of(sled={"nose_flat": "300 mm"})
    nose = way.layout.clamps[-1]
    n, cos = way.sled.ratio, math.cos(way.sled.angle)
    crossing = (way.sled.heel - (way.sled.nose * cos + 12) / cos) * n
    assert float(way.job.clamp.jaw_inner) == 12
    assert nose.at_fence == pytest.approx(crossing - 450)


def test_how_far_pads_reach_down() -> None:
    """Pads 20 high: on work of 60 and a sled of 38 their lower edge stands at 18, on work of 30 at 10."""
    high, low = (
        worked(clamp={"pad_height": "20 mm", "throat": "50 mm"}),
        way_of(stock={"height": "30 mm"}, clamp={"pad_height": "20 mm", "throat": "30 mm"}),
    )
    assert lay.pad_lower_edge(high.job, high.way.sled) == 18
    assert lay.pad_lower_edge(low.job, low.sled) == 10
    assert lay.swallowed(high.job, high.way.sled) == 42
    assert lay.swallowed(low.job, low.sled) == 28
    assert lay.deepest_lower_edge(high.job, high.way.sled) == 10  # 60 - 50
    assert lay.deepest_lower_edge(low.job, low.sled) == 8  # 38 - 30
    assert lay.deepest_lower_edge(case().job, case().way.sled) == 0  # 60 - 60
    deep = way_of(clamp={"throat": "80 mm"})
    assert lay.deepest_lower_edge(deep.job, deep.sled) == 0


def test_the_jaws_in_figures() -> None:
    way = way_of(
        clamp={"pad_height": "20 mm", "throat": "50 mm", "jaw": None, "jaw_outer": "9 mm", "jaw_inner": "14 mm"},
        sled={"nose_flat": "40 mm"},
        saw={"side_clearance": "7 mm"},
    )
    assert lay.slot_jaw(way.job, way.sled) == Jaw(18, 25, 9, 7, 68)
    assert lay.slot_jaw(way.job, way.sled, pushed_down=True) == Jaw(10, 25, 9, 7, 60)
    assert lay.jaw_between(way.job, way.sled, 300, 330) == Jaw(18, 30, 9, 7, 68)
    step = (1500 - 40 + way.sled.nose * math.cos(way.sled.angle) * math.sin(way.sled.angle)) / math.cos(way.sled.angle)
    assert lay.flat_jaw(way.job, way.sled, step + 16).reach_along == pytest.approx(16)
    assert lay.flat_jaw(way.job, way.sled, step + 14) == Jaw(18, 15, 9, 7, 68)
    assert lay.flat_jaw(way.job, way.sled, step + 14, pushed_down=True) == Jaw(10, 15, 9, 7, 60)
    wide = way_of(clamp={"pad_width": "60 mm"})
    assert lay.slot_jaw(wide.job, wide.sled).reach_along == 30  # the pad's half, wider than the slot's


def test_what_must_be_free_past_the_end() -> None:
    """Margin, but never less than the block's mark and 10 mm, or 1/16 and 7/16 in."""
    for units, margin, free in (
        ("mm", "50 mm", 50), ("mm", "5 mm", 11), ("mm", "11.5 mm", 11.5), ("in", "5 mm", 12.7), ("in", "13 mm", 13),
    ):  # fmt: skip
        found = job(saw={"travel_margin": margin}).model_copy(update={"units": units})
        assert lay.free_travel(found, 200.0) == pytest.approx(200 + free)
    inch = job().model_copy(update={"units": "in"})
    assert (lay.stop_mark(job()), lay.stop_mark(inch)) == (1, 25.4 / 16)
    assert (lay.stop_spare(job()), lay.stop_spare(inch)) == pytest.approx((10, 25.4 * 7 / 16))
    assert (lay.hand_room(job()), lay.hand_room(inch)) == (100, 101.6)


def test_the_least_station_is_the_worse_of_as_set_and_pushed_down() -> None:
    """As set: u = (T + 50 + f(18) - t sin) / cos; pushed down to the table, 10 past the end: f(0)."""
    work = case()
    as_set = (DONE + 50 + reach(18) - 22 * SIN) / COS + 25
    pushed = (DONE + 10 + reach(0) - 22 * SIN) / COS + 25
    assert as_set > pushed
    found = lay.least_station(work.job, work.joint, work.way.blade, work.way.sled, DONE)
    assert found == pytest.approx(as_set)
    tight = work.job.model_copy(update={"saw": work.job.saw.model_copy(update={"travel_margin": 15.0})})
    found = lay.least_station(tight, work.joint, work.way.blade, work.way.sled, DONE)
    assert found == pytest.approx(pushed)
    assert lay.safe_station(work.job, work.way.sled, 395.4315) == 395.5
    # off the heel's end: the hole of 16 at depth 33, its slot half 17 long
    off = (33 * SIN + 8) / COS + 17
    assert lay.safe_station(work.job, work.way.sled, 3.0) == pytest.approx(math.ceil(off / 0.5) * 0.5)


# -- notches and nose ------------------------------------------------------------------------------------------


def test_stations_asked_for_are_taken_and_sorted() -> None:
    way = way_of(
        sled={
            "heel_station": "500 mm", "extra_stations": ["900 mm", "450 mm"], "nose_flat": "0 mm",
            "nose_station": "200 mm", "web": "20 mm", "notch_width": "14 mm", "notch_length": "44 mm",
        }
    )  # fmt: skip
    edge = 1500 / math.cos(way.sled.angle)
    assert [(n.where, n.station) for n in way.layout.notches] == [
        ("extra", 450), ("heel", 500), ("extra", 900), ("nose", pytest.approx(edge - 200)),
    ]  # fmt: skip
    assert [(c.where, c.station) for c in way.layout.clamps] == [(n.where, n.station) for n in way.layout.notches]
    assert {(n.web, n.length, n.width) for n in way.layout.notches} == {(20, 44, 14)}
    assert {c.opening for c in way.layout.clamps} == {20 + 22}


def test_the_nose_clamp_goes_on_the_flat_or_in_a_notch() -> None:
    """Asked for 40 from the nose end: on a flat of 40 along the fence edge, with one of 39 a notch on the work edge."""
    on = way_of(sled={"nose_flat": "40 mm", "nose_station": "40 mm"})
    sin, cos = math.sin(on.sled.angle), math.cos(on.sled.angle)
    assert on.layout.clamps[-1].where == "nose_flat"
    assert on.layout.clamps[-1].station == pytest.approx((1500 - 40 + on.sled.nose * cos * sin) / cos)
    assert [n.where for n in on.layout.notches] == ["heel"]
    off = way_of(sled={"nose_flat": "39 mm", "nose_station": "40 mm"})
    assert off.layout.clamps[-1].where == "nose"
    assert off.layout.clamps[-1].station == pytest.approx(1500 / cos - 40)
    assert [n.where for n in off.layout.notches] == ["heel", "nose"]


def test_without_a_flat_auto_leaves_a_web_to_the_fence_edge() -> None:
    """The slot's nose-side end: heel - (s + 17) sin - 33 cos - 8 = 25."""
    way = way_of(sled={"nose_flat": "0 mm"})
    sin, cos = math.sin(way.sled.angle), math.cos(way.sled.angle)
    station = (way.sled.heel - 33 * cos - 8 - 25) / sin - 17
    assert way.layout.clamps[-1].where == "nose"
    assert way.layout.clamps[-1].station == pytest.approx(station)
    wide = way_of(length=400, sled={"nose_flat": "0 mm", "plank": ["38 mm", "300 mm"]})
    (nose,) = [c for c in wide.layout.clamps if c.where == "nose"]
    assert nose.station == pytest.approx(400 / math.cos(wide.sled.angle) - 50)  # a slot's length off the nose end


def test_a_nose_notch_nearer_than_its_length_is_none() -> None:
    """Room for one ends at its own length, 50, from the heel."""
    for width, where in (("84 mm", ["heel"]), ("150 mm", ["heel", "nose"])):
        way = way_of(length=700, sled={"nose_flat": "0 mm", "plank": ["38 mm", width]})
        assert sorted(c.where for c in way.layout.clamps) == where


# -- hands -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("end", "travel"), [("hold", DONE), ("run_on", CLEAR)])
def test_hands_stay_clear_at_the_end_and_its_margin(end: str, travel: float) -> None:
    way = case(end).way
    exact = travel + 50 + reach(0) + 300
    assert lay.hands_at(way.job, way.blade, way.travel, 300) == pytest.approx(exact)
    assert lay.hands_at(way.job, way.blade, way.travel, 120) == pytest.approx(exact - 180)
    assert way.layout.hand_line == math.ceil(exact / 10) * 10


def test_a_cut_that_ends_before_the_axis_counts_from_the_axis() -> None:
    way = case().way
    early = replace(way.travel, done=-40.0)
    assert lay.hands_at(way.job, way.blade, early, 300) == pytest.approx(50 + reach(0) + 300)
    late = replace(way.travel, done=0.5)
    assert lay.hands_at(way.job, way.blade, late, 300) == pytest.approx(50.5 + reach(0) + 300)


def test_the_handles_stand_behind_the_hand_line() -> None:
    """Line 690: the first hole's edge 8 behind it, its middle 48 before that of the pair; down the width's middle."""
    holes = case().way.layout.handle_holes
    xs = [1500 - (690 + 48 + 2.5 + 8) + side * 48 for side in (-1, 1)]
    assert [x for x, _ in holes] == pytest.approx(xs)
    assert [y for _, y in holes] == pytest.approx([(NOSE + (HEEL - NOSE) * x / 1500) / 2 for x in xs])
    assert case().way.layout.handle_radius == 2.5
    asked = way_of(sled={"handle_station": "600 mm", "handle_spacing": "80 mm", "handle_hole": "6 mm"})
    assert [x for x, _ in asked.layout.handle_holes] == [1500 - 640, 1500 - 560]
    assert way_of(sled={"handle_hole": "0 mm"}).layout.handle_holes == ()
    assert way_of(sled={"hand_line": "1390 mm"}).layout.handle_holes == ()
    assert way_of(sled={"hand_line": "777 mm"}).layout.hand_line == 777


def test_handles_go_on_by_fives_past_a_notch_in_their_way() -> None:
    """A notch right behind the hand line: the first pair is found where every hole keeps 8 of wood."""
    way = way_of(sled={"extra_stations": ["800 mm"], "hand_line": "690 mm"})
    first = 690 + 48 + way.layout.handle_radius + 8
    at = 1500 - sum(x for x, _ in way.layout.handle_holes) / 2
    steps = (at - first) / 5
    assert steps == pytest.approx(round(steps))
    taken = [n.capsule(way.sled) for n in way.layout.notches]

    def free(station: float) -> bool:
        for side in (-48, 48):
            x = 1500 - station + side
            hole = Capsule((x, way.sled.width_at(x) / 2), (x, way.sled.width_at(x) / 2), way.layout.handle_radius)
            for slot in taken:  # the distance of a point to a slanted segment, by sampling it
                apart = min(
                    math.dist(hole.start, [slot.start[k] + (slot.end[k] - slot.start[k]) * i / 500 for k in (0, 1)])
                    for i in range(501)
                )
                if apart - hole.radius - slot.radius < 8:
                    return False
        return True

    assert steps > 1
    assert free(at)
    assert not any(free(first + 5 * i) for i in range(round(steps)))


def test_a_hole_keeps_8_of_wood_to_edges_and_openings() -> None:
    square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
    slot = Capsule((50.0, 50.0), (50.0, 50.0), 10.0)
    assert fits(Capsule((13.0, 50.0), (13.0, 50.0), 5.0), square, [])
    assert not fits(Capsule((12.9, 50.0), (12.9, 50.0), 5.0), square, [])
    assert fits(Capsule((27.0, 50.0), (27.0, 50.0), 5.0), square, [slot])
    assert not fits(Capsule((27.1, 50.0), (27.1, 50.0), 5.0), square, [slot])


# -- sheet: dowels ---------------------------------------------------------------------------------------------

SHEET = {"made_from": "sheet", "sheet_thickness": "18 mm", "plank": None, "dowel": "8 mm", "layers": 2}


@pytest.mark.parametrize("length", [900, 905, 3000])
def test_dowels_down_the_middle_as_far_apart_as_they_can(length: float) -> None:
    way = way_of(length=length, sled=SHEET)
    dowels = way.layout.dowels
    assert way.layout.dowel_radius == 4
    assert len(dowels) == 3
    for x, y in dowels:
        assert y == pytest.approx(way.sled.width_at(x) / 2)
        assert (x / (length / 200)) == pytest.approx(round(x / (length / 200)))
    others = [s for name, s in way.layout.capsules(way.sled) if name != "dowel hole"]

    def good(i: int) -> bool:
        x = i * length / 200
        at = (x, way.sled.width_at(x) / 2)
        return fits(Capsule(at, at, 4.0), way.sled.corners(), others)

    places = [i for i in range(1, 200) if good(i)]
    near, middle, far = (round(x / (length / 200)) for x, _ in dowels)
    assert (near, far) == (places[0], places[-1])
    assert abs(middle - (near + far) / 2) == min(abs(i - (near + far) / 2) for i in places)


@pytest.mark.parametrize("changes", [{"dowel": "0 mm"}, {"layers": 1}])
def test_no_dowels_where_there_is_nothing_to_hold_together(changes: dict[str, Any]) -> None:
    assert way_of(length=900, sled={**SHEET, **changes}).layout.dowels == ()
    assert way_of(length=900).layout.dowels == ()


@pytest.mark.parametrize(("length", "places"), [(60, [12, 30, 48]), (50, [12, 38]), (39, []), (3000, [15, 1500, 2985])])
def test_dowels_keep_their_own_wood_between_them(length: float, places: list[float]) -> None:
    """Of 8, with 8 of wood: from 12 to 12 off the other end, and 16 from one to the next; one alone holds nothing."""
    sled = from_sheet(60.0, 36.0, length, 12.0)
    assert [x for x, _ in dowel_holes(sled, 4.0, [])] == pytest.approx(places, abs=min(length / 200, 1.0))
    assert dowel_holes(sled, 300.0, []) == ()


def test_every_opening_has_its_name() -> None:
    way = way_of(length=900, sled=SHEET)
    names = [name for name, _ in way.layout.capsules(way.sled)]
    assert names == ["heel notch", "handle hole", "handle hole", *["dowel hole"] * 3]
    radii = [c.radius for _, c in way.layout.capsules(way.sled)]
    assert radii == [8, way.layout.handle_radius, way.layout.handle_radius, 4, 4, 4]
    round_ones = [c for name, c in way.layout.capsules(way.sled) if name.endswith("hole")]
    middles = [*way.layout.handle_holes, *way.layout.dowels]
    assert [c.start for c in round_ones] == [c.end for c in round_ones] == middles


# -- a sled that is made already -------------------------------------------------------------------------------


def test_a_measured_sled_keeps_its_holes_and_has_its_own_limits() -> None:
    """5 mm longer, heel and nose as planned: x counts from the nose, so every hole moves by 5."""
    planned = way_of(length=850)
    way = way_of(length=850, sled={"length_as_made": "855 mm"})
    assert way.sled.length == 855
    assert way.nominal.length == 850
    assert way.planned == planned.layout
    assert [n.station for n in way.layout.notches] == [n.station for n in planned.layout.notches]
    assert way.layout.handle_holes == tuple((x + 5, y) for x, y in planned.layout.handle_holes)
    assert way.layout.hand_line == planned.layout.hand_line
    n = 855 / (planned.sled.heel - planned.sled.nose)
    assert way.joint.ratio == pytest.approx(n)
    assert [c.where for c in way.layout.clamps] == ["heel", "nose_flat"]
    sin, cos = 1 / math.hypot(1, n), n / math.hypot(1, n)
    assert way.layout.clamps[1].station == pytest.approx((855 - 20 + way.sled.nose * cos * sin) / cos)
    again = lay.least_station(way.job, way.joint, way.blade, way.sled, way.travel.done)
    assert way.layout.least_station == pytest.approx(again)
    assert way.layout.least_station != pytest.approx(planned.layout.least_station)


def test_a_measured_sled_that_runs_on_needs_its_clamps_clear_to_the_end() -> None:
    way = way_of(length=850, saw={"end_of_cut": "run_on"}, sled={"length_as_made": "855 mm"})
    to_the_end = lay.least_station(way.job, way.joint, way.blade, way.sled, way.travel.clear)
    assert way.layout.least_station == pytest.approx(to_the_end)
    assert to_the_end > lay.least_station(way.job, way.joint, way.blade, way.sled, way.travel.done) + 100


def test_holes_move_with_the_length_dowels_too() -> None:
    layout = way_of(length=900, sled=SHEET).layout
    moved = lay.moved(layout, 3.0)
    assert moved.dowels == tuple((x + 3, y) for x, y in layout.dowels)
    assert moved.handle_holes == tuple((x + 3, y) for x, y in layout.handle_holes)


def test_sizes_that_make_no_sled_are_said_and_left() -> None:
    found: Job = job(sled={"heel_as_made": "50 mm", "nose_as_made": "56 mm"})
    way, unmeasurable = sled_way(found, 850)
    assert unmeasurable
    assert way.sled == way.nominal
    assert not sled_way(job(), 850)[1]


# -- the way in figures ----------------------------------------------------------------------------------------


def test_blade_and_sleds_as_the_job_says() -> None:
    way = way_of(length=850, saw={"fence_gap": "0.6 mm", "clear_gap": "7 mm", "blade_above_work": "9 mm"})
    assert way.blade == Blade(way.job.saw.blade_diameter, 2.5, 69.0, 0.6)
    n = 850 / 71
    tip = 0.6 * math.hypot(1, n) / n
    assert (way.joint.ratio, way.joint.thickness, way.joint.height) == pytest.approx((n, 22, 60))
    assert way.joint.tip == pytest.approx(tip)
    exit_x = 22 * math.hypot(1, n) - 0.6 * n
    radius = way.blade.diameter / 2
    at_table, at_top = math.sqrt(radius**2 - (radius - 69) ** 2), math.sqrt(radius**2 - (radius - 9) ** 2)
    found = way.travel
    assert (found.start, found.exit_x, found.offcut_free, found.done, found.clear) == pytest.approx(
        (-at_table - 25, exit_x, exit_x - 2.5 * n - at_top, exit_x - at_top, exit_x + at_table + 7 * n)
    )
    assert (way.sled.mark, way.sled.plank_width, way.sled.kerf, way.sled.thickness) == (127.5, 184, 2.5, 38)
    assert way.dividing is not None
    half = 1.25 * math.hypot(1, n) / n
    assert (way.sled.heel, way.sled.nose) == pytest.approx((127.5 - half, 56.5 - half))


def test_a_sheet_sled_in_figures() -> None:
    way = way_of(length=900, sled={**SHEET, "layers": 3, "nose_min": "41 mm"})
    assert (way.sled.nose, way.sled.heel, way.sled.thickness) == (41, 41 + 900 / 12, 54)
    assert way.sled.ratio == 12
    assert way.dividing is None
    assert way.sled.nose_flat == 40  # the pad of 30 and 5 a side


def test_the_flat_of_the_nose_has_room_beside_the_pad() -> None:
    """5 a side, or 3/16 in; as asked where it was asked for."""
    inch = way_of(units="in", clamp={"pad_width": "30 mm"})
    assert inch.sled.nose_flat == pytest.approx(30 + 2 * 25.4 * 3 / 16)
    assert way_of(sled={"nose_flat": "33 mm"}).sled.nose_flat == 33
