"""Laser templates: the files read back, the kerf taken away, the sections joined by their keys and measured.

Expected places come from numbers.json's figures through formulas written here, not from the module that draws.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from ezdxf import recover
from ezdxf.path import make_path
from scarfwright.models.findings import Finding
from scarfwright.models.flat.loop import circle, polygon, rectangle
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.part.part import Feature, Operation, Part
from scarfwright.models.solve import work_up
from scarfwright.models.templates.kerf import compensated, lost
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items
from shapely import Point as Spot
from shapely import Polygon
from shapely.affinity import translate
from shapely.ops import unary_union

from tests.shops import in_full_shop

STOCK: dict[str, Any] = {"thickness": "22 mm", "height": "60 mm"}
METRIC: dict[str, Any] = {"stock": STOCK, "joint": {"ratio": 12}, "files": {"machine": "laser"}}
LONG = {**METRIC, "sled": {"plank": ["38 mm", "184 mm"], "length": "1.5 m"}, "laser": {"bed": ["400 mm", "300 mm"]}}
INCH: dict[str, Any] = {
    "units": "in",
    "stock": {"thickness": "3/4 in", "height": "2 1/2 in"},
    "joint": {"ratio": 14},
    "clamp": {"opening": "3 in"},
    "sled": {"plank": "2x6"},
    "laser": {"bed": ["18 in", "12 in"], "kerf": "0.008 in"},
    "files": {"machine": "laser"},
}
SHEET: dict[str, Any] = {
    **METRIC,
    "saw": {"fence_side": "left"},
    "sled": {"made_from": "sheet", "layers": 2, "length": "1.1 m"},
    "laser": {"bed": ["500 mm", "300 mm"], "kerf": "0.3 mm"},
}
R12 = {**LONG, "files": {"machine": "laser", "dxf": "r12", "dxf_units": "in"}}
JOBS = {"long": LONG, "inch": INCH, "sheet, fence left": SHEET, "r12 in inches": R12, "plain": METRIC}


class Piece(NamedTuple):
    """One file: what is left when the kerf is taken away, hole middles with diameters, and the arcs of its path."""

    name: str
    path: Polygon
    cut: Polygon
    holes: list[tuple[float, float, float]]
    arcs: list[tuple[float, float, float, bool]]  # middle, radius, whether the wood is inside it


class Made(NamedTuple):
    work: Workup
    numbers: dict[str, Any]
    pieces: dict[str, list[Piece]]

    @property
    def kerf(self) -> float:
        return float(self.work.job.laser.kerf)


def job(raw: dict[str, Any]) -> Job:
    return in_full_shop(job_from_dict(raw))


@cache
def _made(name: str, folder: Path) -> Made:
    work = work_up(job(JOBS[name]))
    for item in items(work, ["cut"]):
        if "template-" in item.path:
            target = folder / Path(item.path).name
            item.make(target)
    unit = work.job.units if work.job.files.dxf_units == "auto" else work.job.files.dxf_units
    scale = 25.4 if unit == "in" else 1.0
    pieces: dict[str, list[Piece]] = {}
    for path in sorted(folder.glob("template-*.dxf")):
        stem, _, number = path.stem.rpartition("-")
        whole = stem if number.isdigit() else path.stem
        pieces.setdefault(whole, []).append(read(path, scale, float(work.job.laser.kerf)))
    return Made(work, numbers(work), pieces)


@pytest.fixture(params=list(JOBS))
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.getbasetemp() / f"laser-{list(JOBS).index(request.param)}"
    folder.mkdir(exist_ok=True)
    return _made(request.param, folder)


def read(path: Path, scale: float, kerf: float) -> Piece:
    """A file read back by the library's recovering reader, in mm."""
    document, auditor = recover.readfile(path)
    assert not auditor.errors
    assert not auditor.fixes
    outlines, holes, arcs = [], [], []
    for entity in document.modelspace():
        layer = entity.dxf.layer
        assert layer in {"CUT_OUTSIDE", "CUT_INSIDE", "SCORE", "NOTES"}, layer
        if layer not in ("CUT_OUTSIDE", "CUT_INSIDE"):
            continue
        assert entity.dxftype() in ("LWPOLYLINE", "POLYLINE")
        points = [(p.x * scale, p.y * scale) for p in make_path(entity).flattening(0.0002 / scale)]
        if math.dist(points[0], points[-1]) < 1e-9:  # an arc's computed end, a hair from the first corner
            points.pop()
        shape = Polygon(points)
        assert shape.is_valid
        if layer == "CUT_OUTSIDE":
            outlines.append(shape)
            arcs += _arcs(entity, scale, shape)
        else:
            x, y = shape.centroid.x, shape.centroid.y
            holes.append((x, y, 2 * math.sqrt(shape.area / math.pi) + kerf))
    (outline,) = outlines
    return Piece(path.stem, outline, outline.buffer(-kerf / 2, quad_segs=64), holes, arcs)


def _arcs(entity: Any, scale: float, shape: Polygon) -> list[tuple[float, float, float, bool]]:
    """Middle and radius of each arc of a polyline, from the DXF reference's bulge = tan(angle / 4)."""
    if entity.dxftype() == "LWPOLYLINE":
        corners = [(x * scale, y * scale, b) for x, y, b in entity.get_points("xyb")]
    else:
        corners = [(v.dxf.location.x * scale, v.dxf.location.y * scale, v.dxf.bulge) for v in entity.vertices]
    found = []
    for (x1, y1, bulge), (x2, y2, _) in itertools.pairwise([*corners, corners[0]]):
        if bulge == 0:
            continue
        chord, middle = complex(x2 - x1, y2 - y1), complex(x1 + x2, y1 + y2) / 2
        centre = middle + 1j * chord * (1 - bulge**2) / (4 * bulge)
        radius = abs(chord) * (1 + bulge**2) / (4 * abs(bulge))
        top = middle - 1j * chord * bulge / 2
        inward = top + (centre - top) / abs(centre - top) * 0.01
        found.append((centre.real, centre.imag, radius, bool(shape.contains(Spot(inward.real, inward.imag)))))
    return found


def key_arcs(piece: Piece, kerf: float, *, right: bool) -> list[tuple[float, float]]:
    """Middles of the arcs of the joint on one side; the corners' own arcs have half a kerf of radius."""
    low, _, high, _ = piece.path.bounds
    found = [
        (x, y)
        for x, y, radius, _ in piece.arcs
        if radius > kerf / 2 + 0.01 and ((x > high - 30) if right else (x < low + 30))
    ]
    return sorted(found, key=lambda p: (round(p[1], 1), p[0]))


def joined(made: Made, name: str) -> tuple[list[Polygon], list[tuple[float, float, float]]]:
    """The sections laid together by their keys alone, the first where its file has it."""
    pieces = made.pieces[name]
    shapes, holes = [pieces[0].cut], list(pieces[0].holes)
    dx = dy = 0.0
    for before, after in itertools.pairwise(pieces):
        tails = key_arcs(before, made.kerf, right=True)
        sockets = key_arcs(after, made.kerf, right=False)
        assert len(tails) == len(sockets) >= 4
        shifts = [(ax - bx, ay - by) for (ax, ay), (bx, by) in zip(tails, sockets, strict=True)]
        step = (sum(s[0] for s in shifts) / len(shifts), sum(s[1] for s in shifts) / len(shifts))
        assert all(math.dist(s, step) < 0.001 for s in shifts)  # every arc of the key meets its like
        dx, dy = dx + step[0], dy + step[1]
        shapes.append(translate(after.cut, dx, dy))
        holes += [(x + dx, y + dy, d) for x, y, d in after.holes]
    return shapes, holes


def expected_outline(made: Made) -> Polygon:
    """The sled's template from numbers.json: fence edge along y = 0, the nose at x = 0."""
    sled = made.numbers["sled"]
    length, flat, step = sled["length_mm"], sled["nose_flat_mm"], sled["nose_flat_step_mm"]
    if sled["mark_mm"] is None:
        heel, nose = sled["heel_mm"], sled["nose_mm"]
    else:
        heel, nose = sled["mark_mm"], sled["plank_width_mm"] - sled["mark_mm"]
    corners = [(0, 0), (flat, step), (flat, 0), (length, 0), (length, heel), (0, nose)]
    side = -1 if made.work.job.saw.fence_side == "left" else 1
    return Polygon([(x, side * y) for x, y in corners])


def expected_centres(made: Made) -> list[tuple[float, float]]:
    """Drill centres: both end holes of each notch, handle holes and dowels."""
    sled = made.numbers["sled"]
    theta = math.atan((sled["heel_mm"] - sled["nose_mm"]) / sled["length_mm"])
    along, inward = -complex(math.cos(theta), math.sin(theta)), complex(math.sin(theta), -math.cos(theta))
    heel_corner = complex(sled["length_mm"], sled["heel_mm"])
    found = []
    for notch in sled["notches"]:
        for half in (-1, 1):
            station = notch["station_mm"] + half * (notch["length_mm"] - notch["width_mm"]) / 2
            found.append(heel_corner + along * station + inward * (notch["web_mm"] + notch["width_mm"] / 2))
    found += [complex(sled["length_mm"] - s, y) for s, y in sled["handle_holes_mm"] + sled["dowels_mm"]]
    side = -1 if made.work.job.saw.fence_side == "left" else 1
    return [(z.real, side * z.imag) for z in found]


def _nearest(point: tuple[float, float], places: list[tuple[float, float]]) -> tuple[float, float]:
    return min(places, key=lambda place: math.dist(place, point))


def test_every_piece_lies_on_the_bed_with_its_corner_at_the_origin(made: Made) -> None:
    bed_x, bed_y = made.work.job.laser.bed
    for piece in itertools.chain(*made.pieces.values()):
        low_x, low_y, high_x, high_y = piece.path.bounds
        assert (low_x, low_y) == pytest.approx((0, 0), abs=0.0005)  # arcs are flattened
        assert high_x <= bed_x + 1e-6
        assert high_y <= bed_y + 1e-6


def test_sled_is_split_only_where_it_must_be(made: Made) -> None:
    bed, length = made.work.job.laser.bed[0], made.numbers["sled"]["length_mm"]
    count = len(made.pieces["template-sled"])
    assert count >= math.ceil(length / bed)
    assert count <= math.ceil(length / bed) + 1


def test_sections_joined_by_their_keys_are_the_whole(made: Made) -> None:
    """No overlap, no gap, and every feature within a tenth of a millimetre of its place to every other."""
    shapes, holes = joined(made, "template-sled")
    for one, other in itertools.combinations(shapes, 2):
        assert one.intersection(other).area < 0.02
    whole = unary_union([shape.buffer(0.003, join_style="mitre") for shape in shapes])
    assert whole.geom_type == "Polygon"
    assert not whole.interiors
    wanted = expected_outline(made)
    assert whole.area == pytest.approx(wanted.area, abs=0.003 * wanted.length + 0.1)
    shift = (whole.bounds[0] - wanted.bounds[0], whole.bounds[1] - wanted.bounds[1])
    # a beam rounds the inside corner at the nose flat's step: up to 0.48 of its radius stay (85 degrees)
    assert translate(wanted, *shift).hausdorff_distance(whole) < 0.48 * made.kerf / 2 + 0.006
    centres = [(x + shift[0], y + shift[1]) for x, y in expected_centres(made)]
    assert len(holes) == len(centres)
    found = [_nearest(centre, [h[:2] for h in holes]) for centre in centres]
    assert len(set(found)) == len(centres)
    features = [*centres, *translate(wanted, *shift).exterior.coords[:-1]]
    corners = list(whole.exterior.coords)
    places = [*found, *(_nearest(f, corners) for f in features[len(centres) :])]
    for (a, b), (p, q) in zip(itertools.combinations(features, 2), itertools.combinations(places, 2), strict=True):
        assert math.dist(p, q) == pytest.approx(math.dist(a, b), abs=0.09)


def test_holes_have_their_size_when_the_kerf_is_taken_away(made: Made) -> None:
    for piece in made.pieces["template-sled"]:
        for *_, diameter in piece.holes:
            assert diameter == pytest.approx(2.0, abs=0.001)


def test_taper_template_is_thickness_by_taper_run(made: Made) -> None:
    joint = made.numbers["joint"]
    (piece,) = made.pieces["template-taper"]
    run, thick, tip = joint["taper_run_mm"], joint["thickness_mm"], joint["tip_mm"]
    low_x, low_y, high_x, high_y = piece.cut.bounds
    assert (high_x - low_x, high_y - low_y) == pytest.approx((run, thick), abs=0.002)
    assert piece.cut.area == pytest.approx((thick + tip) / 2 * run, abs=0.05)


def test_flat_gauges_come_to_size_not_as_printed(made: Made) -> None:
    """The fork's slots are 1/4, 1/2 and 3/4 of the thickness wide once the kerf is gone: no printer's allowance."""
    (fork,) = made.pieces["template-taper_fork"]
    low_x, low_y, high_x, _ = fork.cut.bounds
    level = Polygon([(low_x, low_y + 4.99), (high_x, low_y + 4.99), (high_x, low_y + 5.01), (low_x, low_y + 5.01)])
    teeth = sorted((part.bounds for part in fork.cut.intersection(level).geoms), key=lambda b: b[0])
    slots = [after[0] - before[2] for before, after in itertools.pairwise(teeth)]
    thick = made.numbers["joint"]["thickness_mm"]
    assert slots == pytest.approx([thick / 4, thick / 2, 3 * thick / 4], abs=0.002)


def test_portrait_bed_gets_the_sections_turned(tmp_path: Path) -> None:
    work = work_up(job({**LONG, "laser": {"bed": ["300 mm", "900 mm"]}}))
    total = 0.0
    for item in items(work, ["cut"]):
        if "template-sled" in item.path:
            item.make(tmp_path / "piece.dxf")
            piece = read(tmp_path / "piece.dxf", 1.0, 0.15)
            low_x, low_y, high_x, high_y = piece.path.bounds
            assert (low_x, low_y) == pytest.approx((0, 0), abs=0.0005)  # arcs are flattened
            assert high_x <= 300
            assert 300 < high_y <= 900
            total += piece.cut.area
    assert total == pytest.approx(184 * 1500 / 2 - work.way.nominal.nose_flat**2 / work.way.nominal.ratio / 2, abs=0.3)


def test_long_taper_is_split_too(tmp_path: Path) -> None:
    raw = {**METRIC, "stock": {**STOCK, "thickness": "40 mm"}, "joint": {"ratio": 18}}
    work = work_up(job({**raw, "clamp": {"opening": "120 mm"}, "sled": {"plank": "2x12"}}))
    run = work.joint.taper_run
    assert run > 600
    area = 0.0
    names = [item for item in items(work, ["cut"]) if "template-taper-" in item.path]
    assert len(names) == 2
    for item in names:
        item.make(tmp_path / "piece.dxf")
        area += read(tmp_path / "piece.dxf", 1.0, 0.15).cut.area
    assert area == pytest.approx((40 + work.joint.tip) / 2 * run, abs=0.3)


def test_summary_tells_kerf_layers_and_joining(tmp_path: Path) -> None:
    work = work_up(job(LONG))
    for item in items(work, ["cut"]):
        if item.path == "cut/README.txt":
            item.make(tmp_path / "README.txt")
    text = (tmp_path / "README.txt").read_text(encoding="ascii")
    for word in ("UNIT: millimetres", "0.15 mm", "CUT_INSIDE", "SCORE", "NOTES", "JOINING: template-sled-1", "PVC"):
        assert word in text
    assert "template-taper.dxf" in text
    assert "SHEET" not in text


def test_router_jobs_have_no_templates_to_cut() -> None:
    work = work_up(job({**METRIC, "files": {"machine": "router"}}))
    assert not [item for item in items(work, ["cut"]) if "template" in item.path]


# -- what can't be cut ---------------------------------------------------------------------------------


def found(raw: dict[str, Any], code: str) -> list[Finding]:
    return [f for f in work_up(in_full_shop(job(raw))).findings if f.code == code]


def made_names(raw: dict[str, Any]) -> list[str]:
    return [item.path for item in items(work_up(job(raw)), ["cut"])]


def test_bed_narrower_than_the_sled_is_told_and_the_rest_is_cut() -> None:
    raw = {**LONG, "laser": {"bed": ["300 mm", "90 mm"]}}
    told = {f.numbers["part"]: f for f in found(raw, "template.bed_small")}
    sled = told["template-sled"]
    assert sled.numbers["bed_y_mm"] == 90
    assert "cut across" in sled.text
    needed = 154.5 + 0.15
    assert f"{math.ceil(needed * 10) / 10:g}" in sled.text
    names = made_names(raw)
    assert not [n for n in names if "template-sled" in n]
    assert "cut/template-taper.dxf" in names


def test_way_out_of_a_bed_too_narrow_holds() -> None:
    assert not found({**LONG, "laser": {"bed": ["300 mm", "154.7 mm"]}}, "template.bed_small")


def test_bed_too_short_for_a_joint_is_told() -> None:
    """The taper's template is 259.5 mm long and runs out to nothing: on a bed of 60 x 60 no stretch takes a key."""
    told = found({**METRIC, "laser": {"bed": ["60 mm", "60 mm"]}}, "template.bed_small")
    (taper,) = [f for f in told if f.numbers["part"] == "template-taper"]
    assert "keyed joint" in taper.text


def test_kerf_wider_than_the_centre_holes_is_told() -> None:
    raw = {**METRIC, "laser": {"kerf": "2.1 mm"}}
    told = [f for f in found(raw, "template.kerf_closes") if f.numbers["part"] == "template-sled"]
    assert told
    assert all(f.numbers["width_mm"] == pytest.approx(2.0, abs=0.01) for f in told)
    assert not [n for n in made_names(raw) if "template-sled" in n]
    assert not found({**METRIC, "laser": {"kerf": "1.9 mm"}}, "template.kerf_closes")


def test_tip_thinner_than_the_kerf_is_told_and_still_cut() -> None:
    raw = {**METRIC, "saw": {"fence_gap": "0.1 mm"}, "laser": {"kerf": "1 mm"}}
    (told,) = found(raw, "template.web_burns")
    assert told.numbers["part"] == "template-taper"
    assert told.numbers["width_mm"] == pytest.approx(0.1, abs=0.02)
    assert "cut/template-taper.dxf" in made_names(raw)
    assert not found(METRIC, "template.web_burns")


PLATE = Part("plate", "Plate", rectangle(0, 0, 60, 40), 3.0)


def hole(x: float, y: float, radius: float) -> Feature:
    return Feature(Operation.CUT_INSIDE, circle(x, y, radius), "hole")


SLOTTED = [(0, 0), (60, 0), (60, 40), (30.3, 40), (30.3, 20), (30, 20), (30, 40), (0, 40)]


@pytest.mark.parametrize(
    ("part", "web", "width"),
    [
        (replace(PLATE, features=(hole(10, 10, 0.2),)), False, 0.4),
        (replace(PLATE, features=(hole(10, 10, 4), hole(18.3, 10, 4))), True, 0.3),
        (replace(PLATE, features=(hole(4.2, 10, 4),)), True, 0.2),
        (replace(PLATE, outline=polygon(SLOTTED)), False, 0.3),
    ],
    ids=["hole", "between holes", "hole to edge", "slot in the outline"],
)
def test_what_half_a_millimetre_of_kerf_does_away_with(part: Part, web: bool, width: float) -> None:
    (gone,) = lost(part, 0.5)
    assert gone.web is web
    assert gone.width == pytest.approx(width, abs=0.01)
    assert lost(part, 0.15) == []
    assert lost(part, 0.0) == []


def test_neck_thinner_than_the_kerf_is_a_web() -> None:
    corners = [(0, 0), (20, 0), (20, 9.8), (40, 9.8), (40, 0), (60, 0), (60, 20), (40, 20), (40, 10.2), (20, 10.2)]
    neck = replace(PLATE, outline=polygon([*corners, (20, 20), (0, 20)]))
    (gone,) = lost(neck, 0.5)
    assert gone.web
    assert gone.width == pytest.approx(0.4, abs=0.01)
    assert not lost(neck, 0.3)


def test_kerf_goes_outward_on_edges_inward_on_openings_and_nowhere_on_scored_lines() -> None:
    scored = Feature(Operation.SCORE, circle(40, 20, 5), "scored")
    path = compensated(replace(PLATE, features=(hole(15, 20, 6), scored)), 0.4)
    assert path.outline.bounds == pytest.approx((-0.2, -0.2, 60.2, 40.2))
    # a rounded rectangle: 60 x 40 grown by 0.2, its corners round
    assert path.outline.area == pytest.approx(60 * 40 + 2 * (60 + 40) * 0.2 + math.pi * 0.04)
    inner, line = path.features
    assert inner.loop.circle is not None
    assert inner.loop.circle[1] == pytest.approx(5.8)
    assert line.loop.circle is not None
    assert line.loop.circle[1] == pytest.approx(5)


def test_no_kerf_leaves_the_lines_where_they_are() -> None:
    path = compensated(replace(PLATE, features=(hole(15, 20, 6),)), 0.0)
    assert path.outline.area == pytest.approx(2400)
    assert abs(path.features[0].loop.area) == pytest.approx(math.pi * 36)


def test_same_job_same_bytes(tmp_path: Path) -> None:
    for run in ("one", "two"):
        (tmp_path / run).mkdir()
        for item in items(work_up(job(INCH)), ["cut"]):
            if "template-" in item.path or "README" in item.path:
                item.make(tmp_path / run / Path(item.path).name)
    names = sorted(p.name for p in (tmp_path / "one").iterdir())
    assert len(names) > 5
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()
