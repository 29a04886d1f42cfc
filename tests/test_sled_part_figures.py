"""The sled as a part, both halves on their plank, and what it is made of, by drawn shapes and by hand.

The other route is shapely's: a plank less a band as wide as the kerf, less thick lines. Both jobs are invented.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from scarfwright.models.flat.room import Capsule
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.part.part import Mark, Operation
from scarfwright.models.sled.making import sled_way
from scarfwright.models.sled.material import Bolts, sled_material
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.sled.screws import ScrewLength, has_wood, screw_length
from scarfwright.models.sled.shape import shape_of, sled, sled_of
from scarfwright.models.sled.sled import Notch, Sled
from scarfwright.models.sled.way import SledWay
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from tests.shapes import notch_in, plate, polygon

INCH = 25.4
HALF = Sled(ratio=1120 / 84, length=1120, thickness=37, heel=135.5, nose=51.5, nose_flat=45)
NOTCH = (22.0, 56.0, 18.0)  # web, length, width

# -- the part --------------------------------------------------------------------------------------------------

PART: dict[str, Any] = {
    "length": 1120.0, "heel": 135.5, "nose": 51.5, "thickness": 37.0, "nose_flat": 45.0, "web": 22.0,
    "notch_length": 56.0, "notch_width": 18.0, "stations": (300.0, 512.5),
    "holes": ((400.0, 60.0, 6.0), (480.0, 64.0, 8.0)), "hand_line": 610.0, "label": "slope 13.33:1",
}  # fmt: skip


def test_the_part_is_the_outline_less_notches_and_holes() -> None:
    part = sled(**PART)
    wanted = Polygon(HALF.corners())
    for station in (300.0, 512.5):
        wanted = wanted.difference(notch_in(HALF, Notch("", station, *NOTCH)))
    for x, y, d in PART["holes"]:
        wanted = wanted.difference(Point(x, y).buffer(d / 2, quad_segs=400))
    assert plate(part).symmetric_difference(wanted).area < 0.01
    assert part.thickness == 37
    made = [(f.operation, f.name, f.depth) for f in part.features]
    assert made == [
        (Operation.CUT_INSIDE, "notch at 300", None), (Operation.CUT_INSIDE, "notch at 512.5", None),
        (Operation.DRILL, "hole", None), (Operation.DRILL, "hole", None),
    ]  # fmt: skip
    assert (part.name, part.title) == ("sled", "Sled, as it runs")
    assert part.use == "Straight edge along the fence, board clamped to the sloping edge, heel first."
    assert part.sharp[0] == pytest.approx((45, 45 * 84 / 1120))
    assert len(part.sharp) == 1
    assert sled(**{**PART, "nose_flat": 0.5}).sharp[0] == pytest.approx((0.5, 0.5 * 84 / 1120))
    assert sled(**{**PART, "nose_flat": 0.0}).sharp == ()
    assert sled_of(PART) == part


def marks(**changes: Any) -> dict[str, Mark]:
    found = sled(**{**PART, **changes}).marks
    return {m.name: m for m in found}


def test_what_is_written_on_the_part() -> None:
    """The hand line is counted from the heel; the words beside it stand on the nose's side, where hands may be."""
    found = marks()
    assert list(found) == ["hand line", "hand line text", "label", "heel"]
    line, text, label, heel = found.values()
    assert [*line.points[0], *line.points[1]] == pytest.approx([510, 0, 510, 51.5 + 84 * 510 / 1120])
    assert (line.scored, line.text) == (True, "")
    assert text.text == "HANDS THIS SIDE"
    assert text.angle == pytest.approx(math.pi / 2)
    assert 0 < text.points[0][0] - text.height < text.points[0][0] < 510  # turned: its letters stand to the left
    assert text.points[0][1] == 4
    assert not text.scored
    assert (label.text, label.points, label.height, label.angle) == ("slope 13.33:1", ((85, 6),), 6, 0)
    assert (heel.text, heel.points, heel.height, heel.angle) == ("HEEL", ((1080, 67.75),), 8, 0)
    assert "label" not in marks(label="")
    for off in (0.0, 1120.0, 1121.0):
        assert list(marks(hand_line=off)) == ["label", "heel"]
    assert marks(hand_line=0.5)["hand line"].points[0] == (1119.5, 0)
    assert marks(hand_line=1119.5)["hand line"].points[0] == (0.5, 0)


# -- of a job: both halves on their plank, and what the sled is made of ------------------------------------------

MM: dict[str, Any] = {
    "units": "mm",
    "stock": {"thickness": "19 mm", "height": "55 mm", "length": "2 m"},
    "joint": {"ratio": 13},
    "saw": {"kerf": "2.8 mm", "fence_gap": "0.6 mm", "fence_side": "left"},
    "clamp": {"pad_width": "24 mm", "throat": "80 mm", "opening": "150 mm"},
    "sled": {
        "plank": ["37 mm", "190 mm"], "web": "22 mm", "notch_length": "56 mm", "notch_width": "18 mm",
        "handle_hole": "6 mm", "handle_spacing": "110 mm", "extra_stations": ["700 mm"],
    },
}  # fmt: skip
INCHES: dict[str, Any] = {
    "units": "in",
    "stock": {"thickness": "3/4 in", "height": "2 1/4 in", "length": "8 ft"},
    "joint": {"ratio": 10},
    "saw": {"kerf": "7/64 in", "fence_side": "right"},
    "sled": {"plank": ["1 1/2 in", "8 in"], "nose_flat": "1 3/4 in"},
}


def way_of(tables: dict[str, Any], length: float, **sled_keys: Any) -> SledWay:
    return sled_way(job_from_dict({**tables, "sled": {**tables["sled"], **sled_keys}}), length)[0]


def half_of(way: SledWay) -> Polygon:
    """One half of the job's plank as sawn, notches left out: by its sizes, the nose at the origin."""
    width, length, kerf = (float(x) for x in (way.job.sled.plank.width, way.nominal.length, way.job.saw.kerf))
    mark = float(way.nominal.mark or 0)
    rise = 2 * mark - width
    line = LineString([(-length, width - mark - rise), (2 * length, mark + rise)])
    low = box(0, 0, length, width).difference(line.buffer(kerf / 2)).geoms[0]
    flat = way.nominal.nose_flat
    return low.difference(Polygon([(0, 0), (flat, 0), (flat, flat * rise / length)]))


@pytest.mark.parametrize(("tables", "length"), [(MM, 1120.0), (INCHES, 54 * INCH)])
def test_both_halves_on_their_plank(tables: dict[str, Any], length: float) -> None:
    """The second is the first turned half round the plank's middle; with the fence on the left all is mirrored. What
    was measured of the finished sled moves nothing on the plank."""
    for measured in ({}, {"heel_as_made": "126 mm", "nose_as_made": "48 mm", "length_as_made": "1100 mm"}):
        way = way_of(tables, length, **measured)
        width = float(way.job.sled.plank.width)
        plan = plank_plan(way)
        first, second = plan.placed
        assert (first.name, first.title, second.name, second.title) == (
            "half_1", "First half", "half_2", "Second half",
        )  # fmt: skip
        assert (plan.name, plan.title) == ("plank", "Plank with both halves")
        sizes = (length, width, float(way.job.sled.plank.thickness))
        assert (plan.length, plan.width, plan.thickness) == pytest.approx(sizes)
        assert first.thickness == second.thickness == pytest.approx(sizes[2])
        one = half_of(way)
        other = affinity.rotate(one, 180, origin=(length / 2, width / 2))
        if tables is MM:
            one, other = (affinity.scale(shape, 1, -1, origin=(0, width / 2)) for shape in (one, other))
        assert polygon(first.outline).symmetric_difference(one).area < 1e-4
        assert polygon(second.outline).symmetric_difference(other).area < 1e-4
        # cut before anything was measured: as on a sled that never was
        assert first.features == plank_plan(way_of(tables, length)).placed[0].features
        assert len(first.features) == len(way.planned.notches) + 2
        (line,) = plan.marks
        assert line.name == "dividing line"
        assert polygon(plan.outline).covers(LineString(line.points))
        sawn = LineString(line.points).buffer(way.nominal.kerf / 2 if way.nominal.kerf else 0, cap_style="flat")
        assert sawn.intersection(polygon(first.outline)).area < 1e-4
        assert sawn.intersection(polygon(second.outline)).area < 1e-4
        assert sawn.area == pytest.approx(float(way.job.saw.kerf) * math.dist(*line.points))
        assert [x for x, _ in line.points] == [0, pytest.approx(length)]
        # scored lines go with each half; its words do not stand upside down on the second
        assert "label" not in {m.name for m in first.marks}
        assert [m.name for m in second.marks] == ["hand line"]


def test_a_sheet_sled_has_no_plank() -> None:
    way = way_of(MM, 1100, made_from="sheet")
    with pytest.raises(ValueError, match=r"^the sled is not made from a plank$"):
        plank_plan(way)


def test_the_part_of_a_job_has_the_jobs_sizes() -> None:
    way = way_of(MM, 1120)
    part, notches = sled_of(shape_of(way)), way.layout.notches
    n = 1120 / (2 * 138 - 190)
    assert way.sled.mark == 138  # (190 + 1120 / 13) / 2 = 138.08
    shape = half_of(way)
    for notch in notches:
        assert (notch.web, notch.length, notch.width) == (22, 56, 18)
        shape = shape.difference(notch_in(way.sled, notch))
    for x, y in way.layout.handle_holes:
        shape = shape.difference(Point(x, y).buffer(3, quad_segs=400))
    assert plate(part).symmetric_difference(shape).area < 0.01
    assert [n.where for n in notches] == ["heel", "extra"]
    found = {m.name: m for m in part.marks}
    assert found["hand line"].points[0][0] == 1120 - way.layout.hand_line
    fence = 138 - 1.4 * math.hypot(1, n) / n + 0.6
    assert found["label"].text == f"slope {n:.2f}:1, fence {fence:.1f} mm, blade 61 mm"
    inch = sled_of(shape_of(way_of(INCHES, 54 * INCH)))
    (label,) = [m.text for m in inch.marks if m.name == "label"]
    assert label.endswith('blade 2 1/2"')
    assert inch.sharp[0][0] == pytest.approx(1.75 * INCH)


def test_the_part_of_a_measured_sled_has_what_was_measured() -> None:
    """Holes as they came to lie on the real sled: 20 shorter, each 20 nearer the nose."""
    planned, way = way_of(MM, 1120), way_of(MM, 1120, length_as_made="1100 mm", heel_as_made="136 mm")
    shape = shape_of(way)
    assert (shape["length"], shape["heel"], shape["nose"]) == (1100, 136, planned.sled.nose)
    assert shape["holes"] == tuple((x - 20, y, 6.0) for x, y in planned.layout.handle_holes)
    assert shape["stations"] == tuple(n.station for n in planned.layout.notches)


def test_dowel_holes_of_a_sheet_sled_are_drilled_too() -> None:
    way = way_of(MM, 1100, made_from="sheet", dowel="9 mm", layers=3)
    assert len(way.layout.dowels) == 3
    wanted = [*((x, y, 6.0) for x, y in way.layout.handle_holes), *((x, y, 9.0) for x, y in way.layout.dowels)]
    assert list(shape_of(way)["holes"]) == wanted  # type: ignore[arg-type]
    need = sled_material(way)
    assert (need.dowels, need.dowel) == (3, (9, 54))
    assert need.wood == pytest.approx((1100, 25 + 1100 / 13, 18))
    assert need.pieces == 3


def test_what_a_sled_is_made_of() -> None:
    """The plank 10 longer at each end and up to a ten, or to half an inch; bolts through the sled half into the handle;
    the hand stop keeps 10 off the edge."""
    way = way_of(MM, 1115)
    need = sled_material(way)
    assert (need.wood, need.pieces) == ((1140, 190, 37), 1)
    assert sled_material(way_of(MM, 1120)).wood[0] == 1140
    assert sled_material(way_of(MM, 1121)).wood[0] == 1150
    assert need.handle == (110 + 50, 35, 80)
    assert need.handle_bolts == Bolts(2, 6, 37 + 40)
    assert sled_material(way_of(MM, 1115, handle_hole="0 mm")).handle is None
    assert sled_material(way_of(MM, 1115, handle_hole="0 mm")).handle_bolts is None
    assert (need.clamps, need.dowels) == (3, 0)
    assert need.stop_block == (150, 40, 60)
    for length, plank in ((54, 55), (54.3, 55.5)):  # and 20 mm, 0.787 in
        inch = sled_material(way_of(INCHES, length * INCH))
        assert inch.wood == pytest.approx((plank * INCH, 8 * INCH, 1.5 * INCH))
    narrow = way_of(MM, 300, made_from="sheet", nose_min="30 mm")
    assert sled_material(narrow).stop_block == pytest.approx((150, (30 + 300 / 13) / 2, 60))


@pytest.mark.parametrize(
    ("line", "long"),
    # sheet, nose 25, slope 1 in 13, 1100 long: 25 + (1100 - line) / 13 wide, less 10
    [
        (0, None),
        (1, 80),
        (970, None),
        (775, 40),
        (774, 40.0769230769),
        (776, None),
        (254, 80),
        (256, 79.9230769231),
        (1100, None),
    ],
)
def test_the_hand_stop_lies_across_the_sled_at_the_hand_line(line: float, long: float | None) -> None:
    need = sled_material(way_of(MM, 1100, made_from="sheet", hand_line=f"{line} mm", layers=2))
    assert need.hand_stop == (None if long is None else pytest.approx((long, 24, 30)))
    # through 30 into 36, heads 3 deep
    assert need.hand_stop_screw == (None if long is None else ScrewLength(37, 53))


def test_no_hand_stop_off_the_sled() -> None:
    for line in ("1100 mm", "1101 mm"):
        assert sled_material(way_of(MM, 1100, made_from="sheet", nose_min="70 mm", hand_line=line)).hand_stop is None
    found = sled_material(way_of(MM, 1100, made_from="sheet", nose_min="70 mm", hand_line="1099 mm")).hand_stop
    assert found is not None


# -- screws ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("through", "into", "least", "most"),
    [
        (30, 40, 37, 57),  # 10 into the second piece, 10 short of its far face, the head 3 deep
        (18, 30, 25, 35),
        (18, 16, 25, 28),  # 6 over the bite: 3 of it stay above the point
        (18, 14, 25, 27),
    ],
)
def test_a_screws_length(through: float, into: float, least: float, most: float) -> None:
    assert screw_length(through, into) == ScrewLength(least, most, 3.0)


def test_in_thin_wood_there_is_no_screw() -> None:
    assert screw_length(18, 14) is not None
    assert screw_length(18, 13.9) is None


def test_a_screw_keeps_10_of_wood_all_round() -> None:
    """Of 4.5: its middle 12.25 off an edge, and off a hole of 6 across 15.25 from middle to middle."""
    square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
    hole = Capsule((50.0, 50.0), (50.0, 50.0), 3.0)
    assert has_wood((12.25, 50.0), square, [])
    assert not has_wood((12.24, 50.0), square, [])
    assert has_wood((34.75, 50.0), square, [hole])
    assert not has_wood((34.76, 50.0), square, [hole])
    assert not has_wood((-20.0, 50.0), square, [])
    assert not has_wood((34.76, 50.0), square, [hole, Capsule((90.0, 90.0), (90.0, 90.0), 1.0)])
