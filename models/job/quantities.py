"""Fields of the job that are no lengths: stress, force, spread, time; and the names of adhesives."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import PlainSerializer, PlainValidator, WithJsonSchema
from scarfwright.models.adhesives.kinds import find_kind, nearest_kinds
from scarfwright.models.lengths.length import LengthError, shown
from scarfwright.models.quantities.quantity import FORCE, PRESSURE, SPREAD, STRESS, TIME, Kind, Quantity, parse_quantity

_SCHEMA: dict[str, Any] = {"anyOf": [{"type": "string"}, {"type": "number"}]}


def _field(kind: Kind) -> Any:
    """How a quantity of this kind is read, written and described."""
    return (
        PlainValidator(lambda value: parse_quantity(value, kind)),
        PlainSerializer(lambda value: value.text),
        WithJsonSchema({**_SCHEMA, "description": f"{kind.expected}; a bare number is in {kind.unit}"}),
    )


def _kind_name(value: object) -> str:
    """The adhesive kind's own name, whatever it was called."""
    kind = find_kind(value) if isinstance(value, str) else None
    if kind is None:
        near = " or ".join(f'"{name}"' for name in nearest_kinds(value if isinstance(value, str) else ""))
        raise LengthError(
            f"found {shown(value)}, expected {near}; of another kind, leave kind out and give spread and pressure"
        )
    return kind.name


Stress = Annotated[Quantity, *_field(STRESS)]
Pressure = Annotated[Quantity, *_field(PRESSURE)]
Force = Annotated[Quantity, *_field(FORCE)]
Spread = Annotated[Quantity, *_field(SPREAD)]
Time = Annotated[Quantity, *_field(TIME)]
AdhesiveName = Annotated[str, PlainValidator(_kind_name), WithJsonSchema({"type": "string"})]
