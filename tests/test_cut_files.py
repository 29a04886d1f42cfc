"""The cut folder of a router: sheets against the parts, tool paths against the sheets, options, findings, README."""

from __future__ import annotations

import itertools
import json
import math
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scarfwright.cli.making import make_job
from scarfwright.models.findings import Level, faults
from scarfwright.models.flat.loop import Loop, polygon, rectangle
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml, read_job
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.pieces import FlatPart, spacing_of
from scarfwright.models.sheets.tool_path import tool_path
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items, make_all
from shapely import Polygon

from tests.cut_reading import read_cut
from tests.shops import in_full_shop
from tests.strategies import auto_or, lengths, or_zero

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
SHEET_JOB = (EXAMPLES / "sheet-layers.toml").read_text()
PLANK_JOB = (EXAMPLES / "plank-metric.toml").read_text()


def worked(text: str, router: str = "", files: str = "") -> Workup:
    return work_up(in_full_shop(job_from_text(f"{text}\n[router]\n{router}\n[files]\n{files}\n")))


def cut_folder(work: Workup, folder: Path) -> Path:
    make_all(items(work, ["cut"]), folder, lambda _name: None)
    return folder / "cut"


def codes(work: Workup) -> set[str]:
    return {f.code for f in work.findings if f.code.startswith("router.")}


# -- sheets against the parts --------------------------------------------------------------------------------


@pytest.mark.parametrize("layers", [1, 2, 5, 12])
def test_every_layer_is_on_the_sheets_once(layers: int, tmp_path: Path) -> None:
    thin = SHEET_JOB.replace('sheet_thickness = "15 mm"', f'sheet_thickness = "{45 / layers:g} mm"')
    work = worked(thin.replace("layers = 3", f"layers = {layers}"), 'sheet = ["1000 mm", "500 mm"]')
    folder = cut_folder(work, tmp_path)
    single = read_cut(folder / "sled.dxf")
    (sled,) = single.polygons("CUT_OUTSIDE")
    found = 0
    for path in sorted(folder.glob("sheet-*.dxf")):
        cut = read_cut(path)
        (sheet,) = cut.polygons("SHEET")
        assert sheet.bounds == pytest.approx((0, 0, 1000, 500))
        outlines = [o for o in cut.polygons("CUT_OUTSIDE") if o.area > sled.area / 2]  # the rest are gauges
        for outline in outlines:
            # one relief of a 6 mm cutter at the nose flat's step, else the sled's own area
            assert 0 <= sled.area - outline.area < math.pi * 9
            assert sheet.buffer(-12 + 1e-3).covers(outline)
            holes = [h for layer in ("CUT_INSIDE", "DRILL") for h in cut.polygons(layer) if outline.contains(h)]
            assert sorted(h.area for h in holes) == pytest.approx(
                sorted(h.area for layer in ("CUT_INSIDE", "DRILL") for h in single.polygons(layer)), rel=1e-4
            )
        for one, other in itertools.combinations(outlines, 2):
            assert one.distance(other) >= 12 - 0.005
        found += len(outlines)
    assert found == layers


def test_the_carrier_of_a_plank_job_is_on_a_sheet(tmp_path: Path) -> None:
    folder = cut_folder(worked(PLANK_JOB), tmp_path)
    (on_sheet,) = read_cut(folder / "sheet-1.dxf").polygons("CUT_OUTSIDE")
    (alone,) = read_cut(folder / "carrier.dxf").polygons("CUT_OUTSIDE")
    assert on_sheet.area == pytest.approx(alone.area, rel=1e-9)


def test_the_nose_flat_takes_a_pad_up_to_its_step(tmp_path: Path) -> None:
    """A straight-edged pad as long as the flat lies wholly on it: the step's corner is relieved, not rounded."""
    whole = SHEET_JOB.replace("layers = 3", "layers = 1").replace(
        'sheet_thickness = "15 mm"', 'sheet_thickness = "45 mm"'
    )
    work = worked(whole.replace('fence_side = "left"', ""))
    cut = read_cut(cut_folder(work, tmp_path) / "sheet-1.dxf")
    (wood,) = cut.polygons("CUT_OUTSIDE")
    left, low, _, _ = wood.bounds
    flat, step = work.way.sled.nose_flat, work.way.sled.flat_step
    pad = Polygon([(left, low), (left + flat, low + step), (left + flat, low - 30), (left, low - 30)])
    assert wood.intersection(pad).area < 0.01
    assert wood.distance(pad) < 1e-6


# -- tool paths ------------------------------------------------------------------------------------------------


def test_taking_the_cutter_away_from_the_path_restores_the_sheet(tmp_path: Path) -> None:
    folder = cut_folder(worked(SHEET_JOB, 'cutter = "8 mm"', "tool_path = true"), tmp_path)
    nominal, path = read_cut(folder / "sheet-1.dxf"), read_cut(folder / "sheet-1-path.dxf")
    for layer, away in (("CUT_OUTSIDE", -4.0), ("CUT_INSIDE", 4.0)):
        pairs = list(zip(nominal.polygons(layer), path.polygons(layer), strict=True))
        assert pairs
        for shape, run in pairs:
            assert run.contains(shape) == (layer == "CUT_OUTSIDE")
            swept = run.exterior.buffer(4.0, quad_segs=200)
            assert swept.intersection(shape).area < 0.02 * 4 if away < 0 else swept.difference(shape).area < 0.5
            assert run.buffer(away, quad_segs=200).symmetric_difference(shape).area < 2e-3 * shape.length
    assert [d.vertices for d in path.on("DRILL")] == [d.vertices for d in nominal.on("DRILL")]
    assert {d.layer for d in path.drawn} == {d.layer for d in nominal.drawn}


def test_path_arcs_are_exact() -> None:
    """Round the sled's corners the path runs arcs of the cutter's radius, square ones a quarter circle each."""
    plan, *_ = worked(SHEET_JOB).sheets
    path = tool_path(plan, 6.0, 0, clockwise=True, notes=())
    outlines = [Loop(t.vertices) for t in path.tracks if t.layer == "CUT_OUTSIDE"]
    assert len(outlines) == 3
    for outline in outlines:
        assert {round(e.radius, 9) for e in outline.edges() if e.bulge} == {3.0}
        quarters = [v for v in outline.vertices if v.bulge == pytest.approx(-math.tan(math.pi / 8), abs=1e-9)]
        assert len(quarters) == 1  # only the heel stands square to the fence edge


def test_tabs_are_marked_on_the_sheet_and_left_open_in_the_path(tmp_path: Path) -> None:
    folder = cut_folder(worked(SHEET_JOB, "tabs = 3", "tool_path = true"), tmp_path)
    nominal, path = read_cut(folder / "sheet-1.dxf"), read_cut(folder / "sheet-1-path.dxf")
    strokes = [d.shape for d in nominal.on("NOTES")]
    assert len(strokes) == 3 * 3
    runs = [d.shape for d in path.on("CUT_OUTSIDE")]
    assert len(runs) == 3 * 3
    assert not any(d.closed for d in path.on("CUT_OUTSIDE"))
    for outline in nominal.polygons("CUT_OUTSIDE"):
        here = [s for s in strokes if s.intersects(outline.exterior)]
        assert len(here) == 3
        kept = outline.buffer(3.0, quad_segs=200).exterior.length - sum(
            r.length for r in runs if r.distance(outline) < 3.01
        )
        assert kept == pytest.approx(3 * (12 + 6), abs=0.3)  # a tab and the cutter's own width each
        for stroke in here:  # the wood of each tab, two cutters wide, is untouched
            tab = stroke.intersection(outline.exterior).buffer(6.0).intersection(outline.buffer(6).difference(outline))
            swept = [r.buffer(3.0) for r in runs]
            assert all(tab.intersection(s).area < 0.05 for s in swept)


def test_pockets_are_cleared_without_ridges(monkeypatch: pytest.MonkeyPatch) -> None:
    from scarfwright.models.part.part import Feature, Operation

    pocket = Feature(Operation.POCKET, rectangle(20, 20, 60, 25), "pocket", 4.0)
    board = Part("board", "Board", rectangle(0, 0, 100, 80), 18.0, (pocket,))
    monkeypatch.setattr("scarfwright.models.workup.flat_pieces", lambda _w: [FlatPart(board, 1, False, False)])
    (plan,) = worked(PLANK_JOB).sheets
    rings = [t for t in tool_path(plan, 6.0, 0, clockwise=True, notes=()).tracks if t.layer == "POCKET_4_MM"]
    swept = Polygon()
    for ring in rings:
        swept = swept.union(Polygon([v.point for v in ring.vertices]).exterior.buffer(3.0, quad_segs=100))
    (cut,) = plan.placed[0].features
    wanted = Polygon(cut.loop.points(0.001))
    assert wanted.difference(swept).area < 0.1
    assert swept.difference(wanted).area < 0.1


# -- findings --------------------------------------------------------------------------------------------------


def test_spacing_under_the_cutter_is_a_fault() -> None:
    for spacing in ("0", '"5.9 mm"'):
        (found,) = [f for f in worked(PLANK_JOB, f"spacing = {spacing}").findings if f.code == "router.spacing_small"]
        assert found.level == "fault"
        assert found.numbers["needed_mm"] == 12
    assert "router.spacing_small" not in codes(worked(PLANK_JOB, 'spacing = "6 mm"'))


def test_a_sled_larger_than_the_sheet_is_a_fault_with_the_sheet_that_would_do() -> None:
    work = worked(SHEET_JOB, 'sheet = ["700 mm", "400 mm"]')
    (found,) = [f for f in work.findings if f.code == "router.sled_too_large"]
    assert found.level == "fault"
    needed = found.numbers["needed_length_mm"]
    assert needed == pytest.approx(work.way.sled.length + 24)
    assert "router.sled_too_large" not in codes(worked(SHEET_JOB, f'sheet = ["{needed} mm", "400 mm"]'))
    assert "router.sled_too_large" in codes(worked(SHEET_JOB, f'sheet = ["{needed} mm", "400 mm"]\ngrain = "y"'))
    assert codes(worked(SHEET_JOB, f'sheet = ["400 mm", "{needed} mm"]\ngrain = "y"')) == set()


def test_an_optional_part_larger_than_the_sheet_is_left_off_and_said(tmp_path: Path) -> None:
    work = worked(PLANK_JOB, 'sheet = ["700 mm", "400 mm"]')
    (found,) = [f for f in work.findings if f.code == "router.part_too_large"]
    assert found.level == "caution"
    assert found.numbers["part"] == "carrier"
    assert not any(part.name == "carrier" for plan in work.sheets for part in plan.placed)
    assert "x carrier" not in (cut_folder(work, tmp_path) / "README.txt").read_text()


def test_a_job_without_anything_that_fits_says_so(tmp_path: Path) -> None:
    folder = cut_folder(worked(PLANK_JOB, 'sheet = ["30 mm", "30 mm"]'), tmp_path)
    assert not list(folder.glob("sheet-*.dxf"))
    assert "SHEETS: none" in (folder / "README.txt").read_text()


def test_a_cutter_wider_than_the_notch_is_a_fault_with_the_width_that_would_do() -> None:
    work = worked(SHEET_JOB, 'cutter = "20 mm"')
    (found,) = [f for f in work.findings if f.code == "router.sled_too_tight"]
    assert found.level == "fault"
    assert found.numbers["widest_mm"] == pytest.approx(work.job.sled.notch_width, abs=0.1)
    assert "router.sled_too_tight" not in codes(worked(SHEET_JOB, 'cutter = "15.9 mm"'))


def test_a_part_with_a_slot_too_narrow_is_left_off_and_said(monkeypatch: pytest.MonkeyPatch) -> None:
    fork = polygon([(0, 0), (80, 0), (80, 30), (45, 30), (45, 8), (40, 8), (40, 30), (0, 30)])
    found = [FlatPart(Part("fork", "Fork", fork, 4.0), 1, False, False)]
    monkeypatch.setattr("scarfwright.models.checks.plain_pieces", lambda _w: found)
    monkeypatch.setattr("scarfwright.models.workup.flat_pieces", lambda _w: found)
    work = worked(PLANK_JOB)
    (finding,) = [f for f in work.findings if f.code == "router.part_too_tight"]
    assert finding.level == "note"
    assert finding.numbers["widest_mm"] == pytest.approx(5.0, abs=0.1)
    assert work.sheets == ()
    assert "router.part_too_tight" not in codes(worked(PLANK_JOB, 'cutter = "4 mm"'))


def test_more_tabs_than_there_is_room_for_is_noted(monkeypatch: pytest.MonkeyPatch) -> None:
    small = [FlatPart(Part("chip", "Chip", rectangle(0, 0, 30, 30), 4.0), 1, False, False)]
    monkeypatch.setattr("scarfwright.models.checks.plain_pieces", lambda _w: small)
    (found,) = [f for f in worked(PLANK_JOB, "tabs = 8").findings if f.code == "router.few_tabs"]
    assert found.level == "note"
    assert found.numbers["found"] == 2  # the middles of neighbouring sides are nearer than a tab and its room


def test_nothing_of_a_router_is_asked_for_a_laser() -> None:
    assert codes(worked(SHEET_JOB, 'cutter = "20 mm"\nspacing = 0', 'machine = "laser"')) == set()


# -- options and summary ---------------------------------------------------------------------------------------


def test_the_command_line_stands_in_for_the_job_and_shows_in_job_toml(tmp_path: Path) -> None:
    instead = {"machine": "router", "dxf": "r12", "dxf_units": "in", "tool_path": True}
    assert make_job(EXAMPLES / "sheet-layers.toml", tmp_path / "a", "cut", True, "0", instead) == 0
    assert make_job(tmp_path / "a" / "job.toml", tmp_path / "b", "cut", True, "0", {}) == 0
    job = read_job(tmp_path / "a" / "job.toml")
    assert (job.files.dxf, job.files.dxf_units, job.files.tool_path) == ("r12", "in", True)
    assert job_to_toml(job) == (tmp_path / "a" / "job.toml").read_text()
    names = sorted(p.name for p in (tmp_path / "a" / "cut").iterdir())
    assert {"README.txt", "sheet-1-path.dxf", "sheet-1.dxf", "sled.dxf"} <= set(names)
    for name in names:
        assert (tmp_path / "a" / "cut" / name).read_bytes() == (tmp_path / "b" / "cut" / name).read_bytes()


def test_a_laser_has_no_router_sheets(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert make_job(EXAMPLES / "plank-metric.toml", tmp_path / "a", "cut", True, "0", {"machine": "laser"}) == 0
    files = json.loads(capsys.readouterr().out)["files"]
    assert {"cut/sled.dxf", "cut/plank.dxf"} <= set(files)
    assert not any("sheet-" in name for name in files)


def test_the_report_tells_the_filled_share(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert make_job(EXAMPLES / "sheet-layers.toml", tmp_path / "a", "cut", False, "0", {}) == 0
    plan, *_ = work_up(read_job(EXAMPLES / "sheet-layers.toml")).sheets
    assert f"3 pieces, {plan.filled:.1%} filled" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("router", "files", "words"),
    [
        ("", "", ["UNIT: millimetres", "2440 x 1220 drawing units", "15 mm thick", "3 x sheet_layer", "diameter 6 mm"]),
        ("", 'dxf_units = "in"', ["UNIT: inches", "96.063 x 48.0315 drawing units"]),
        ("", 'dxf = "r12"', ["carry no unit"]),
        ("", 'direction = "counter_clockwise"', ["outside counter-clockwise", "conventional"]),
        ("", "tool_path = true", ["offset by 3 mm already"]),
        ("tabs = 3", "", ["TABS: up to 3 per outline, 12 mm wide"]),
        ('cutter = "8 mm"', "", ["diameter 8 mm", "rounded to 4 mm radius", "16 mm apart"]),
    ],
)
def test_the_summary_says_what_the_operator_needs(router: str, files: str, words: list[str], tmp_path: Path) -> None:
    folder = cut_folder(worked(SHEET_JOB, router, files), tmp_path)
    told = " ".join((folder / "README.txt").read_text().split())
    beside = " ".join(" ".join(t.split()) for *_, t in read_cut(folder / "sheet-1.dxf").texts)
    for word in [*words, "DRILL", "CUT_INSIDE", "HOLD-DOWN", "outlines last", "maker's manual"]:
        assert word in told
        assert word in beside
    for layer in {d.layer for d in read_cut(folder / "sheet-1.dxf").drawn}:
        assert f"{layer}:" in told


def test_the_drawing_of_a_sheet_names_every_piece() -> None:
    from scarfwright.outputs.shop_drawings.cut_sheet import cut_sheets

    work = worked(SHEET_JOB, "tabs = 2")
    page, *_ = cut_sheets(work, work.sheets)
    texts = [t.text for t in page.texts()]
    for name in ("sheet_layer_1", "sheet_layer_2", "sheet_layer_3", "sheet_layer"):
        assert name in texts
    made: list[Any] = items(work, ["paper"])
    assert {"paper/sheet-1.svg", "paper/sheets.pdf"} <= {i.path for i in made}


# -- any job ---------------------------------------------------------------------------------------------------


@st.composite
def routed(draw: st.DrawFn) -> dict[str, Any]:
    """Jobs from sheet or plank whose sled is mostly sound, with any router."""
    raw = tomllib.loads(draw(st.sampled_from([SHEET_JOB, PLANK_JOB])))
    raw["joint"] = {"ratio": draw(st.floats(6, 20))}
    raw["sled"] |= {"length": draw(auto_or(lengths(700, 2500))), "nose_flat": draw(auto_or(or_zero(lengths(20, 90))))}
    raw["sled"] |= {"layers": draw(st.integers(1, 6)), "extra_stations": draw(st.lists(lengths(420, 600), max_size=1))}
    raw["saw"] |= {"fence_side": draw(st.sampled_from(["left", "right"])), "fence_front": draw(lengths(50, 500))}
    raw["router"] = {
        "cutter": draw(lengths(1, 25)),
        "sheet": [draw(lengths(300, 3000)), draw(lengths(300, 1500))],
        "spacing": draw(auto_or(or_zero(lengths(1, 60)))),
        "tabs": draw(st.integers(0, 40)),
        "grain": draw(st.sampled_from(["x", "y"])),
    }
    return raw


def assert_cut_or_told(raw: dict[str, Any]) -> None:
    """Sheets with every piece once, apart and inside, and a path for each; or a finding."""
    work = work_up(in_full_shop(job_from_dict(raw)))
    if faults(list(work.findings)):
        return
    if any(f.part == "sheets" and f.level is Level.FAULT for f in work.findings):
        assert work.sheets == ()
        return
    spacing, cutter = spacing_of(work.job), float(work.job.router.cutter)
    plans = work.sheets
    left_off = {f.numbers["part"] for f in work.findings if f.code.startswith("router.part_")}
    asked = sum(p.count for p in work.flat_pieces if p.part.name not in left_off)
    assert sum(len(p.placed) for p in plans) == asked
    for plan in plans:
        shapes = [Polygon(p.outline.points(0.01)) for p in plan.placed]
        inner = Polygon(plan.outline.points()).buffer(-spacing + 1e-3)
        assert all(inner.covers(s) for s in shapes)
        assert all(a.distance(b) >= spacing - 0.03 for a, b in itertools.combinations(shapes, 2))
        path = tool_path(plan, cutter, work.job.router.tabs, clockwise=True, notes=())
        assert {t.layer for t in path.tracks} >= {"CUT_OUTSIDE"}


@settings(max_examples=8, deadline=None)
@given(routed())
def test_any_job_is_cut_or_told(raw: dict[str, Any]) -> None:
    assert_cut_or_told(raw)


@pytest.mark.slow
@settings(max_examples=400, deadline=None)
@given(routed())
def test_many_jobs_are_cut_or_told(raw: dict[str, Any]) -> None:
    assert_cut_or_told(raw)
