"""Triangles of extrusions with holes: closed, wound outward, as large as closed form and the cut solids say."""

from __future__ import annotations

import math
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.cut.bodies import mesh_of, moving_setup
from scarfwright.models.cut.scene import Block
from scarfwright.models.flat.loop import Loop, Point, circle, polygon, rectangle, rounded, slot
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.models.triangles.ears import area, triangulated
from scarfwright.models.triangles.mesh import Mesh
from scarfwright.models.triangles.prism import prism

EXAMPLES = Path(__file__).resolve().parent.parent / "examples"


def chords(loop: Loop, sagitta: float) -> Loop:
    return polygon(loop.points(sagitta))


def closed_form(loop: Loop, holes: tuple[Loop, ...], high: float, sagitta: float) -> tuple[float, float]:
    """Volume and surface of the straight-edged prism: shoelace and perimeters."""
    rings = [chords(ring, sagitta) for ring in (loop, *holes)]
    flat = abs(rings[0].area) - sum(abs(ring.area) for ring in rings[1:])
    return flat * high, 2 * flat + high * sum(ring.perimeter for ring in rings)


def check(mesh: Mesh, loop: Loop, holes: tuple[Loop, ...], high: float, sagitta: float) -> None:
    volume, surface = closed_form(loop, holes, high, sagitta)
    assert mesh.closed
    assert mesh.volume == pytest.approx(volume, rel=1e-9)
    assert mesh.area == pytest.approx(surface, rel=1e-9)


@pytest.mark.parametrize("sagitta", [1.0, 0.1, 0.005])
def test_a_plate_with_every_kind_of_hole(sagitta: float) -> None:
    plate = rounded([(0, 0), (300, 0), (300, 80), (120, 80), (120, 150), (0, 150)], 12.0)
    holes = (circle(40, 40, 20), circle(40, 100, 9), slot((90, 30), (90, 110), 18), slot((150, 40), (270, 40), 30))
    holes += (rectangle(20, 120, 40, 10), circle(140, 70, 3))
    check(prism(plate, -4.0, 7.0, holes, sagitta), plate, holes, 11.0, sagitta)


def test_a_pipe_comes_to_its_closed_form_as_chords_get_short() -> None:
    exact = 5 * math.pi * (100 - 9)
    off = [abs(prism(circle(0, 0, 10), 0, 5, [circle(0, 0, 3)], s).volume - exact) for s in (0.1, 0.01, 0.001)]
    assert off[0] > 5 * off[1] > 25 * off[2]
    assert off[2] < 1e-3 * exact
    # a chord of sagitta s cuts 2/3 of a segment's box off: never more than the rim times s
    assert off[0] < 5 * 2 * math.pi * 13 * 0.1


def test_a_tetrahedron_of_known_volume() -> None:
    mesh = Mesh(((1, 1, 1), (7, 1, 1), (1, 4, 1), (1, 1, 3)), ((0, 2, 1), (0, 1, 3), (1, 2, 3), (0, 3, 2)))
    assert mesh.closed
    assert mesh.volume == pytest.approx(6 * 3 * 2 / 6)
    assert mesh.area == pytest.approx(9 + 6 + 3 + math.sqrt(9**2 + 6**2 + 3**2))  # de Gua's theorem
    assert Mesh(mesh.corners, tuple((a, c, b) for a, b, c in mesh.triangles)).volume == pytest.approx(-6)
    assert not Mesh(mesh.corners, mesh.triangles[1:]).closed
    assert not Mesh(mesh.corners, ((0, 1, 2), *mesh.triangles[1:])).closed


def test_ends_look_out_and_walls_too() -> None:
    """Along a line from outside through the body the first face met looks back at the eye."""
    mesh = prism(rectangle(0, 0, 30, 20), 0, 10, [rectangle(10, 5, 10, 10)])
    for a, b, c in ([mesh.corners[i] for i in t] for t in mesh.triangles):
        middle = tuple(sum(v) / 3 for v in zip(a, b, c, strict=True))
        u, v = ([q - p for p, q in zip(a, end, strict=True)] for end in (b, c))
        normal = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
        x, y, z = (m + 0.01 * n / math.hypot(*normal) for m, n in zip(middle, normal, strict=True))
        solid = 0 < x < 30 and 0 < y < 20 and 0 < z < 10 and not (10 < x < 20 and 5 < y < 15)
        assert not solid


def star(count: int, radii: list[float], turn: float, middle: Point = (0.0, 0.0)) -> list[Point]:
    """A ring round its middle that sees every corner: simple, with as many dents as the radii say."""
    angles = [turn + math.tau * i / count for i in range(count)]
    return [(middle[0] + r * math.cos(a), middle[1] + r * math.sin(a)) for r, a in zip(radii, angles, strict=True)]


@st.composite
def dented_plates(draw: st.DrawFn) -> tuple[list[Point], list[list[Point]]]:
    """A dented ring with dented holes in cells of a grid inside it, some corners doubled along straight runs."""
    count = draw(st.integers(3, 40))
    ring = star(count, draw(st.lists(st.floats(100, 300), min_size=count, max_size=count)), draw(st.floats(0, 6)))
    if draw(st.booleans()):
        onward = [*ring[1:], ring[0]]
        ring = [p for a, b in zip(ring, onward, strict=True) for p in (a, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))]
    safe = 100 * math.cos(math.pi / count) / math.sqrt(2) - 1  # a square that lies inside whatever the dents
    cells = draw(st.lists(st.tuples(st.integers(-2, 1), st.integers(-2, 1)), unique=True, max_size=8))
    size, holes = safe / 2, []
    for i, j in cells:
        corners = draw(st.integers(3, 12))
        radii = draw(st.lists(st.floats(0.1 * size, 0.48 * size), min_size=corners, max_size=corners))
        hole = star(corners, radii, draw(st.floats(0, 6)), ((i + 0.5) * size, (j + 0.5) * size))
        holes.append(hole[::-1])
    return ring, holes


@given(dented_plates())
def test_any_plate_is_covered_once_and_its_edges_are_kept(plate: tuple[list[Point], list[list[Point]]]) -> None:
    ring, holes = plate
    points = [p for r in (ring, *holes) for p in r]
    triangles = triangulated(ring, holes)
    assert len(triangles) == len(points) + 2 * len(holes) - 2  # Euler
    sizes = [area([points[i] for i in t]) for t in triangles]
    assert min(sizes) > -1e-7
    assert sum(sizes) == pytest.approx(area(ring) + sum(area(h) for h in holes), rel=1e-9)
    edges = Counter((t[i], t[(i + 1) % 3]) for t in triangles for i in range(3))
    assert set(edges.values()) == {1}
    first = 0
    for r in (ring, *holes):
        for i in range(len(r)):
            here, there = first + i, first + (i + 1) % len(r)
            assert edges.pop((here, there)) == 1
            assert (there, here) not in edges
        first += len(r)
    assert all((b, a) in edges for a, b in edges)  # what is left are inner edges, each from both sides


@given(dented_plates(), st.floats(0.5, 50))
def test_any_prism_is_closed(plate: tuple[list[Point], list[list[Point]]], high: float) -> None:
    ring, holes = plate
    loop, inner = polygon(ring), tuple(polygon(h) for h in holes)
    check(prism(loop, 1.0, 1.0 + high, inner), loop, inner, high, 0.1)


@pytest.mark.parametrize(
    ("ring", "holes"),
    [
        ([(0, 0), (10, 10), (10, 0), (0, 10)], []),  # crosses itself
        ([(0, 0), (0, 10), (10, 10), (10, 0)], []),  # clockwise
        ([(0, 0), (10, 0), (10, 10), (0, 10)], [[(20, 20), (20, 22), (22, 22)]]),  # a hole outside
        ([(0, 0), (10, 0), (10, 10), (0, 10)], [[(2, 2), (4, 2), (4, 4)]]),  # a hole the wrong way round
        ([(0, 0), (10, 0), (10, 10), (0, 10)], [[(5, 5), (5, 12), (7, 5)]]),  # a hole across the ring
    ],
)
def test_what_no_triangles_cover_is_refused(ring: list[Point], holes: list[list[Point]]) -> None:
    with pytest.raises(ValueError, match=r"cross|outside"):
        triangulated(ring, holes)


def test_a_body_without_height_is_refused() -> None:
    with pytest.raises(ValueError, match="top"):
        prism(circle(0, 0, 5), 3.0, 3.0)


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_laid_along_an_axis_it_is_the_block_the_kernel_cuts(axis: str) -> None:
    """A lopsided block with a hole, turned and moved: box, volume and centre of mass against the solid."""
    from scarfwright.models.cut.scene import Piece
    from scarfwright.models.solids.setup import block_solid

    shape = Block(polygon([(0, 0), (40, 0), (40, 8), (5, 30)]), axis, -3.0, 9.0, turn=0.4, move=(100.0, -20.0, 5.0))
    shape = Block(shape.loop, axis, -3.0, 9.0, (circle(14, 8, 4),), 0.4, (100.0, -20.0, 5.0))
    _alike(mesh_of(Piece("block", "", shape), 0.001), block_solid(shape), 1e-4)


def _alike(mesh: Mesh, solid: Any, rel: float) -> None:
    box = solid.BoundingBox()
    low, high = ([f(c[i] for c in mesh.corners) for i in range(3)] for f in (min, max))
    assert low == pytest.approx([box.xmin, box.ymin, box.zmin], abs=0.01)
    assert high == pytest.approx([box.xmax, box.ymax, box.zmax], abs=0.01)
    assert mesh.volume == pytest.approx(solid.Volume(), rel=rel)
    assert mesh.area == pytest.approx(solid.Area(), rel=rel)


@pytest.mark.parametrize("name", ["plank-metric", "plank-inch", "sheet-layers"])
def test_every_body_of_the_set_up_is_the_solid_of_the_assembly(name: str) -> None:
    from scarfwright.models.part.part import Part
    from scarfwright.models.solids.setup import block_solid
    from scarfwright.models.solids.solids import solid

    things = moving_setup(work_up(read_job(EXAMPLES / f"{name}.toml")).way)
    assert {"table", "fence", "blade", "sled", "work", "kerf", "offcut", "next"} <= {t.role for t in things}
    for thing in things:
        mesh, shape = mesh_of(thing.piece, 0.005), thing.piece.shape
        assert mesh.closed
        body = solid(shape) if isinstance(shape, Part) else block_solid(shape)
        _alike(mesh.moved(-thing.piece.along), body, 3e-4)


def test_triangles_need_no_kernel() -> None:
    code = (
        "import sys; import scarfwright.models.triangles.prism; import scarfwright.outputs.moving_cut.piece;"
        "assert not {'cadquery', 'OCP', 'trimesh', 'numpy', 'scipy'} & set(sys.modules), set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=120)
