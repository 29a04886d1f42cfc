"""Long parts in keyed sections: checked against shapely on fine chords, and as solids."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scarfwright.models.flat.loop import Loop, circle, polygon, rectangle, rounded, slot
from scarfwright.models.flat.overlap import inside, meet, meet_area, uncovered
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.lettering import lettered, text_width
from scarfwright.models.part.part import Feature, Mark, Operation, Part, Raised
from scarfwright.models.printing.bed import angle_to_fit, size
from scarfwright.models.printing.sections import SplitError, sections, split
from scarfwright.models.solids.solids import solid
from shapely.geometry import Point
from shapely.ops import unary_union

from tests.shapes import plate
from tests.shapes import polygon as shape

SAY = say_in("mm")


def gauge(length: float = 600.0, low: float = 20.0, high: float = 60.0) -> Part:
    outline = polygon([(0.0, 0.0), (length, 0.0), (length, high), (0.0, low)])
    return Part("gauge", "Gauge", outline, 5.0)


def test_a_part_that_fits_stays_whole_also_slanting() -> None:
    part = gauge(200.0)
    assert split(part, 220.0, 220.0, 0.2) == (part,)
    slanting = gauge(260.0, 20.0, 20.0)
    assert split(slanting, 220.0, 220.0, 0.2) == (slanting,)
    angle = angle_to_fit(slanting, 220.0, 220.0)
    assert angle is not None
    assert 0 < angle < math.pi / 2
    assert max(size(slanting, angle)) <= 220.0


@pytest.mark.parametrize("clearance", [0.0, 0.2, 0.5])
def test_sections_fit_the_bed_and_make_the_part_again(clearance: float) -> None:
    part = gauge()
    pieces = split(part, 220.0, 220.0, clearance)
    assert [p.name for p in pieces] == ["gauge-1", "gauge-2", "gauge-3"]
    assert all(angle_to_fit(p, 220.0, 220.0) is not None for p in pieces)
    flats = [plate(p) for p in pieces]
    for one, other in pairwise(flats):
        assert one.intersection(other).area < 1e-6
        assert one.distance(other) < 1e-9  # the shoulders meet
    gap = plate(part).difference(unary_union(flats))
    assert gap.area == pytest.approx(part.area - sum(p.area for p in pieces), abs=1e-3)
    if clearance:
        # the play is a strip of even width round each key
        assert gap.buffer(-0.49 * clearance).area > 0
        assert gap.buffer(-0.51 * clearance / math.cos(math.radians(15))).area == pytest.approx(0.0, abs=1e-3)


def test_the_keys_hold() -> None:
    one, other, _ = (plate(p) for p in split(gauge(), 220.0, 220.0, 0.2))
    from shapely.affinity import translate

    assert one.intersection(translate(other, 0.1)).area < 1e-6  # it moves within its play
    assert one.intersection(translate(other, 1.5)).area > 0.5  # and no further
    assert one.intersection(translate(other, 0.0, 0.5)).area > 0.1


def test_a_negative_clearance_is_a_press_fit_in_the_drawing() -> None:
    one, other, _ = (plate(p) for p in split(gauge(), 220.0, 220.0, -0.1))
    common = one.intersection(other)
    assert common.area > 0.1
    assert common.buffer(-0.06).area == pytest.approx(0.0, abs=1e-3)


def test_sections_are_solids_with_everything_that_was_on_the_part() -> None:
    plain = replace(
        gauge(),
        features=(
            Feature(Operation.DRILL, circle(300.0, 20.0, 4.0), "hole"),
            Feature(Operation.POCKET, rectangle(20.0, 2.0, 560.0, 3.0), "line", 0.4),
        ),
        raised=(Raised(rectangle(0.0, 0.0, 600.0, 1.5), 5.0, 12.0, "lip"),),
        marks=(Mark(((0.0, 9.0), (600.0, 9.0)), scored=True),),
    )
    part = lettered(plain, "1 in 12", 190.0, 12.0, 6.0)
    pieces = split(part, 220.0, 220.0, 0.2)
    letters = [f.name for p in pieces for f in p.features if f.writing]
    assert letters == [f.name for f in part.features if f.writing]
    assert sum(f.operation is Operation.DRILL for p in pieces for f in p.features) == 1
    scored = sum(math.dist(*m.points) for p in pieces for m in p.marks)
    assert scored == pytest.approx(600.0, abs=2.0)  # less the play it crosses
    for piece in pieces:
        body = solid(piece)
        assert body.isValid()
        assert body.Volume() == pytest.approx(piece.volume, rel=1e-9)
        for feature in piece.features:
            assert plate(replace(piece, features=())).buffer(1e-6).contains(shape(feature.loop))


def test_long_the_other_way() -> None:
    upright = gauge().turned(math.pi / 2)
    pieces = split(upright, 220.0, 220.0, 0.2)
    assert len(pieces) == 3
    assert plate(upright).buffer(1e-6).contains(unary_union([plate(p) for p in pieces]))


def test_a_label_in_the_way_moves_the_joint_or_stops_it() -> None:
    text = "1 in 12 and a long way to go by hand, word after word after word, without an end"
    assert text_width(text, 9.0) > 440
    part = lettered(gauge(600.0, 30.0), text, 5.0, 10.0, 9.0)
    with pytest.raises(SplitError, match="no way"):
        split(part, 220.0, 220.0, 0.2)
    pieces, (found,) = sections(part, 220.0, 220.0, 0.2)
    assert pieces == ()
    assert found.code == "split.no_place"
    assert found.numbers["length_mm"] == pytest.approx(600.0)


def test_too_wide_even_when_split() -> None:
    _, (found,) = sections(gauge(600.0, 300.0, 400.0), 220.0, 220.0, 0.2)
    assert found.code == "split.no_place"
    assert found.numbers["too_wide"]


@given(
    st.floats(230.0, 900.0), st.floats(14.0, 120.0), st.floats(0.0, 60.0), st.floats(-0.3, 0.6), st.floats(130.0, 400.0)
)
@settings(max_examples=40, deadline=None)
def test_over_the_range_sections_fit_and_make_the_part(
    length: float, low: float, rise: float, clearance: float, bed: float
) -> None:
    part = gauge(length, low, low + rise)
    assume(angle_to_fit(part, bed, bed) is None)
    try:
        pieces = split(part, bed, bed, clearance)
    except SplitError:
        assert low < 20.0 or low + rise > bed - 20 or length > 12 * (bed - 20)
        return
    flats = [plate(p) for p in pieces]
    assert all(flat.is_valid for flat in flats)
    assert all(angle_to_fit(p, bed, bed) is not None for p in pieces)
    whole = plate(part)
    assert whole.symmetric_difference(unary_union(flats)).area < 3 * 40 * max(clearance, 0.0) * len(pieces) * 4 + 1e-3
    for flat, piece in zip(flats, pieces, strict=True):
        assert flat.area == pytest.approx(piece.area, rel=1e-5)


# -- the exact clipping underneath --------------------------------------------------------------------------


def steps(low: float, high: float) -> st.SearchStrategy[float]:
    """Multiples of 0.01: numbers next to nothing are more than the other library bears."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda n: n / 100)


SHAPES = st.one_of(
    st.builds(circle, steps(-5, 5), steps(-5, 5), steps(1, 8)),
    st.builds(rectangle, steps(-9, 5), steps(-9, 5), steps(1, 12), steps(1, 12)),
    st.builds(
        lambda x, y, w, h, turn: rounded([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], 0.9).turned(turn),
        steps(-9, 5), steps(-9, 5), steps(2, 12), steps(2, 12), steps(0, 3),
    ),
    st.builds(
        lambda x, y, u, v, w: slot((x, y), (u, v), w),
        steps(-6, 0), steps(-6, 6), steps(1, 6), steps(-6, 6), steps(0.5, 6),
    ),
)  # fmt: skip


def uncovered_area(loop: Loop, covers: list[Loop]) -> float:
    """Area inside a loop and outside all covers [mm2]; the covers may overlap each other."""
    return sum(found.area for found in uncovered(loop, covers))


@given(SHAPES, SHAPES, SHAPES)
@settings(max_examples=150, deadline=None)
def test_clipping_against_shapely(one: Loop, other: Loop, third: Loop) -> None:
    a, b, c = (shape(loop) for loop in (one, other, third))
    # shapes that nearly touch are a matter of rounding, on either side
    assume(all(p.boundary.distance(q.boundary) == 0 or p.boundary.distance(q.boundary) > 1e-3
               for p, q in ((a, b), (a, c), (b, c))))  # fmt: skip
    assert meet_area(one, other) == pytest.approx(a.intersection(b).area, abs=5e-3)
    assert uncovered_area(one, [other, third]) == pytest.approx(a.difference(b.union(c)).area, abs=1e-2)


@given(SHAPES, steps(-10, 10), steps(-10, 10))
@settings(max_examples=150, deadline=None)
def test_inside_against_shapely(loop: Loop, x: float, y: float) -> None:
    flat = shape(loop)
    assume(flat.boundary.distance(Point(x, y)) > 1e-3)
    assert inside(loop, (x, y)) == flat.contains(Point(x, y))


def test_shapes_that_share_edges() -> None:
    """The usual case on parts: strips flush with the outline."""
    plain = rectangle(0, 0, 10, 6)
    assert uncovered_area(rectangle(0, 0, 10, 2), [plain]) == pytest.approx(0.0)
    assert uncovered_area(plain, [rectangle(0, 0, 10, 2)]) == pytest.approx(40.0)
    assert uncovered_area(plain, [rectangle(0, 0, 5, 6), rectangle(5, 0, 5, 6)]) == pytest.approx(0.0)
    assert uncovered_area(plain, [plain]) == pytest.approx(0.0)
    assert uncovered_area(rectangle(-2, 0, 12, 6), [plain]) == pytest.approx(12.0)
    assert meet_area(plain, rectangle(0, 0, 4, 6)) == pytest.approx(24.0)
    assert meet(plain, rectangle(10, 0, 4, 6)) == []
    assert meet_area(plain, plain) == pytest.approx(60.0)
