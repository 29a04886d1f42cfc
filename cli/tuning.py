"""`scarfwright tune`: what a test joint says about the set-up, and what to change."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import Any

from scarfwright.cli.asking import ask_for
from scarfwright.cli.jobs import find
from scarfwright.cli.problems import as_data, problem
from scarfwright.cli.showing import say
from scarfwright.models.findings import faults
from scarfwright.models.solve import work_out
from scarfwright.models.tuning.measured import TestJoint
from scarfwright.models.tuning.plan import plan_of
from scarfwright.models.tuning.reader import MeasuredError, read_measured
from scarfwright.models.tuning.report import report
from scarfwright.models.tuning.tune import Tuned, tune
from scarfwright.models.tuning.writing import joint_to_toml
from scarfwright.models.words.the_joint import tuning as words
from scarfwright.outputs.formats.text import as_json

FORMAT = 1


def tune_job(path: Path | None, measured: Path | None, json: bool, log: bool, shop: Path | None = None) -> int:
    """Returns the exit code: 1 for a job with faults or readings that contradict each other, 2 for readings that can't
    be used, else 0. Raises JobError."""
    given = find(path, shop)
    file, work = given.file, work_out(given.job)
    wrong = faults(list(work.findings))
    if wrong and json:
        print(as_json({"format": FORMAT, "findings": [one.as_json() for one in wrong]}), end="")
    elif wrong:
        say.findings(wrong)
    if wrong:
        return 1
    plan = plan_of(work)
    try:
        joints = read_measured(measured, plan) if measured else ask_for(plan)
    except MeasuredError as error:
        return _refuse(error, json)
    found = tune(joints, plan)
    if json:
        print(as_json(_worded(found)), end="")
    else:
        if given.shop_line:
            say.console().print(given.shop_line)
        _show(found, file)
    if log:
        _log(joints, found, file.with_name(f"{file.stem}-test-joints.toml") if path else None)
    return 1 if found.contradictions else 0


def _refuse(error: MeasuredError, json: bool) -> int:
    if json:
        as_data([one.as_json() for one in error.problems])
    else:
        for one in error.problems:
            problem(one.text)
    return 2


def _worded(found: Tuned) -> dict[str, Any]:
    """The report with its sentences."""
    data = report(found)
    for one, text in zip(data["corrections"], words.correction_lines(found), strict=True):
        one["text"] = text
    data["text"] = [*words.contradiction_lines(found), *words.untold_lines(found)]
    return data


def _show(found: Tuned, file: Path) -> None:
    out = say.console()
    out.print(f"{file}: what the test joint says", style="bold")
    out.print(say.pairs("Set-up as cut", words.set_up_lines(found)))
    expected = words.expected_line(found)
    if expected:
        out.print(expected)
    for line in words.contradiction_lines(found):
        out.print(line)
    todo = words.correction_lines(found)
    if todo:
        out.print("To correct", style="bold")
        steps = [line for line, one in zip(todo, found.corrections, strict=True) if one.instead_of is None]
        for number, line in enumerate(steps, 1):
            out.print(f"  {number}. {line}")
        for line in todo:
            if line not in steps:
                out.print(line)
        out.print(words.say("defer"))
    elif words.nothing_to_correct(found):
        out.print(words.say("nothing"))
    for line in words.untold_lines(found):
        out.print(line)


def _log(joints: tuple[TestJoint, ...], found: Tuned, path: Path | None) -> None:
    """Append the joints to the log beside the job, with the day and what was found as comments."""
    if path is None:
        problem("--log: the packaged example has no folder of yours to keep a log in; nothing was logged")
        return
    said = [f"{name}: {text}" for name, text in words.set_up_lines(found)] + words.correction_lines(found)
    lines = [f"# {date.today().isoformat()}", *(f"# {line}" for line in said)]
    text = "\n".join(lines) + "\n" + "".join(joint_to_toml(joint) for joint in joints if not joint.empty) + "\n"
    with path.open("a", encoding="utf-8", newline="\n") as file:
        file.write(text)
    print(f"Logged in {path}", file=sys.stderr)
