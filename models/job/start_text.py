"""The commented job to begin from and the JSON Schema, both from the models' own descriptions and defaults."""

from __future__ import annotations

from typing import Any

from pydantic.fields import FieldInfo
from scarfwright.models.job.file import is_list, table_model, toml_value
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
    "feed_time": "8",
    "cutting_energy": "50",
    "motor_power": "1500",
    "guard_front": "300 mm",
    "modulus": "12 GPa",
    "rupture": "100 MPa",
    "force": "800 N",
    "count": "14",
    "kind": "PVA",
    "spread": "200 g/m2",
    "pressure": "0.7 MPa",
    "open_time": "10 min",
    "clamp_time": "24 h",
}


def starting_text(units: Unit) -> str:
    """A job with the three numbers it needs and every other key commented out at its default."""
    lines = [
        '# A scarfwright job. Lengths: "22 mm", "0.9 m", "3/4 in", "5 ft 6 1/2 in", or bare numbers in `units`.',
        "# Keys behind a # show their defaults; take the # away to change one.",
        'title = "My first scarf"',
        f'units = "{units}"',
    ]
    for table in Job.model_fields:
        model = table_model(table)
        if model is None:
            continue
        several = is_list(table)
        lines += ["", f"# {model.__doc__}", f"# [[{table}]]" if several else f"[{table}]"]
        lines += [_key(key, value, units, off=several) for key, value in model.model_fields.items()]
    return "\n".join(lines) + "\n"


def _key(key: str, field: FieldInfo, units: Unit, *, off: bool) -> str:
    """`off`: its whole table is commented out."""
    extra = field.json_schema_extra if isinstance(field.json_schema_extra, dict) else {}
    sample = extra.get("example", _SAMPLES[units].get(key))
    required = field.is_required() and not off
    line = f"{key} = {sample}" if required else f"# {key} = {sample if off and sample else _default(key, field, units)}"
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
