"""Reading and writing the job file (TOML 1.0): one clear message for whatever is wrong with it."""

from __future__ import annotations

import difflib
import json
import re
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails
from scarfwright.models.job.tables import Job, Plank, old_keys_read
from scarfwright.models.lengths.length import Length, Unit, shown

LARGEST_BYTES = 1_000_000  # a job is a page of text; more is some other file


class JobError(ValueError):
    """The job can't be used. `str()` is one line: file, line or key, what was found, what was expected."""

    def __init__(self, message: str) -> None:
        super().__init__("".join(c if c.isprintable() else repr(c)[1:-1] for c in message))


def read_job(path: Path) -> Job:
    """Read a job file. Raises JobError with one message for anything that is wrong with it."""
    return job_from_text(read_text(path), str(path))


def read_text(path: Path) -> str:
    """The text of a job file, or a JobError that says why there is none."""
    try:
        data = _bytes(path)
    except OSError as error:
        raise JobError(f"{path}: can't be read ({error.strerror}); expected a job file in TOML") from None
    if len(data) > LARGEST_BYTES:
        raise JobError(f"{path}: larger than {LARGEST_BYTES} bytes; expected a job file in TOML")
    if not data.strip():
        raise JobError(f"{path}: the file is empty; expected at least [stock] thickness, height and [joint] ratio")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise JobError(f"{path}: byte {error.start} is not UTF-8 text; expected a job file in TOML") from None
    if "\0" in text:
        raise JobError(f"{path}: holds binary data; expected a job file in TOML")
    return text.replace("\r\n", "\n")


def _bytes(path: Path) -> bytes:
    """What the file holds, no more than shows that it is too large. A pipe or a device is not even opened."""
    if not path.exists():
        raise JobError(f"{path}: no such file; expected a job file (make one with: scarfwright start {path})")
    if path.is_dir():
        raise JobError(f"{path}: is a folder; expected a job file in TOML")
    if not path.is_file():
        raise JobError(f"{path}: is not an ordinary file; expected a job file in TOML")
    with path.open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def job_from_text(text: str, name: str = "job") -> Job:
    """Read a job from TOML text; `name` stands for the file in messages."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise JobError(f'{name}{_place(str(error), text)}; expected TOML such as: thickness = "22 mm"') from None
    except ValueError:  # the only other one: an integer of more digits than Python reads
        raise JobError(f"{name}: a number of thousands of digits; expected a job file in TOML") from None
    except RecursionError:
        raise JobError(f"{name}: nested too deeply; expected a job file in TOML") from None
    return job_from_dict(raw, name, text)


def job_from_dict(raw: dict[str, Any], name: str = "job", text: str = "") -> Job:
    """Build a job from plain tables. Raises JobError."""
    units = raw.get("units", "mm")
    if units not in ("mm", "in"):
        raise JobError(f'{name}{_line(text, ("units",))}: units: found {shown(units)}, expected "mm" or "in"')
    filled = fill_defaults(old_keys_read(raw), units)
    try:
        return Job.model_validate(filled, context={"units": units})
    except ValidationError as error:
        raise JobError(_message(error, name, text)) from None


def fill_defaults(raw: dict[str, Any], units: Unit) -> dict[str, Any]:
    """The tables with inch jobs' own defaults written in; the caller's tables are not changed."""
    filled = dict(raw)
    if units == "mm":
        return filled
    for table, field in Job.model_fields.items():
        model = field.annotation
        if not (isinstance(model, type) and issubclass(model, BaseModel)):
            continue
        given = raw.get(table, {})
        if not isinstance(given, dict):
            continue
        inches = {key: extra["inch"] for key, extra in _extras(model).items() if "inch" in extra}
        if table in raw or inches:
            filled[table] = {**inches, **given}
    return filled


def _extras(model: type[BaseModel]) -> dict[str, dict[str, Any]]:
    return {
        key: field.json_schema_extra
        for key, field in model.model_fields.items()
        if isinstance(field.json_schema_extra, dict)
    }


def _place(message: str, text: str) -> str:
    """tomllib's "... (at line 3, column 5)" with the place first; the end of the document as a line too."""
    match = re.match(r"^(?P<what>.*?) \(at (?P<where>.*)\)$", message, re.DOTALL)
    if match is None:
        return f": {message}"
    where = match["where"]
    if where == "end of document":
        last = text.rstrip("\n").split("\n")
        where = f"line {len(last)}, column {len(last[-1]) + 1} (end of the file)"
    return f", {where}: {match['what']}"


def _message(error: ValidationError, name: str, text: str) -> str:
    first = min(error.errors(), key=lambda e: _severity(e["type"]))
    path = tuple(part for part in first["loc"] if isinstance(part, str))
    where = f"{name}{_line(text, path)}: {_key_name(first['loc'])}"
    kind = first["type"]
    if kind == "extra_forbidden":
        known = _known_keys(path[:-1])
        near = (difflib.get_close_matches(path[-1], known, 1, 0.0) or [known[0]])[0]
        what = "table" if len(path) == 1 and isinstance(first["input"], dict | list) else "key"
        return f'{where}: unknown {what} "{path[-1]}"; the nearest known one is "{near}"'
    if kind == "missing" and isinstance(first["loc"][-1], str):
        return f"{where}: is missing; expected {_expected(path)}"
    if kind in ("value_error", "assertion_error"):
        return f"{where}: {first['ctx']['error']}"
    if kind == "missing":  # a list too short is reported at the place that is missing: count it instead
        where = f"{name}{_line(text, path)}: {_key_name(path)}"
        return f"{where}: found {len(first['input'])} values, expected {_several(path)}"
    return f"{where}: found {shown(first['input'])}, expected {_wanted(first, path)}"


def _severity(kind: str) -> int:
    """Slips of the key first: they often explain the missing ones."""
    return {"extra_forbidden": 0, "missing": 2}.get(kind, 1)


def _known_keys(path: tuple[str, ...]) -> list[str]:
    model: Any = Job
    for part in path:
        model = model.model_fields[part].annotation
    return list(model.model_fields)


def _expected(path: tuple[str, ...]) -> str:
    if len(path) == 1:
        return f"a table [{path[0]}] with at least {', '.join(_required(path[0]))}"
    return 'a value such as "22 mm"' if path[-1] != "ratio" else "the N of a slope of 1 in N, such as 12"


def _required(table: str) -> list[str]:
    model: Any = Job.model_fields[table].annotation
    return [key for key, field in model.model_fields.items() if field.is_required()]


def _wanted(error: ErrorDetails, path: tuple[str, ...]) -> str:
    """What a plain value should have been, in the words of the file format."""
    limits = error.get("ctx", {})
    kind = error["type"]
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
    tail = "".join(f"[{part}]" if isinstance(part, int) else f" {part}" for part in loc[1:])
    return f"[{names[0]}]{tail}"


def _line(text: str, path: tuple[str, ...]) -> str:
    """ ", line 12" for a key, found by reading headers and keys in order; "" where it can't be told."""
    if not text or not path or '"""' in text or "'''" in text:  # text over several lines may look like keys
        return ""
    table: tuple[str, ...] = ()
    for number, line in enumerate(text.split("\n"), 1):
        header = re.match(r"^\s*\[\[?([^\]]+)\]", line)
        if header:
            table = _names(header[1])
            if table[: len(path)] == path:
                return f", line {number}"
        key = re.match(r"^\s*([\w.\-\"' ]+?)\s*=", line)
        if key:
            full = (*table, *_names(key[1]))
            inside = len(full) < len(path) and full == path[: len(full)] and "{" in line
            if full[: len(path)] == path or inside:
                return f", line {number}"
    return ""


def _names(key: str) -> tuple[str, ...]:
    """The parts of a dotted key or header, quotes taken off."""
    return tuple(part.strip().strip("\"'") for part in key.split("."))


# -- writing -------------------------------------------------------------------------------------------


def job_to_toml(job: Job) -> str:
    """The job as understood: every default spelled out, "auto" left as "auto"; reading it gives the same job."""
    lines = [f"title = {toml_value(job.title)}", f"units = {toml_value(job.units)}"]
    for table in Job.model_fields:
        value = getattr(job, table)
        if isinstance(value, BaseModel):
            lines += ["", f"[{table}]", *_table_lines(value)]
    return "\n".join(lines) + "\n"


def _table_lines(table: BaseModel) -> list[str]:
    lines = []
    for key in type(table).model_fields:
        value = getattr(table, key)
        lines.append(f"# {key}: not given" if value is None else f"{key} = {toml_value(value)}")
    return lines


def toml_value(value: object) -> str:
    """One value as TOML: lengths as text, everything else as TOML has it."""
    if isinstance(value, Length):
        return toml_value(value.text)
    if isinstance(value, Plank):
        return toml_value(value.written())
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() else repr(value)
    if isinstance(value, int):
        return repr(value)
    if isinstance(value, list | tuple):
        return "[" + ", ".join(toml_value(item) for item in value) + "]"
    # JSON's escapes are a subset of TOML's basic strings; DEL is the one character TOML wants escaped besides
    return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
