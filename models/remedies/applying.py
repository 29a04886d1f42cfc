"""A remedy written into a job."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from scarfwright.models.findings import Remedy, Written
from scarfwright.models.job.fields import Plank
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit, parse_length

NUMBERS = frozenset({"joint.ratio", "sled.layers"})


def applied(job: Job, remedy: Remedy) -> Job:
    """The job with the keys of the remedy set as written."""
    tables: dict[str, dict[str, Any]] = defaultdict(dict)
    for key, value in remedy:
        table, name = key.split(".")
        tables[table][name] = _value(key, value, job.units)
    return job.model_copy(update={table: getattr(job, table).model_copy(update=keys) for table, keys in tables.items()})


def _value(key: str, value: Written, units: Unit) -> Any:
    if value == "auto" or key in NUMBERS:
        return value
    if key == "sled.plank":
        assert isinstance(value, list)
        thickness, width = (parse_length(text, units) for text in value)
        return Plank(thickness, width, None)
    if isinstance(value, list):
        return [parse_length(text, units) for text in value]
    return parse_length(value, units)
