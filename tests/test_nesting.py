"""Nesting: every piece once and as often as asked, apart, inside the sheet, along the grain, on few sheets."""

from __future__ import annotations

import itertools
import math
import random
import time
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from scarfwright.models.flat.loop import polygon, rectangle, rounded
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.nesting import bundles_of, nest
from scarfwright.models.sheets.pieces import FlatPart, tabs_of
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from shapely import Polygon

SHEET = (2440.0, 1220.0)
SPACING = 12.0


def piece(name: str, outline: Any, count: int = 1, along_grain: bool = False, needed: bool = False) -> FlatPart:
    return FlatPart(Part(name, name, outline, 18.0), count, along_grain, needed)


def trapezium(length: float, heel: float, nose: float) -> Any:
    return polygon([(0, 0), (length, 0), (length, heel), (0, nose)])


def mixed(seed: int) -> list[FlatPart]:
    """Sixty pieces: sleds, boards, plates with round corners."""
    pick = random.Random(seed)
    found = [
        piece(f"sled{i}", trapezium(pick.uniform(700, 1600), pick.uniform(110, 220), 28), 2, True) for i in range(5)
    ]
    found += [piece(f"board{i}", rectangle(0, 0, pick.uniform(300, 1500), pick.uniform(80, 300))) for i in range(15)]
    for i in range(35):
        width, height = pick.uniform(40, 400), pick.uniform(40, 260)
        found.append(piece(f"plate{i}", rounded([(0, 0), (width, 0), (width, height), (0, height)], 10)))
    assert sum(p.count for p in found) == 60
    return found


def laid(pieces: list[FlatPart], grain: str = "x", spacing: float = SPACING) -> list[tuple[Part, ...]]:
    return nest([b for p in pieces for b in bundles_of(p, spacing, grain)], *SHEET, spacing)


def shape(part: Part) -> Polygon:
    return Polygon(part.outline.points(0.001))


def assert_sound(sheets: list[tuple[Part, ...]], pieces: list[FlatPart], spacing: float = SPACING) -> None:
    counts = Counter(part.name for parts in sheets for part in parts)
    assert set(counts.values()) == {1}
    asked = {
        n
        for p in pieces
        for n in ([p.part.name] if p.count == 1 else [f"{p.part.name}_{i + 1}" for i in range(p.count)])
    }
    assert set(counts) == asked
    areas = {p.part.name: p.part.outline.area for p in pieces}
    for parts in sheets:
        shapes = [shape(part) for part in parts]
        for part, outline in zip(parts, shapes, strict=True):
            left, low, right, high = outline.bounds
            assert min(left, low, SHEET[0] - right, SHEET[1] - high) >= spacing - 1e-6
            name = part.name if part.name in areas else part.name.rpartition("_")[0]
            assert part.outline.area == pytest.approx(areas[name], rel=1e-9)
        for one, other in itertools.combinations(shapes, 2):
            assert one.distance(other) >= spacing - 0.002


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_sixty_mixed_pieces_on_few_sheets_in_time(seed: int) -> None:
    pieces = mixed(seed)
    began = time.perf_counter()
    sheets = laid(pieces)
    assert time.perf_counter() - began < 10
    assert_sound(sheets, pieces)
    need = 0.0
    for p in pieces:
        left, low, right, high = p.part.outline.bounds
        need += p.count * (right - left + SPACING) * (high - low + SPACING)
    assert len(sheets) <= math.ceil(need / (SHEET[0] * SHEET[1])) + 1


def test_rectangles_that_fill_a_sheet_need_one() -> None:
    """Four by four plates that just fit with their spacings."""
    width, height = (SHEET[0] - 5 * SPACING) / 4, (SHEET[1] - 5 * SPACING) / 4
    pieces = [piece("plate", rectangle(0, 0, width, height), 16)]
    (sheet,) = laid(pieces)
    assert_sound([sheet], pieces)


def test_two_sleds_lie_half_turned_in_one_another() -> None:
    """The pair is heel + nose + the spacing square to the slope high, not two heels."""
    sled = piece("layer", trapezium(1500, 153, 28), 2, True)
    (block,) = bundles_of(sled, SPACING, "x")
    assert len(block.parts) == 2
    exact = 153 + 28 + SPACING / math.cos(math.atan(125 / 1500))
    assert exact <= block.height <= exact + 0.05
    one, other = (shape(p) for p in block.parts)
    assert SPACING - 0.002 <= one.distance(other) <= SPACING + 0.05


@pytest.mark.parametrize("count", [1, 2, 3, 5])
@pytest.mark.parametrize("grain", ["x", "y"])
def test_sleds_lie_along_the_grain(grain: str, count: int) -> None:
    sled = piece("layer", trapezium(1000, 153, 28), count, True)
    sheets = laid([sled, piece("gauge", rectangle(0, 0, 100, 400))], grain)
    for part in (p for s in sheets for p in s if p.name.startswith("layer")):
        left, low, right, high = part.outline.bounds
        assert (right - left > high - low) == (grain == "x")


def test_what_may_turn_is_turned_to_fit() -> None:
    tall = piece("tall", rectangle(0, 0, 200, 2000), 5)
    assert_sound(laid([tall]), [tall])


def test_a_half_turned_pair_of_upright_wedges_saves_width() -> None:
    wedge = piece("wedge", polygon([(0, 0), (60, 0), (20, 900), (0, 900)]), 2)
    (block,) = bundles_of(wedge, SPACING, "x")
    assert len(block.parts) == 2
    assert block.width < 2 * 60
    one, other = (shape(p) for p in block.parts)
    assert one.distance(other) >= SPACING - 0.002


def test_the_same_pieces_give_the_same_sheets() -> None:
    assert laid(mixed(4)) == laid(mixed(4))


# -- the job's own sheets ----------------------------------------------------------------------------------


def job(**tables: Any) -> Job:
    raw: dict[str, Any] = {
        "stock": {"thickness": "28 mm", "height": "55 mm"},
        "joint": {"ratio": 10},
        "clamp": {"opening": "90 mm", "throat": "65 mm"},
        "sled": {"made_from": "sheet", "sheet_thickness": "15 mm", "layers": 3},
    }
    return job_from_dict({**raw, **tables})


def worked(**tables: Any) -> Workup:
    return work_up(job(**tables))


@pytest.mark.parametrize("side", ["right", "left"])
def test_layers_are_on_the_sheets_as_often_as_asked_with_all_their_holes(side: str) -> None:
    work = worked(saw={"fence_side": side})
    plan, *gauges = work.sheets
    assert all(g.thickness != plan.thickness for g in gauges)
    assert [p.name for p in plan.placed] == ["sheet_layer_1", "sheet_layer_2", "sheet_layer_3"]
    assert plan.thickness == 15
    assert work.way.layout.dowels
    for part in plan.placed:
        holes = [f for f in part.features if f.operation == "DRILL"]
        assert len(holes) == len(work.way.layout.dowels) + len(work.way.layout.handle_holes)
        outline = shape(part)
        assert all(outline.contains(Polygon(f.loop.points(0.001))) for f in part.features)


def test_dowel_holes_meet_when_the_layers_are_stacked() -> None:
    """Each layer's dowel holes, measured from its own heel corners, are the same: the stack registers."""
    plan, *_ = worked().sheets

    def gauge(part: Part) -> list[float]:
        ring = shape(part)
        centre = ring.centroid
        holes = [Polygon(f.loop.points(0.001)).centroid for f in part.features if f.operation == "DRILL"]
        return sorted(round(h.distance(centre), 4) for h in holes)

    first, *others = [gauge(p) for p in plan.placed]
    assert all(other == pytest.approx(first, abs=1e-3) for other in others)


def test_each_thickness_has_sheets_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    thin = replace(piece("gauge", rectangle(0, 0, 100, 50)).part, thickness=4.0)
    thick = piece("board", rectangle(0, 0, 300, 50)).part
    found = [FlatPart(thin, 3, False, False), FlatPart(thick, 1, False, False)]
    monkeypatch.setattr("scarfwright.models.workup.flat_pieces", lambda _work: found)
    plans = worked().sheets
    assert [(p.name, p.thickness, len(p.placed)) for p in plans] == [("sheet-1", 18.0, 1), ("sheet-2", 4.0, 3)]


def test_filled_share_is_parts_over_sheet() -> None:
    work = worked()
    plan, *_ = work.sheets
    slots = sum(Polygon(f.loop.points(0.001)).area for p in plan.placed for f in p.features)
    outlines = sum(shape(p).area for p in plan.placed)
    assert plan.filled == pytest.approx((outlines - slots) / (2440 * 1220), rel=1e-4)


def test_tabs_lie_on_the_outline_apart_and_away_from_corners() -> None:
    outline = trapezium(800, 120, 30)
    tabs = tabs_of(Part("plate", "Plate", outline, 18.0), 6, 6.0)
    assert len(tabs) == 6
    ring = Polygon(outline.points()).exterior
    for tab in tabs:
        assert ring.distance(Polygon([tab.at, tab.at, tab.at]).centroid) < 1e-9
        assert min(math.dist(tab.at, v.point) for v in outline.vertices) >= tab.width / 2 + 6.0 - 1e-9
    assert min(math.dist(a.at, b.at) for a, b in itertools.combinations(tabs, 2)) >= 24
