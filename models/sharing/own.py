"""Making a job one's own: saw, clamps and machines from one's own shop, all else from the job that was passed on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from scarfwright.models.job.by_name import is_list
from scarfwright.models.job.file import job_from_dict, job_from_text, toml_value
from scarfwright.models.job.reading.shop_file import KEYS, TABLES, Shop, with_shop
from scarfwright.models.job.reading.toml_text import tables_of
from scarfwright.models.job.tables import Job

AS_MADE = "_as_made"  # keys measured on a sled there is: not on the one that is still to be made


@dataclass(frozen=True)
class Changed:
    """A key of the shop that is another now. `given`: the shop file gives it; else it is the default."""

    key: str
    theirs: str
    mine: str
    given: bool


@dataclass(frozen=True)
class Own:
    """The new job file's text, the job in it, what is another now, and keys that were left out."""

    text: str
    job: Job
    changed: tuple[Changed, ...]
    left_out: tuple[str, ...]


def own_job(theirs: Job, shop: Shop | None, include: str | None, heading: Sequence[str]) -> Own:
    """The job with the shop's tables in place of its own.

    shop: None for no shop file: its keys then have their defaults. include: the name under which the new file
    includes the shop's; None writes its keys out. heading: comment lines. Raises JobError.
    """
    left_out = [f"sled.{key}" for key in type(theirs.sled).model_fields if _measured(theirs, key)]
    lines = [*heading, *_head(theirs, shop, include), *_theirs(theirs), *_mine(shop, include), *_lists(theirs)]
    text = "\n".join(lines) + "\n"
    raw = tables_of(text, "the new job")
    raw.pop("include", None)
    job = job_from_dict(with_shop(raw, shop), "the new job", text) if shop else job_from_text(text, "the new job")
    return Own(text, job, tuple(_changed(theirs, job, shop)), tuple(left_out))


def _measured(job: Job, key: str) -> bool:
    return key.endswith(AS_MADE) and getattr(job.sled, key) is not None


def _head(theirs: Job, shop: Shop | None, include: str | None) -> list[str]:
    found = [f"title = {toml_value(theirs.title)}", f"units = {toml_value(theirs.units)}"]
    if shop and include:
        found.append(f"include = {toml_value(include)}")
    elif shop and "shop_has" in shop.tables:
        found.append(f"shop_has = {toml_value(shop.tables['shop_has'])}")
    return found


def _theirs(theirs: Job) -> list[str]:
    """Their tables that are not of a shop, with what is not the default."""
    least = {"stock": _given(theirs.stock), "joint": _given(theirs.joint)}
    usual = job_from_dict({"units": theirs.units, **{table: _plain(given) for table, given in least.items()}})
    lines = []
    for name in Job.model_fields:
        table = getattr(theirs, name)
        if not isinstance(table, BaseModel) or name in TABLES:
            continue
        given = least.get(name) or {
            key: value
            for key, value in _given(table).items()
            if not key.endswith(AS_MADE) and value != getattr(getattr(usual, name), key)
        }
        lines += _table(f"[{name}]", given)
    return lines


def _plain(given: dict[str, Any]) -> dict[str, Any]:
    """As they are written: what was read once must not be read again as a bare number."""
    text = "\n".join(f"{key} = {toml_value(value)}" for key, value in given.items())
    return tables_of(text, "the job")


def _mine(shop: Shop | None, include: str | None) -> list[str]:
    if shop is None or include:
        return []
    return [
        line for name, given in shop.tables.items() if isinstance(given, dict) for line in _table(f"[{name}]", given)
    ]


def _lists(theirs: Job) -> list[str]:
    named = [(name, one) for name in Job.model_fields if is_list(name) for one in getattr(theirs, name)]
    return [line for name, one in named for line in _table(f"[[{name}]]", _given(one))]


def _given(table: BaseModel) -> dict[str, Any]:
    found = {key: getattr(table, key) for key in type(table).model_fields}
    return {key: value for key, value in found.items() if value is not None}


def _table(head: str, given: dict[str, Any]) -> list[str]:
    if not given:
        return []
    return ["", head, *(f"{key} = {toml_value(value)}" for key, value in given.items() if value is not None)]


def _changed(theirs: Job, mine: Job, shop: Shop | None) -> list[Changed]:
    given = set(shop.given()) if shop else set()
    found = []
    for table in KEYS:
        one, other = getattr(theirs, table), getattr(mine, table)
        if not isinstance(one, BaseModel):
            pairs = [(table, one, other)]
        else:
            pairs = [(f"{table}.{key}", getattr(one, key), getattr(other, key)) for key in type(one).model_fields]
        found += [Changed(key, _said(a), _said(b), key in given) for key, a, b in pairs if a != b]
    return found


def _said(value: object) -> str:
    if value is None or value == ():
        return "none"
    text = toml_value(value)
    return text.replace('\\"', "\0").replace('"', "").replace("\0", '"').strip("[]")
