"""The form of the test joint against `tune`: same readings, same figures, same sentences; and the form in use."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import pytest
from scarfwright.cli.tuning import tune_job
from scarfwright.models.lengths.length import LengthError, Unit, parse_length, show
from scarfwright.models.tuning.reader import measured_from_text
from scarfwright.models.tuning.tune import tune
from scarfwright.models.tuning.writing import joint_to_toml
from scarfwright.models.words.the_joint import tuning as words
from scarfwright.models.words.the_joint.accuracy import NOBODY
from scarfwright.outputs.joint_form.constants import of_lengths, of_plan, of_tuning

from tests.browser.as_tables import as_table
from tests.browser.conftest import Open
from tests.browser.faulty_cases import Case, cases
from tests.browser.joint_form_page import INCHES, METRIC, bench, page_of
from tests.browser.watching import Watched

MOST_OFF = {"out_sigmas": 5.1e-4, "chance_inside": 5.1e-5}  # printed with 3 and 4 decimals; all else with 6
BLANK = "about:blank"
TUNE = """
return given.map(([units, constants, plan, spoken, rows, nobody, read, joints]) => {
  const say = saying(spoken, rows, nobody, plan, lengths(read, units));
  const found = tuning(constants, plan).tune(joints);
  return [reportOf(found), say(found)];
});
"""


def apart(one: Any, other: Any, at: str = "") -> list[str]:
    """Where two reports differ by more than the last digit that is printed."""
    if isinstance(one, dict) and isinstance(other, dict):
        return [found for key, value in one.items() for found in apart(value, other.get(key, "none"), f"{at}.{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        pairs = enumerate(zip(one, other, strict=True))
        return [found for i, (a, b) in pairs for found in apart(a, b, f"{at}[{i}]")]
    if isinstance(one, float) and isinstance(other, float | int):
        near = abs(one - other) <= MOST_OFF.get(at.rsplit(".", 1)[-1], 1e-6)
        return [] if near else [f"{at}: {one}, {other}"]
    return [] if one == other else [f"{at}: {one}, {other}"]


def said_by_tune(case: Case, folder: Path, capsys: pytest.CaptureFixture[str]) -> tuple[str, dict[str, Any]]:
    """The file of joints, and what `tune --json` prints about it."""
    job, measured = folder / "job.toml", folder / "joints.toml"
    job.write_text(case.job)
    measured.write_text("".join(joint_to_toml(joint) for joint in case.joints))
    tune_job(job, measured, json=True, log=False)
    return measured.read_text(), json.loads(capsys.readouterr().out)


def test_fifty_faulty_shops(open_page: Open, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    given, told, kinds = [], [], set()
    for case in cases(50, 7):
        text, data = said_by_tune(case, tmp_path, capsys)
        joints = measured_from_text(text, "joints", case.plan)
        found = tune(joints, case.plan)
        lines = [
            [list(row) for row in words.set_up_lines(found)],
            words.expected_line(found),
            words.untold_lines(found),
            words.contradiction_lines(found),
            words.nothing_to_correct(found),
        ]
        told.append((data, lines))
        kinds |= {*data["untold"], *(one["what"] for one in data["corrections"]), bool(data["contradictions"])}
        units = case.plan.units
        spoken = [words.SAY, words.ROWS, NOBODY, of_lengths(), [as_table(joint) for joint in joints]]
        given.append([units, of_tuning(units), of_plan(case.plan), *spoken])
    for (data, lines), (report, said) in zip(told, open_page(BLANK).page.evaluate(bench(TUNE), given), strict=True):
        texts = [one.pop("text") for one in data["corrections"]]
        for one in data["corrections"]:
            del one["why"]
        data.pop("format"), data.pop("text")
        assert apart(data, report) == []
        assert said["corrections"] == texts
        assert [said[key] for key in ("setUp", "expected", "untold", "contradictions", "nothing")] == lines
    # the cases are worth it: every correction, everything untold, readings that contradict each other and such that fit
    assert kinds >= {"fence", "nose_shim", "heel_shim", "blade_tilt", "other_half", "recut", True, False}
    assert kinds >= {"ratio", "tip_mm", "fence_gap_mm", "lean_sign"}


LENGTHS = (
    *(
        "22",
        "22 mm",
        "1 3/32",
        "27/64 in",
        "1,5 mm",
        "1-1/2",
        "5 ft 6 1/2 in",
        "5' 6\"",
        "5'6 1/2''",
        "¾",
        "1½ in",
        "0.9 m",
    ),
    *(
        "0",
        "0.0",
        "0,",
        "",
        " ",
        "-1",
        "-",
        "1,500",
        "1,500 mm",
        "0,400 mm",
        "1200,500",
        "12,345,678 mm",
        "1.500,5 mm",
        "3/0 in",
        "1/3 mm",
        "2 degrees",
        "5 yards",
    ),
    *(
        "5 4",
        "5 ft 6",
        "6 in 5 ft",
        "1 mm 2 mm",
        "22 MM",
        "22mm.",
        "1e3",
        "nan",
        ".5",
        "5.",
        "5. mm",
        "1/2/3 in",
        "0.0001 mm",
    ),
    *(
        "101 m",
        "3 in,",
        "3 in -",
        "3 in - 1/2 in",
        "1\t/2 in",
        "1\u00a01/2 in",
        "９ mm",
        "7/999999999999 in",
        "1" * 90,
        "𝟙" * 70,
    ),
    *(
        "1/7 ft",
        "22 mm x",
        "{found} mm",
        "22 constructor",
        '"',
        "3/4″",
        "2’ 3”",
        "1/64",
        "100 m",
        "0.001 mm",
        "12 feet",
        "1/3 cm",
    ),
)


def length_or_why(text: str, units: Unit) -> list[object]:
    try:
        length = parse_length(text, units, bare=True)
    except LengthError as error:
        return [str(error)]
    return [float(length), length.text]


READ = """
return given.texts.map(([text, units]) => {
  const reader = lengths(given.read, units);
  try {
    const { mm, text: canonical } = reader.parse(text);
    return [mm, canonical];
  } catch (error) {
    if (!(error instanceof reader.Refused)) throw error;
    return [error.message];
  }
});
"""


def test_lengths_are_read_as_the_job_file_reads_them(open_page: Open) -> None:
    rng = random.Random(3)
    parts = [
        "1",
        "22",
        "3/4",
        "0.5",
        "1,5",
        ".",
        " ",
        " ",
        "-",
        ",",
        "mm",
        "in",
        "ft",
        "'",
        '"',
        "/",
        "7",
        "½",
        "cm",
        "0",
    ]
    made = ["".join(rng.choices(parts, k=rng.randint(1, 7))) for _ in range(3000)]
    units: tuple[Unit, Unit] = ("mm", "in")
    texts = [[text, unit] for text in (*LENGTHS, *made) for unit in units]
    found = open_page(BLANK).page.evaluate(bench(READ), {"texts": texts, "read": of_lengths()})
    wanted = [length_or_why(text, unit) for text, unit in texts]  # type: ignore[arg-type]
    for asked, want, got in zip(texts, wanted, found, strict=True):
        assert got[-1] == want[-1], asked
        assert len(got) == len(want), asked
        if len(want) == 2:
            assert got[0] == pytest.approx(want[0], rel=1e-15), asked
    assert len({want[0] for want in wanted if len(want) == 2}) > 100
    reasons = {str(want[0]).split(", ")[1].split(" ")[0] for want in wanted if len(want) == 1}
    assert reasons >= {"expected", "where", "which", "a"}


SHOW = """
const reader = lengths(given.read, given.units);
return given.lengths.map((mm) => [reader.show(mm), reader.fine(mm)]);
"""


@pytest.mark.parametrize("units", ["mm", "in"])
def test_lengths_are_shown_as_everywhere(units: Unit, open_page: Open) -> None:
    """Exact halves too: both go to the even digit."""
    rng = random.Random(4)
    halves = [0.125, 0.375, 2.5, 0.25, 0.75, 0.35, 12.05, 25.4 / 128, 3 * 25.4 / 128, 0.0635, 0.0, 0.004, 0.0049999]
    many = [*halves, *(rng.uniform(0, 400) for _ in range(500)), *(rng.randint(0, 4000) / 8 for _ in range(200))]
    lengths = [sign * mm for mm in many for sign in (1, -1)]
    given = {"read": of_lengths(), "units": units, "lengths": lengths}
    wanted = [[show(mm, units), words.fine(mm, units)] for mm in lengths]
    assert open_page(BLANK).page.evaluate(bench(SHOW), given) == wanted


# -- in use -----------------------------------------------------------------------------------------------------


@pytest.fixture
def address(tmp_path: Path) -> str:
    path = tmp_path / "form.html"
    path.write_text(page_of(METRIC), encoding="utf-8")
    return path.as_uri()


LEANS = {
    "1-board_thickness-value": "22",
    "1-tip-value": "0,5 mm",
    "1-taper_run-value": "270.4",
    "1-mark-near-at": "60",
    "1-mark-near-thickness": "5.3",
    "0-gap_top-value": "0.65 mm",
    "0-gap_bottom-value": "0",
}


def typed(seen: Watched, figures: dict[str, str], joint: int = 1) -> None:
    for name, text in figures.items():
        seen.page.fill(f"#tune-{joint}-{name}", text)
        seen.page.press(f"#tune-{joint}-{name}", "Tab")


def said(seen: Watched) -> str:
    return " ".join(seen.page.inner_text("#tune-result").split())


def status(seen: Watched) -> str:
    return seen.page.inner_text("#tune-status")


def test_typed_and_corrected(address: str, open_page: Open, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is shown is what `tune` prints about the file that the form shows."""
    seen = open_page(address, 340, 900)
    assert said(seen) == ""
    typed(seen, LEANS)
    seen.page.select_option("#tune-1-0-twist-hand", "up")
    typed(seen, {"0-twist-difference": "3.2"})
    assert "Tilt the top of the blade 0.30 degrees towards the free side." in said(seen)
    assert status(seen) == "To correct, in this order: 4."
    job, file = tmp_path / "job.toml", tmp_path / "joints.toml"
    job.write_text('[stock]\nthickness = "22 mm"\nheight = "60 mm"\n[joint]\nratio = 12\n')
    file.write_text(seen.page.text_content("#tune-file") or "")
    assert 'twist = ["3.2 mm", "300 mm", "up"]' in file.read_text()
    assert tune_job(job, file, json=True, log=False) == 0
    data = json.loads(capsys.readouterr().out)
    steps = [one["text"] for one in data["corrections"] if not one["instead_of"]]
    assert seen.page.locator("#tune-result li").all_inner_texts() == steps
    assert all(one["text"] in said(seen) for one in data["corrections"])
    assert (seen.messages, seen.requests) == ([], [])


def test_what_was_typed_is_kept_on_the_device(address: str, open_page: Open) -> None:
    seen = open_page(address)
    typed(seen, LEANS)
    before = said(seen)
    seen.page.reload()
    assert seen.page.input_value("#tune-1-1-tip-value") == "0,5 mm"
    assert said(seen) == before
    seen.page.evaluate("scarfwright.start()")  # called again: the same, once
    assert said(seen) == before
    assert seen.page.locator("#tune-1").count() == 1


def test_without_anything_to_keep_it_in(address: str, open_page: Open) -> None:
    """A device that refuses, and one that holds what is none of ours."""
    seen = open_page(address)
    refuses = "Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } }); scarfwright.start()"
    seen.page.evaluate(refuses)
    typed(seen, LEANS)
    assert "Tilt the top of the blade" in said(seen)
    other = open_page(address)
    for held in ("{", "[3]", '[{"1-tip-value": 3}]', "{}", "[]"):
        other.page.evaluate("(held) => { for (const k of Object.keys(localStorage)) localStorage[k] = held; }", held)
        other.page.reload()
        assert other.page.input_value("#tune-1-1-tip-value") == ""
    assert (seen.messages, other.messages) == ([], [])


@pytest.mark.parametrize(
    ("name", "text", "problem"),
    [
        ("1-tip-value", "2 degrees", 'Found "2 degrees", where "degrees" is no unit known here; expected a length'),
        (
            "1-taper_run-value",
            "259 in",
            "Found 6578.6 mm, expected 77.8 mm to 778.5 mm on this job; is the unit right?",
        ),
        ("1-mark-near-thickness", "22", "Found 22 mm at 60 mm from the tip, expected a mark on the taper"),
        ("1-mark-near-top", "5", "Fill this in too."),
        ("0-twist-difference", "290", "Found 290 mm, expected a difference smaller than the sticks are long"),
        ("0-gap_top-value", "-1", 'Found "-1", expected a length that is not negative'),
    ],
)
def test_problems_are_said_at_the_field(name: str, text: str, problem: str, address: str, open_page: Open) -> None:
    seen = open_page(address)
    typed(seen, LEANS)
    where = {"1-mark-near-top": "1-mark-near-bottom"}.get(name, name)
    hint = f"#tune-1-{where}-problem"
    seen.page.fill(f"#tune-1-{name}", text)
    if where == name:  # still typing: no word yet
        assert seen.page.is_hidden(hint)
    seen.page.press(f"#tune-1-{name}", "Tab")
    assert problem in seen.page.inner_text(hint)
    assert seen.page.get_attribute(f"#tune-1-{where}", "aria-invalid") == "true"
    assert f"tune-1-{where}-problem" in (seen.page.get_attribute(f"#tune-1-{where}", "aria-describedby") or "")
    assert status(seen).startswith("Nothing is worked out yet. Fields to mend: 1")
    assert said(seen) == ""
    typed(seen, {name: ""})
    assert seen.page.is_hidden(hint)
    assert "slope" in said(seen)


def test_figures_that_contradict_each_other_are_named(address: str, open_page: Open) -> None:
    seen = open_page(address)
    typed(seen, {**LEANS, "0-twist-difference": "9"})
    seen.page.select_option("#tune-1-0-twist-hand", "down")
    assert "Does not fit the other readings: test joint 1, " in said(seen)
    assert "Until they fit, nothing is advised." in said(seen)
    assert seen.page.locator("#tune-result li").count() == 0


def test_joints_come_and_go(address: str, open_page: Open) -> None:
    seen = open_page(address)
    typed(seen, LEANS)
    one = said(seen)
    seen.page.click("#tune-add")
    assert seen.page.evaluate("document.activeElement.id") == "tune-2-1-board_thickness-value"
    typed(seen, LEANS, joint=2)
    two = said(seen)
    assert two != one  # surer
    seen.page.click("#tune-1 > button")
    assert said(seen) == one
    assert seen.page.locator("#tune-2").count() == 0
    seen.page.click("#tune-back")
    assert said(seen) == two
    seen.page.click("#tune-2 > button")
    seen.page.click("#tune-1 > button")
    assert said(seen) == ""
    assert (seen.page.text_content("#tune-file") or "").strip() == "[[test_joint]]"
    seen.page.click("#tune-back")
    assert said(seen) == one
    assert seen.messages == []


def test_inches(tmp_path: Path, open_page: Open) -> None:
    path = tmp_path / "inches.html"
    path.write_text(page_of(INCHES), encoding="utf-8")
    seen = open_page(path.as_uri())
    typed(
        seen,
        {"1-tip-value": "1/32", "0-gap_bottom-value": "1/16", "0-gap_top-value": "0", "1-taper_run-value": '10 5/16"'},
    )
    assert "Tilt the top of the blade 1.00 degrees towards the fence." in said(seen)
    assert "0.031 in" in said(seen)
    assert 'tip = [{ value = "1/32 in", piece = 1 }]' in (seen.page.text_content("#tune-file") or "")


@pytest.mark.parametrize("width", [320, 900])
def test_markup(width: int, address: str, open_page: Open) -> None:
    """Every field has a label, every id begins with the piece's key, nothing is styled in place or scrolls sideways."""
    seen = open_page(address, width)
    typed(seen, {**LEANS, "1-mark-far-thickness": "5 yards"})
    assert seen.sideways == 0
    inputs = seen.page.locator("[data-piece=tune] input, [data-piece=tune] select")
    assert inputs.count() == 33
    labelled = "all => all.every(one => one.labels.length === 1 && one.labels[0].textContent.trim().length > 1)"
    assert inputs.evaluate_all(labelled)
    ids = seen.page.locator("[data-piece=tune] [id]").evaluate_all("all => all.map(one => one.id)")
    assert all(one.startswith("tune-") for one in ids)
    assert len(set(ids)) == len(ids)
    assert seen.page.locator("[data-piece=tune] [style]").count() == 0
    boxes = inputs.evaluate_all(
        "all => all.map(one => one.getBoundingClientRect()).filter(b => b.width).map(b => b.height)"
    )
    assert min(boxes) >= 40  # a thumb hits them


def test_by_keyboard_alone(address: str, open_page: Open) -> None:
    seen = open_page(address)
    seen.page.focus("#tune-1-1-tip-value")
    seen.page.keyboard.type("0.5")
    seen.page.keyboard.press("Tab")
    assert seen.page.evaluate("document.activeElement.id") == "tune-1-1-taper_run-value"
    seen.page.keyboard.type("270.4")
    assert "12.5" in said(seen)
