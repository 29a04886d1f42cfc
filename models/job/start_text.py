"""The commented job to begin from and the JSON Schema, both from the models' own descriptions and defaults."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from scarfwright.models.job.file import toml_value
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit

_SAMPLES: dict[Unit, dict[str, str]] = {
    "mm": {"thickness": '"22 mm"', "height": '"60 mm"', "ratio": "12"},
    "in": {"thickness": '"3/4 in"', "height": '"2 1/2 in"', "ratio": "12"},
}
_OPTIONAL = {
    "finished_thickness": "20 mm",
    "length": "2.4 m",
    "teeth": "24",
    "rpm": "4000",
    "max_rpm": "7000",
    "feed_time": "8",
    "guard_front": "300 mm",
}


def starting_text(units: Unit) -> str:
    """A job with the three numbers it needs and every other key commented out at its default."""
    lines = [
        '# A scarfwright job. Lengths: "22 mm", "0.9 m", "3/4 in", "5 ft 6 1/2 in", or bare numbers in `units`.',
        "# Keys behind a # show their defaults; take the # away to change one.",
        'title = "My first scarf"',
        f'units = "{units}"',
    ]
    for table, field in Job.model_fields.items():
        model = field.annotation
        if isinstance(model, type) and issubclass(model, BaseModel):
            lines += ["", f"# {model.__doc__}", f"[{table}]"]
            lines += [_key(key, value, units) for key, value in model.model_fields.items()]
    return "\n".join(lines) + "\n"


def _key(key: str, field: FieldInfo, units: Unit) -> str:
    sample = _SAMPLES[units].get(key)
    line = f"{key} = {sample}" if field.is_required() else f"# {key} = {_default(key, field, units)}"
    return f"{line:<34} # {field.description}"


def _default(key: str, field: FieldInfo, units: Unit) -> str:
    extra = field.json_schema_extra if isinstance(field.json_schema_extra, dict) else {}
    if units == "in" and "inch" in extra:
        return toml_value(extra["inch"])
    if field.default is None:
        return _example(key)
    return toml_value(field.default)


def _example(key: str) -> str:
    """Something of the right form for a key that has no default."""
    text = _OPTIONAL.get(key, "150 mm")
    return text if text.isdigit() else toml_value(text)


def job_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of the job file."""
    schema = Job.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "scarfwright job"
    return schema
