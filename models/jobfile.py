"""Reading and writing the job file (TOML 1.0): one clear message for whatever is wrong with it."""

from __future__ import annotations

import difflib
import json
import re
import tomllib
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from scarfwright.models.job import Job, Plank
from scarfwright.models.units import Length, Unit

LARGEST_BYTES = 1_000_000  # a job is a page of text; more is some other file


class JobError(ValueError):
    """The job can't be used. `str()` is one line: file, line or key, what was found, what was expected."""


def read_job(path: Path) -> Job:
    """Read a job file. Raises JobError with one message for anything that is wrong with it."""
    return job_from_text(read_text(path), str(path))


def read_text(path: Path) -> str:
    """The text of a job file, or a JobError that says why there is none."""
    if not path.exists():
        raise JobError(f"{path}: no such file; expected a job file (make one with: scarfwright start {path})")
    if path.is_dir():
        raise JobError(f"{path}: is a folder; expected a job file in TOML")
    if not path.is_file():
        raise JobError(f"{path}: is not an ordinary file; expected a job file in TOML")
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
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


def job_from_text(text: str, name: str = "job") -> Job:
    """Read a job from TOML text; `name` stands for the file in messages."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise JobError(f'{name}: {_place(str(error))}; expected TOML such as: thickness = "22 mm"') from None
    except RecursionError:
        raise JobError(f"{name}: nested too deeply; expected a job file in TOML") from None
    return job_from_dict(raw, name, text)


def job_from_dict(raw: dict[str, Any], name: str = "job", text: str = "") -> Job:
    """Build a job from plain tables. Raises JobError."""
    units = raw.get("units", "mm")
    if units not in ("mm", "in"):
        raise JobError(f'{name}{_line(text, ("units",))}: units: found {_shown(units)}, expected "mm" or "in"')
    filled = fill_defaults(raw, units)
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


def _place(message: str) -> str:
    """tomllib's "... (at line 3, column 5)" with the place first."""
    match = re.match(r"^(?P<what>.*?) \(at (?P<where>.*)\)$", message, re.DOTALL)
    return f"{match['where']}: {match['what']}" if match else message


def _message(error: ValidationError, name: str, text: str) -> str:
    first = min(error.errors(), key=lambda e: _severity(e["type"]))
    path = tuple(part for part in first["loc"] if isinstance(part, str) and part != "auto")
    where = f"{name}{_line(text, path)}: {_key_name(first['loc'])}"
    kind = first["type"]
    if kind == "extra_forbidden":
        known = _known_keys(path[:-1])
        near = (difflib.get_close_matches(path[-1], known, 1, 0.0) or [known[0]])[0]
        what = "table" if len(path) == 1 and isinstance(first["input"], dict | list) else "key"
        return f'{where}: unknown {what} "{path[-1]}"; the nearest known one is "{near}"'
    if kind == "missing":
        return f"{where}: is missing; expected {_expected(path)}"
    if kind in ("value_error", "assertion_error"):
        return f"{where}: {first['ctx']['error']}"
    return f"{where}: found {_shown(first['input'])}, expected {_readable(first['msg'])}"


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


def _readable(message: str) -> str:
    text = message.removeprefix("Input should be ").removeprefix("Value should have ")
    return text[:1].lower() + text[1:]


def _key_name(loc: tuple[int | str, ...]) -> str:
    parts = [p for p in loc if p != "auto"]
    if len(parts) == 1:
        return str(parts[0])
    tail = "".join(f"[{p}]" if isinstance(p, int) else f" {p}" for p in parts[1:])
    return f"[{parts[0]}]{tail}"


def _line(text: str, path: tuple[str, ...]) -> str:
    """ ", line 12" for a key, found by reading headers and keys in order; "" where it can't be told."""
    if not text or not path:
        return ""
    table = ""
    for number, line in enumerate(text.splitlines(), 1):
        header = re.match(r"^\s*\[\[?\s*([\w.\-\"']+)\s*\]\]?", line)
        if header:
            table = header[1].strip("\"'")
            if (table,) == path:
                return f", line {number}"
        key = re.match(r"^\s*([\w.\-\"']+)\s*=", line)
        if key:
            full = [p for p in (table, *key[1].replace('"', "").replace("'", "").split(".")) if p]
            if full == list(path)[: len(full)] and (len(full) == len(path) or "{" in line):
                return f", line {number}"
    return ""


def _shown(value: object) -> str:
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else text[:57] + "..."


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
