"""[[blank]]: a long glued-up piece and the curve it is bent to."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema
from scarfwright.models.bending.curve import CurveError, check_offsets
from scarfwright.models.job.fields import Size, Table, units_of
from scarfwright.models.lengths.length import Length, LengthError, parse_length, shown
from scarfwright.models.quantities.quantity import Quantity

_EXAMPLE = '[["0 mm", "0 mm"], ["500 mm", "80 mm"], ["1000 mm", "120 mm"], ["1500 mm", "130 mm"]]'
_PAIR: dict[str, Any] = {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 2, "maxItems": 2}


def _curve(value: object, info: ValidationInfo) -> list[tuple[Length, Length | Quantity]]:
    if not isinstance(value, list | tuple):
        raise LengthError(f"found {shown(value)}, expected [station, offset] pairs such as {_EXAMPLE}")
    points = []
    for number, pair in enumerate(value, 1):
        if not isinstance(pair, list | tuple) or len(pair) != 2:
            raise LengthError(f"pair {number}: found {shown(pair)}, expected a station and an offset")
        try:
            points.append((parse_length(pair[0], units_of(info)), _signed(pair[1], info)))
        except LengthError as error:
            raise LengthError(f"pair {number}: {error}") from None
    try:
        check_offsets(points)
    except CurveError as error:
        if error.index is None:
            raise LengthError(str(error)) from None
        here, before = points[error.index][0], points[error.index - 1][0]
        raise LengthError(
            f"pair {error.index + 1}: found station {here.text}, expected one beyond {before.text}, the one before it"
        ) from None
    return points


def _signed(value: object, info: ValidationInfo) -> Length | Quantity:
    """An offset: a length that may lie to either side."""
    if isinstance(value, Length | Quantity):
        return value
    units = units_of(info)
    if isinstance(value, str) and value.strip().startswith("-"):
        size = parse_length(value.strip()[1:], units)
    elif isinstance(value, int | float) and not isinstance(value, bool) and value < 0:
        size = parse_length(-value, units)
    else:
        return parse_length(value, units)
    return Quantity(-float(size), f"-{size.text}")


Curve = Annotated[
    list[tuple[Length, Length | Quantity]],
    PlainValidator(_curve),
    PlainSerializer(lambda points: [[station.text, offset.text] for station, offset in points]),
    WithJsonSchema({"type": "array", "items": _PAIR, "minItems": 4}),
]


class Blank(Table):
    """A long glued-up piece and the curve it is bent to: one [[blank]] for each, as many as there are."""

    name: str = Field(default="", max_length=40, description="What it is called.")
    length: Size | None = Field(default=None, description="Of the glued-up piece; it begins where the curve does.")
    curve: Curve = Field(
        description="Offsets of its middle line in the plane it is bent in, [station, offset], as lofted or measured.",
        json_schema_extra={"example": _EXAMPLE},
    )
    bend: Literal["thickness", "height"] = Field(
        default="thickness", description="Which of the two lies in that plane: it is bent the easy or the hard way."
    )
