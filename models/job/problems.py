"""What is wrong with a job file, as data and as one line each: which key, what was found, what was expected."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails
from scarfwright.models.job.by_name import is_list, table_model
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import shown


def visible(text: str) -> str:
    """The text on one line, with control characters as the escapes they are typed as."""
    return "".join(c if c.isprintable() or c == "\u00a0" else repr(c)[1:-1] for c in text)


@dataclass(frozen=True)
class Problem:
    """One thing wrong with what was given; empty or None where it can't be told.

    `path` is the key as data: ("saw", "kerf"), ("board", 0, "length"); lists count from 0.
    """

    text: str
    file: str | None = None
    line: int | None = None
    key: str | None = None
    found: str | None = None
    expected: str | None = None
    path: tuple[str | int, ...] = ()

    def as_json(self) -> dict[str, Any]:
        return {key: value for key, value in asdict(self).items() if key != "text"} | {"text": self.text}


class JobError(ValueError):
    """The job can't be used. `problems` holds all that is wrong, the worst first; `str()` is that one's line."""

    def __init__(self, *problems: Problem) -> None:
        self.problems = problems
        super().__init__(problems[0].text)


def problem(
    file: str,
    what: str,
    *,
    line: int | None = None,
    key: str = "",
    place: str = "",
    path: tuple[str | int, ...] = (),
) -> Problem:
    """A problem from its sentence "found ..., expected ..."; `place` stands for the line where a column is known."""
    where = place or (f", line {line}" if line else "")
    text = f"{file}{where}: {key + ': ' if key else ''}{what}"
    found, expected = parts_of(what)
    return Problem(visible(text), file, line, key or None, found, expected, path)


def parts_of(what: str) -> tuple[str | None, str | None]:
    """What was found and what was expected, as the sentence says it."""
    before, _, after = what.partition("expected ")
    found = before.strip(" ,;:").removeprefix("found ")
    return (visible(found) or None, visible(after) or None)


def problems_of(error: ValidationError, name: str, text: str) -> list[Problem]:
    """Everything wrong with the values, slips of the key first: a key that a slip left missing is not told besides."""
    found = sorted(error.errors(), key=lambda e: _severity(e["type"]))
    slips = {_nearest(e) for e in found if e["type"] == "extra_forbidden"}
    told = [e for e in found if not (e["type"] == "missing" and _path(e) in slips)]
    return [_problem(one, name, text) for one in told]


def _severity(kind: str) -> int:
    """Slips of the key first: they often explain the missing ones."""
    return {"extra_forbidden": 0, "missing": 2}.get(kind, 1)


def _path(error: ErrorDetails) -> tuple[str, ...]:
    return tuple(part for part in error["loc"] if isinstance(part, str))


def _nearest(error: ErrorDetails) -> tuple[str, ...]:
    path = _path(error)
    known = _known_keys(path[:-1])
    return (*path[:-1], (difflib.get_close_matches(path[-1], known, 1, 0.0) or [known[0]])[0])


def _problem(error: ErrorDetails, name: str, text: str) -> Problem:
    path, kind = _path(error), error["type"]
    line, key, loc = line_of(text, path, _which(error["loc"])), _key_name(error["loc"]), tuple(error["loc"])
    if kind == "extra_forbidden" and path[-1] == "include":
        said = "found include in a table, expected it above the first table of the file"
        return problem(name, said, line=line, key=key, path=loc)
    if kind == "extra_forbidden":
        near = _nearest(error)[-1]
        what = "table" if len(path) == 1 and isinstance(error["input"], dict | list) else "key"
        said = f'unknown {what} "{path[-1]}"; the nearest known one is "{near}"'
        plain = problem(name, said, line=line, key=key, path=loc)
        return Problem(plain.text, name, line, key, visible(path[-1]), near, loc)
    if kind == "missing" and isinstance(error["loc"][-1], str):
        return problem(name, f"is missing; expected {_expected(path)}", line=line, key=key, path=loc)
    if kind in ("value_error", "assertion_error"):
        return problem(name, str(error["ctx"]["error"]), line=line, key=key, path=loc)
    if kind == "missing":  # a list too short is reported at the place that is missing: count it instead
        said = f"found {len(error['input'])} values, expected {_several(path)}"
        return problem(name, said, line=line, key=_key_name(path), path=path)
    return problem(
        name, f"found {shown(error['input'])}, expected {_wanted(error, path)}", line=line, key=key, path=loc
    )


def _known_keys(path: tuple[str, ...]) -> list[str]:
    model = table_model(path[0]) if path else Job
    found = list(model.model_fields) if model else []
    return found if path else [*found, "include"]


def _expected(path: tuple[str, ...]) -> str:
    if path == ("blank", "curve"):
        return 'pairs of station and offset such as [["0 mm", "0 mm"], ["500 mm", "80 mm"], ...]'
    if len(path) == 1:
        return f"a table [{path[0]}] with at least {', '.join(_required(path[0]))}"
    return 'a value such as "22 mm"' if path[-1] != "ratio" else 'a slope such as "12:1" or 12'


def _required(table: str) -> list[str]:
    model: Any = Job.model_fields[table].annotation
    return [key for key, field in model.model_fields.items() if field.is_required()]


def _wanted(error: ErrorDetails, path: tuple[str, ...]) -> str:
    """What a plain value should have been, in the words of the file format."""
    limits = error.get("ctx", {})
    kind = error["type"]
    if kind in ("model_type", "list_type") and is_list(path[0]):
        return f"a list of tables [[{path[0]}]]"
    if kind == "model_type":
        return f"a table [{path[0]}]" + (", once" if isinstance(error["input"], list) else "")
    if kind == "literal_error":
        return str(limits["expected"]).replace("'", '"')
    if kind in ("greater_than_equal", "less_than_equal"):
        return f"{limits['ge']:g} or more" if "ge" in limits else f"{limits['le']:g} or less"
    if kind == "greater_than":
        return f"more than {limits['gt']:g}"
    if kind == "string_too_long":
        return f"at most {limits['max_length']} characters"
    if kind == "too_long":
        return f"at most {limits['max_length']} values"
    if kind == "tuple_type":
        return _several(path)
    return _KINDS.get(kind.split("_")[0], error["msg"])


def _several(path: tuple[str, ...]) -> str:
    """A list of so many lengths, by its default."""
    model: Any = Job.model_fields[path[0]].annotation
    default = model.model_fields[path[1]].json_schema_extra["default"]
    return f"{len(default)} lengths such as {shown(default)}"


_KINDS = {
    "int": "a whole number",
    "float": "a number",
    "finite": "a finite number",
    "string": "text in quotes",
    "list": 'a list of lengths such as ["300 mm", "420 mm"]',
}


def _key_name(loc: Sequence[int | str]) -> str:
    names = [str(part) or '""' for part in loc]
    if len(loc) == 1:
        return names[0]
    if _which(loc):
        tail = "".join(f" {part}" for part in loc[2:])
        return f"[[{names[0]}]] number {_which(loc)}{tail}"
    tail = "".join(f"[{part}]" if isinstance(part, int) else f" {part}" for part in loc[1:])
    return f"[{names[0]}]{tail}"


def _which(loc: Sequence[int | str]) -> int:
    """Which of a list of tables a message is about, from 1; 0 where it is a table of its own."""
    listed = len(loc) > 1 and isinstance(loc[1], int) and str(loc[0]) in Job.model_fields and is_list(str(loc[0]))
    return int(loc[1]) + 1 if listed else 0


def line_of(text: str, path: tuple[str, ...], which: int = 0) -> int | None:
    """The line of a key, found by reading headers and keys in order; None where it can't be told.

    `which`: of a list of tables, the one meant, from 1; 0 for the first that fits.
    """
    if not text or not path or '"""' in text or "'''" in text:  # text over several lines may look like keys
        return None
    table: tuple[str, ...] = ()
    before = max(which - 1, 0)  # headers of the same name to go past
    for number, line in enumerate(text.split("\n"), 1):
        header = re.match(r"^\s*\[\[?([^\]]+)\]", line)
        if header:
            table = _names(header[1])
            if before and table[:1] == path[:1]:
                before, table = before - 1, ("", *table)
            if table[: len(path)] == path:
                return number
        key = re.match(r"^\s*([\w.\-\"' ]+?)\s*=", line)
        if key:
            full = (*table, *_names(key[1]))
            inside = len(full) < len(path) and full == path[: len(full)] and "{" in line
            if full[: len(path)] == path or inside:
                return number
    return None


def _names(key: str) -> tuple[str, ...]:
    """The parts of a dotted key or header, quotes taken off."""
    return tuple(part.strip().strip("\"'") for part in key.split("."))
