"""A shop's own file: saw, clamps and machines once for all its jobs, taken into a job by `include` or --shop.

It holds nothing else: no board, no joint, and no other file. What the job gives itself wins, key by key. Its bare
numbers are in its own `units`; without these it may have none, for the job's may be others.
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import Field, ValidationError
from scarfwright.models.job.fields import Table
from scarfwright.models.job.problems import JobError, Problem, line_of, problem, problems_of
from scarfwright.models.job.reading.toml_text import read_text, tables_of
from scarfwright.models.job.shop import ShopHas
from scarfwright.models.job.tables import Clamp, Files, Job, Laser, Printer, Router, Saw, old_keys_read
from scarfwright.models.lengths.length import shown

TABLES = ("saw", "clamp", "printer", "laser", "router", "files")
KEYS = ("shop_has", *TABLES)
_EXPECTED = "shop_has, units, " + ", ".join(f"[{table}]" for table in TABLES)


class _ShopTables(Table):
    """The tables of a shop, as they stand in a job."""

    shop_has: ShopHas = ()
    saw: Saw = Field(default_factory=Saw.model_construct)
    clamp: Clamp = Field(default_factory=Clamp.model_construct)
    printer: Printer = Field(default_factory=Printer.model_construct)
    laser: Laser = Field(default_factory=Laser.model_construct)
    router: Router = Field(default_factory=Router.model_construct)
    files: Files = Field(default_factory=Files.model_construct)


@dataclass(frozen=True)
class Shop:
    """A shop file as read: its name, and of the shop's keys those it gives, each read in the file's own units."""

    name: str
    tables: Mapping[str, Any]

    def given(self) -> list[str]:
        """Dotted names of all it gives."""
        found = []
        for table, given in self.tables.items():
            found += [f"{table}.{key}" for key in given] if isinstance(given, dict) else [table]
        return found


def included(wanted: object, job: str, line: int | None, beside: Path | None) -> Shop:
    """The shop file that a job includes: a file beside it. Raises JobError."""

    def refused(found: str, expected: str) -> JobError:
        return JobError(problem(job, f"found {found}, expected {expected}", line=line, key="include"))

    name = 'the name of a file beside the job, such as "my-shop.toml"'
    if not isinstance(wanted, str) or not wanted.strip():
        raise refused(shown(wanted), name)
    if beside is None:
        raise refused(shown(wanted), "a job that is whole: here is no folder to look for another file in")
    if any(c in wanted for c in "/\\:\0") or wanted in (".", ".."):
        raise refused(shown(wanted), f"{name}; for one that lies elsewhere use --shop")
    path = beside.parent / wanted
    if not path.exists():
        raise refused(f"no file {wanted} beside the job", "one with the shop's saw, clamps and machines")
    if path.exists() and beside.exists() and path.samefile(beside):
        raise refused("the job itself", "another file beside it")
    return read_shop(path)


def read_shop(path: Path) -> Shop:
    """Read a shop file. Raises JobError, with the lines of that file."""
    text, name = read_text(path, "shop"), str(path)
    raw = tables_of(text, name, "shop")
    strange = [_strange(key, name, text) for key in raw if key not in (*KEYS, "units")]
    if strange:
        raise JobError(*strange)
    units = raw.pop("units", None)
    if units not in (None, "mm", "in"):
        said = f'found {shown(units)}, expected "mm" or "in"'
        raise JobError(problem(name, said, line=line_of(text, ("units",)), key="units"))
    raw = old_keys_read(raw)
    found = _validated(raw, units or "mm", name, text)
    if units is None:
        bare = _others(found, _validated(raw, "in", name, text))
        if bare:
            raise JobError(*(_bare(table, key, raw, name, text) for table, key in bare))
    return Shop(name, found)


def _strange(key: str, name: str, text: str) -> Problem:
    line = line_of(text, (key,))
    if key == "include":
        said = "found another file to include, expected none: an included file includes nothing itself"
    elif key in Job.model_fields:
        said = f"belongs to a job; expected of a shop only {_EXPECTED}"
    else:
        near = difflib.get_close_matches(key, (*KEYS, "units"), 1, 0.0)[0]
        said = f'unknown key "{key}"; the nearest known one is "{near}"'
    return problem(name, said, line=line, key=key)


def _validated(raw: dict[str, Any], units: str, name: str, text: str) -> dict[str, Any]:
    """What the file gives, read: {"shop_has": ..., "saw": {"kerf": ...}}."""
    try:
        found = _ShopTables.model_validate(raw, context={"units": units})
    except ValidationError as error:
        raise JobError(*problems_of(error, name, text)) from None
    given: dict[str, Any] = {}
    for key in KEYS:
        if key in found.model_fields_set:
            value = getattr(found, key)
            given[key] = {k: getattr(value, k) for k in raw[key]} if isinstance(value, Table) else value
    return given


def _others(one: dict[str, Any], other: dict[str, Any]) -> list[tuple[str, str]]:
    """Keys whose value depends on the unit in which bare numbers are read."""
    tables = [(table, given) for table, given in one.items() if isinstance(given, dict)]
    return [(table, key) for table, given in tables for key in given if given[key] != other[table][key]]


def _bare(table: str, key: str, raw: dict[str, Any], name: str, text: str) -> Problem:
    said = f"found {shown(raw[table][key])} without a unit, expected one with it, or units at the head of the file"
    return problem(name, said, line=line_of(text, (table, key)), key=f"[{table}] {key}")


def with_shop(raw: dict[str, Any], shop: Shop) -> dict[str, Any]:
    """The job's tables with the shop's keys where the job gives none; the caller's tables are not changed."""
    whole = dict(raw)
    for name, given in shop.tables.items():
        own = raw.get(name)
        if isinstance(given, dict) and isinstance(own, dict):
            whole[name] = {**given, **own}
        elif name not in raw:
            whole[name] = given
    return whole


def overruled(raw: dict[str, Any], shop: Shop) -> list[str]:
    """Dotted names of the keys that both give."""
    found = []
    for key in shop.given():
        table, _, name = key.partition(".")
        own = raw.get(table)
        if (not name and table in raw) or (isinstance(own, dict) and name in own):
            found.append(key)
    return found
