"""The joint's sheets and the sheet to measure on: what is drawn is where the joint has it, and nothing runs out."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.flat.loop import Point
from scarfwright.models.joint.joint import Joint
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.drawing.panels import Cell
from scarfwright.outputs.drawing.placing import apart
from scarfwright.outputs.joint_sheet.data import JointData
from scarfwright.outputs.joint_sheet.shapes import board_from_above, far_board, near_board, planed_boards
from scarfwright.outputs.joint_sheet.sheets import joint_sheets
from scarfwright.outputs.test_joint_sheet.data import TestJointData
from scarfwright.outputs.test_joint_sheet.sheet import test_joint_sheet as measuring_sheet
from scarfwright.outputs.test_joint_sheet.texts import figures, marks

from tests.clear_sheets import unclear

A4, LETTER = (297.0, 210.0), (279.4, 215.9)


def cells(what: str, scale: str, number: int, count: int) -> Sequence[Cell]:
    return [Cell("Job", ("A job", what), 86, bold=True), Cell("Scale", (scale, f"{number} of {count}"), 40)]


def data(joint: Joint, **other: Any) -> JointData:
    usual: dict[str, Any] = {"finished": None, "units": "mm", "fence_side": "right", "title": "A job", "paper": A4}
    return JointData(joint=joint, cells=cells, **{**usual, **other})


def area(points: list[Point]) -> float:
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


JOINTS = st.builds(Joint, st.floats(8, 20), st.floats(6, 60), st.floats(20, 150), st.floats(0.1, 1.0))


@given(JOINTS, st.floats(0.8, 0.99))
def test_boards_meet_along_the_glue_line(joint: Joint, share: float) -> None:
    reach = 50.0
    long = joint.overlap + 2 * reach
    mated = area(near_board(joint, reach)) + area(far_board(joint, reach))
    assert mated == pytest.approx(long * joint.thickness - joint.tip**2 * joint.ratio, rel=1e-9)
    planed = share * joint.thickest_finish
    near, far = planed_boards(joint, planed, reach)
    assert area(near) + area(far) == pytest.approx(long * planed, rel=1e-9)
    assert near[1][0] - near[2][0] == pytest.approx(joint.finished_run(planed))
    whole = board_from_above(joint, 4 * joint.taper_run, "back", "front")
    cut_away = (joint.thickness - joint.tip) * joint.taper_run
    assert area(whole) == pytest.approx(4 * joint.taper_run * joint.thickness - cut_away, rel=1e-9)


def inside(sheet: Sheet) -> None:
    for text in sheet.texts():
        for x, y in text.box():
            assert sheet.margin <= x <= sheet.width - sheet.margin, text.text
            assert sheet.margin <= y <= sheet.height - sheet.margin, text.text
    for path in sheet.paths():
        for x, y in path.points():
            assert 0 < x < sheet.width
            assert 0 < y < sheet.height


@given(JOINTS, st.sampled_from(["mm", "in"]), st.sampled_from(["right", "left"]), st.booleans(), st.booleans())
def test_sheets_of_any_joint(joint: Joint, units: Any, side: Any, finished: bool, letter: bool) -> None:
    thick = 0.95 * joint.thickest_finish if finished else None
    one = data(joint, units=units, fence_side=side, finished=thick, paper=LETTER if letter else A4)
    sheets = joint_sheets(one)
    sheets.append(measuring_sheet(TestJointData(joint, units, "A job", one.paper, cells)))
    for sheet in sheets:
        inside(sheet)
        if units == "in":
            assert not [t.text for t in sheet.texts() if re.search(r"\d in\b", t.text)], "inch marks on a sheet"


@pytest.mark.parametrize(
    ("joint", "units", "side", "paper"),
    [
        (Joint(12, 28.6, 50.8, 0.4), "in", "right", LETTER),
        (Joint(8, 6, 20, 1.0), "mm", "left", A4),  # the smallest: no room beside the marks
        (Joint(8.47, 9.95, 132.6, 0.81), "mm", "right", LETTER),  # a wide board, a short overlap
        (Joint(20, 60, 150, 0.1), "in", "left", A4),
    ],
)
@pytest.mark.parametrize("finished", [None, 0.95])
def test_no_text_runs_into_a_line_or_is_too_pale(
    joint: Joint, units: Any, side: Any, paper: tuple[float, float], finished: float | None
) -> None:
    thick = None if finished is None else finished * joint.thickest_finish
    sheets = joint_sheets(data(joint, units=units, fence_side=side, finished=thick, paper=paper))
    sheets.append(measuring_sheet(TestJointData(joint, units, "A job", paper, cells)))
    assert [fault for sheet in sheets for fault in unclear(sheet)] == []


def test_figures_on_the_joint_sheet() -> None:
    first, second = joint_sheets(data(Joint(12, 22, 60, 0.4), finished=20.0))
    words = [text.text for text in first.texts()]
    assert "overlap, tip to tip 254.4 mm" in words
    assert "glue line from face to face 240 mm" in words
    assert any("slope 12:1" in text for text in words)
    assert any("4 times too steep" in text for text in words)
    marked = [text.text for text in second.texts()]
    assert marked.count("overlap 254.4 mm") == 4
    assert any("SLED on the front. Left ends: write SLED on the back" in text for text in marked)
    names = {path.name for path in first.paths()}
    assert {"near board", "far board", "witness mark", "overlap mark", "glue line", "planed face"} <= names


def test_fence_on_the_left_changes_faces() -> None:
    _, second = joint_sheets(data(Joint(12, 22, 60, 0.4), fence_side="left"))
    assert any("SLED on the back. Left ends: write SLED on the front" in text.text for text in second.texts())


def test_slope_is_drawn_four_times_too_steep() -> None:
    first, _ = joint_sheets(data(Joint(12, 22, 60, 0.4)))
    near = [path for path in first.paths() if path.name == "near board"]
    slopes = []
    for path in near[:2]:
        points = [v.point for v in path.vertices]
        tip, full = points[2], points[3]
        slopes.append((full[1] - tip[1]) / (tip[0] - full[0]))
    assert slopes[0] == pytest.approx(1 / 12)
    assert slopes[1] == pytest.approx(4 / 12)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_measuring_sheet_has_a_box_for_every_figure(units: Any) -> None:
    from scarfwright.models.lengths.say import say_in

    joint = Joint(12, 22, 60, 0.4)
    sheet = measuring_sheet(TestJointData(joint, units, "A job", A4, cells))
    letters = [figure.letter for figure in figures(joint, say_in(units))]
    shown = [text.text for text in sheet.texts()]
    for letter in letters:
        assert shown.count(letter) >= 2  # in a picture and in the table
    near, far = marks(joint, say_in(units))
    assert 0 < near < far < joint.taper_run
    step = 5.0 if units == "mm" else 12.7
    assert math.isclose(near / step, round(near / step))


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize(
    "joint", [Joint(12, 22, 60, 0.4), Joint(8, 10, 20, 0.4), Joint(20, 48, 90, 0.8), Joint(10, 22.225, 44.45, 0.4)]
)
def test_no_text_on_another(joint: Joint, units: Any) -> None:
    sheets = joint_sheets(data(joint, units=units))
    sheets.append(measuring_sheet(TestJointData(joint, units, "A job", A4, cells)))
    for sheet in sheets:
        texts = [text for text in sheet.texts() if text.text]
        for i, one in enumerate(texts):
            for other in texts[i + 1 :]:
                assert apart(one.box(), other.box()), (one.text, other.text)
