"""[plan], [[board]], [[blank]], [[buy]]: the boards on the rack, what is to come out of them, and the shop's habits."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Field, PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema
from scarfwright.models.job.fields import AutoLength, Size, SizeOrZero, Table, Thickness, auto, dim, units_of
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


def _stretch_field(about: str) -> Any:
    return Field(default=[], description=about, json_schema_extra={"example": _EXAMPLE})


class PlanTable(Table):
    """Which board goes where: how blanks are made up out of boards."""

    spacing: float = Field(
        default=3,
        strict=True,
        ge=0,
        le=100,
        description="Clear distance between joints of a blank, in overlaps; 3 by AC 43.13-1B.",
    )
    least_piece: AutoLength = auto('Shortest piece of a joined blank; "auto" is what the sled holds with two clamps.')
    keep: SizeOrZero = dim("300 mm", "12 in", "Shortest offcut worth keeping.")
    spare: SizeOrZero = dim("0 mm", "0 in", "A length to set aside for the test joint and the bend test; 0 for none.")
    end_trim: SizeOrZero = dim("0 mm", "0 in", "Cut off each end of a board, the saw cut included.")
    crosscut_kerf: SizeOrZero = dim("3.2 mm", "1/8 in", "Width of the crosscut.", guess=True)
    mark: Size = dim("1 mm", "1/16 in", "Lengths of pieces are multiples of it.")
    effort: float = Field(
        default=10,
        strict=True,
        ge=0.01,
        le=1000,
        description="How long to look: 10 is about half a minute. The same job gives the same plan.",
    )
    seconds: float | None = Field(
        default=None,
        strict=True,
        gt=0,
        le=86400,
        description="Look so long instead; another run may then find another plan.",
        json_schema_extra={"example": "60"},
    )


class Board(Table):
    """A board on the rack, or several alike: one [[board]] for each kind."""

    name: str = Field(default="", max_length=40, description="What is written on it.")
    length: Size = Field(description="Its length.", json_schema_extra={"example": '"2.4 m"'})
    width: Size | None = Field(
        default=None,
        description="A wide board is ripped into several strips of the stock's height; without it, just the height.",
        json_schema_extra={"example": '"150 mm"'},
    )
    thickness: Thickness | None = Field(
        default=None,
        description="At least the stock's; without it, just that.",
        json_schema_extra={"example": '"22 mm"'},
    )
    count: int = Field(default=1, strict=True, ge=1, le=20000, description="How many there are.")
    price: float | None = Field(
        default=None,
        strict=True,
        ge=0,
        le=1e6,
        description="Of one, if it is to be paid for.",
        json_schema_extra={"example": "12.50"},
    )
    defects: Stretches = _stretch_field("Knots, splits, shakes: [from, to] along the board, over its whole width.")


class PlannedBlank(Table):
    """A long piece to be glued up, or several alike: one [[blank]] for each kind. Stations count from the bow."""

    name: str = Field(default="", max_length=40, description="What it is called.")
    length: Size | None = Field(default=None, description="Finished length.", json_schema_extra={"example": '"5.2 m"'})
    count: int = Field(default=1, strict=True, ge=1, le=5000, description="How many there are to be.")
    allowance: SizeOrZero = dim("0 mm", "0 in", "Added at each end, to be trimmed off after gluing.")
    members: int = Field(
        default=1, strict=True, ge=1, le=50, description="How many pieces the glued blank is ripped into."
    )
    rip_kerf: SizeOrZero = dim("0 mm", "0 in", "Saw cut between them.")
    keep_clear: Stretches = _stretch_field("Stretches where no part of a joint may lie: [from, to] from the bow.")
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


class Buy(Table):
    """A board that could be bought, should the rack not do: one [[buy]] for each kind."""

    length: Size = Field(description="Its length.", json_schema_extra={"example": '"3.0 m"'})
    width: Size | None = Field(
        default=None, description="Without it, the stock's height.", json_schema_extra={"example": '"150 mm"'}
    )
    thickness: Thickness | None = Field(
        default=None, description="Without it, the stock's.", json_schema_extra={"example": '"22 mm"'}
    )
    price: float | None = Field(
        default=None, strict=True, ge=0, le=1e6, description="Of one.", json_schema_extra={"example": "18.00"}
    )
