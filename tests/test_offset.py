"""Offsets and what a round cutter leaves, held against shapely's buffers."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scarfwright.models.flat.chains import tidied, turn
from scarfwright.models.flat.loop import Loop, Vertex, circle, polygon, rectangle, rounded, slot
from scarfwright.models.flat.offset import offset
from scarfwright.models.flat.round_cutter import reached, relieved, unreached, widest_cutter
from shapely import Point, Polygon
from shapely.ops import unary_union

FINE = 0.0005  # chords this close to arcs [mm]


def shape(loop: Loop) -> Polygon:
    return Polygon(loop.points(FINE))


def region(loops: list[Loop]) -> Polygon:
    """What loops enclose: counter-clockwise ones less clockwise ones."""
    solid = unary_union([shape(r) for r in loops if r.area > 0])
    return solid.difference(unary_union([shape(r) for r in loops if r.area < 0]))


def far_apart(one: Polygon, other: Polygon, loop: Loop, by: float) -> float:
    """Area by which two shapes differ beyond what chords and the buffer's own roughness can account for [mm2].

    The buffer straightens hollows up to a hundredth of its distance before it begins.
    """
    return float(one.symmetric_difference(other).area) - (0.004 + 0.01 * abs(by)) * (loop.perimeter + 100.0)


@st.composite
def loops(draw: st.DrawFn) -> Loop:
    """Star-shaped rings of lines and arcs of any turn, some of them rough."""
    count = draw(st.integers(3, 9))
    vertices = []
    for i in range(count):
        angle = math.tau * (i + draw(st.floats(0, 0.7))) / count
        radius = draw(st.floats(15, 100))
        bulge = draw(st.sampled_from([0.0, 0.0, 0.2, -0.2, 0.5, -0.4]))
        vertices.append(Vertex(radius * math.cos(angle), radius * math.sin(angle), bulge))
    loop = Loop(tuple(vertices))
    edges = list(loop.edges())
    # chords do not show whether the two sides of a needle cross near its tip
    assume(all(abs(turn(edges[i - 1], edges[i])) < 3.0 for i in range(count)))
    assume(shape(loop).is_valid)
    return loop


@settings(max_examples=60, deadline=None)
@given(loops(), st.floats(0.2, 30), st.booleans())
def test_offset_encloses_what_a_buffer_does(loop: Loop, by: float, outside: bool) -> None:
    whole = shape(loop)
    distance = by if outside else -by
    found = offset(loop, distance)
    assert far_apart(region(found), whole.buffer(distance, quad_segs=200), loop, by) < 0
    for point in (p for ring in found for p in ring.points(0.2)):
        assert whole.exterior.distance(Point(point)) == pytest.approx(by, abs=2 * FINE)


@settings(max_examples=25, deadline=None)
@given(loops(), st.floats(0.5, 10))
def test_taking_the_cutter_away_restores_what_it_leaves(loop: Loop, radius: float) -> None:
    """Outside: the path less the radius is the outline as cut, and a second pass changes nothing."""
    left = reached(loop, radius, void=False)
    assert left is not None
    path = offset(left, radius)[0]
    assert far_apart(shape(path).buffer(-radius, quad_segs=200), shape(left), loop, radius) < 0
    again = reached(left, radius, void=False)
    assert again is not None
    assert again.area == pytest.approx(left.area, abs=1e-3)


@pytest.mark.parametrize("by", [0.075, 3.0, -0.075, -3.0])
@pytest.mark.parametrize(
    "loop",
    [
        circle(5, 5, 4),
        slot((0, 0), (34, 5), 16),
        rectangle(0, 0, 40, 20),
        rounded([(0, 0), (80, 0), (80, 30), (0, 30)], 5),
    ],
    ids=["circle", "slot", "rectangle", "rounded"],
)
def test_convex_offsets_against_the_closed_form(loop: Loop, by: float) -> None:
    """Steiner: area + perimeter d + pi d^2 outside; inside, rounded shapes lose perimeter d - pi d^2."""
    (moved,) = offset(loop, by)
    sharp = all(v.bulge == 0 for v in loop.vertices)
    corners = 4.0 if sharp and by < 0 else math.pi
    assert moved.area == pytest.approx(loop.area + loop.perimeter * by + corners * by**2, abs=1e-9)
    if not (sharp and by < 0):  # a cutter inside sharp corners leaves them rounded
        assert offset(moved, -by)[0].area == pytest.approx(loop.area, abs=1e-9)


def test_arcs_stay_arcs() -> None:
    (moved,) = offset(slot((0, 0), (30, 0), 10), 3.0)
    assert [round(v.bulge, 12) for v in moved.vertices] == [0, 1, 0, 1]
    assert moved.bounds == pytest.approx((-8, -8, 38, 8))


def test_nothing_is_left_inside_too_narrow_a_loop() -> None:
    assert offset(rectangle(0, 0, 40, 6), -3.0) == []
    assert offset(circle(0, 0, 3), -3.5) == []


def test_a_waist_parts_the_inside_in_two() -> None:
    bone = polygon(
        [(0, 0), (20, 0), (20, 8), (40, 8), (40, 0), (60, 0), (60, 20), (40, 20), (40, 12), (20, 12), (20, 20), (0, 20)]
    )
    assert len(offset(bone, -3.0)) == 2
    assert unreached(bone, 3.0, void=True)
    assert not unreached(bone, 1.9, void=True)


NOSE = polygon([(0, 0), (30, 2.5), (30, 0), (800, 0), (800, 120), (0, 57)])


def test_a_relief_lets_a_square_corner_in() -> None:
    """The mating part's corner, a square as wide as the flat, fits wholly into the relieved corner."""
    radius = 3.0
    cut = reached(relieved(NOSE, [(30, 2.5)], radius, void=False), radius, void=False)
    assert cut is not None
    wood = shape(cut)
    pad = Polygon([(0, 0), (30, 2.5), (30, -20), (0, -20)])
    assert wood.intersection(pad).area < 1e-3
    assert shape(reached(NOSE, radius, void=False) or NOSE).intersection(pad).area > 1.0  # filleted it would not fit
    assert min(edge.radius for edge in cut.edges()) >= radius - 1e-9
    assert wood.symmetric_difference(shape(NOSE)).area < math.pi * radius**2


def test_a_relief_cuts_away_and_adds_nothing() -> None:
    hole = rectangle(0, 0, 20, 10)
    opened = relieved(hole, [v.point for v in hole.vertices], 2.0, void=True)
    assert shape(hole).difference(shape(opened)).area < 0.01
    # each corner: the half of a disc beyond the corner's diagonal, less the triangle that was open already
    assert abs(opened.area) - hole.area == pytest.approx(4 * (math.pi * 2 - 4), abs=1e-9)
    assert not unreached(opened, 2.0, void=True)


def test_inside_corners_get_the_cutters_radius() -> None:
    left = reached(rectangle(0, 0, 40, 20), 3.0, void=True)
    assert left is not None
    assert left.area == pytest.approx(800 - (4 - math.pi) * 9, abs=1e-9)
    assert {round(e.radius, 9) for e in left.edges() if e.bulge} == {3.0}


@pytest.mark.parametrize("width", [4.0, 5.9])
def test_a_slot_narrower_than_the_cutter_is_told_with_its_width(width: float) -> None:
    fork = polygon([(0, 0), (100, 0), (100, 40), (50 + width, 40), (50 + width, 10), (50, 10), (50, 40), (0, 40)])
    assert unreached(fork, 3.0, void=False)
    assert widest_cutter(fork, void=False, limit=6.0) == pytest.approx(width, abs=0.011)
    shallow = polygon(
        [(0, 0), (100, 0), (100, 40), (50 + width, 40), (50 + width, 37.5), (50, 37.5), (50, 40), (0, 40)]
    )
    assert unreached(shallow, 3.0, void=False)


@pytest.mark.parametrize("width", [6.1, 16.0])
def test_a_wide_enough_slot_is_not(width: float) -> None:
    assert not unreached(slot((0, 0), (34, 5), width), 3.0, void=True)
    assert not unreached(rectangle(0, 0, 50, width), 3.0, void=True)


def test_tidied_drops_what_has_no_length_and_what_bends_nothing() -> None:
    rough = polygon([(0, 0), (10, 0), (10, 0), (20, 0), (20, 10), (0, 10), (0, 5)])
    assert [v.point for v in tidied(rough).vertices] == [(0, 0), (20, 0), (20, 10), (0, 10)]
    with pytest.raises(ValueError, match="nothing is left"):
        tidied(polygon([(1, 1), (1, 1), (1, 1)]))
