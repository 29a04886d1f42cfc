"""What the page begins with, the same for every job: the form's schema and the picture of what to measure."""

from __future__ import annotations

from functools import cache
from html import escape
from typing import Any

from scarfwright.models.job.forms.schema import INCLUDE, MEASURE, job_schema
from scarfwright.models.lengths.length import Unit
from scarfwright.outputs.formats.svg import inline_svg
from scarfwright.outputs.narrow.measuring import measuring_scenes
from scarfwright.outputs.page.order import FIRST, REST

UNITS: tuple[Unit, ...] = ("mm", "in")


@cache
def beginning() -> dict[str, Any]:
    """The schema for both units, and where to measure a saw and its clamps."""
    return {
        "schemas": {units: _form(units) for units in UNITS},
        "measure": _pictures(),
        "measureKey": MEASURE,
        "order": [*FIRST, *REST],
    }


def _form(units: Unit) -> dict[str, Any]:
    """The schema of a job that is whole: nothing comes from another file."""
    schema = job_schema(units)
    return {**schema, "properties": {k: one for k, one in schema["properties"].items() if k != INCLUDE}}


def _pictures() -> str:
    """Where to measure a saw and its clamps: the same for both units, as markup."""
    shown = []
    for one in measuring_scenes():
        picture, caption = inline_svg(one.sheet, f"{one.name}-", one.caption), escape(one.caption)
        shown.append(f"<figure>{picture}<figcaption>{caption}</figcaption></figure>")
    return "".join(shown)
