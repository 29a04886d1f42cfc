"""Parts on the printer's bed: arranged, laid on their best face, and what hangs over."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from scarfwright.models.flat.loop import circle, polygon, rectangle
from scarfwright.models.job.tables import Printer
from scarfwright.models.lengths.length import parse_length
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.lettering import lettered
from scarfwright.models.part.part import Feature, Operation, Part, Raised
from scarfwright.models.printing.laying import SPACING, Laid, filled_beds, laid_flat, pack
from scarfwright.models.printing.overhang import best_face, ceilings
from scarfwright.models.solids.solids import bodies
from scarfwright.outputs.formats.mesh import mesh_of
from scarfwright.outputs.formats.table import write

from tests.shapes import blank

SAY = say_in("mm")


def printer(x: float = 220.0, y: float = 220.0, z: float = 240.0) -> Printer:
    return Printer(bed=(parse_length(x), parse_length(y), parse_length(z)), margin=parse_length(0))


# -- arranging ----------------------------------------------------------------------------------------------


@given(
    st.lists(st.tuples(st.floats(1.0, 200.0), st.floats(1.0, 140.0)), min_size=1, max_size=14),
    st.floats(0.0, 10.0),
)
@settings(max_examples=80, deadline=None)
def test_nothing_overlaps_and_all_is_inside(sizes: list[tuple[float, float]], spacing: float) -> None:
    spots = pack(sizes, 200.0, 150.0, spacing)
    assert [s.item for s in spots] == list(range(len(sizes)))
    boxes = []
    for spot in spots:
        long, wide = sizes[spot.item][::-1] if spot.turned else sizes[spot.item]
        assert spot.x >= 0
        assert spot.y >= 0
        assert spot.x + long <= 200.0 + 0.1
        assert spot.y + wide <= 150.0 + 0.1
        boxes.append((spot.bed, spot.x, spot.y, spot.x + long, spot.y + wide))
    for (bed, a, b, c, d), (other, e, f, g, h) in combinations(boxes, 2):
        apart = max(e - c, a - g, f - d, b - h)
        assert bed != other or apart >= spacing - 1e-6


def test_one_bed_where_one_will_do_and_more_where_not() -> None:
    assert {s.bed for s in pack([(100, 100)] * 4, 200, 200, 0)} == {0}
    assert {s.bed for s in pack([(100, 100)] * 5, 200, 200, 0)} == {0, 1}
    with pytest.raises(ValueError, match="does not go"):
        pack([(201, 10)], 200, 200, 5)


def test_the_same_every_time() -> None:
    sizes = [(30.0 + 7 * i % 50, 20.0 + 11 * i % 40) for i in range(12)]
    assert pack(sizes, 220, 220, 5) == pack(sizes, 220, 220, 5)


# -- laid on the best face -------------------------------------------------------------------------------------


def overhang_of(laid: Laid) -> tuple[float, float]:
    """Area and least height of what looks down steeper than 45 degrees above the bed, from the mesh."""
    (body,) = bodies(laid)
    found = mesh_of(body, sagitta=0.0005)
    mesh: Any = trimesh.Trimesh(found.corners, found.triangles)
    assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-6)
    down = mesh.face_normals[:, 2] < -math.cos(math.radians(45)) - 1e-9
    above = mesh.triangles_center[:, 2] > 1e-4
    hanging = down & above
    heights = mesh.triangles_center[hanging][:, 2]
    return float(mesh.area_faces[hanging].sum()), float(heights.min()) if hanging.any() else 0.0


def strip(part: Part, loop: Any, bottom: float, top: float) -> Part:
    return replace(part, raised=(*part.raised, Raised(loop, bottom, top, "strip")))


SHELF = strip(blank(), rectangle(10, -6, 30, 20), 3.0, 8.0)
PARTS = {
    "plain": blank(),
    "label": lettered(blank(), "8 B", 5.0, 6.0, 6.0),
    "raised bar": strip(blank(), rectangle(5, 6, 20, 3), 3.0, 3.6),
    "hook": strip(blank(), rectangle(0, 0, 60, 4), 3.0, 12.0),
    "shelf": SHELF,
    "table": strip(strip(blank(20, 20), rectangle(0, 0, 20, 20), 3, 9), rectangle(-8, -8, 36, 36), 9.0, 12.0),
    "two storeys": strip(SHELF, rectangle(30, -10, 14, 20), 8.0, 11.0),
    "over a hole": strip(
        replace(blank(), features=(Feature(Operation.DRILL, circle(20, 10, 4), "hole"),)),
        rectangle(15, 0, 10, 20),
        3.0,
        5.0,
    ),
    "over a pocket": strip(
        replace(blank(), features=(Feature(Operation.POCKET, rectangle(10, 5, 20, 8), "pocket", 1.0),)),
        rectangle(15, 0, 10, 20),
        3.0,
        5.0,
    ),
    "leaning": strip(Part("leaning", "Leaning", polygon([(0, 0), (40, 0), (30, 20), (0, 20)]), 4.0),
                     polygon([(20, 5), (50, 5), (50, 15), (20, 15)]), 4.0, 6.0),
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(PARTS))
@pytest.mark.parametrize("over", [False, True])
def test_overhang_against_the_mesh(name: str, over: bool) -> None:
    part = PARTS[name]
    area, lowest = overhang_of(Laid(part, turned_over=over))
    found = ceilings(part, turned_over=over)
    assert sum(c.area for c in found) == pytest.approx(area, rel=2e-3, abs=1e-2)
    if found:
        assert found[0].height == pytest.approx(lowest, abs=1e-4)


def test_best_face_is_the_one_with_less_hanging_over() -> None:
    assert best_face(PARTS["table"])
    assert not any(best_face(PARTS[name]) for name in ("plain", "label", "hook", "raised bar"))
    (laid,), found = laid_flat(PARTS["table"], printer())
    assert laid.turned_over
    assert not found
    assert sum(c.area for c in ceilings(PARTS["table"])) > 500


def test_what_hangs_over_is_reported_with_area_and_height() -> None:
    (laid,), (found,) = laid_flat(PARTS["shelf"], printer())
    area, lowest = overhang_of(laid)
    assert found.code == "print.overhang"
    assert found.numbers["area_mm2"] == pytest.approx(area, rel=1e-3)
    assert found.numbers["height_mm"] == pytest.approx(lowest)


def test_too_tall_for_the_printer() -> None:
    laid, (found,) = laid_flat(blank(40, 30, 60), printer(z=50.0))
    assert laid == ()
    assert found.code == "print.too_tall"
    assert (found.numbers["height_mm"], found.numbers["bed_z_mm"]) == (60, 50)


def test_slanting_where_only_that_fits() -> None:
    (laid,), found = laid_flat(blank(270.0, 20.0), printer())
    assert not found
    assert 0 < laid.angle < math.pi / 2
    (body,) = bodies(laid)
    box = body.shape.BoundingBox(1e-6)
    assert (box.xmin, box.ymin, box.zmin) == pytest.approx((0, 0, 0), abs=1e-4)
    assert max(box.xmax, box.ymax) <= 220.0 + 1e-4


def test_beds_hold_every_part_once_named_and_apart(tmp_path: Path) -> None:
    wanted = [*((laid, 1) for laid in laid_flat(replace(blank(400, 40), name="long"), printer())[0])]
    wanted += [(laid_flat(replace(part, name=name), printer())[0][0], 3) for name, part in PARTS.items()]
    names: list[str] = []
    for bed in filled_beds(wanted, printer()):
        write(bodies(bed), tmp_path / f"{bed.name}.3mf")
        scene: Any = trimesh.load(tmp_path / f"{bed.name}.3mf")
        assert scene.units == "millimeter"
        names += scene.geometry
        check_bed(list(scene.geometry.values()))
    assert sorted(names) == sorted(["long-1", "long-2"] + [f"{name}{n}" for name in PARTS for n in ("", "_2", "_3")])


def check_bed(meshes: list[Any]) -> None:
    boxes = []
    for mesh in meshes:
        assert mesh.is_watertight
        assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-5)
        assert (mesh.bounds[0][:2] >= -1e-4).all()
        assert (mesh.bounds[1][:2] <= 220.0 + 1e-4).all()
        boxes.append(mesh.bounds)
    for (low, high), (low2, high2) in combinations(boxes, 2):
        assert max(*(low2 - high)[:2], *(low - high2)[:2]) >= SPACING - 0.01


def test_more_than_one_bed_is_numbered() -> None:
    laid = laid_flat(blank(200, 100), printer())[0][0]
    assert [p.name for p in filled_beds([(laid, 3)], printer())] == ["bed-1", "bed-2"]
    assert filled_beds([], printer()) == ()
