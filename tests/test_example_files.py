"""Every file of three examples, of all with --slow, read back by another reader and measured against closed forms."""

from __future__ import annotations

import itertools
import json
import math
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest
from ezdxf import recover
from ezdxf.path import make_path
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.wanted import wanted
from scarfwright.models.workup import Workup
from shapely import Polygon, contains_properly
from shapely.ops import unary_union

from tests.cli_runs import run
from tests.examples import SLOWLY_ALL

LAYERS = {"CUT_OUTSIDE", "CUT_INSIDE", "DRILL", "SCORE", "NOTES", "SHEET"}
MM = {"mm": 1.0, "in": 25.4}


class Made(NamedTuple):
    folder: Path
    work: Workup
    numbers: dict[str, Any]

    @property
    def scale(self) -> float:
        return MM[self.work.job.units]


@pytest.fixture(scope="module", params=SLOWLY_ALL, ids=lambda p: p.stem)
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.mktemp("made") / "out"
    done = run("make", request.param, "--out", folder, cwd=folder.parent)
    assert done.returncode == 0, done.stderr
    return Made(folder, work_up(read_job(request.param)), json.loads((folder / "numbers.json").read_text()))


def sled_area(numbers: dict[str, Any]) -> float:
    """Closed form from numbers.json alone: trapezium less nose flat, slots and holes [mm2]."""
    sled = numbers["sled"]
    area = (sled["heel_mm"] + sled["nose_mm"]) / 2 * sled["length_mm"]
    area -= sled["nose_flat_mm"] * sled["nose_flat_step_mm"] / 2
    for notch in sled["notches"]:
        width = notch["width_mm"]
        area -= (notch["length_mm"] - width) * width + math.pi * width**2 / 4
    return float(area)


def holes_area(work: Workup) -> float:
    layout = work.way.layout
    return math.pi * (len(layout.handle_holes) * layout.handle_radius**2 + len(layout.dowels) * layout.dowel_radius**2)


def polygons(path: Path, scale: float) -> dict[str, list[Polygon]]:
    """Closed shapes of a DXF by layer, in mm, read by the library's own recovering reader."""
    document, auditor = recover.readfile(path)
    assert not auditor.errors
    assert not auditor.fixes
    found: dict[str, list[Polygon]] = {}
    for entity in document.modelspace():
        layer = entity.dxf.layer
        assert layer in LAYERS or layer.startswith("POCKET_"), layer
        assert entity.dxftype() in ("LWPOLYLINE", "CIRCLE", "TEXT")
        if entity.dxftype() == "LWPOLYLINE" and not entity.closed:  # type: ignore[attr-defined]
            assert layer in ("NOTES", "SCORE")
        elif entity.dxftype() != "TEXT":
            points = [(p.x * scale, p.y * scale) for p in make_path(entity).flattening(0.0005)]
            found.setdefault(layer, []).append(Polygon(points))
    return found


def test_dxf_units_and_layer_zero_empty(made: Made) -> None:
    for path in (made.folder / "cut").glob("*.dxf"):
        document, _ = recover.readfile(path)
        assert document.header["$INSUNITS"] == (4 if made.work.job.units == "mm" else 1)
        assert document.dxfversion == "AC1024"  # R2010
        assert not document.modelspace().query('*[layer=="0"]')


def test_sled_dxf_against_closed_form(made: Made) -> None:
    shapes = polygons(made.folder / "cut" / "sled.dxf", made.scale)
    (outline,) = shapes["CUT_OUTSIDE"]
    inside = shapes["CUT_INSIDE"] + shapes.get("DRILL", [])
    assert outline.is_valid
    assert all(contains_properly(outline, hole) for hole in inside)
    area = outline.area - unary_union(inside).area
    assert area == pytest.approx(sled_area(made.numbers) - holes_area(made.work), abs=0.5)
    low_x, low_y, high_x, high_y = outline.bounds
    assert (high_x - low_x, high_y - low_y) == pytest.approx(
        (made.numbers["sled"]["length_mm"], made.numbers["sled"]["heel_mm"]), abs=1e-6
    )


def test_slot_ends_in_the_dxf_are_half_circles(made: Made) -> None:
    """A bulge is tan(angle / 4): a half circle has exactly 1."""
    document, _ = recover.readfile(made.folder / "cut" / "sled.dxf")
    slots = document.modelspace().query('LWPOLYLINE[layer=="CUT_INSIDE"]')
    assert len(slots) == len(made.numbers["sled"]["notches"])
    for one in slots:
        bulges = sorted(abs(b) for *_, b in one.get_points("xyb"))  # type: ignore[attr-defined]
        assert bulges == pytest.approx([0, 0, math.tan(math.pi / 4), math.tan(math.pi / 4)])


def test_plank_halves_are_equal_and_a_kerf_apart(made: Made) -> None:
    if made.work.job.sled.made_from != "plank":
        assert not (made.folder / "cut" / "plank.dxf").exists()
        return
    shapes = polygons(made.folder / "cut" / "plank.dxf", made.scale)
    (plank,) = shapes["SHEET"]
    one, other = sorted(shapes["NOTES"], key=lambda shape: shape.area)[-2:]  # to mark out by: nothing here is cut
    assert one.area == pytest.approx(other.area, abs=0.01)
    assert one.distance(other) == pytest.approx(made.work.job.saw.kerf, abs=1e-6)
    assert plank.buffer(1e-6).contains(one)
    assert plank.buffer(1e-6).contains(other)


def solids_of(path: Path) -> list[Any]:
    import cadquery as cq

    return cq.importers.importStep(str(path)).solids().vals()


def test_step_read_back(made: Made) -> None:
    path = made.folder / "cad" / "sled.step"
    text = path.read_text()
    assert "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF" in text.split("ENDSEC")[0]
    assert "SI_UNIT(.MILLI.,.METRE.)" in text
    (solid,) = solids_of(path)
    assert solid.isValid()
    volume = (sled_area(made.numbers) - holes_area(made.work)) * made.numbers["sled"]["thickness_mm"]
    assert solid.Volume() == pytest.approx(volume, rel=1e-7)  # numbers.json has 6 decimals
    box = solid.BoundingBox()
    low = -made.numbers["sled"]["heel_mm"] if made.work.job.saw.fence_side == "left" else 0.0
    assert (box.xmin, box.ymin, box.zmin) == pytest.approx((0, low, 0), abs=1e-5)


def test_every_step_file_has_named_coloured_valid_solids(made: Made) -> None:
    for path in (made.folder / "cad").glob("*.step"):
        text = path.read_text()
        solids = solids_of(path)
        assert solids
        assert all(solid.isValid() for solid in solids)
        assert f"PRODUCT('{path.stem}" in text
        assert "COLOUR_RGB" in text
        assert "Open CASCADE STEP translator" not in text


def test_sled_and_riser_are_there_to_look_at(made: Made) -> None:
    """As meshes in any shop, as large as the solids beside them."""
    import trimesh

    for name in ("sled", "riser"):
        mesh: Any = trimesh.load(made.folder / "cad" / f"{name}.stl", force="mesh")
        (solid,) = solids_of(made.folder / "cad" / f"{name}.step")
        assert mesh.is_watertight
        assert mesh.volume == pytest.approx(solid.Volume(), rel=1e-3)


def test_nothing_for_machines_that_are_not_there(made: Made) -> None:
    """Read off the folder and the numbers alone."""
    there = made.work.job.shop_has
    names = {p.relative_to(made.folder).as_posix() for p in made.folder.rglob("*") if p.is_file()}
    sheets = {name for name in names if re.match(r"(cut|paper)/sheet(-\d|s)|cut/template", name)}
    assert bool(sheets) == bool({"router", "laser"} & set(there))
    assert any(name.startswith("print/") for name in names) == ("printer" in there)
    codes = {f["code"].split(".")[0] for f in made.numbers["findings"]}
    assert not codes & ({"print"} if "printer" not in there else set())
    assert not codes & ({"router"} if "router" not in there else set())
    assert not codes & ({"template"} if "laser" not in there else set())
    if not there:
        assert "paper/gauges.pdf" not in names
        assert set(made.numbers["parts"]) == {"riser", "riser_lip"}
    assert {"cut/sled.dxf", "cad/sled.step", "paper/sled.pdf", "paper/setup-card.pdf", "paper/templates.pdf"} <= names


def test_prints_are_watertight_single_bodies(made: Made) -> None:
    """Every printed part but those in sections against its solid; what is left out is said."""
    import trimesh

    stems = {p.stem for p in (made.folder / "print").glob("*.stl")}
    if "printer" not in made.work.job.shop_has:
        assert not (made.folder / "print").exists()
        return
    left_out = {f["part"] for f in made.numbers["findings"] if f["level"] == "fault"}
    assert {"riser", "nose_wedge", "hand_stop", "height_step"} <= stems | left_out
    assert not stems & left_out
    for name in sorted(stems):
        for suffix in (".stl", ".3mf"):
            mesh: Any = trimesh.load(made.folder / "print" / (name + suffix), force="mesh")
            assert mesh.is_watertight
            assert mesh.is_winding_consistent
            assert mesh.body_count == 1
            if not re.search(r"-\d$", name):
                (solid,) = solids_of(made.folder / "cad" / f"{name}.step")
                assert mesh.volume == pytest.approx(solid.Volume(), rel=1e-3)


def test_plates_hold_every_print_inside_the_bed_and_apart(made: Made) -> None:
    import trimesh

    bed = [float(side) for side in made.work.job.printer.bed]
    names: list[str] = []
    for path in sorted((made.folder / "print").glob("bed*.3mf")):
        scene: Any = trimesh.load(path)
        assert scene.units == "millimeter"
        boxes = [mesh.bounds for mesh in scene.geometry.values()]
        for low, high in boxes:
            assert low[2] == pytest.approx(0.0, abs=1e-4)
            assert (low >= -1e-4).all()
            assert (high <= np.array(bed) + 1e-4).all()
        for (low, high), (low2, high2) in itertools.combinations(boxes, 2):
            assert max(*(low2 - high)[:2], *(low - high2)[:2]) > 4.9
        names += scene.geometry
    assert {re.sub(r"_\d+$", "", name) for name in names} == {p.stem for p in (made.folder / "print").glob("*.stl")}
    assert len(set(names)) == len(names)
    risers = next(one for one in wanted(made.work) if one.kind.name == "riser")
    printed = risers.count if "printer" in made.work.job.shop_has else 0
    assert sum(re.fullmatch(r"riser(_\d+)?", name) is not None for name in names) == printed


def test_same_job_same_bytes(made: Made, tmp_path: Path, pytestconfig: pytest.Config) -> None:
    """Made again from the job as understood, in another process with another hash seed and time zone."""
    if "printer" not in made.work.job.shop_has and not pytestconfig.getoption("--slow"):
        pytest.skip("a whole make: for every example with --slow")
    entry = "from scarfwright.cli.entry import run; run()"
    job = made.folder / "job.toml"
    environment = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    command = [sys.executable, "-c", entry, "make", str(job), "--out", str(tmp_path / "again")]
    subprocess.run(command, check=True, capture_output=True, timeout=300, env=environment)
    names = sorted(p.relative_to(made.folder) for p in made.folder.rglob("*") if p.is_file())
    assert names == sorted(p.relative_to(tmp_path / "again") for p in (tmp_path / "again").rglob("*") if p.is_file())
    for name in names:
        assert (made.folder / name).read_bytes() == (tmp_path / "again" / name).read_bytes(), name
