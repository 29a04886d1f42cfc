"""Every finding about gauges and aids is raised, carries its numbers, and its way out holds."""

from __future__ import annotations

from typing import Any

import pytest
from scarfwright.models.findings import Finding, Level, faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.parts import registry
from scarfwright.models.parts.check import check_part
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.flat import flat_pieces
from scarfwright.models.wanted.wanted import wanted
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items, parts_for

from tests.shops import in_full_shop

BASE: dict[str, Any] = {
    "title": "Gauge bench",
    "stock": {"thickness": "22 mm", "height": "60 mm", "length": "2.4 m"},
    "joint": {"ratio": 12},
    "sled": {"made_from": "sheet"},
    "clamp": {"opening": "80 mm"},
}


def worked(**tables: dict[str, Any]) -> Workup:
    merged = dict(BASE)
    for table, keys in tables.items():
        merged[table] = {**merged.get(table, {}), **keys}
    return work_up(in_full_shop(job_from_dict(merged)))


def one(work: Workup, code: str) -> Finding:
    found = [f for f in work.findings if f.code == code]
    assert len(found) == 1, [f.code for f in work.findings]
    return found[0]


def one_of(work: Workup, code: str, name: str) -> Finding:
    return next(f for f in work.findings if f.code == code and f.part == name)


def absent(work: Workup, code: str) -> None:
    assert code not in [f.code for f in work.findings]


# what the job changes, the finding, whether the part is left out, and a change that mends it
CASES: list[tuple[dict[str, Any], str, str, bool, dict[str, Any]]] = [
    ({"printer": {"tolerance": "1.5 mm"}}, "slope_gauge.coarse", "slope_gauge", False,
     {"printer": {"tolerance": "0.1 mm"}}),
    ({}, "slope_gauge.rule_better", "slope_gauge", False,
     {"printer": {"tolerance": "0.05 mm", "bed": ["600 mm", "600 mm", "300 mm"]}}),
    ({"printer": {"tolerance": "6 mm"}}, "taper_fork.slots_alike", "taper_fork", True,
     {"printer": {"tolerance": "0.1 mm"}}),
    ({"saw": {"fence_gap": "5.5 mm"}, "sled": {"nose_min": "40 mm"}}, "taper_fork.tip_too_thick", "taper_fork", True,
     {"saw": {"fence_gap": "0.4 mm"}}),
    ({}, "taper_fork.coarse", "taper_fork", False, {"printer": {"tolerance": "0.12 mm"}}),
    ({}, "square_block.coarse", "square_block", False,
     {"printer": {"tolerance": "0.01 mm"}, "adhesive": {"gap_limit": "2.5 mm"}}),
    ({"saw": {"blade_above_work": "0.5 mm"}}, "height_step.coarse", "height_step", False,
     {"saw": {"blade_above_work": "0.6 mm"}}),
    ({"saw": {"fence_gap": "0.1 mm"}, "printer": {"layer": "0.3 mm"}}, "gap_shim.layer_thick", "gap_shim", True,
     {"printer": {"layer": "0.2 mm"}}),
    ({"saw": {"fence_gap": "0.5 mm"}}, "gap_shim.off", "gap_shim", False, {"printer": {"layer": "0.25 mm"}}),
    ({"saw": {"fence_gap": "0.2 mm"}}, "gap_shim.coarse", "gap_shim", False, {"saw": {"fence_gap": "0.4 mm"}}),
    ({"stock": {"finished_thickness": "21 mm"}, "printer": {"tolerance": "1 mm"}}, "thickness_fork.slots_alike",
     "thickness_fork", True, {"printer": {"tolerance": "0.2 mm"}}),
    ({"stock": {"finished_thickness": "21 mm"}, "printer": {"tolerance": "0.9 mm"}}, "thickness_fork.coarse",
     "thickness_fork", False, {"stock": {"finished_thickness": "20 mm"}}),
    ({"printer": {"tolerance": "1 mm"}}, "riser.uneven", "riser", False, {"printer": {"tolerance": "0.1 mm"}}),
    ({"stock": {"thickness": "8 mm"}, "joint": {"ratio": 20}}, "riser.long_span", "riser", False,
     {"joint": {"ratio": 12}}),
    ({"sled": {"notch_width": "12.2 mm"}}, "notch_guide.coarse", "notch_guide", False,
     {"sled": {"notch_width": "13 mm"}}),
    ({"stock": {"thickness": "2.8 mm"}, "saw": {"fence_gap": "0.2 mm"}}, "taper_scale.marks_crowd", "taper_scale", True,
     {"stock": {"thickness": "4 mm"}}),
]  # fmt: skip


@pytest.mark.parametrize(("change", "code", "name", "left_out", "way_out"), CASES, ids=[c[1] for c in CASES])
def test_finding_of_a_job(
    change: dict[str, Any], code: str, name: str, left_out: bool, way_out: dict[str, Any]
) -> None:
    work = worked(**change)
    found = one(work, code)
    assert not faults(list(work.findings))  # a part is optional: the job goes on without it
    assert (found.level is Level.FAULT) == left_out
    assert found.part == name
    assert found.text.endswith("is left out.") == left_out
    assert all(value is not None for value in found.numbers.values())
    assert (name in [p.name for p in parts_for(work, "print")]) != left_out
    assert (name in numbers(work)["parts"]) != left_out
    mended = {table: {**change.get(table, {}), **way_out.get(table, {})} for table in {**change, **way_out}}
    absent(worked(**mended), code)


def test_a_sled_too_short_for_any_gauge() -> None:
    """Only a sled of a few hand widths; put straight to the part, since such a sled has faults of its own."""
    kind, work = registry()["slope_gauge"], worked(sled={"length": "100 mm"})
    parameters = kind.from_job(work)
    assert parameters is not None
    assert "slope_gauge.no_room" in [f.code for f in check_part(kind, work, parameters)]


@pytest.mark.parametrize(
    ("name", "parameters", "code"),
    [
        ("square_block", {"height": 100.0, "base": 12.0, "angle": 8.0}, "square_block.leans_too_far"),
        ("riser", {"width": 20.0, "tape": 19.0}, "riser.top_too_small"),
        ("riser_lip", {"height": 2.0}, "riser.top_too_small"),
        ("notch_guide", {"drill": 20.0, "notch_width": 16.0}, "notch_guide.drill_wide"),
        ("notch_guide", {"notch_length": 16.0, "notch_width": 16.0}, "notch_guide.one_hole"),
        ("taper_scale", {"step": 1.0}, "taper_scale.marks_crowd"),
        ("taper_scale", {"first": 1.0, "last": 80.0}, "taper_scale.too_many"),
        ("gap_shim", {"gap": 0.1, "layer": 0.3}, "gap_shim.layer_thick"),
        ("slope_gauge", {"thickness": 0.0}, "part.impossible"),
        ("sled", {"heel": 28.0, "nose": 28.0}, "part.impossible"),
        ("hand_stop", {"spacing": 90.0, "length": 80.0}, "part.impossible"),
        ("taper_fork", {"label": "far too long a label for any fork " * 4}, "label.too_long"),
        ("taper_fork", {"label": "1:8 \u2603"}, "label.replaced"),
    ],
)
def test_finding_of_a_part_alone(name: str, parameters: dict[str, Any], code: str) -> None:
    found = check_part(registry()[name], None, parameters)
    assert code in [f.code for f in found]


def test_a_bed_too_small_even_for_sections() -> None:
    """A bed of two fingers: the wide end of the gauge fits it no way."""
    found = one_of(worked(printer={"bed": ["30 mm", "30 mm", "200 mm"]}), "split.no_place", "slope_gauge")
    assert found.numbers["bed_x_mm"] == 30


def test_square_block_with_an_angle_the_printer_loses() -> None:
    work, kind = worked(), registry()["square_block"]
    found = check_part(kind, work, {"height": 60.0, "angle": 0.1})
    assert [f.code for f in found] == ["square_block.angle_lost"]
    assert found[0].level is Level.FAULT


def test_nothing_is_said_of_parts_where_the_job_has_faults() -> None:
    work = worked(clamp={"opening": "10 mm"})
    assert not any(f.code.startswith(("slope_gauge", "taper", "square")) for f in work.findings)
    assert numbers(work)["parts"] is None
    assert numbers(work)["gluing"] is None


def test_no_gap_no_shim() -> None:
    work = worked(saw={"fence_gap": 0})
    assert registry()["gap_shim"].from_job(work) is None


def test_numbers_have_units_and_every_gauge() -> None:
    work = worked(stock={"finished_thickness": "20 mm"})
    parts = numbers(work)["parts"]
    assert set(parts) == {one.kind.name for one in wanted(work) if one.kind.resolution is not None}
    units = ("_mm", "_deg", "_ratio", "ratio", "first", "last", "label", "layers", "count")
    for name, values in parts.items():
        assert all(key.endswith(units) for key in values), (name, list(values))
        assert any(key.startswith("resolution_") for key in values), name


def test_gauges_are_made_for_both_fence_sides() -> None:
    """The same gauges serve: turned over, a sled for the other side is this one's mirror image."""
    right, left = worked(), worked(saw={"fence_side": "left"})
    gauges = {k for k, kind in registry().items() if kind.resolution is not None}
    assert [p for p in parts_for(right, "print") if p.name in gauges] == [
        p for p in parts_for(left, "print") if p.name in gauges
    ]


def test_flat_plates_are_offered_to_the_cutters_without_allowance() -> None:
    work = worked(stock={"finished_thickness": "20 mm"})
    flat = {piece.part.name: piece.part for piece in flat_pieces(work.wanted)}
    gauges = {"taper_fork", "taper_scale", "thickness_fork"}
    assert gauges <= set(flat)
    assert not any(flat[name].raised for name in gauges)
    corners = sorted(v.x for v in flat["thickness_fork"].outline.vertices if v.y == 0)
    assert corners[2] - corners[1] == pytest.approx(22.0)


def test_every_part_has_its_files() -> None:
    paths = {i.path for i in items(worked(stock={"finished_thickness": "20 mm"}))}
    for name in ("slope_gauge", "taper_fork", "square_block", "height_step", "gap_shim", "thickness_fork", "riser"):
        assert {f"cad/{name}.step", f"print/{name}.stl", f"print/{name}.3mf"} <= paths
