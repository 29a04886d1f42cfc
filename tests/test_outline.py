"""Loops of lines and arcs against closed forms and against shapely's polygons."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scarfwright.models.flat.loop import (
    Edge,
    Loop,
    Vertex,
    circle,
    polygon,
    rectangle,
    rounded,
    rounded_each,
    slot,
)
from scarfwright.models.flat.room import Capsule, between, inside_by, segment_distance
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

coordinate = st.integers(-5000, 5000).map(lambda n: n / 10)
point = st.tuples(coordinate, coordinate)
size = st.floats(0.5, 300)
bulges = st.one_of(st.just(0.0), st.floats(0.05, 3.0), st.floats(-3.0, -0.05))


@st.composite
def loops(draw: st.DrawFn) -> Loop:
    """Star-shaped rings with any bulges; edges may cross, which area by formula does not mind."""
    count = draw(st.integers(3, 8))
    radii = [draw(st.floats(10, 200)) for _ in range(count)]
    return Loop(
        tuple(
            Vertex(r * math.cos(i * math.tau / count), r * math.sin(i * math.tau / count), draw(bulges))
            for i, r in enumerate(radii)
        )
    )


def shoelace(points: list[tuple[float, float]]) -> float:
    ring = zip(points, points[1:] + points[:1], strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in ring) / 2


def line(a: tuple[float, float], b: tuple[float, float]) -> LineString | ShapelyPoint:
    return ShapelyPoint(a) if a == b else LineString([a, b])


# -- single edges ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("degrees", [10, 90, 180, 270, 340, -10, -90, -180, -270])
def test_an_arc_from_its_angle(degrees: float) -> None:
    """From (r, 0) about the origin by the angle; a bulge is tan(angle / 4)."""
    angle, r = math.radians(degrees), 7.0
    edge = Edge((r, 0.0), (r * math.cos(angle), r * math.sin(angle)), math.tan(angle / 4))
    assert edge.radius == pytest.approx(r)
    assert edge.length == pytest.approx(r * abs(angle))
    assert edge.centre == pytest.approx((0, 0), abs=1e-9)
    assert edge.middle == pytest.approx((r * math.cos(angle / 2), r * math.sin(angle / 2)))
    for share in (0.0, 0.3, 1.0):
        assert edge.point_at(share) == pytest.approx((r * math.cos(angle * share), r * math.sin(angle * share)))


def test_a_straight_edge() -> None:
    edge = Edge((1.0, 2.0), (4.0, 6.0), 0.0)
    assert edge.length == 5
    assert edge.radius == math.inf
    assert edge.middle == (2.5, 4.0)
    assert edge.point_at(0.2) == pytest.approx((1.6, 2.8))
    with pytest.raises(ValueError, match="no centre"):
        _ = edge.centre


def test_a_loop_needs_two_vertices() -> None:
    with pytest.raises(ValueError, match="two vertices"):
        Loop((Vertex(0, 0),))


# -- closed forms ----------------------------------------------------------------------------------------


@given(coordinate, coordinate, size)
def test_circle(x: float, y: float, r: float) -> None:
    loop = circle(x, y, r)
    assert loop.area == pytest.approx(math.pi * r**2)
    assert loop.perimeter == pytest.approx(math.tau * r)
    assert loop.bounds == pytest.approx((x - r, y - r, x + r, y + r), abs=1e-9)
    assert loop.circle is not None
    assert loop.circle[0] == pytest.approx((x, y), abs=1e-9)
    assert loop.circle[1] == pytest.approx(r)
    assert loop.reversed().area == pytest.approx(-math.pi * r**2)


@given(coordinate, coordinate, size, size)
def test_rectangle(x: float, y: float, width: float, height: float) -> None:
    loop = rectangle(x, y, width, height)
    assert loop.area == pytest.approx(width * height)
    assert loop.perimeter == pytest.approx(2 * (width + height))
    assert loop.bounds == pytest.approx((x, y, x + width, y + height))
    assert loop.circle is None


@given(point, st.floats(0, math.tau), st.floats(0.1, 300), size)
def test_slot(start: tuple[float, float], angle: float, length: float, width: float) -> None:
    end = (start[0] + length * math.cos(angle), start[1] + length * math.sin(angle))
    loop = slot(start, end, width)
    assert loop.area == pytest.approx(length * width + math.pi * width**2 / 4)
    assert loop.perimeter == pytest.approx(2 * length + math.pi * width)
    low = (min(start[0], end[0]) - width / 2, min(start[1], end[1]) - width / 2)
    high = (max(start[0], end[0]) + width / 2, max(start[1], end[1]) + width / 2)
    assert loop.bounds == pytest.approx((*low, *high), abs=1e-6)
    assert sorted(v.bulge for v in loop.vertices) == [0, 0, 1, 1]


def test_a_slot_of_no_length_is_a_hole() -> None:
    assert slot((3.0, 4.0), (3.0, 4.0), 8.0).circle == ((3.0, 4.0), 4.0)


@given(size, size, st.floats(0.01, 0.49))
def test_rounded_rectangle(width: float, height: float, share: float) -> None:
    r = share * min(width, height)
    loop = rounded([(0, 0), (width, 0), (width, height), (0, height)], r)
    assert loop.area == pytest.approx(width * height - (4 - math.pi) * r**2)
    assert loop.perimeter == pytest.approx(2 * (width + height) - (8 - math.tau) * r)
    assert loop.bounds == pytest.approx((0, 0, width, height), abs=1e-9)
    assert {round(v.bulge, 6) for v in loop.vertices} == {0.0, 0.414214}  # tan(90 / 4 degrees)


def test_one_rounded_corner_and_an_inner_one() -> None:
    """An L; its inner corner rounded adds wood, an outer one takes it."""
    corners = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0), (20.0, 40.0), (0.0, 40.0)]
    sharp, fillet = 1200.0, (1 - math.pi / 4) * 25
    assert rounded_each(corners, [0] * 6).area == pytest.approx(sharp)
    assert rounded_each(corners, [0, 0, 0, 5, 0, 0]).area == pytest.approx(sharp + fillet)
    assert rounded_each(corners, [5, 0, 0, 0, 0, 0]).area == pytest.approx(sharp - fillet)


@given(st.lists(st.floats(20, 200), min_size=3, max_size=8), st.floats(0.1, 2))
def test_roundings_agree_with_shapely(radii: list[float], r: float) -> None:
    """Opening a convex corner: shapely shrinks and grows by r, which rounds outer corners by r."""
    corners = [(100 * math.cos(i * math.tau / len(radii)), 100 * math.sin(i * math.tau / len(radii)))
               for i in range(len(radii))]  # fmt: skip
    opened = Polygon(corners).buffer(-r, join_style="mitre").buffer(r, quad_segs=256)
    assert rounded(corners, r).area == pytest.approx(opened.area, rel=1e-6)


def test_an_edge_too_short_for_its_roundings_is_refused() -> None:
    corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 50.0), (0.0, 50.0)]
    assert rounded(corners, 5.0).area == pytest.approx(500 - (4 - math.pi) * 25)
    with pytest.raises(ValueError, match="too short"):
        rounded(corners, 5.01)


# -- laws ------------------------------------------------------------------------------------------------


@given(loops())
def test_area_and_length_agree_with_many_short_chords(loop: Loop) -> None:
    points = loop.points(sagitta=0.001)
    longest = loop.perimeter
    # chords at most s off a curve of length l miss less than s l of area; a chord is shorter by about 8 s^2 / 3 c each
    assert loop.area == pytest.approx(shoelace(points), abs=0.001 * longest + 1e-6)
    assert sum(math.dist(p, q) for p, q in zip(points, points[1:] + points[:1], strict=True)) == pytest.approx(
        longest, rel=1e-3
    )


@given(loops())
def test_bounds_hold_every_point_and_are_reached(loop: Loop) -> None:
    points = loop.points(sagitta=0.001)
    low_x, low_y, high_x, high_y = loop.bounds
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    for found, least in ((min(xs), low_x), (min(ys), low_y), (-max(xs), -high_x), (-max(ys), -high_y)):
        assert least - 1e-6 <= found <= least + 0.0011


@given(size, bulges.filter(bool), st.floats(0.001, 5))
def test_points_stay_within_the_sagitta(chord: float, bulge: float, sagitta: float) -> None:
    """The middle of every chord of an arc lies no further than asked from it."""
    loop = Loop((Vertex(0, 0, bulge), Vertex(chord, 0, 0)))
    arc = next(loop.edges())
    chain = loop.points(sagitta)
    assert len(chain) >= 3
    for (x1, y1), (x2, y2) in pairwise(chain):
        off = arc.radius - math.dist(((x1 + x2) / 2, (y1 + y2) / 2), arc.centre)
        assert -1e-9 <= off <= max(sagitta * 1.001, arc.radius * 2e-7) or arc.radius < sagitta


@given(loops())
def test_reversing_and_mirroring(loop: Loop) -> None:
    back = loop.reversed()
    assert back.area == pytest.approx(-loop.area, abs=1e-6)
    assert back.perimeter == pytest.approx(loop.perimeter)
    assert back.bounds == pytest.approx(loop.bounds, abs=1e-6)
    assert back.reversed() == loop
    mirrored = loop.mirrored_y()
    low_x, low_y, high_x, high_y = loop.bounds
    assert mirrored.area == pytest.approx(loop.area, abs=1e-6)  # it still runs the same way round
    assert mirrored.bounds == pytest.approx((low_x, -high_y, high_x, -low_y), abs=1e-6)
    assert loop.counter_clockwise().area >= 0
    assert loop.clockwise().area <= 0


@given(loops(), st.floats(-7, 7), point)
def test_turning_and_moving_keep_area_and_length(loop: Loop, angle: float, about: tuple[float, float]) -> None:
    turned = loop.turned(angle, about).moved(3.0, -4.0)
    assert turned.area == pytest.approx(loop.area, rel=1e-6, abs=1e-3)
    assert turned.perimeter == pytest.approx(loop.perimeter)
    for old, new in zip(loop.vertices, turned.vertices, strict=True):
        assert math.dist(old.point, about) == pytest.approx(math.dist((new.x - 3.0, new.y + 4.0), about), abs=1e-6)


def test_a_quarter_turn_is_counter_clockwise() -> None:
    (first, *_) = polygon([(1, 0), (2, 0), (2, 1)]).turned(math.pi / 2).vertices
    assert first.point == pytest.approx((0, 1))


# -- room between features -------------------------------------------------------------------------------


@given(point, point, point, point)
def test_segment_distance_agrees_with_shapely(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> None:
    assert segment_distance(a, b, c, d) == pytest.approx(line(a, b).distance(line(c, d)), abs=1e-6)


@given(point, point, st.floats(0.1, 40), point, point, st.floats(0.1, 40))
def test_room_between_capsules_agrees_with_shapely(
    a: tuple[float, float], b: tuple[float, float], r: float, c: tuple[float, float], d: tuple[float, float], q: float
) -> None:
    room = between(Capsule(a, b, r), Capsule(c, d, q))
    apart = line(a, b).distance(line(c, d))
    assert room == pytest.approx(apart - r - q, abs=1e-6)


@settings(max_examples=200)
@given(point, point, st.floats(0.1, 40))
def test_room_inside_a_sled_agrees_with_shapely(a: tuple[float, float], b: tuple[float, float], r: float) -> None:
    corners = [(0.0, 0.0), (60.0, 5.0), (60.0, 0.0), (450.0, 0.0), (450.0, 160.0), (0.0, 120.0)]
    ground, middle = Polygon(corners), line(a, b)
    room = inside_by(Capsule(a, b, r), corners)
    edge = ground.exterior.distance(middle)
    if ground.contains(middle):
        assert room == pytest.approx(edge - r, abs=1e-6)
    else:
        assert room <= -r + 1e-6
        if not ground.intersects(middle):
            assert room == pytest.approx(-edge - r, abs=1e-6)


def test_capsules_by_hand() -> None:
    lying, standing = Capsule((0, 0), (10, 0), 2), Capsule((15, -5), (15, 5), 1)
    assert between(lying, standing) == 2  # 5 apart less both radii
    assert between(lying, lying) == -4
    hole = Capsule((5, 5), (5, 5), 2)
    square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    assert inside_by(hole, square) == 3
    assert inside_by(Capsule((12, 5), (12, 5), 2), square) == -4
    assert ShapelyPoint(5, 5).distance(Polygon(square).exterior) == 5
