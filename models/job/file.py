"""Reading and writing the job file (TOML 1.0): one clear message for whatever is wrong with it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from scarfwright.models.job.by_name import is_list, table_model
from scarfwright.models.job.fields import Plank
from scarfwright.models.job.problems import JobError, line_of, problems_of
from scarfwright.models.job.reading.shop_file import Shop, included, overruled, read_shop, with_shop
from scarfwright.models.job.reading.toml_text import read_text, tables_of
from scarfwright.models.job.tables import Job, old_keys_read
from scarfwright.models.lengths.length import Length, Unit
from scarfwright.models.quantities.quantity import Quantity


@dataclass(frozen=True)
class Read:
    """A job as read, and the shop file its machines came from (None: all stands in the job).

    `taken`: keys that the shop alone gives. `kept`: keys that both give, to other values: the job's own won.
    """

    job: Job
    shop: Shop | None = None
    taken: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()


def read_job(path: Path) -> Job:
    """Read a job file, with the shop file it includes. Raises JobError for anything that is wrong with either."""
    return read_whole(path).job


def read_whole(path: Path, shop: Path | None = None) -> Read:
    """The same, telling where its parts came from. `shop`: a shop file to take in place of the one it includes."""
    return whole_from_text(read_text(path), str(path), beside=path, shop=shop)


def job_from_text(text: str, name: str = "job") -> Job:
    """Read a job from TOML text; `name` stands for the file in messages. Raises JobError."""
    return whole_from_text(text, name).job


def whole_from_text(text: str, name: str, *, beside: Path | None = None, shop: Path | None = None) -> Read:
    """The job in TOML text. `beside`: the job's own file, where there is one to stand beside. Raises JobError."""
    raw = tables_of(text, name)
    wanted = raw.pop("include", None)
    line = line_of(text, ("include",))
    if shop is not None:
        taken = read_shop(shop)
    elif wanted is not None:
        taken = included(wanted, name, line, beside)
    else:
        return Read(job_from_dict(raw, name, text))
    mine = old_keys_read(raw)
    both = overruled(mine, taken)
    job = job_from_dict(with_shop(mine, taken), name, text)
    alone = tuple(key for key in taken.given() if key not in both)
    return Read(job, taken, alone, tuple(key for key in both if _other(job, taken, key)))


def _other(job: Job, shop: Shop, key: str) -> bool:
    """Whether the job's own value of a key that both give is another."""
    if key == "shop_has":
        return bool(job.shop_has != shop.tables[key])
    table, _, name = key.partition(".")
    return bool(getattr(getattr(job, table), name) != shop.tables[table][name])


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
