"""The figures of test joints asked for one by one on a terminal."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from typing import Any

from scarfwright.models.lengths.length import LengthError, Unit, parse_length
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.forms import FORMS
from scarfwright.models.tuning.measured import TestJoint
from scarfwright.models.tuning.reader import MeasuredError, Problem, measured_from_dict
from scarfwright.models.words.the_joint.asking import ANOTHER, INTRO, NOTHING, Question, questions

TYPED = "what was typed"
# a comma with a digit on either side of it is a decimal one, any other stands between two parts
_BETWEEN = re.compile(r";|(?<!\d),|,(?!\d)")


def ask_for(plan: Plan, ask: Callable[[str], str] | None = None) -> tuple[TestJoint, ...]:
    """Every figure of one or several joints; an answer that can't be used is asked for again, the end of the input ends
    the asking. Raises MeasuredError where nothing was told."""
    if ask is None and not sys.stdin.isatty():
        wanted = "--measured FILE, or a terminal to type them on"
        raise MeasuredError([Problem("tune", None, "--measured", "no measurements", wanted)])
    ask = ask or _on_terminal
    tables: list[dict[str, Any]] = []
    print(INTRO, file=sys.stderr)
    try:
        while not tables or ask(ANOTHER).strip().casefold() in ("y", "yes"):
            tables.append({})
            for question in questions(plan):
                _answer(question, tables[-1], plan, ask)
    except EOFError:
        print(file=sys.stderr)
    tables = [table for table in tables if table]
    if not tables:
        raise MeasuredError([Problem(TYPED, None, "", "no measurement", NOTHING)])
    return measured_from_dict({"test_joint": tables}, TYPED, plan)


def _on_terminal(question: str) -> str:
    """Ask where it is seen even if the answer of the command goes into a file."""
    print(question, end="", file=sys.stderr, flush=True)
    return input()


def _answer(question: Question, table: dict[str, Any], plan: Plan, ask: Callable[[str], str]) -> None:
    """Put what is typed under its key, once it can be used."""
    while text := ask(question.text).strip():
        value = question.value(parts(text, plan.units))
        wrong = _wrong(question, text, value, plan)
        if wrong is not None:
            print(wrong, file=sys.stderr)
            continue
        if question.board is None:
            table[question.key] = value
        else:
            table.setdefault(question.key, []).append(value)
        if not question.more:
            return


def _wrong(question: Question, text: str, value: Any, plan: Plan) -> str | None:
    """Why an answer can't be used; None if it can."""
    if value is None:
        return f'Found "{text}", expected {question.forms}.'
    alone = value if question.board is None else [value]
    try:
        measured_from_dict({"test_joint": [{question.key: alone}]}, TYPED, plan)
    except MeasuredError as error:
        one = error.problems[0]
        expected = question.forms if one.expected == FORMS[question.key] else one.expected
        return f"Found {one.found}, expected {expected}."
    return None


def parts(text: str, units: Unit) -> list[str]:
    """The parts of an answer; figures without a unit are in the job's. "1,5 mm" is one figure, "2 mm, 300 mm" are two;
    with a ";" between parts every comma is a decimal one."""
    split = text.split(";") if ";" in text else _BETWEEN.split(text)
    return [_with_unit(part.strip(), units) for part in split]


def _with_unit(text: str, units: Unit) -> str:
    if len(text) > 1 and text[0] == text[-1] == '"':
        text = text[1:-1]  # as it would stand in a file
    try:
        return parse_length(text, units, bare=True).text
    except LengthError:
        return text
