"""Reading the file of test joints (TOML 1.0): every problem names file, line, key, what was found and expected."""

from __future__ import annotations

import difflib
import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scarfwright.models.lengths.length import shown
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.forms import KEYS, Found, Wrong, joint_of
from scarfwright.models.tuning.measured import TestJoint
from scarfwright.models.tuning.plausible import implausible

LARGEST_BYTES = 200_000
MOST_JOINTS = 50
TABLE = "test_joint"
EXAMPLE = 'expected [[test_joint]] tables such as: taper_run = "259.4 mm"'


@dataclass(frozen=True)
class Problem:
    """One thing wrong with the file. line is None where it can't be told."""

    file: str
    line: int | None
    key: str
    found: str
    expected: str

    @property
    def text(self) -> str:
        place = self.file if self.line is None else f"{self.file}, line {self.line}"
        key = f": {self.key}" if self.key else ""
        text = f"{place}{key}: found {self.found}, expected {self.expected}"
        return "".join(c if c.isprintable() else repr(c)[1:-1] for c in text)

    def as_json(self) -> dict[str, Any]:
        named = {"file": self.file, "line": self.line, "key": self.key, "found": self.found, "expected": self.expected}
        return {**named, "text": self.text}


class MeasuredError(ValueError):
    """The measurements can't be used; `problems` says why, one for each thing wrong."""

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__("\n".join(problem.text for problem in problems))
        self.problems = tuple(problems)


def read_measured(path: Path, plan: Plan) -> tuple[TestJoint, ...]:
    """Read a file of test joints. Raises MeasuredError."""
    return measured_from_text(_text(path), str(path), plan)


def _text(path: Path) -> str:
    name, wanted = str(path), "a file of test joints in TOML"
    if not path.exists():
        raise MeasuredError([Problem(name, None, "", "no such file", wanted)])
    if not path.is_file():
        raise MeasuredError([Problem(name, None, "", "something that is not an ordinary file", wanted)])
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise MeasuredError(
            [Problem(name, None, "", f"a file that can't be read ({error.strerror})", wanted)]
        ) from None
    if len(data) > LARGEST_BYTES:
        raise MeasuredError([Problem(name, None, "", f"more than {LARGEST_BYTES} bytes", wanted)])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise MeasuredError([Problem(name, line, "", f"byte {error.start}, which is not UTF-8 text", wanted)]) from None
    return text.replace("\r\n", "\n")


def measured_from_text(text: str, name: str, plan: Plan) -> tuple[TestJoint, ...]:
    """Read test joints from TOML text; `name` stands for the file in messages. Raises MeasuredError."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise MeasuredError([_broken(str(error), text, name)]) from None
    except (ValueError, RecursionError):
        raise MeasuredError([Problem(name, None, "", "numbers or nesting beyond reading", EXAMPLE[9:])]) from None
    return measured_from_dict(raw, name, plan, text)


def measured_from_dict(raw: dict[str, Any], name: str, plan: Plan, text: str = "") -> tuple[TestJoint, ...]:
    """Test joints from plain tables: `{"test_joint": [{"tip": "0.5 mm"}, ...]}`. Raises MeasuredError."""
    tables = raw.get(TABLE, [])
    problems = [
        Problem(name, _line(text, 0, key), key, f'a key "{key}"', f"[[{TABLE}]] tables only")
        for key in raw
        if key != TABLE
    ]
    if isinstance(tables, dict):
        tables = [tables]  # one joint written as [test_joint]: what is meant is plain
    if not isinstance(tables, list) or not all(isinstance(table, dict) for table in tables):
        raise MeasuredError([*problems, Problem(name, _line(text, 0, TABLE), TABLE, shown(raw[TABLE]), EXAMPLE[9:])])
    if len(tables) > MOST_JOINTS:
        problems.append(Problem(name, None, TABLE, f"{len(tables)} test joints", f"at most {MOST_JOINTS}"))
    joints = []
    for number, table in enumerate(tables[:MOST_JOINTS], 1):
        joints.append(_joint(table, number, plan, problems, name, text))
    if not problems and all(joint.empty for joint in joints):
        problems.append(Problem(name, None, "", "no measurement", EXAMPLE[9:]))
    if problems:
        raise MeasuredError(problems)
    return tuple(joints)


def _joint(table: dict[str, Any], number: int, plan: Plan, problems: list[Problem], name: str, text: str) -> TestJoint:
    """One joint; what is wrong with it is added to the problems, all of it."""
    wrong: list[Wrong] = []
    known: dict[str, Any] = {}
    for key, value in table.items():
        if key in KEYS:
            known[key] = value
        else:
            near = (difflib.get_close_matches(key, KEYS, 1, 0.0) or [KEYS[0]])[0]
            wrong.append(Wrong(key, Found(f'unknown key "{key}"'), f'one of the known keys; the nearest is "{near}"'))
    joint = joint_of(known, number, plan.units, wrong)
    wrong += implausible(joint, plan)
    for one in wrong:
        line = _line(text, number, one.key)
        problems.append(Problem(name, line, f"{TABLE} {number}, {one.key}", one.found.text, one.expected))
    return joint


def _broken(message: str, text: str, name: str) -> Problem:
    """tomllib's "... (at line 3, column 5)" as a problem with its line."""
    match = re.match(r"^(?P<what>.*?) \(at (?:line (?P<line>\d+), column \d+|end of document)\)$", message, re.DOTALL)
    if match is None:
        return Problem(name, None, "", f"broken TOML ({message})", EXAMPLE[9:])
    line = int(match["line"]) if match["line"] else len(text.rstrip("\n").split("\n"))
    return Problem(name, line, "", f"broken TOML ({match['what']})", EXAMPLE[9:])


def _line(text: str, number: int, key: str) -> int | None:
    """The line of a key of the so-many-eth joint (0: before any), found by reading headers and keys in order."""
    seen = 0
    header = None
    for at, line in enumerate(text.split("\n"), 1):
        opened = re.match(r"^\s*\[\[?\s*([^\]]+?)\s*\]", line)
        if opened:
            seen += opened[1] == TABLE
            header = at if seen == number or (number == 0 and opened[1].startswith(key)) else header
            if number == 0 and opened[1].startswith(key):
                return at
        elif seen == number and re.match(rf"^\s*[\"']?{re.escape(key)}[\"']?\s*[=.]", line):
            return at
    return header
