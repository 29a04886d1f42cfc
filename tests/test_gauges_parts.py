"""Every registered part over its whole range, and the gauges measured on the files read back."""

from __future__ import annotations

import inspect
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scarfwright.models.findings import faults
from scarfwright.models.part.values import Given
from scarfwright.models.parts import registry
from scarfwright.models.parts.check import check_part
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.taper_fork import taper_fork
from scarfwright.models.parts.thickness_fork import thickness_fork
from scarfwright.models.solids.solids import Body, bodies, solid
from scarfwright.outputs.formats.table import write

KINDS = sorted(registry())
GAUGES = [name for name in KINDS if registry()[name].resolution is not None]
CALM = settings(deadline=None, suppress_health_check=list(HealthCheck), derandomize=True, database=None)


def wholly(kind: PartKind, reach: float = 0.0) -> st.SearchStrategy[Given]:
    """Parameters all over the ranges, or `reach` of a range beyond them, in twentieths: nobody asks for finer."""
    return st.fixed_dictionaries(
        {
            name: st.floats(low - reach * (high - low), high + reach * (high - low)).map(lambda v: round(v * 20) / 20)
            for name, (low, high) in kind.ranges.items()
        }
    )


def mesh_of(part_bodies: list[Body], path: Path) -> Any:
    write(part_bodies, path)
    return trimesh.load_mesh(path)


@pytest.mark.parametrize("name", KINDS)
def test_every_number_has_a_range_that_holds_its_default(name: str) -> None:
    kind = registry()[name]
    for key, default in kind.filled({}).items():
        if isinstance(default, float):
            low, high = kind.ranges[key]
            assert low <= default <= high, key
    assert set(kind.units) <= set(kind.ranges)
    assert kind.summary


@pytest.mark.parametrize("name", KINDS)
def test_every_parameter_is_explained_with_its_unit(name: str) -> None:
    kind = registry()[name]
    words = inspect.getdoc(kind.build) or ""
    for parameter in inspect.signature(kind.build).parameters.values():
        if parameter.kind is parameter.POSITIONAL_OR_KEYWORD:
            assert parameter.name in words, parameter.name


@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize("examples", [4, pytest.param(100, marks=pytest.mark.slow)])
def test_all_over_its_ranges_a_part_is_one_valid_solid(name: str, examples: int) -> None:
    """Any parameters within the ranges, labelled: no fault, one valid solid, its volume as the closed form has it.

    A letter that ran over an edge or into another would show in the volume.
    """
    kind = registry()[name]

    @settings(CALM, max_examples=examples)
    @given(wholly(kind))
    def holds(parameters: Given) -> None:
        assert not faults(check_part(kind, None, parameters))
        label = {"label": "1:8"} if kind.label_place is not None else {}
        part = kind.drawn({**parameters, **label})
        body = solid(part)
        assert body.isValid()
        assert body.Volume() == pytest.approx(part.volume, rel=1e-9)

    holds()


@pytest.mark.parametrize("name", KINDS)
@pytest.mark.parametrize("examples", [8, pytest.param(100, marks=pytest.mark.slow)])
def test_beyond_its_ranges_a_part_is_a_solid_or_a_finding(name: str, examples: int) -> None:
    """Up to twice the range beyond either end, nothing and less than nothing too: a solid or a fault, no exception."""
    kind = registry()[name]

    @settings(CALM, max_examples=examples)
    @given(wholly(kind, 2.0))
    def holds(parameters: Given) -> None:
        if not faults(check_part(kind, None, parameters)):
            assert solid(kind.drawn(parameters)).isValid()

    holds()


@pytest.mark.parametrize("name", [n for n in KINDS if registry()[n].label_place is not None])
def test_label_is_cut_in_where_it_fits_and_reported_where_it_does_not(name: str) -> None:
    kind = registry()[name]
    plain = kind.drawn({})
    short, long = {"label": "1:8"}, {"label": "a label much too long for anything that fits a bed" * 4}
    assert kind.drawn(short).volume < plain.volume
    assert not check_part(kind, None, short)
    assert kind.drawn(long).volume == plain.volume
    assert [f.code for f in check_part(kind, None, long)] == ["label.too_long"]
    assert [f.code for f in check_part(kind, None, {"label": "1:8 \u2603"})] == ["label.replaced"]


@pytest.mark.parametrize("name", GAUGES)
@pytest.mark.parametrize("suffix", [".stl", ".3mf"])
def test_meshes_read_back_are_closed_and_true(name: str, suffix: str, tmp_path: Path) -> None:
    part = registry()[name].drawn({"label": "1:12"})
    mesh = mesh_of(bodies(part), tmp_path / f"{name}{suffix}")
    whole: Any = mesh.to_geometry() if isinstance(mesh, trimesh.Scene) else mesh
    assert whole.is_watertight
    assert whole.is_winding_consistent
    assert whole.body_count == 1
    assert whole.volume == pytest.approx(solid(part).Volume(), rel=1e-3)
    assert (whole.area_faces > 0).all()


def gaps(mesh: Any, y: float, z: float) -> list[float]:
    """Widths of the open stretches along x through a mesh: where a line at y and z passes out and in again."""
    x = crossings(mesh, (0, y), (1, 2), z)
    assert len(x) % 2 == 0
    return [b - a for a, b in zip(x[1:-1:2], x[2::2], strict=True)]


def crossings(mesh: Any, line: tuple[int, float], axes: tuple[int, int], level: float) -> list[float]:
    """Where a line along axis line[0], at line[1] on axes[0] and `level` on axes[1], passes through a mesh."""
    along, at = line
    normal, origin = np.zeros(3), np.zeros(3)
    normal[axes[1]], origin[axes[1]] = 1.0, level
    sliced: Any = trimesh.intersections.mesh_plane
    cuts = sliced(mesh, normal, origin)
    found = []
    for a, b in cuts:
        low, high = a[axes[0]], b[axes[0]]
        if (low > at) != (high > at):
            found.append(float(a[along] + (at - low) / (high - low) * (b[along] - a[along])))
    return sorted(set(np.round(found, 6).tolist()))


@pytest.mark.parametrize("thickness", [6.0, 19.05, 45.0])
@pytest.mark.parametrize("compensation", [0.0, 0.2])
def test_taper_forks_slots_on_the_mesh(thickness: float, compensation: float, tmp_path: Path) -> None:
    part = taper_fork(thickness=thickness, compensation=compensation, label="1:12")
    mesh = mesh_of(bodies(part), tmp_path / "fork.stl")
    expected = [share * thickness + compensation for share in (0.25, 0.5, 0.75)]
    for y in (0.7, 13.1, 28.9):
        assert gaps(mesh, y, 3.3) == pytest.approx(expected, abs=1e-4)


def test_thickness_forks_slots_on_the_mesh(tmp_path: Path) -> None:
    part = thickness_fork(thickness=22.0, allowed=0.5, compensation=0.15)
    mesh = mesh_of(bodies(part), tmp_path / "fork.stl")
    assert gaps(mesh, 7.7, 2.9) == pytest.approx([22.15, 22.65], abs=1e-4)


def side_angles(path: Path) -> list[float]:
    """Directions of the upright plane faces of a STEP file [deg], 0 to 180, of their trace in the xy plane.

    Those of full height: the walls of letters are left out.
    """
    import cadquery as cq

    shape = cq.importers.importStep(str(path)).val()
    assert isinstance(shape, cq.Shape)
    found = []
    for face in shape.Faces():
        normal = face.normalAt()
        if face.geomType() == "PLANE" and abs(normal.z) < 1e-9 and face.BoundingBox().zlen > 1.0:
            found.append(math.degrees(math.atan2(normal.x, -normal.y)) % 180)
    return found


@pytest.mark.parametrize("ratio", [6.0, 12.0, 17.14])
def test_slope_gauges_angle_in_the_step_file(ratio: float, tmp_path: Path) -> None:
    path = tmp_path / "gauge.step"
    write(bodies(registry()["slope_gauge"].build(ratio=ratio, label="1:12")), path)
    slope = 180 - math.degrees(math.atan(1 / ratio))  # falls along +x
    assert sum(abs(a - slope) < 0.001 for a in side_angles(path)) == 1


@pytest.mark.parametrize("angle", [0.2, 0.6, 3.0])
def test_square_blocks_angles_in_the_step_file(angle: float, tmp_path: Path) -> None:
    path = tmp_path / "block.step"
    write(bodies(registry()["square_block"].build(angle=angle)), path)
    found = side_angles(path)
    assert sum(abs(a - (90 + angle)) < 0.001 for a in found) == 1
    assert sum(abs(a - 90) < 0.001 for a in found) == 1
    assert sum(abs(math.remainder(a, 180)) < 0.001 for a in found) == 2  # base and top


def test_step_arms_and_shim_heights_on_the_mesh(tmp_path: Path) -> None:
    """Undersides of both arms, and the shim's tongue, met by lines from below."""
    step = mesh_of(bodies(registry()["height_step"].build(blade_height=66.0, work_height=60.0)), tmp_path / "a.stl")
    for x, height in ((55.0, 66.0), (-12.0, 60.0)):
        assert crossings(step, (1, x), (0, 2), 9.3)[0] == pytest.approx(height, abs=1e-4)
    shim = mesh_of(bodies(registry()["gap_shim"].build(gap=0.5, layer=0.2)), tmp_path / "b.stl")
    assert crossings(shim, (2, 70.3), (0, 1), 9.1)[-1] == pytest.approx(0.6, abs=1e-5)  # 2.5 layers, rounded up


def test_notch_guides_holes_stand_where_the_notch_ends() -> None:
    """Hole centres from the hook's inner face and from each other, against the sled's own slot."""
    part = registry()["notch_guide"].build(web=25.0, notch_length=50.0, notch_width=16.0, drill=4.0, compensation=0.2)
    holes = [f.loop.circle for f in part.features if f.operation == "DRILL"]
    (one, radius), (other, _) = (hole for hole in holes if hole is not None)
    assert other[0] - one[0] == pytest.approx(34.0)
    assert one[1] == other[1] == pytest.approx(33.0)
    assert radius == pytest.approx(2.1)
    assert part.raised[0].loop.bounds[3] == 0.0


def test_riser_with_a_lip_holds_the_board_off_nothing() -> None:
    """The lip stands over the top of the riser by its height, and the top is as high as the plain riser's."""
    plain, lipped = (registry()[n].build(height=40.0) for n in ("riser", "riser_lip"))
    assert plain.outline.bounds[3] == 40.0
    assert lipped.outline.bounds[3] == 50.0
    assert lipped.raised[0].loop.bounds[3] == 40.0
    assert lipped.raised[0].top - lipped.thickness == plain.thickness
