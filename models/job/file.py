"""Reading and writing the job file (TOML 1.0): one clear message for whatever is wrong with it."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from scarfwright.models.job.by_name import is_list, table_model
from scarfwright.models.job.fields import Plank
from scarfwright.models.job.problems import JobError, problem, problems_of
from scarfwright.models.job.tables import Job, old_keys_read
from scarfwright.models.lengths.length import Length, Unit
from scarfwright.models.quantities.quantity import Quantity

LARGEST_BYTES = 1_000_000  # a job is a page of text; more is some other file


def read_job(path: Path) -> Job:
    """Read a job file. Raises JobError with one message for anything that is wrong with it."""
    return job_from_text(read_text(path), str(path))


def read_text(path: Path) -> str:
    """The text of a job file, or a JobError that says why there is none."""
    try:
        data = _bytes(path)
    except OSError as error:
        raise JobError(problem(str(path), f"can't be read ({error.strerror}); expected a job file in TOML")) from None
    if len(data) > LARGEST_BYTES:
        raise JobError(problem(str(path), f"larger than {LARGEST_BYTES} bytes; expected a job file in TOML"))
    if not data.strip():
        raise JobError(
            problem(str(path), "the file is empty; expected at least [stock] thickness, height and [joint] ratio")
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise JobError(
            problem(str(path), f"byte {error.start} is not UTF-8 text; expected a job file in TOML")
        ) from None
    if "\0" in text:
        raise JobError(problem(str(path), "holds binary data; expected a job file in TOML"))
    return text.replace("\r\n", "\n")


def _bytes(path: Path) -> bytes:
    """What the file holds, no more than shows that it is too large. A pipe or a device is not even opened."""
    if not path.exists():
        raise JobError(
            problem(str(path), f"no such file; expected a job file (make one with: scarfwright start {path})")
        )
    if path.is_dir():
        raise JobError(problem(str(path), "is a folder; expected a job file in TOML"))
    if not path.is_file():
        raise JobError(problem(str(path), "is not an ordinary file; expected a job file in TOML"))
    with path.open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def job_from_text(text: str, name: str = "job") -> Job:
    """Read a job from TOML text; `name` stands for the file in messages."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line, place, what = _place(str(error), text)
        said = f'{what}; expected TOML such as: thickness = "22 mm"'
        raise JobError(problem(name, said, line=line, place=place)) from None
    except ValueError:  # the only other one: an integer of more digits than Python reads
        raise JobError(problem(name, "a number of thousands of digits; expected a job file in TOML")) from None
    except RecursionError:
        raise JobError(problem(name, "nested too deeply; expected a job file in TOML")) from None
    return job_from_dict(raw, name, text)


def job_from_dict(raw: dict[str, Any], name: str = "job", text: str = "") -> Job:
    """Build a job from plain tables. Raises JobError."""
    asked = raw.get("units", "mm")
    units: Unit = "in" if asked == "in" else "mm"  # what is no unit is told with all else that is wrong
    filled = fill_defaults(old_keys_read(raw), units)
    try:
        return Job.model_validate(filled, context={"units": units})
    except ValidationError as error:
        raise JobError(*problems_of(error, name, text)) from None


def fill_defaults(raw: dict[str, Any], units: Unit) -> dict[str, Any]:
    """The tables with inch jobs' own defaults written in; the caller's tables are not changed."""
    filled = dict(raw)
    if units == "mm":
        return filled
    for table in Job.model_fields:
        model = table_model(table)
        if model is None or is_list(table):
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


def _place(message: str, text: str) -> tuple[int | None, str, str]:
    """tomllib's "... (at line 3, column 5)": the line, the place in words, and what is wrong there."""
    match = re.match(r"^(?P<what>.*?) \(at (?P<where>.*)\)$", message, re.DOTALL)
    if match is None:
        return None, "", message
    where = match["where"]
    if where == "end of document":
        last = text.rstrip("\n").split("\n")
        where = f"line {len(last)}, column {len(last[-1]) + 1} (end of the file)"
    line = re.match(r"line (\d+)", where)
    return (int(line[1]) if line else None), f", {where}", match["what"]


# -- writing -------------------------------------------------------------------------------------------


def job_to_toml(job: Job) -> str:
    """The job as understood: every default spelled out, "auto" left as "auto"; reading it gives the same job."""
    given = "shop_has" in job.model_fields_set  # what --only names for one run is no part of the job
    shop = f"shop_has = {toml_value(job.shop_has)}" if given else "# shop_has: not given"
    lines = [f"title = {toml_value(job.title)}", shop, f"units = {toml_value(job.units)}"]
    for table in Job.model_fields:
        value = getattr(job, table)
        if is_list(table):
            for one in value:
                lines += ["", f"[[{table}]]", *_table_lines(one)]
        elif isinstance(value, BaseModel):
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
    if isinstance(value, Length | Quantity):
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
