"""[[blank]]: a long glued-up piece, where its joints may be, and the curve it is bent to."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema
from scarfwright.models.bending.curve import CurveError, check_offsets
from scarfwright.models.job.fields import Size, SizeOrZero, Table, dim, units_of
from scarfwright.models.job.stretches import Stretches, stretch_field
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
    """A long piece to be glued up, or several alike: one [[blank]] for each kind. Stations count from the bow."""

    name: str = Field(default="", max_length=40, description="What it is called.")
    length: Size | None = Field(
        default=None,
        description="Finished length; it begins where the curve does.",
        json_schema_extra={"example": '"5.2 m"'},
    )
    count: int = Field(default=1, strict=True, ge=1, le=5000, description="How many there are to be.")
    allowance: SizeOrZero = dim("0 mm", "0 in", "Added at each end, to be trimmed off after gluing.")
    members: int = Field(
        default=1, strict=True, ge=1, le=50, description="How many pieces the glued blank is ripped into."
    )
    rip_kerf: SizeOrZero = dim("0 mm", "0 in", "Saw cut between them.")
    keep_clear: Stretches = stretch_field("Stretches where no part of a joint may lie: [from, to] from the bow.")
    mirrored: bool = Field(
        default=False, description="Copies 1 and 2, 3 and 4 ... are pairs: no joint opposite a joint of the other side."
    )
    group: str = Field(
        default="", max_length=40, description="Blanks of one group lie side by side: laminations, strakes."
    )
    stagger: SizeOrZero = dim("0 mm", "0 in", "Clear distance between joints of different blanks of a group.")
    neighbours: int | None = Field(
        default=None,
        strict=True,
        ge=1,
        le=1000,
        description="Only blanks so many places apart in their group keep the stagger; without it, all.",
        json_schema_extra={"example": "3"},
    )
    curve: Curve | None = Field(
        default=None,
        description="Offsets of its middle line in the plane it is bent in, [station, offset], as lofted or measured.",
        json_schema_extra={"example": _EXAMPLE},
    )
    bend: Literal["thickness", "height"] = Field(
        default="thickness", description="Which of the two lies in that plane: it is bent the easy or the hard way."
    )
