"""Stretches along a board or a blank: pairs of from and to."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field, PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema
from scarfwright.models.job.fields import units_of
from scarfwright.models.lengths.length import Length, LengthError, parse_length, shown

_EXAMPLE = '[["300 mm", "345 mm"], ["1.2 m", "1.25 m"]]'
_PAIR: dict[str, Any] = {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 2, "maxItems": 2}
MOST_STRETCHES = 100


def _stretches(value: object, info: ValidationInfo) -> list[tuple[Length, Length]]:
    if not isinstance(value, list | tuple):
        raise LengthError(f"found {shown(value)}, expected [from, to] pairs such as {_EXAMPLE}")
    if len(value) > MOST_STRETCHES:
        raise LengthError(f"found {len(value)} pairs, expected at most {MOST_STRETCHES}")
    found = []
    for number, pair in enumerate(value, 1):
        if not isinstance(pair, list | tuple) or len(pair) != 2:
            raise LengthError(f"pair {number}: found {shown(pair)}, expected where it begins and where it ends")
        try:
            first, last = (v if isinstance(v, Length) else parse_length(v, units_of(info)) for v in pair)
        except LengthError as error:
            raise LengthError(f"pair {number}: {error}") from None
        if first >= last:
            raise LengthError(
                f"pair {number}: found {first.text} to {last.text}, expected the beginning before the end"
            )
        found.append((first, last))
    return found


Stretches = Annotated[
    list[tuple[Length, Length]],
    PlainValidator(_stretches),
    PlainSerializer(lambda pairs: [[a.text, b.text] for a, b in pairs]),
    WithJsonSchema({"type": "array", "items": _PAIR}),
]


def stretch_field(about: str) -> Any:
    return Field(default=[], description=about, json_schema_extra={"example": _EXAMPLE})
