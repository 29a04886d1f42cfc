"""A job as plain tables, as a form holds it: only the keys that were filled in; from a file's text and back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, datetime, time
from typing import Any, TypeGuard

from scarfwright.models.job.file import job_from_text, toml_value
from scarfwright.models.job.problems import JobError, problem
from scarfwright.models.job.reading.toml_text import tables_of
from scarfwright.models.job.tables import Job, old_keys_read

_BARE = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)


def plain_from_text(text: str, name: str) -> dict[str, Any]:
    """The tables of a job file that can be used as it stands. Raises JobError.

    A job that takes a part of itself from elsewhere is refused: a form holds a job whole.
    """
    tables = tables_of(text, name)
    if "include" in tables:
        raise JobError(
            problem(
                name,
                'found include, expected a job that is whole: a page reads no other file. "scarfwright make" on the '
                "job leaves a whole job.toml in its folder; open that one",
                key="include",
                path=("include",),
            )
        )
    job_from_text(text, name)
    return old_keys_read(tables)


def plain_to_text(tables: Mapping[str, Any]) -> str:
    """The tables as a job file, keys in the order of the job's: what is not in it stays open to its default."""
    lines = [_line(key, tables[key]) for key in Job.model_fields if key in tables and not _is_table(tables[key])]
    for key in Job.model_fields:
        found = tables.get(key)
        if isinstance(found, Mapping):
            lines += ["", f"[{key}]", *(_line(name, value) for name, value in found.items())]
        elif _is_list(found):
            for one in found:
                lines += ["", f"[[{key}]]", *(_line(name, value) for name, value in one.items())]
    return "\n".join(lines).lstrip("\n") + "\n"


def _is_table(value: object) -> bool:
    return isinstance(value, Mapping) or _is_list(value)


def _is_list(value: object) -> TypeGuard[list[Mapping[str, Any]]]:
    return isinstance(value, list) and bool(value) and all(isinstance(one, Mapping) for one in value)


def _line(key: str, value: object) -> str:
    if isinstance(value, datetime | date | time):  # no key of a job is one
        value = value.isoformat()
    return f"{key if _BARE.fullmatch(key) else toml_value(key)} = {toml_value(value)}"
