"""What the page begins with, the same for every job: the form's schema and the picture of what to measure."""

from __future__ import annotations

from functools import cache
from typing import Any

from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.forms.schema import INCLUDE, MEASURE, job_schema
from scarfwright.models.job.forms.start_text import Start
from scarfwright.models.lengths.length import Unit
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.page.pieces import FIRST, REST
from scarfwright.outputs.shop_drawings.measure_me import measure_me

UNITS: tuple[Unit, ...] = ("mm", "in")


@cache
def beginning() -> dict[str, Any]:
    """For both units: the schema, and where to measure a saw and its clamps."""
    return {
        "schemas": {units: _form(units) for units in UNITS},
        "measure": {units: _picture(units) for units in UNITS},
        "measureKey": MEASURE,
        "order": [*FIRST, *REST],
    }


def _form(units: Unit) -> dict[str, Any]:
    """The schema of a job that is whole: nothing comes from another file."""
    schema = job_schema(units)
    return {**schema, "properties": {k: one for k, one in schema["properties"].items() if k != INCLUDE}}


def _picture(units: Unit) -> str:
    given = Start(units).given
    tables: dict[str, Any] = {"units": units}
    for key, value in given.items():
        table, name = key.split(".")
        tables.setdefault(table, {})[name] = value
    return write_svg(measure_me(job_from_dict(tables)))
