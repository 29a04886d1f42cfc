"""The file of test joints: every form is read, and whatever is wrong is told with its line and what was expected."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.forms import KEYS
from scarfwright.models.tuning.measured import Reading, Skew, Station, Twist
from scarfwright.models.tuning.reader import MeasuredError, measured_from_text, read_measured

PLAN = Plan(1 / 12, 0.4, 60.0, 22.0, 1200.0, True, Limits(0.15))
INCHES = Plan(1 / 12, 0.4, 60.0, 22.0, 1200.0, True, Limits(0.15), "in")

WHOLE = """
[[test_joint]]
board_thickness = "22.0 mm"
taper_run = "259.4 mm"
tip = "0.5 mm"
thickness_at = [["60 mm", "5.4 mm"], ["200 mm", "17.1 mm"]]
gap_top = "0.15 mm"
gap_bottom = "0 mm"
twist = ["2 mm", "300 mm"]
joint_thickness = "22.1 mm"
tip_to_tip = "254 mm"
line_skew = "0.9 mm"
"""


def problems(text: str, plan: Plan = PLAN) -> list[tuple[int | None, str, str, str]]:
    with pytest.raises(MeasuredError) as caught:
        measured_from_text(text, "joints.toml", plan)
    return [(p.line, p.key, p.found, p.expected) for p in caught.value.problems]


def test_every_key() -> None:
    (joint,) = measured_from_text(WHOLE, "joints.toml", PLAN)
    assert joint.board_thickness == (Reading("board_thickness", 22.0),)
    assert joint.thickness_at == (Station("thickness_at", 60.0, 5.4), Station("thickness_at", 200.0, 17.1))
    assert (joint.gap_top, joint.gap_bottom) == (0.15, 0.0)
    assert joint.twist == Twist(2.0, 300.0)
    assert joint.line_skew == (Skew("line_skew", 0.9),)
    assert {key for key in KEYS if key in WHOLE} == set(KEYS)


def test_every_other_form() -> None:
    text = """
    [[test_joint]]
    board_thickness = [{ value = "22 mm", piece = 1 }, { value = 22.1, piece = 2 }]
    tip = ["0.7 mm", "0.3 mm"]
    thickness_at = [["60 mm", "5.6 mm", "5.2 mm"], { at = "200 mm", thickness = "17.1 mm", piece = 2 }]
    twist = ["2 mm", "300 mm", "down"]
    line_skew = ["0.9 mm", "top"]
    [[test_joint]]
    tip = [0, "0.7 mm", "0.3 mm"]
    taper_run = [["258 mm", "260 mm"], { top = "258 mm", bottom = "261 mm", piece = 2 }]
    thickness_at = ["60 mm", "5.4 mm"]
    line_skew = { value = "1 mm", nearer = "bottom", piece = 1 }
    """
    one, two = measured_from_text(text, "joints.toml", PLAN)
    assert one.board_thickness == (
        Reading("board_thickness", 22.0, piece=1),
        Reading("board_thickness", 22.1, piece=2),
    )
    assert one.tip == two.tip == (Reading("tip", None, 0.7, 0.3),)
    assert one.thickness_at == (
        Station("thickness_at", 60.0, None, 5.6, 5.2),
        Station("thickness_at", 200.0, 17.1, piece=2),
    )
    assert one.twist == Twist(2.0, 300.0, "down")
    assert one.line_skew == (Skew("line_skew", 0.9, "top"),)
    assert two.taper_run[1] == Reading("taper_run", None, 258.0, 261.0, 2)
    assert two.thickness_at == (Station("thickness_at", 60.0, 5.4),)
    assert two.line_skew == (Skew("line_skew", 1.0, "bottom", 1),)


def test_bare_numbers_are_in_the_jobs_units() -> None:
    (joint,) = measured_from_text("[[test_joint]]\ntip = 0.02\n", "joints.toml", INCHES)
    assert joint.tip[0].value == pytest.approx(0.508)


@pytest.mark.parametrize(
    ("text", "line", "key", "found", "expected"),
    [
        ("", None, "", "no measurement", "[[test_joint]]"),
        ("[[test_joint]]\n", None, "", "no measurement", "[[test_joint]]"),
        ("[[test_joint]]\ntip = 5.0.1\n", 2, "", "broken TOML", "[[test_joint]]"),
        ("[[test_joint]]\n\ntip = '2 degrees'\n", 3, "test_joint 1, tip", "no unit known", '"0.5 mm"'),
        ("[[test_joint]]\ntip = '0.5 mm'\ntaper_rum = 3\n", 3, "test_joint 1, taper_rum", "unknown", '"taper_run"'),
        ("[[test_joint]]\ntaper_run = '259 in'\n", 2, "test_joint 1, taper_run", "6578", "is the unit right"),
        ("[[test_joint]]\nthickness_at = [['60 mm']]\n", 2, "test_joint 1, thickness_at", "60 mm", "distance"),
        (
            "[[test_joint]]\nthickness_at = [[300, 22]]\n",
            2,
            "test_joint 1, thickness_at",
            "22 mm at 300",
            "on the taper",
        ),
        ("[[test_joint]]\ntwist = '2 mm'\n", 2, "test_joint 1, twist", "2 mm", "length of the sticks"),
        ("[[test_joint]]\ntwist = ['2 mm', '300 mm', 'left']\n", 2, "test_joint 1, twist", "left", '"up" or "down"'),
        ("[[test_joint]]\ntwist = ['300 mm', '2 mm']\n", 2, "test_joint 1, twist", "300 mm", "difference first"),
        ("[[test_joint]]\ntip = { value = 1, piece = 3 }\n", 2, "test_joint 1, tip", "piece = 3", "1 or 2"),
        ("[[test_joint]]\ntip = { value = 1, side = 3 }\n", 2, "test_joint 1, tip", "side", "piece"),
        ("[[test_joint]]\ntip = true\n", 2, "test_joint 1, tip", "true", '"0.5 mm"'),
        ("[[test_joint]]\ntip = -1\n", 2, "test_joint 1, tip", "-1", '"0.5 mm"'),
        ("[[test_joint]]\nline_skew = ['1 mm', 'left']\n", 2, "test_joint 1, line_skew", "left", '"bottom"'),
        ("title = 'x'\n[[test_joint]]\ntip = 0.5\n", 1, "title", '"title"', "tables only"),
        ("test_joint = 3\n", 1, "test_joint", "3", "[[test_joint]]"),
        ("[[test_joint]]\ntip = 0.5\n[[test_joint]]\ntip = 'x'\n", 4, "test_joint 2, tip", "x", '"0.5 mm"'),
    ],
)
def test_what_is_wrong(text: str, line: int | None, key: str, found: str, expected: str) -> None:
    (one,) = problems(text)
    assert one[:2] == (line, key)
    assert found in one[2]
    assert expected in one[3]


def test_all_problems_at_once() -> None:
    found = problems("[[test_joint]]\ntip = 'a'\ntaper_run = 'b'\n[[test_joint]]\ntwist = 1\n")
    assert [line for line, *_ in found] == [2, 3, 5]


def test_one_joint_without_double_brackets_is_understood() -> None:
    (joint,) = measured_from_text("[test_joint]\ntip = '0.5 mm'\n", "joints.toml", PLAN)
    assert joint.tip[0].value == 0.5


def test_files_that_are_none(tmp_path: Path) -> None:
    binary = tmp_path / "binary.toml"
    binary.write_bytes(b"[[test_joint]]\ntip = \xff\n")
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 300_000)
    for path, found in (
        (tmp_path / "none.toml", "no such file"),
        (tmp_path, "ordinary file"),
        (binary, "not UTF-8"),
        (large, "more than 200000 bytes"),
    ):
        with pytest.raises(MeasuredError, match=found):
            read_measured(path, PLAN)


VALUES = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-5, 400), st.floats(), st.text(max_size=8), st.just("22 mm")),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.text(max_size=8), inner, max_size=3)),
    max_leaves=8,
)


@given(st.dictionaries(st.sampled_from([*KEYS, "tipp"]), VALUES, max_size=5))
def test_nothing_but_measured_errors(table: dict[str, object]) -> None:
    """Whatever stands in a table is read or refused in words."""
    from scarfwright.models.tuning.reader import measured_from_dict

    try:
        (joint,) = measured_from_dict({"test_joint": [table]}, "joints.toml", PLAN)
    except MeasuredError as error:
        found = error.problems
    else:
        assert not joint.empty
        return
    assert all(one.found and one.expected for one in found)
