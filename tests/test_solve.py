"""What is "auto", what is rounded, what is measured: from job to sled, by independent routes."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from scarfwright.models.findings import faults
from scarfwright.models.flat.loop import polygon
from scarfwright.models.job.file import job_from_text
from scarfwright.models.job.tables import Job
from scarfwright.models.sled.sled import (
    Notch,
    Sled,
    as_made,
    from_plank,
    longest_from_plank,
    plank_mark,
    plank_width_for,
    station_off_flat,
    station_with_left,
)
from scarfwright.models.solve import FURTHER, work_out
from scarfwright.models.workup import Workup
from shapely import LineString, Polygon

BASE = {
    "mm": '[stock]\nthickness = "22 mm"\nheight = "60 mm"\n[joint]\nratio = 12\n[clamp]\nopening = "80 mm"\n',
    "in": 'units = "in"\n[stock]\nthickness = "3/4 in"\nheight = "2 1/2 in"\n[joint]\nratio = 12\n'
    '[clamp]\nopening = "3 in"\n',
}


def worked(sled: str = "", saw: str = "", base: str = BASE["mm"]) -> Workup:
    return work_out(job(sled, saw, base))


def job(sled: str = "", saw: str = "", base: str = BASE["mm"]) -> Job:
    return job_from_text(f"{base}[saw]\n{saw}\n[sled]\n{sled}\n")


def codes(work: Workup) -> set[str]:
    return {f.code for f in work.findings}


def at_length(like: Job, length: float) -> Workup:
    unit = f'"{length} mm"' if like.units == "mm" else f'"{length / 25.4} in"'
    text = f'{BASE[like.units]}[saw]\nend_of_cut = "{like.saw.end_of_cut}"\n'
    return work_out(job_from_text(f'{text}[sled]\nmade_from = "{like.sled.made_from}"\nlength = {unit}\n'))


# -- the automatic length --------------------------------------------------------------------------------


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("end", ["hold", "run_on"])
@pytest.mark.parametrize("made_from", ["plank", "sheet"])
def test_the_shortest_sled_that_serves(units: str, end: str, made_from: str) -> None:
    work = worked(f'made_from = "{made_from}"', f'end_of_cut = "{end}"', BASE[units])
    step = 50.0 if units == "mm" else 50.8
    count = round(work.way.sled.length / step)
    assert work.way.sled.length == pytest.approx(count * step)
    assert not faults(list(work.findings))
    for shorter in range(1, count):
        less = at_length(work.job, shorter * step)
        handle = shorter >= count - FURTHER and "handle.no_room" in codes(less)
        assert faults(list(less.findings)) or handle, shorter * step


def test_the_shortest_is_held_by_the_fence_as_the_formula_says() -> None:
    """L >= T_end + margin + f + jaw sin(theta) + fence_front: short sleds jam at the fence's front end.

    The jaw, 12 thick, stands off the flat square to the work edge, so its outer corner leads by 12 sin(theta).
    """
    work = worked("handle_hole = 0", "hands_clear = 150")
    need = work.way.travel_end + 50 + work.way.sled.nose_flat + 12 * math.sin(work.way.sled.angle) + 450
    assert need <= work.way.sled.length < need + 50 + 10  # a step, and what rounding the mark does to the slope
    assert "clamp.meets_fence" in codes(at_length(work.job, work.way.sled.length - 50))
    assert work.way.shortest == pytest.approx(need)


def test_nothing_serves_gives_the_least_wrong_with_its_faults() -> None:
    work = worked(base=BASE["mm"].replace('"80 mm"', '"30 mm"'))
    assert {f.code for f in faults(list(work.findings))} == {"clamp.no_grip"}


def test_a_plank_allows_no_longer_sled_than_its_width() -> None:
    """N (P - k / cos theta - 2 nose_min), and at that length the nose is nose_min."""
    longest = longest_from_plank(184, 12, 2.5, 25)
    sled = from_plank(184, 38, longest, 12, 2.5, 0)
    assert sled.nose == pytest.approx(25)
    assert plank_width_for(longest, 12, 2.5, 25) == pytest.approx(184)


# -- the mark and what rounding it does ------------------------------------------------------------------


@given(
    width=st.floats(60, 400),
    length=st.floats(200, 4000),
    ratio=st.floats(3, 40),
    kerf=st.floats(0.5, 6),
    mark=st.sampled_from([0.0, 0.5, 1.0, 25.4 / 32, 25.4 / 16]),
)
def test_one_mark_divides_a_plank_into_equal_halves(
    width: float, length: float, ratio: float, kerf: float, mark: float
) -> None:
    """Cut the plank with shapely along the line from mark to mark: two equal halves, a kerf apart."""
    assume(width - length / ratio > 2 * kerf + 4)
    assume(length / ratio > 2 * mark + 1)
    sled = from_plank(width, 38, length, ratio, kerf, mark)
    assert sled.mark is not None
    if mark:
        assert sled.mark / mark == pytest.approx(round(sled.mark / mark), abs=1e-6)
        assert abs(sled.mark - (width + length / ratio) / 2) <= mark / 2 + 1e-9
    else:
        assert sled.ratio == pytest.approx(ratio)
    plank = Polygon([(0, 0), (length, 0), (length, width), (0, width)])
    # from M of the one edge at the heel end to M of the other at the nose end
    line = LineString([(-length, (width - sled.mark) - (2 * sled.mark - width)), (2 * length, 3 * sled.mark - width)])
    lower, upper = sorted(plank.difference(line.buffer(kerf / 2, cap_style="flat")).geoms, key=lambda g: g.centroid.y)
    assert lower.area == pytest.approx(upper.area)
    assert lower.area == pytest.approx(sled.area)
    ours = Polygon(sled.corners())
    assert ours.symmetric_difference(lower).area < 1e-6 * lower.area
    assert lower.distance(upper) == pytest.approx(kerf)


def test_a_rounding_coarser_than_the_taper_keeps_the_exact_mark() -> None:
    assert plank_mark(184, 60, 12, 90) == pytest.approx(94.5)


def test_realised_slope_runs_through_every_later_number() -> None:
    work = worked('length = "1500 mm"\nplank = ["38 mm", "184.2 mm"]', 'kerf = "2.5 mm"')
    # exact M = (184.2 + 125) / 2 = 154.6, rounded to 154.5: L / N = 124.8
    assert work.way.sled.mark == 154.5
    ratio = 1500 / 124.8
    assert work.way.sled.ratio == pytest.approx(ratio)
    assert work.joint.ratio == work.way.sled.ratio
    cos = ratio / math.hypot(ratio, 1)
    assert work.joint.overlap == pytest.approx((22 - 2 * 0.4 / cos) * ratio)
    assert work.way.sled.heel == pytest.approx(154.5 - 1.25 / cos)


# -- as made ---------------------------------------------------------------------------------------------


def test_a_measured_sled_replaces_the_nominal_one() -> None:
    work = worked('length = "1500 mm"\nheel_as_made = "153 mm"\nnose_as_made = "29 mm"')
    assert work.way.sled.ratio == pytest.approx(1500 / 124)
    assert work.way.fence == pytest.approx(153.4)  # heel as measured + gap
    assert (work.way.sled.heel, work.way.sled.nose) == (153, 29)
    assert work.way.nominal.heel != 153
    assert work.joint.tip == pytest.approx(0.4 * math.hypot(124, 1500) / 1500)


def test_one_measure_alone_is_taken_with_the_other_as_planned() -> None:
    work = worked('length = "1500 mm"\nheel_as_made = "153 mm"')
    assert work.way.sled.heel == 153
    assert work.way.sled.nose == work.way.nominal.nose
    assert work.way.sled.ratio == pytest.approx(1500 / (153 - work.way.nominal.nose))


def test_a_sled_without_taper_cannot_be_as_made() -> None:
    sled = Sled(12, 1500, 38, 153, 28)
    with pytest.raises(ValueError, match="wider"):
        as_made(sled, 28, 28)


# -- sheet -----------------------------------------------------------------------------------------------


def test_a_sheet_sled_is_exact() -> None:
    work = worked('made_from = "sheet"\nlength = "1000 mm"\nnose_min = "30 mm"\nlayers = 3')
    assert (work.way.sled.ratio, work.way.sled.nose, work.way.sled.thickness) == (12, 30, 54)
    assert work.way.sled.heel == pytest.approx(30 + 1000 / 12)
    assert work.way.sled.mark is None
    assert work.way.dividing is None


def test_dowels_register_layers_clear_of_everything() -> None:
    work = worked('made_from = "sheet"')
    layout, sled = work.way.layout, work.way.sled
    assert 2 <= len(layout.dowels) <= 3
    ground = Polygon(sled.corners())
    for notch in layout.notches:
        c = notch.capsule(sled)
        ground = ground.difference(LineString([c.start, c.end]).buffer(c.radius))
    for hole in layout.handle_holes:
        ground = ground.difference(LineString([hole, hole]).centroid.buffer(layout.handle_radius))
    for x, y in layout.dowels:
        around = Polygon([(x + 12 * math.cos(a), y + 12 * math.sin(a)) for a in (i * math.tau / 64 for i in range(64))])
        assert ground.contains(around)  # radius 4 and 8 mm of wood
    assert worked('made_from = "sheet"\nlayers = 1').way.layout.dowels == ()
    assert worked('made_from = "sheet"\ndowel = 0').way.layout.dowels == ()
    assert worked().way.layout.dowels == ()


# -- stations --------------------------------------------------------------------------------------------


def test_the_heel_station_is_the_least_safe_one_on_a_mark() -> None:
    for marks, step in (('"0.5 mm"', 0.5), ('"1/16 in"', 25.4 / 16), ('"10 mm"', 10.0)):
        work = worked(f"round_marks = {marks}\nlength = '1500 mm'")
        station = work.way.layout.notches[0].station
        assert station / step == pytest.approx(round(station / step))
        assert 0 <= station - work.way.layout.least_station < step
    off = worked("round_marks = 0\nlength = '1500 mm'")
    assert off.way.layout.notches[0].station == off.way.layout.least_station


def test_on_thin_steep_stock_the_slot_stays_off_the_heels_end() -> None:
    """Where the blade would let it nearer than the slot's own length: the end is square to the fence edge."""
    base = (
        '[stock]\nthickness = "4 mm"\nheight = "20 mm"\n[joint]\nratio = 2\n[clamp]\npad_height = "0.5 mm"\njaw = 8\n'
    )
    work = worked(
        'made_from = "sheet"\nlength = 600\nnotch_length = 20\nnotch_width = 18\nweb = 100\nround_marks = 0',
        "travel_margin = 0\nblade_above_work = 1",
        base,
    )
    notch = work.way.layout.notches[0]
    assert notch.station > work.way.layout.least_station
    shape = notch.capsule(work.way.sled)
    assert max(shape.start[0], shape.end[0]) + shape.radius == pytest.approx(work.way.sled.length)


def test_the_nose_clamp_sits_in_the_middle_of_the_flat() -> None:
    work = worked('length = "1500 mm"\nnose_flat = "40 mm"')
    (clamp,) = [c for c in work.way.layout.clamps if c.where == "nose_flat"]
    # the flat lies nose cos(theta) under the work edge; its middle is at x = 20 on the fence's side
    x, y = work.way.sled.at_work_edge(clamp.station, work.way.sled.nose * math.cos(work.way.sled.angle))
    assert x == pytest.approx(20)
    assert y == pytest.approx(20 / work.way.sled.ratio)
    assert clamp.opening == pytest.approx(work.way.sled.nose * math.cos(work.way.sled.angle) + 22)


@pytest.mark.parametrize(("asked", "where"), [("25 mm", "nose_flat"), ("40 mm", "nose_flat"), ("300 mm", "nose")])
def test_a_nose_station_is_on_the_flat_or_a_notch_further_in(asked: str, where: str) -> None:
    work = worked(f'length = "1500 mm"\nnose_flat = "40 mm"\nnose_station = "{asked}"')
    (clamp,) = [c for c in work.way.layout.clamps if c.where.startswith("nose")]
    assert clamp.where == where
    assert ("nose" in [n.where for n in work.way.layout.notches]) == (where == "nose")
    if where == "nose":  # along the work edge, as every station, counted from the nose end
        assert clamp.station == pytest.approx(1500 / math.cos(work.way.sled.angle) - 300)
        assert clamp.opening == 25 + 22


def test_without_a_flat_the_nose_notch_leaves_a_web_of_wood() -> None:
    work = worked('length = "1500 mm"\nnose_flat = 0')
    (notch,) = [n for n in work.way.layout.notches if n.where == "nose"]
    shape = notch.capsule(work.way.sled)
    assert min(shape.start[1], shape.end[1]) - shape.radius == pytest.approx(25)


@given(
    ratio=st.floats(3, 40), length=st.floats(400, 3000), nose=st.floats(5, 60), flat=st.floats(0, 100),
    web=st.floats(5, 40), long=st.floats(5, 120), wide=st.floats(4, 40),
)  # fmt: skip
def test_where_a_notch_may_lie_against_shapely(
    ratio: float, length: float, nose: float, flat: float, web: float, long: float, wide: float
) -> None:
    """At each limiting station the slot, drawn by shapely, just touches what the limit is about."""
    sled = Sled(ratio, length, 38, nose + length / ratio, nose, flat)

    def drawn(station: float) -> Polygon:
        c = Notch("x", station, web, long, wide).capsule(sled)
        # a point is buffered as it is: shapely has no line of no length
        line = LineString([c.start, c.end])
        return (line if line.length > 1e-9 else line.centroid).buffer(c.radius, quad_segs=512)

    least, most = Notch("x", 0, web, long, wide).stations_within(sled)
    assert drawn(least).bounds[2] == pytest.approx(length, abs=1e-3)
    assert drawn(most).bounds[0] == pytest.approx(0, abs=1e-3)
    assert drawn(station_with_left(sled, web, long, wide, 10)).bounds[1] == pytest.approx(10, abs=1e-3)
    assert drawn(station_off_flat(sled, web, long, wide, 10)).bounds[0] == pytest.approx(flat + 10, abs=1e-3)
    edge = LineString([(0, nose), (length, sled.heel)])
    assert drawn(length / 2).distance(edge) == pytest.approx(web, abs=1e-3)
    assert Notch("x", length / 2, web, long, wide).left(sled) == pytest.approx(drawn(length / 2).bounds[1], abs=1e-3)


@given(st.floats(2, 40), st.floats(200, 3000), st.floats(5, 80), st.one_of(st.just(0.0), st.floats(1, 100)))
def test_the_outline_with_its_nose_flat(ratio: float, length: float, nose: float, flat: float) -> None:
    sled = Sled(ratio, length, 38, nose + length / ratio, nose, flat)
    ground = Polygon(sled.corners())
    assert ground.is_valid
    assert ground.area == pytest.approx(sled.area)
    assert polygon(sled.corners()).area == pytest.approx(sled.area)
    assert sled.work_edge == pytest.approx(math.dist((0, nose), (length, sled.heel)))
    if flat:  # parallel to the work edge, nose cos(theta) from it
        edge = LineString([(-9e3, nose - 9e3 / ratio), (9e3, nose + 9e3 / ratio)])
        for point in (sled.corners()[0], sled.corners()[1]):
            across = edge.distance(LineString([point, point]).centroid)
            assert across == pytest.approx(nose * math.cos(sled.angle), rel=1e-6)


# -- hands -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("units", ["mm", "in"])
def test_hands_stay_clear_at_the_end_of_the_cut(units: str) -> None:
    """At the end and its margin the hand line still stands hands_clear before the blade's front; on a mark."""
    work = worked(base=BASE[units])
    line, step = work.way.layout.hand_line, 10.0 if units == "mm" else 12.7
    assert line / step == pytest.approx(round(line / step))
    travel = work.way.travel_end + work.job.saw.travel_margin
    before_axis = line - travel  # the axis stands at X = T
    clear = before_axis - work.way.blade.reach(0)
    least = 300.0 if units == "mm" else 304.8
    assert least - 1e-9 <= clear < least + step


def test_a_hand_line_asked_for_is_taken() -> None:
    assert worked('hand_line = "700 mm"').way.layout.hand_line == 700


def test_handle_holes_lie_behind_the_hand_line_and_clear_of_notches() -> None:
    work = worked('length = "1500 mm"')
    near, far = sorted(work.way.sled.length - x for x, _ in work.way.layout.handle_holes)
    assert far - near == pytest.approx(96)
    assert near - 2.5 >= work.way.layout.hand_line
    for x, y in work.way.layout.handle_holes:
        assert y == pytest.approx(work.way.sled.width_at(x) / 2)
    asked = worked('length = "1500 mm"\nhandle_station = "800 mm"')
    assert sorted(1500 - x for x, _ in asked.way.layout.handle_holes) == pytest.approx([752, 848])


# -- the dividing cut ------------------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(ratio=st.floats(1, 40), length=st.floats(300, 3000), width=st.floats(100, 400), kerf=st.floats(1, 5))
@example(ratio=1.0, length=300.0, width=400.0, kerf=2.0)  # the batten's corner leads most on the steepest slope
def test_the_carrier_holds_the_half_with_its_line_along_the_feed(
    ratio: float, length: float, width: float, kerf: float
) -> None:
    assume(width - length / ratio > 2 * kerf + 20)
    work = worked(
        f'length = "{length:.3f} mm"\nplank = ["38 mm", "{width:.3f} mm"]\nround_marks = 0',
        f'kerf = "{kerf:.3f} mm"',
        BASE["mm"].replace("12", repr(ratio)),
    )
    cut, sled = work.way.dividing, work.way.nominal
    assert cut is not None
    board = Polygon([(0, 0), (cut.carrier_length, 0), (cut.carrier_length, cut.carrier_width), (0, cut.carrier_width)])
    batten = Polygon([v.point for v in cut.batten.vertices])
    assert board.contains(batten)
    assert math.degrees(math.atan(1 / sled.ratio)) == pytest.approx(
        -math.degrees(math.atan2(cut.batten.vertices[2].y - cut.batten.vertices[3].y,
                                 cut.batten.vertices[2].x - cut.batten.vertices[3].x)), abs=1e-6)  # fmt: skip
    # the half lies against the batten, and its work edge on the blade's near face, a gap beyond the carrier
    inner = LineString([cut.batten.vertices[3].point, cut.batten.vertices[2].point])
    line = LineString([(-1e4, cut.fence), (1e5, cut.fence)])
    assert cut.fence == pytest.approx(cut.carrier_width + 0.4)
    assert inner.distance(line) == pytest.approx(sled.nose * math.cos(sled.angle), abs=1e-4) or sled.nose > sled.heel
    # each screw lies in the half: so far from the batten and so far from the kerf
    for (x, y), (station, up) in zip(cut.screws, cut.screws_on_plank, strict=True):
        spot = LineString([(x, y), (x, y)]).centroid
        assert inner.distance(spot) == pytest.approx(up, abs=1e-4)
        assert up >= 10
        assert board.contains(spot)
        assert 0 < station < length
        assert cut.fence - y >= cut.screw_to_kerf - 1e-9
    assert cut.screw_to_kerf > 10
    assert cut.blade_height == pytest.approx(18 + 38 + 6)
    assert cut.rail_offset == pytest.approx(130 + 2.2 / 2, abs=1e-3)  # the hand-held saw's own kerf
