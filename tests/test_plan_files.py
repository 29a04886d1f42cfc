"""The plan of a job: findings, numbers.json, plan.csv, sheets, the command and its exit codes."""

from __future__ import annotations

import csv
import json
import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from scarfwright.cli.planning import care, show
from scarfwright.models.findings import Finding
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml
from scarfwright.models.job.problems import JobError
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers, rounded
from scarfwright.models.plan.data import Row
from scarfwright.models.planning.numbers import face, plan_numbers
from scarfwright.models.planning.planned import Planned, plan_job
from scarfwright.models.planning.request import request_of, wants_plan, with_bends
from scarfwright.models.solve import work_out, work_up
from scarfwright.models.words import plan as words
from scarfwright.outputs.drawing.placing import apart
from scarfwright.outputs.make import plan_items
from scarfwright.outputs.plan_sheet.codes import Look, letter
from scarfwright.outputs.plan_sheet.csv import plan_csv
from scarfwright.outputs.plan_sheet.sheets import plan_sheets

from tests.clear_sheets import unclear
from tests.cli_runs import run
from tests.plan_checker import complaints

RAW: dict[str, Any] = {
    "title": "Gunwales of a skiff",
    "stock": {"thickness": "20 mm", "height": "45 mm"},
    "joint": {"ratio": 10},
    "clamp": {"opening": "100 mm"},
    "plan": {"spare": "500 mm", "end_trim": "20 mm", "effort": 0.1},
    "board": [
        {"name": "rack A", "length": "2.4 m", "count": 6, "defects": [["700 mm", "740 mm"]]},
        {"name": "wide", "length": "3.6 m", "width": "150 mm"},
    ],
    "blank": [
        {"name": "gunwale", "length": "4.6 m", "count": 2, "mirrored": True, "allowance": "30 mm"},
        {"name": "rail", "length": "3.1 m", "keep_clear": [["0 mm", "900 mm"]], "members": 2, "rip_kerf": "3 mm"},
    ],
}


def with_(table: str, **change: Any) -> dict[str, Any]:
    """The tables above with keys of one changed; of a list of tables its first."""
    raw: dict[str, Any] = {k: [dict(x) for x in v] if isinstance(v, list) else v for k, v in RAW.items()}
    if isinstance(raw[table], list):
        raw[table][0] = {**raw[table][0], **change}
    else:
        raw[table] = {**raw[table], **change}
    return raw


def raised(raw: dict[str, Any]) -> dict[str, Finding]:
    return {f.code: f for f in work_out(job_from_dict(raw)).findings if f.code.startswith("plan.")}


@pytest.fixture(scope="module")
def planned() -> Planned:
    return plan_job(work_out(job_from_dict(RAW)))


@pytest.mark.parametrize(
    ("code", "raw"),
    [
        ("plan.defect_outside", with_("board", defects=[["2.3 m", "2.5 m"]])),
        ("plan.defects_overlap", with_("board", defects=[["1 m", "1.2 m"], ["1.1 m", "1.3 m"]])),
        ("plan.does_not_fit", with_("board", width="40 mm")),
        ("plan.no_board", {**RAW, "board": [{"length": "2 m", "thickness": "10 mm"}]}),
        ("plan.no_blanks", {**RAW, "blank": []}),
        ("plan.blank_short", with_("blank", length="150 mm")),
        ("plan.zone_outside", with_("blank", keep_clear=[["4.5 m", "5 m"]])),
        ("plan.members", with_("blank", members=10, rip_kerf="5 mm")),
        ("plan.mirrored_odd", with_("blank", count=3)),
        ("plan.mark_fine", with_("plan", mark="0.001 mm")),
        ("plan.too_many_boards", {**RAW, "board": [{"length": "2 m", "count": 20000}] * 2}),
        ("plan.too_many_blanks", {**RAW, "blank": [{"length": "2 m", "count": 5000}] * 2}),
    ],
)
def test_findings_say_what_and_how_to_mend_it(code: str, raw: dict[str, Any]) -> None:
    assert raised(RAW) == {}
    found = raised(raw)
    assert code in found
    text = found[code].text
    assert text.endswith(".")
    assert text.count(". ") >= 1


def test_a_fault_of_the_plan_does_not_stop_the_sled() -> None:
    found = raised(with_("board", defects=[["2.3 m", "2.5 m"]]))["plan.defect_outside"]
    assert found.part == "plan"


def test_tables_are_read_and_written_back_alike() -> None:
    job = job_from_dict(RAW)
    assert job_from_text(job_to_toml(job)) == job


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        (with_("board", defects=[["700 mm"]]), "pair 1"),
        (with_("board", defects=[["740 mm", "700 mm"]]), "beginning before the end"),
        (with_("board", count=0), "1 or more"),
        (with_("blank", lenght="1 m"), 'nearest known one is "length"'),
        (with_("plan", spacing=-1), "0 or more"),
        ({**RAW, "board": {"length": "2 m"}}, "[[board]]"),
    ],
)
def test_a_slip_in_the_tables_is_one_clear_message(raw: dict[str, Any], told: str) -> None:
    with pytest.raises(JobError) as error:
        job_from_dict(raw)
    assert told in str(error.value)


def test_the_least_piece_is_what_two_clamps_of_the_sled_hold() -> None:
    work = work_out(job_from_dict(RAW))
    held = sorted(c.least_board for c in work.way.layout.clamps)
    assert request_of(work).rules.least == held[1]
    assert request_of(work_out(job_from_dict(with_("plan", least_piece="700 mm")))).rules.least == 700


def test_bends_add_stretches_and_uses() -> None:
    request = request_of(work_out(job_from_dict(RAW)))
    bent = with_bends(request, {1: ((800, 1200), (2000, 2100))}, {1: lambda a, b: b - a})
    assert bent.blanks[1].keep_clear == ((0, 1200), (2000, 2100))
    assert bent.blanks[1].use is not None
    assert bent.blanks[0] == request.blanks[0]


def test_numbers_follow_the_plan(planned: Planned) -> None:
    assert complaints(planned.request, planned.plan) == []
    data = plan_numbers(planned.request, planned.plan)
    assert json.loads(json.dumps(data)) == data
    assert data["verdict"] == "made"
    assert data["joints"] == sum(len(b["joints"]) for b in data["blanks"])
    for blank in data["blanks"]:
        total = sum(p["to_mm"] - p["from_mm"] for p in blank["pieces"])
        overlap = float(planned.request.rules.overlap)
        assert total - (len(blank["pieces"]) - 1) * overlap == pytest.approx(blank["length_mm"])
    work = work_out(job_from_dict(RAW))
    assert numbers(work)["plan"] is None
    assert numbers(work, data)["plan"]["joints"] == data["joints"]


def test_faces_turn_so_that_glue_lines_lean_one_way(planned: Planned) -> None:
    """The tip stays on the sled's face: at a joint the piece towards the bow keeps B, the other A."""
    for blank in plan_numbers(planned.request, planned.plan)["blanks"]:
        ends = [p["tapered"] for p in blank["pieces"]]
        assert ends == (["far", *["both"] * (len(ends) - 2), "bow"] if len(ends) > 1 else [None])
        assert [p["face"] for p in blank["pieces"]] == [face(e) for e in ends]


def test_csv_holds_every_piece_board_by_board_longest_first(planned: Planned) -> None:
    rows = list(csv.DictReader(plan_csv(planned.request, planned.plan).splitlines()))
    cut = [r for r in rows if r["what"] == "piece"]
    assert len(cut) == sum(len(b.pieces) for b in planned.plan.blanks)
    assert len({r["code"] for r in cut}) == len(cut)
    for one, other in pairwise(cut):
        if (one["board"], one["board_copy"], one["strip"]) == (other["board"], other["board_copy"], other["strip"]):
            assert float(one["length_mm"]) >= float(other["length_mm"])
    assert {r["what"] for r in rows} <= {"piece", "leftover", "spare", "not needed", "not made"}


@pytest.mark.parametrize("units", ["mm", "in"])
def test_sheets_name_every_piece_and_no_text_lies_on_another(planned: Planned, units: Any) -> None:
    look = Look("Skiff", units, "Douglas-fir", (297.0, 210.0), "A4")
    sheets = plan_sheets(planned.request, planned.plan, look)
    told = " ".join(t.text for s in sheets for t in s.texts())
    codes = [r["code"] for r in csv.DictReader(plan_csv(planned.request, planned.plan).splitlines()) if r["code"]]
    assert all(code in told for code in codes)
    assert "licensed practice" in told
    for sheet in sheets:
        assert not unclear(sheet)
        texts = [t for t in sheet.texts() if t.text.strip()]
        for k, one in enumerate(texts):
            for other in texts[k + 1 :]:
                assert apart(one.box(-0.1), other.box(-0.1)), f"{one.text} lies on {other.text}"
            assert all(-0.1 <= x <= sheet.width and -0.1 <= y <= sheet.height for x, y in one.box())


def test_the_sheets_show_where_the_test_joint_comes_from_and_what_a_bend_uses(planned: Planned) -> None:
    """Offcut and test joint are told apart: what is to be kept is what is left beside it."""
    (spare,) = planned.plan.spare
    assert not [
        c
        for c in planned.plan.leftovers
        if (c.board, c.copy, c.strip, c.end) == (spare.board, spare.copy, spare.strip, spare.end)
    ]
    blank = planned.plan.blanks[0]
    used = replace(
        planned.plan, blanks=(replace(blank, joints=(replace(blank.joints[0], use=0.414), *blank.joints[1:])),)
    )
    look = Look("Skiff", "mm", "Douglas-fir", (297.0, 210.0), "A4")
    told = [t.text for s in plan_sheets(planned.request, used, look) for t in s.texts()]
    assert "test joint  500 mm" in told
    assert f"{say_in('mm')(float(blank.joints[0].station))} (bend uses 41 %)" in told
    assert any("how much of its strength the bend uses" in text for text in told)


def test_a_blank_with_more_joints_than_the_twist_is_held_against_is_named(planned: Planned) -> None:
    most = max(planned.plan.blanks, key=lambda b: len(b.joints))
    many = len(most.joints)
    told = words.joints_of_a_blank(planned.request, planned.plan, many - 1)
    assert told is not None
    assert told.endswith(f"Set [limits] joints = {many}.")
    assert words.joints_of_a_blank(planned.request, planned.plan, many) is None


def test_cautions_about_boards_and_bends_come_with_the_plan(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A blank of three metres along the stations of an arc of that span does not reach its end."""
    job = job_from_text(
        '[stock]\nthickness = 20\nheight = 45\nspecies = "white ash"\n[joint]\nratio = 10\n[clamp]\nopening = 100\n'
        "[limits]\ntwist = 2.0\n[plan]\neffort = 0.05\n[[board]]\nlength = 1400\ncount = 6\n"
        '[[blank]]\nname = "arc"\nlength = 3000\ncurve = [[0, 0], [1000, 300], [2000, 300], [3000, 0]]\n',
        "arc.toml",
    )
    work = work_up(job)
    assert work.craft is not None
    arc = plan_job(work, work.craft.members)
    show(arc, say_in("mm"), None)
    care(work, arc)
    said = " ".join(capsys.readouterr().out.split())
    assert "bending.blank_short" in said
    assert "arc has 2 joints, whose twists add; its limit is held against 1. Set [limits] joints = 2." in said
    assert "bend uses" in said
    (first, *_) = [one for one in plan_items(work, arc) if one.path == "paper/plan-1.svg"]
    first.make(tmp_path / "plan.svg")
    sheet = " ".join("".join(e.itertext()) for e in ElementTree.parse(tmp_path / "plan.svg").iter())
    assert "its curve is" in sheet
    assert "Set [limits] joints = 2." in sheet


def test_letters_go_on_after_z() -> None:
    assert [letter(k) for k in (0, 25, 26, 27, 701, 702)] == ["A", "Z", "AA", "AB", "ZZ", "AAA"]


def test_a_shortage_is_told_with_ways_out() -> None:
    raw = {**RAW, "board": [{"length": "2 m", "count": 3}], "buy": [{"length": "3 m", "price": 20}]}
    planned = plan_job(work_out(job_from_dict(raw)))
    say = say_in("mm")
    assert planned.plan.verdict == "impossible"
    assert words.verdict(planned.plan).startswith("Impossible")
    assert any("Buy" in words.remedy_line(say, planned.request, r) for r in planned.plan.remedies)
    assert "hold" in words.row_line(say, planned.request, planned.plan)


def test_the_count_of_blanks_side_by_side_is_told_with_their_names(planned: Planned) -> None:
    plan = replace(planned.plan, bound_row=Row("side by side", None, 6, Fraction(5), None, (0,)))
    told = words.row_line(say_in("mm"), planned.request, plan)
    assert "gunwale" in told
    assert "rail" not in told
    assert "need 5 pieces by themselves" in told
    assert told.endswith("6 in all.")


def test_a_job_without_boards_has_no_plan() -> None:
    assert not wants_plan(work_out(job_from_dict({"stock": RAW["stock"], "joint": RAW["joint"]})))


def write(folder: Path, raw: dict[str, Any]) -> Path:
    file = folder / "skiff.toml"
    file.write_text(job_to_toml(job_from_dict(raw)).replace("# ", "# "), encoding="utf-8")
    return file


def test_the_command_writes_the_plan_that_a_second_run_would(tmp_path: Path, planned: Planned) -> None:
    write(tmp_path, RAW)
    done = run("plan", "skiff.toml", "--out", "one", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Every blank is made." in done.stdout
    assert (tmp_path / "one/plan.csv").read_text() == plan_csv(planned.request, planned.plan)
    told = json.loads((tmp_path / "one/numbers.json").read_text())["plan"]
    assert told == json.loads(json.dumps(rounded(plan_numbers(planned.request, planned.plan))))
    assert (tmp_path / "one/paper/plan.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "one/paper/plan-1.svg").is_file()


def test_exit_codes_of_shortage_and_of_nothing_to_plan(tmp_path: Path) -> None:
    write(tmp_path, {**RAW, "board": [{"length": "2 m", "count": 3}]})
    assert run("plan", "skiff.toml", "--out", "short", cwd=tmp_path).returncode == 1
    assert json.loads((tmp_path / "short/numbers.json").read_text())["plan"]["verdict"] == "impossible"
    write(tmp_path, {"stock": RAW["stock"], "joint": RAW["joint"]})
    nothing = run("plan", "skiff.toml", cwd=tmp_path)
    assert nothing.returncode == 2
    assert "[[board]]" in nothing.stderr


def worked(process: int) -> float:
    """Processor time of a running process [s]."""
    fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def test_ctrl_c_writes_the_best_so_far(tmp_path: Path) -> None:
    boards = [{"name": f"b{k}", "length": f"{1500 + 37 * k % 1900} mm"} for k in range(60)]
    blanks = [{"name": f"s{k}", "length": f"{4300 + 211 * k % 2600} mm"} for k in range(14)]
    write(tmp_path, {**RAW, "board": boards, "blank": blanks, "plan": {"effort": 1000}})
    command = [sys.executable, "-m", "scarfwright.cli.entry", "plan", "skiff.toml", "--out", "best"]
    process = subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=os.environ)
    while process.poll() is None and worked(process.pid) < 3:  # of its own work: on a busy machine that takes longer
        time.sleep(0.1)
    process.send_signal(signal.SIGINT)
    process.communicate(timeout=120)
    if process.returncode == 0:
        pytest.skip("all was proved before the interruption came")
    assert process.returncode == 130
    assert json.loads((tmp_path / "best/numbers.json").read_text())["plan"]["stopped"]
