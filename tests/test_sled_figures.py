"""The sled by drawn shapes: a plank sawn along its line, and notches as slots in it.

The other route is shapely's: a plank less a band as wide as the kerf, a line thickened by half a notch. Both tables of
sizes are invented.
"""

from __future__ import annotations

import math

import pytest
from scarfwright.models.sled.sled import (
    Notch,
    Sled,
    as_made,
    auto_nose_flat,
    from_plank,
    from_sheet,
    longest_from_plank,
    plank_width_for,
    rounding_slack,
    station_off_flat,
    station_with_left,
)
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from tests.shapes import notch_in, on_sled

INCH = 25.4
# plank width, thickness, length, slope asked for, kerf, marks
PLANKS = [(190.0, 37.0, 1120.0, 13.0, 2.8, 0.5), (7.25 * INCH, 1.5 * INCH, 54 * INCH, 10.0, INCH / 8, INCH / 32)]
both_units = pytest.mark.parametrize("size", PLANKS)

HALF = Sled(ratio=1120 / 84, length=1120, thickness=37, heel=135.5, nose=51.5, nose_flat=45)
SLANT = math.hypot(84, 1120)
SIN, COS = 84 / SLANT, 1120 / SLANT
# web, length, width of a notch
NOTCH = (22.0, 56.0, 18.0)
HOLE = (22.0, 10.0, 18.0)  # shorter than wide


# -- the plank sawn in two -------------------------------------------------------------------------------------


@both_units
def test_a_plank_sawn_along_its_line_gives_this_half_twice(size: tuple[float, ...]) -> None:
    width, thickness, length, asked, kerf, marks = size
    found = from_plank(width, thickness, length, asked, kerf, marks)
    exact = (width + length / asked) / 2
    assert found.mark is not None
    assert abs(found.mark - exact) <= marks / 2 + 1e-9
    assert found.mark / marks == pytest.approx(round(found.mark / marks))
    assert found.mark != pytest.approx(exact)  # else nothing were rounded here
    line = LineString(
        [(-length, width - found.mark - (2 * found.mark - width)), (2 * length, found.mark + (2 * found.mark - width))]
    )
    first, second = box(0, 0, length, width).difference(line.buffer(kerf / 2)).geoms
    outline = Polygon(found.corners())
    assert first.symmetric_difference(outline).area < 1e-6
    assert affinity.rotate(second, 180, origin=(length / 2, width / 2)).symmetric_difference(outline).area < 1e-6
    assert found.area == pytest.approx(first.area)
    assert found.ratio == pytest.approx(length / (2 * found.mark - width))
    assert (found.length, found.thickness, found.plank_width, found.kerf) == (length, thickness, width, kerf)
    assert found.angle == pytest.approx(math.atan2(found.heel - found.nose, length))
    assert found.work_edge == pytest.approx(math.dist((0, found.nose), (length, found.heel)))


def test_where_rounding_would_leave_no_taper_the_mark_is_not_rounded() -> None:
    """100 at 1 in 40 wants 101.25: the next mark of 5 is the plank's middle, 100, and there is no sled there."""
    assert from_plank(200, 40, 100, 40, 3, 5).mark == 101.25
    assert from_plank(200, 40, 100, 40, 3, 1).mark == 101
    assert from_plank(200, 40, 100, 40, 3, 2).mark == 102


@both_units
def test_the_longest_from_a_plank_has_the_least_nose_and_so_has_the_narrowest_plank(size: tuple[float, ...]) -> None:
    width, thickness, _, ratio, kerf, _ = size
    longest = longest_from_plank(width, ratio, kerf, 31.0)
    assert from_plank(width, thickness, longest, ratio, kerf, 0).nose == pytest.approx(31)
    assert plank_width_for(longest, ratio, kerf, 31.0) == pytest.approx(width)
    assert from_plank(
        plank_width_for(977.0, ratio, kerf, 31.0), thickness, 977.0, ratio, kerf, 0
    ).nose == pytest.approx(31)


def test_how_much_flatter_a_rounded_mark_makes_a_sled_at_most() -> None:
    """1000 at 1 in 10 tapers by 100: a mark half a step of 1 out takes 1 of it, and it is 1 in 1000 / 99."""
    assert rounding_slack(10, 1000, 1) * 10 == pytest.approx(1000 / 99)
    assert rounding_slack(10, 1000, 0) == 1
    assert rounding_slack(10, 100, 5) == 2
    assert rounding_slack(10, 100, 9) == 2  # however coarse the marks


def test_layers_of_sheet_as_given() -> None:
    found = from_sheet(33, 54, 960, 16)
    assert (found.nose, found.heel, found.thickness, found.length, found.ratio) == (33, 93, 54, 960, 16)
    assert (found.mark, found.plank_width, found.kerf, found.nose_flat) == (None, None, None, 0)


def test_a_sled_as_measured() -> None:
    """Each size for itself; N follows from all three."""
    plank = from_plank(190, 37, 1120, 13, 2.8, 0.5)
    assert as_made(plank, None, None) == plank
    for heel, nose, length in ((136.0, None, None), (None, 50.0, None), (None, None, 1118.0), (136.0, 50.0, 1118.0)):
        found = as_made(plank, heel, nose, length)
        sizes = (heel or plank.heel, nose or plank.nose, length or plank.length)
        assert (found.heel, found.nose, found.length) == sizes
        assert found.ratio == pytest.approx(sizes[2] / (sizes[0] - sizes[1]))
        assert (found.thickness, found.mark, found.kerf) == (37, plank.mark, 2.8)
    for heel, nose in ((50.0, 50.0), (49.0, 50.0)):
        with pytest.raises(ValueError, match=r"^the heel must be wider than the nose$"):
            as_made(plank, heel, nose)
    assert as_made(plank, 50.5, 50.0).ratio == pytest.approx(1120 / 0.5)


@pytest.mark.parametrize(("pad", "side", "flat"), [(30, 5, 40), (50, 5, 60), (52, 5, 60), (70, 5, 70), (20, 4, 28)])
def test_room_for_a_pad_on_the_nose(pad: float, side: float, flat: float) -> None:
    assert auto_nose_flat(pad, side) == flat


# -- places on the half ----------------------------------------------------------------------------------------


def test_the_outline_and_its_widths() -> None:
    outline = Polygon(HALF.corners())
    assert outline.exterior.is_ccw
    step = 45 * SIN / COS
    wanted = Polygon([(0, 0), (1120, 0), (1120, 135.5), (0, 51.5)]).difference(Polygon([(0, 0), (45, 0), (45, step)]))
    assert outline.symmetric_difference(wanted).area < 1e-9
    assert HALF.area == pytest.approx(wanted.area)
    assert HALF.flat_step == pytest.approx(step)
    edge = LineString([(0, 51.5), (1120, 135.5)])
    flat = LineString([(0, 0), (45, step)])  # parallel to the work edge
    assert HALF.across_nose == pytest.approx(flat.distance(edge))
    for x in (0.0, 1.0, 400.0, 1120.0):
        assert HALF.width_at(x) == pytest.approx(LineString([(x, 0), (x, 200)]).intersection(edge).y)
        assert HALF.from_heel(x) == 1120 - x
    bare = Sled(ratio=10, length=500, thickness=30, heel=90, nose=40)
    assert bare.corners() == [(0, 0), (500, 0), (500, 90), (0, 40)]
    assert Sled(ratio=10, length=500, thickness=30, heel=90, nose=40, nose_flat=0.5).corners()[1] == (0.5, 0.05)


def test_a_station_and_its_point() -> None:
    for station, depth in ((0.0, 0.0), (300.0, 0.0), (300.0, 40.0), (0.0, 40.0)):
        at = on_sled(Point(station, -depth), HALF)
        assert HALF.at_work_edge(station, depth) == pytest.approx((at.x, at.y))
        assert HALF.station_of_x(at.x, depth) == pytest.approx(station)
    assert HALF.station_of_x(1120 - 300 * COS) == pytest.approx(300)


@pytest.mark.parametrize("size", [NOTCH, HOLE])
def test_a_notch_is_a_slot_parallel_to_the_work_edge(size: tuple[float, float, float]) -> None:
    outline = Polygon([(0, 0), (1120, 0), (1120, 135.5), (0, 51.5)])
    notch = Notch("heel", 300, *size)
    found = notch.capsule(HALF)
    drawn = notch_in(HALF, notch)
    shape = LineString([found.start, (found.end[0] + 1e-12, found.end[1])]).buffer(found.radius, quad_segs=400)
    assert drawn.symmetric_difference(shape).area < 1e-3
    edge = LineString([(0, 51.5), (1120, 135.5)])
    assert drawn.distance(edge) == pytest.approx(size[0])
    assert notch.left(HALF) == pytest.approx(drawn.bounds[1], abs=1e-4)
    assert notch.bearing() == max(size[1] - size[2], 0)
    least, most = notch.stations_within(HALF)
    assert notch_in(HALF, Notch("", least, *size)).bounds[2] == pytest.approx(1120, abs=1e-4)
    assert notch_in(HALF, Notch("", most, *size)).bounds[0] == pytest.approx(0, abs=1e-4)
    assert outline.contains(drawn)


@pytest.mark.parametrize("size", [NOTCH, HOLE])
def test_the_last_station_beside_the_flat_and_above_the_fence_edge(size: tuple[float, float, float]) -> None:
    off = station_off_flat(HALF, *size, 12.0)
    assert notch_in(HALF, Notch("", off, *size)).bounds[0] - 45 == pytest.approx(12, abs=1e-4)
    above = station_with_left(HALF, *size, 14.0)
    assert notch_in(HALF, Notch("", above, *size)).bounds[1] == pytest.approx(14, abs=1e-4)
