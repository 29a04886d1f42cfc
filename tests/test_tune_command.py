"""`scarfwright tune` from the words typed to what is printed, logged and refused."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from scarfwright.cli.asking import ask_for, parts
from scarfwright.cli.tuning import tune_job
from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.say import say_in
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.forms import KEYS
from scarfwright.models.tuning.measured import Skew, Station, Twist
from scarfwright.models.tuning.reader import MeasuredError, measured_from_text
from scarfwright.models.tuning.writing import joint_to_toml
from scarfwright.models.words.the_joint.asking import questions
from scarfwright.outputs.test_joint_sheet.texts import figures

JOB = '[stock]\nthickness = "22 mm"\nheight = "60 mm"\n[joint]\nratio = 12\n'
LEANS = """
[[test_joint]]
board_thickness = "22.0 mm"
taper_run = "270.4 mm"
tip = "0.5 mm"
thickness_at = [["60 mm", "5.3 mm"], ["200 mm", "16.4 mm"]]
gap_top = "0.65 mm"
gap_bottom = "0 mm"
twist = ["3.2 mm", "300 mm", "up"]
"""
PLAN = Plan(1 / 12, 0.4, 60.0, 22.0, 1200.0, True, Limits(0.15))


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(JOB)
    return path


def measured(job: Path, text: str) -> Path:
    path = job.with_name("joints.toml")
    path.write_text(text)
    return path


def said(capsys: pytest.CaptureFixture[str]) -> str:
    return " ".join(capsys.readouterr().out.split())


def test_what_is_printed(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tune_job(job, measured(job, LEANS), json=False, log=False) == 0
    text = said(capsys)
    # 2 x 60 tan e = 0.65 at the upper edge: e = -0.31; 0.3 is what a hand can set
    assert "1. Tilt the top of the blade 0.30 degrees towards the free side." in text
    assert "other half of the plank" in text
    assert "near the heel" in text
    assert "away from the blade" in text
    assert "past the heel" in text
    assert "inside the limits (chance of being inside: 99 of 100)" in text
    assert "saw maker's manual" in text


def test_json(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tune_job(job, measured(job, LEANS), json=True, log=False) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["lean_deg"]["value"] == pytest.approx(-0.31, abs=0.02)
    assert data["lean_deg"]["signed"] is True
    assert data["ratio"]["value"] == pytest.approx(12.58, abs=0.1)
    by = {one["what"]: one for one in data["corrections"]}
    assert by["blade_tilt"]["by_deg"] == pytest.approx(0.3)
    assert by["blade_tilt"]["towards"] == "free"
    assert by["other_half"]["instead_of"] == "blade_tilt"
    assert by["heel_shim"]["at"] == 10
    assert data["after"]["inside_limits"] is True
    assert data["now"]["inside_limits"] is False
    assert data["untold"] == []
    assert len(data["residuals"]) == 7
    assert all(one["text"] for one in data["corrections"])


def test_untold(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tune_job(job, measured(job, "[[test_joint]]\ntip = '0.5 mm'\ngap_top = '0.1 mm'\n"), False, False) == 0
    text = said(capsys)
    assert "Not known: slope. One of these would tell: taper run" in text
    assert "Not known: lean of the cut. One of these would tell: gap top and gap bottom" in text
    assert "Not used: gap top of joint 1, which tells nothing without gap bottom." in text
    assert "Nothing to correct" not in text


def test_contradiction(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wrong = LEANS.replace('"up"', '"down"')
    assert tune_job(job, measured(job, wrong), json=False, log=False) == 1
    text = said(capsys)
    assert "Does not fit the other readings: test joint 1, twist" in text
    assert "Until they fit, nothing is advised." in text
    assert "To correct" not in text


def test_refused(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bad = measured(job, "[[test_joint]]\ntip = '0.5 mm'\ntaper_run = '2 degrees'\ntwist = 3\n")
    assert tune_job(job, bad, json=False, log=False) == 2
    lines = capsys.readouterr().err.splitlines()
    assert [line.split("line ")[1][0] for line in lines] == ["3", "4"]
    assert tune_job(job, bad, json=True, log=False) == 2
    data = json.loads(capsys.readouterr().out)
    assert [one["line"] for one in data["problems"]] == [3, 4]
    assert set(data["problems"][0]) == {"file", "line", "key", "found", "expected", "text"}


def test_a_job_with_faults_is_not_tuned(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job.write_text(JOB + '[clamp]\nopening = "30 mm"\n')
    assert tune_job(job, measured(job, LEANS), json=False, log=False) == 1
    assert "clamp.no_grip" in capsys.readouterr().out
    assert tune_job(job, measured(job, LEANS), json=True, log=False) == 1
    assert json.loads(capsys.readouterr().out)["findings"][0]["code"] == "clamp.no_grip"


def test_log_is_kept_and_can_be_read(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert tune_job(job, measured(job, LEANS), json=False, log=True) == 0
    assert tune_job(job, measured(job, LEANS), json=True, log=True) == 0
    capsys.readouterr()
    text = job.with_name("mine-test-joints.toml").read_text()
    joints = measured_from_text(text, "log", PLAN)
    (once,) = measured_from_text(LEANS, "file", PLAN)
    assert [joint.taper_run for joint in joints] == [once.taper_run] * 2
    assert joints[0] == once
    assert "# Tilt the top of the blade 0.30 degrees" in text


def test_written_joints_read_back() -> None:
    text = """
    [[test_joint]]
    board_thickness = [{ value = "22 mm", piece = 1 }, { top = "22.05 mm", bottom = "22 mm", piece = 2 }]
    thickness_at = [["60 mm", "5.6 mm", "5.2 mm"], { at = "200 mm", thickness = "17.1 mm", piece = 2 }]
    twist = ["2 mm", "300 mm", "down"]
    joint_thickness = "22.1 mm"
    tip_to_tip = "254 mm"
    line_skew = [{ value = "0.9 mm", nearer = "top", piece = 2 }]
    """
    (joint,) = measured_from_text(text, "file", PLAN)
    (again,) = measured_from_text(joint_to_toml(joint), "written", PLAN)
    assert again == joint


def typing(answers: dict[str, list[str]]) -> Callable[[str], str]:
    """Somebody at the terminal: the answers to each question in turn, then Enter."""

    def ask(question: str) -> str:
        left = answers.get(question.split(" (")[0], [])
        return left.pop(0) if left else ""

    return ask


def test_asked_one_by_one(capsys: pytest.CaptureFixture[str]) -> None:
    answers = {
        "A board thickness, board 1": ["22 mm"],
        "B tip thickness, board 1": ["0,5; 0,45"],
        "C taper run, board 1": ["a lot", "1; 2; 3", "259"],
        "D, E thickness at a mark, board 1": ["60 mm, 5,4 mm", "200; 17,1; 17,0", ""],
        "F line where the taper ends, board 1": ["0.9 mm, top"],
        "A board thickness, board 2": ["22,1"],
        "G gap, upper edge": ["0"],
        "H gap, lower edge": ["1,5 mm"],
        "I twist": ["2,300", "2 mm, 300 mm, down"],
    }
    (joint,) = ask_for(PLAN, typing(answers))
    assert not any(answers.values())
    assert joint.taper_run[0].value == 259
    assert joint.thickness_at == (
        Station("thickness_at", 60.0, 5.4, piece=1),
        Station("thickness_at", 200.0, None, 17.1, 17.0, piece=1),
    )
    assert [(one.value, one.piece) for one in joint.board_thickness] == [(22.0, 1), (22.1, 2)]
    assert (joint.tip[0].top, joint.tip[0].bottom) == (0.5, 0.45)
    assert (joint.gap_top, joint.gap_bottom) == (0.0, 1.5)
    assert joint.twist == Twist(2.0, 300.0, "down")
    assert joint.line_skew == (Skew("line_skew", 0.9, "top", 1),)
    refused = [line for line in capsys.readouterr().err.splitlines() if line.startswith("Found")]
    assert refused == [
        'Found "a lot", expected a figure like 259.2 mm, or both edges: upper; lower.',
        'Found "1; 2; 3", expected a figure like 259.2 mm, or both edges: upper; lower.',
        'Found "2,300", expected ends differ by; sticks\' length; far end up or down.',
    ]


def test_every_box_of_the_sheet_is_asked_for_by_its_letter() -> None:
    asked = [(one.letter, one.board is not None) for one in questions(PLAN) if one.board in (1, None)]
    sheet = figures(Joint(12, 22.0, 60.0, 0.4), say_in("mm"))
    letters = [(letter, each) for names, each in asked for letter in names.split(", ")]
    assert letters == [(figure.letter, figure.each) for figure in sheet]
    assert {one.key for one in questions(PLAN)} == set(KEYS)


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("1,5 mm", ["1.5 mm"]),
        ("1,5", ["1.5 mm"]),
        ("2 mm,300 mm", ["2 mm", "300 mm"]),
        ("2 mm, 300 mm, up", ["2 mm", "300 mm", "up"]),
        ("1,5 mm, 300, up", ["1.5 mm", "300 mm", "up"]),
        ("1,5;300;up", ["1.5 mm", "300 mm", "up"]),
        ("60, 5.4", ["60 mm", "5.4 mm"]),
        ('7/8"', ["7/8 in"]),
        ('"22 mm"', ["22 mm"]),
        ("1,500", ["1,500"]),  # a thousand and a half, or one and a half: not taken
    ],
)
def test_a_comma_between_digits_is_a_decimal_one(typed: str, read: list[str]) -> None:
    assert parts(typed, "mm") == read


def test_several_joints_until_the_input_ends() -> None:
    left = iter([*[""] * 14, "25 mm", "y", *[""] * 13, "254 mm"])

    def ask(_: str) -> str:
        try:
            return next(left)
        except StopIteration:
            raise EOFError from None

    joints = ask_for(PLAN, ask)
    assert [(one.joint_thickness, one.tip_to_tip) for one in joints] == [(25.0, None), (None, 254.0)]
    with pytest.raises(MeasuredError, match="no measurement, expected one figure at least"):
        ask_for(PLAN, ask)


def test_fractions_without_a_unit_are_in_the_jobs() -> None:
    answers = {
        "A board thickness, board 1": ["7/8"],
        "B tip thickness, board 2": ["1/32 in"],
        "D, E thickness at a mark, board 1": ["2, 1 3/32"],
        "G gap, upper edge": ["1.5 mm"],
    }
    (joint,) = ask_for(replace(PLAN, units="in", thickness=35.0), typing(answers))
    assert joint.board_thickness[0].value == pytest.approx(7 / 8 * 25.4)
    assert joint.tip[0].value == pytest.approx(25.4 / 32)
    (mark,) = joint.thickness_at
    assert (mark.distance, mark.value) == (50.8, 35 / 32 * 25.4)
    assert joint.gap_top == pytest.approx(1.5)


def test_nothing_to_ask_on(job: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin.isatty", lambda: False)
    assert tune_job(job, None, json=False, log=False) == 2
    assert "--measured" in capsys.readouterr().err
    with pytest.raises(MeasuredError):
        ask_for(PLAN)
