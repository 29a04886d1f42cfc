"""The DXF files: two dialects, two units, one geometry; what people who cut other people's files complain of."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import trimesh
from scarfwright.models.flat.loop import circle, polygon, rectangle, rounded
from scarfwright.models.job.file import read_job
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit
from scarfwright.models.part.part import Feature, Mark, Operation, Part
from scarfwright.models.solve import work_up
from scarfwright.outputs.formats.dxf import write_dxf
from scarfwright.outputs.make import items, make_all
from shapely import LineString, Polygon

from tests.cut_reading import Cut, Drawn, read_cut
from tests.examples import LOOKED_INTO
from tests.shops import in_full_shop

SOME = [LOOKED_INTO[0], pytest.param(LOOKED_INTO[1], marks=pytest.mark.slow), LOOKED_INTO[2]]
VARIANTS = {
    "r2010 mm": {"dxf": "r2010", "dxf_units": "mm"},
    "r12 mm": {"dxf": "r12", "dxf_units": "mm"},
    "r2010 in": {"dxf": "r2010", "dxf_units": "in"},
    "r12 in": {"dxf": "r12", "dxf_units": "in"},
}


def made(job: Job, folder: Path, **files: Any) -> Path:
    job = in_full_shop(job)
    changed = job.model_copy(update={"files": job.files.model_copy(update={"tool_path": True, **files})})
    folder.mkdir()
    make_all(items(work_up(changed), ["cut"]), folder, lambda _name: None)
    return folder / "cut"


@pytest.fixture(scope="module", params=SOME, ids=lambda p: p.stem)
def dialects(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Cut]]:
    """Every DXF of an example in every dialect, read back in mm."""
    room = tmp_path_factory.mktemp("dialects")
    found: dict[str, dict[str, Cut]] = {}
    for name, files in VARIANTS.items():
        folder = made(read_job(request.param), room / name, **files)
        scale = 1.0 if files["dxf_units"] == "mm" else 25.4
        found[name] = {p.name: read_cut(p, scale) for p in sorted(folder.glob("*.dxf"))}
    return found


def every(dialects: dict[str, dict[str, Cut]]) -> list[tuple[str, Cut]]:
    return [(f"{name} {file}", cut) for name, files in dialects.items() for file, cut in files.items()]


def test_version_and_unit(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, files in dialects.items():
        version, unit = name.split()
        for cut in files.values():
            assert cut.version == ("AC1024" if version == "r2010" else "AC1009")
            words = " ".join(text for *_, text in cut.texts)
            assert f"UNIT: {'millimetres' if unit == 'mm' else 'inches'}" in words
            if version == "r2010":
                assert cut.header["$INSUNITS"] == (4 if unit == "mm" else 1)
                assert cut.header["$MEASUREMENT"] == (1 if unit == "mm" else 0)


def test_r12_has_old_polylines_and_r2010_light_ones(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, cut in every(dialects):
        kinds = {d.kind for d in cut.drawn} - {"CIRCLE"}
        assert kinds == ({"POLYLINE"} if name.startswith("r12") else {"LWPOLYLINE"})


def test_all_dialects_hold_one_geometry(dialects: dict[str, dict[str, Cut]]) -> None:
    reference = dialects["r2010 mm"]
    for files in dialects.values():
        assert files.keys() == reference.keys()
        for file, cut in files.items():
            assert len(cut.drawn) == len(reference[file].drawn)
            for ours, theirs in zip(cut.drawn, reference[file].drawn, strict=True):
                assert (ours.layer, ours.closed) == (theirs.layer, theirs.closed)
                assert ours.shape.bounds == pytest.approx(theirs.shape.bounds, abs=0.001)
                assert len(ours.vertices) == len(theirs.vertices)
                for here, there in zip(_middles(ours), _middles(theirs), strict=True):
                    assert math.dist(here, there) < 0.001


def _middles(drawn: Drawn) -> list[tuple[float, float]]:
    """Every vertex and the middle of every edge: three points fix an arc, so no two arcs differ that share them."""
    points = drawn.vertices
    onward = [*points[1:], points[0]] if drawn.closed and points else points[1:]
    found = [(x, y) for x, y, _ in points]
    for (x, y, b), (x2, y2, _) in zip(points, onward, strict=False):
        found.append(((x + x2) / 2 + b / 2 * (y2 - y), (y + y2) / 2 - b / 2 * (x2 - x)))
    return found


def test_every_cut_is_closed_and_nothing_is_on_layer_0(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, cut in every(dialects):
        for drawn in cut.drawn:
            assert drawn.layer != "0"
            if drawn.layer not in ("NOTES", "SCORE"):
                assert drawn.closed, (name, drawn.layer)
                assert drawn.shape.is_valid
                assert drawn.shape.area > 0


def test_no_segment_is_doubled_stacked_or_without_length(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, cut in every(dialects):
        straight = []
        # the plank's or sheet's own edge is on a layer that is not cut; a half's outer edge lies on it
        cutting = [d for d in cut.drawn if d.layer not in ("SHEET", "NOTES")]
        for drawn in cutting:
            points = drawn.vertices
            onward = [*points[1:], points[0]] if drawn.closed and points else points[1:]
            for (x, y, b), (x2, y2, _) in zip(points, onward, strict=False):
                assert math.dist((x, y), (x2, y2)) > 1e-3, (name, drawn.layer)
                if abs(b) < 1e-12:
                    straight.append(LineString([(x, y), (x2, y2)]))
        for one, other in itertools.combinations(straight, 2):
            if one.intersects(other):
                assert one.intersection(other).length < 1e-6, (name, one, other)
        shapes = [d.shape for d in cutting if d.closed]
        for one, other in itertools.combinations(shapes, 2):
            assert one.symmetric_difference(other).area > 1e-3


def test_origin_is_the_corner(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, cut in every(dialects):
        drawn = cut.on("SHEET") or cut.on("CUT_OUTSIDE")
        left, low, _, _ = drawn[0].shape.bounds
        assert (left, low) == pytest.approx((0, 0), abs=1e-6), name
        assert all(x >= 0 and y >= -1e-6 for x, y, _, _ in cut.texts)
        assert all(min(d.shape.bounds[:2]) > -1e-6 for d in cut.drawn)


def test_direction_and_start_are_the_same_everywhere(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, cut in every(dialects):
        for drawn in cut.drawn:
            if drawn.layer in ("CUT_OUTSIDE", "CUT_INSIDE") and drawn.closed:
                assert drawn.shape.exterior.is_ccw == (drawn.layer == "CUT_INSIDE"), name
                x, y, _ = drawn.vertices[0]
                assert x + y <= min(a + b for a, b, _ in drawn.vertices) + 1e-3


def test_notes_stand_beside_the_sheet_and_over_no_part(dialects: dict[str, dict[str, Cut]]) -> None:
    for name, cut in every(dialects):
        if "sheet-" not in name:
            continue
        (sheet,) = cut.polygons("SHEET")
        lines = [(x, text) for x, _, _, text in cut.texts if x > sheet.bounds[2]]
        assert any("CUTTER" in text for _, text in lines)
        assert any("ORDER" in text for _, text in lines)


def test_other_direction(tmp_path: Path) -> None:
    folder = made(read_job(LOOKED_INTO[-1]), tmp_path / "x", direction="counter_clockwise")
    for path in folder.glob("sheet-*.dxf"):
        for drawn in read_cut(path).drawn:
            if drawn.layer in ("CUT_OUTSIDE", "CUT_INSIDE"):
                assert drawn.shape.exterior.is_ccw == (drawn.layer == "CUT_OUTSIDE")


def test_the_same_job_gives_the_same_bytes(tmp_path: Path) -> None:
    for name, files in list(VARIANTS.items())[::3]:  # each version and each unit once
        one = made(read_job(LOOKED_INTO[-1]), tmp_path / f"{name} a", **files)
        other = made(read_job(LOOKED_INTO[-1]), tmp_path / f"{name} b", **files)
        for path in one.iterdir():
            assert path.read_bytes() == (other / path.name).read_bytes()


PART = Part(
    "plate",
    "Plate",
    rounded([(-10, -5), (90, -5), (90, 55), (-10, 55)], 8),
    18.0,
    (
        Feature(Operation.CUT_INSIDE, rounded([(10, 5), (60, 5), (60, 25), (10, 25)], 4), "window"),
        Feature(Operation.DRILL, circle(75, 40, 4), "hole"),
        Feature(Operation.POCKET, rectangle(10, 32, 30, 12), "pocket", 3.5),
    ),
    marks=(Mark(((0, 28), (60, 28)), name="line", scored=True), Mark(((0, 48),), "PLATE", 4.0)),
)


def pocket(version: str) -> str:
    """The depth written out with its unit; R12 allows no point in a layer's name."""
    return "POCKET_3_5_MM" if version == "r12" else "POCKET_3.5_MM"


def test_pockets_of_depths_that_differ_by_little_are_on_layers_of_their_own(tmp_path: Path) -> None:
    depths = (0.4, 25.4 / 64)
    cuts = [Feature(Operation.POCKET, rectangle(10 + 30 * i, 10, 20, 20), "p", d) for i, d in enumerate(depths)]
    plate = replace(PART, features=tuple(cuts), marks=())
    expected: dict[Unit, list[str]] = {
        "mm": ["POCKET_0.4_MM", "POCKET_0.397_MM"],
        "in": ["POCKET_0.0157_IN", "POCKET_0.0156_IN"],
    }
    for units, names in expected.items():
        write_dxf(plate, tmp_path / "plate.dxf", units=units)
        drawn = read_cut(tmp_path / "plate.dxf").drawn
        assert [d.layer for d in drawn if d.layer.startswith("POCKET")] == names


@pytest.mark.parametrize("version", ["r2010", "r12"])
@pytest.mark.parametrize(("units", "scale"), [("mm", 1.0), ("in", 25.4)])
def test_the_header_tells_the_extent_and_the_unit(version: Any, units: Any, scale: float, tmp_path: Path) -> None:
    """Read back by the other reader: nothing drawn lies outside, and something touches every side."""
    plate = replace(PART, marks=())
    write_dxf(plate, tmp_path / "plate.dxf", units=units, version=version)
    cut = read_cut(tmp_path / "plate.dxf", scale)
    low, high = (cut.header[name] for name in ("$EXTMIN", "$EXTMAX"))
    assert (low[0] * scale, low[1] * scale) == pytest.approx((0, min(0, *(y for _, y, _, _ in cut.texts))), abs=1e-4)
    last = max(x + 0.9 * size * len(text) for x, _, size, text in cut.texts)
    assert (high[0] * scale, high[1] * scale) == pytest.approx((last, 60), abs=1e-3)
    if version == "r2010":
        assert cut.header["$INSUNITS"] == (4 if units == "mm" else 1)
        assert cut.header["$MEASUREMENT"] == (1 if units == "mm" else 0)


def test_a_drawing_to_mark_out_by_has_nothing_to_cut(tmp_path: Path) -> None:
    write_dxf(PART, tmp_path / "plate.dxf", to_mark=True)
    assert {d.layer for d in read_cut(tmp_path / "plate.dxf").drawn} == {"NOTES"}


@pytest.mark.parametrize("version", ["r2010", "r12"])
def test_bulges_are_the_tangent_of_a_quarter_of_the_angle(version: Any, tmp_path: Path) -> None:
    """DXF reference, group code 42; every rounding of a rectangle turns a right angle."""
    write_dxf(PART, tmp_path / "plate.dxf", version=version)
    cut = read_cut(tmp_path / "plate.dxf")
    for layer, sign in (("CUT_OUTSIDE", -1), ("CUT_INSIDE", 1)):
        (drawn,) = cut.on(layer)
        bulges = sorted(b for *_, b in drawn.vertices if b)
        assert bulges == pytest.approx([sign * math.tan(math.radians(90) / 4)] * 4, abs=1e-12)
    (outline,), (window,) = cut.polygons("CUT_OUTSIDE"), cut.polygons("CUT_INSIDE")
    assert outline.area == pytest.approx(100 * 60 - (4 - math.pi) * 64, rel=1e-5)
    assert window.area == pytest.approx(50 * 20 - (4 - math.pi) * 16, rel=1e-5)
    assert [d.layer for d in cut.drawn] == ["SCORE", "DRILL", pocket(version), "CUT_INSIDE", "CUT_OUTSIDE"]


@pytest.mark.parametrize("version", ["r2010", "r12"])
def test_a_second_reader_finds_the_same_shapes(version: Any, tmp_path: Path) -> None:
    """trimesh reads DXF with code of its own: circles, polylines of both kinds and their bulges."""
    path = tmp_path / "plate.dxf"
    write_dxf(PART, path, version=version)
    ours, theirs = read_cut(path), trimesh.load_path(str(path))
    layers = {"CUT_OUTSIDE", "CUT_INSIDE", "DRILL", pocket(version)}
    expected = sorted(p.area for layer in layers for p in ours.polygons(layer))
    found = sorted(Polygon(ring).area for ring in theirs.discrete if math.dist(ring[0], ring[-1]) < 1e-6)
    assert found == pytest.approx(expected, rel=2e-3)  # it draws arcs with longer chords
    assert theirs.bounds[0] == pytest.approx((0, 0), abs=1e-6)


def test_repeated_corners_are_written_once(tmp_path: Path) -> None:
    rough = Part("rough", "Rough", polygon([(0, 0), (50, 0), (50, 0), (100, 0), (100, 40), (0, 40), (0, 40)]), 18.0)
    write_dxf(rough, tmp_path / "rough.dxf")
    (drawn,) = read_cut(tmp_path / "rough.dxf").on("CUT_OUTSIDE")
    assert sorted((round(x), round(y)) for x, y, _ in drawn.vertices) == [(0, 0), (0, 40), (100, 0), (100, 40)]
