"""Lettering: every letter against the union of its strokes by another library, and labels on parts."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from ezdxf.filemanagement import readfile
from ezdxf.path import make_path
from hypothesis import given, settings
from hypothesis import strategies as st
from scarfwright.models.flat.loop import Loop
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.letter_set import GLYPHS, skeleton
from scarfwright.models.part.lettering import (
    LEAST_HEIGHT,
    label_findings,
    lettered,
    replaced,
    stroke,
    tail,
    text_width,
)
from scarfwright.models.part.part import Part
from scarfwright.models.solids.solids import solid
from scarfwright.outputs.formats.dxf import write_dxf
from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.ops import unary_union

from tests.shapes import blank, polygon

SAY = say_in("mm")


def written(text: str, height: float) -> MultiPolygon:
    part = lettered(blank(), text, 0.0, 0.0, height)
    return MultiPolygon([polygon(f.loop, f.islands) for f in part.features])


def drawn(letter: str, height: float) -> Polygon | MultiPolygon:
    """The letter's strokes as buffered lines: a capital is 6 units and one stroke high."""
    pen = stroke(height)
    unit = (height - pen) / 6

    def at(x: float, y: float) -> tuple[float, float]:
        return (x * unit + pen / 2, y * unit + pen / 2)

    _, strokes, dots = skeleton(letter)
    shapes = [Point(at(*dot)).buffer(pen / 2, quad_segs=200) for dot in dots]
    for path in strokes:
        points = [at(*e.point_at(i / 200)) for e in path for i in range(200 if e.bulge else 1)]
        points.append(at(*path[-1].end))
        shapes.append(LineString(points).buffer(pen / 2, quad_segs=200))
    return unary_union(shapes)


@pytest.mark.parametrize("letter", sorted(GLYPHS))
@pytest.mark.parametrize("height", [5.0, 9.0])
def test_outline_is_the_union_of_round_strokes(letter: str, height: float) -> None:
    ours, theirs = written(letter, height), drawn(letter, height)
    assert ours.is_valid
    assert ours.symmetric_difference(theirs).area < 4e-4 * theirs.area
    holes = sum(len(p.interiors) for p in ours.geoms)
    parts = theirs.geoms if isinstance(theirs, MultiPolygon) else [theirs]
    assert holes == sum(len(p.interiors) for p in parts)


@pytest.mark.parametrize(
    "height", [LEAST_HEIGHT, pytest.param(6.0, marks=pytest.mark.slow), pytest.param(8.0, marks=pytest.mark.slow), 12.0]
)
def test_every_stroke_prints(height: float) -> None:
    """A disc of two passes' width reaches all of every letter: opening by it takes nothing away."""
    assert stroke(height) >= 0.8
    for letter in GLYPHS:
        shape = written(letter, height)
        opened = shape.buffer(-0.399, quad_segs=32).buffer(0.399, quad_segs=32)
        assert shape.difference(opened).area < 2e-3 * shape.area, letter


def test_what_is_between_letters_prints_too() -> None:
    pairs = [a + b for a in "AVTLH1/7" for b in "AVTJH0(g"]
    for pair in pairs:
        one, other = written(pair, LEAST_HEIGHT).geoms
        assert one.distance(other) >= 0.8 - 1e-4, pair


def test_capitals_are_as_high_as_said_and_tails_below() -> None:
    assert written("HEX", 6.0).bounds[1::2] == pytest.approx((0.0, 6.0))
    assert written("g", 6.0).bounds[1] == pytest.approx(-tail(6.0), abs=1e-3)


@given(st.text(alphabet=[*sorted(GLYPHS), " "], min_size=1, max_size=12), st.floats(4.0, 12.0))
@settings(max_examples=40, deadline=None)
def test_width_is_what_the_letters_take(text: str, height: float) -> None:
    if not text.strip():
        assert text_width(text, height) == 0.0
        return
    left, _, right, _ = written(text, height).bounds
    # boxes of round letters are a little wider than their ink
    assert -1e-6 <= left < height / 4
    assert right <= text_width(text, height) + 1e-6
    assert right > text_width(text, height) - height / 4


@given(st.text(max_size=30))
@settings(max_examples=200, deadline=None)
def test_any_text_can_be_written(text: str) -> None:
    shown, missing = replaced(text)
    assert set(shown) <= set(GLYPHS) | {" "}
    assert all(letter not in GLYPHS for letter in missing)
    assert bool(missing) == any(c not in GLYPHS and not c.isspace() for c in text)


def test_what_the_set_lacks_is_replaced_and_said() -> None:
    assert replaced("Mâture, ½ in — 漢") == ("Mature, 1/2 in - ?", ("â", "½", "—", "漢"))
    (found,) = label_findings("Gauge", "Mâture", 5.0, 100.0)
    assert found.code == "label.replaced"
    assert "â" in str(found.numbers["missing"])
    assert found.numbers["reads"] == "Mature"


def test_a_label_longer_than_its_room_and_one_too_small() -> None:
    codes = {f.code: f for f in label_findings("Gauge", "1 in 12", 4.0, 10.0)}
    assert set(codes) == {"label.too_long", "label.too_small"}
    assert codes["label.too_long"].numbers["width_mm"] == pytest.approx(text_width("1 in 12", 4.0))
    assert label_findings("Gauge", "1 in 12", 6.0, text_width("1 in 12", 6.0)) == []


def loops(part: Part) -> list[Loop]:
    return [loop for f in part.features for loop in (f.loop, *f.islands)]


def test_mirrored_for_the_other_hand_it_reads_the_same() -> None:
    """Placed where the mirror image of the label's box is, letter for letter."""
    mirrored = lettered(blank(), "8 R/4", 5.0, 3.0, 6.0).mirrored_y()
    fresh = lettered(blank(), "8 R/4", 5.0, -9.0, 6.0)
    for one, other in zip(loops(mirrored), loops(fresh), strict=True):
        assert polygon(one).symmetric_difference(polygon(other)).area < 1e-9


@pytest.mark.parametrize("angle", [0.3, -1.2, math.pi / 2])
def test_mirrored_at_an_angle_it_reads_the_same(angle: float) -> None:
    slanting = lettered(blank(), "FR", 5.0, 3.0, 6.0, angle=angle)
    mirrored = slanting.mirrored_y()
    straight = lettered(blank(), "FR", 0.0, 0.0, 6.0)
    for one, other in zip(mirrored.features, straight.features, strict=True):
        back = polygon(one.loop.turned(angle))
        x, y = back.centroid.coords[0]
        u, v = polygon(other.loop).centroid.coords[0]
        assert polygon(one.loop.turned(angle).moved(u - x, v - y)).symmetric_difference(polygon(other.loop)).area < 1e-4
    # the label as a whole lies where the mirror puts it
    ink = unary_union([polygon(loop) for loop in loops(mirrored)]).envelope.centroid
    was = unary_union([polygon(loop) for loop in loops(slanting)]).envelope.centroid
    assert ink.distance(Point(was.x, -was.y)) < 1.5


def test_turned_with_its_part() -> None:
    part = lettered(blank(), "B", 5.0, 3.0, 6.0)
    turned = part.turned(0.7)
    assert turned.features[0].writing is not None
    assert turned.features[0].writing.angle == pytest.approx(0.7)
    assert turned.volume == pytest.approx(part.volume)


@pytest.mark.parametrize("text", ["1 in 12", "8gQ%&", "Aß°±"])
def test_engraved_letters_are_valid_solids(text: str) -> None:
    part = lettered(blank(), text, 3.0, 6.0, 6.0)
    body = solid(part)
    assert body.isValid()
    assert body.Volume() == pytest.approx(part.volume, rel=1e-9)
    assert part.volume != pytest.approx(blank().volume, rel=1e-4)


def test_letters_in_a_dxf_keep_their_openings(tmp_path: Path) -> None:
    part = lettered(blank(), "B8", 3.0, 6.0, 6.0)
    write_dxf(part, tmp_path / "label.dxf")
    rings: list[Any] = [e for e in readfile(tmp_path / "label.dxf").modelspace() if e.dxf.layer == "POCKET_0.4_MM"]
    assert len(rings) == 6  # two letters, two openings each
    assert all(e.is_closed for e in rings)
    flat = [Polygon([(p.x, p.y) for p in make_path(e).flattening(1e-4)]) for e in rings]
    whole = [p for p in flat if not any(p.within(q) and p is not q for q in flat)]
    inner = [p for p in flat if p not in whole]
    ink = sum(p.area for p in whole) - sum(p.area for p in inner)
    assert ink == pytest.approx(sum(f.area for f in part.features), rel=1e-3)
