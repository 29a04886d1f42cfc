"""[plan], [[board]], [[buy]]: the boards on the rack, those that could be bought, and the shop's habits."""

from __future__ import annotations

from pydantic import Field
from scarfwright.models.job.fields import AutoLength, Size, SizeOrZero, Table, Thickness, auto, dim
from scarfwright.models.job.stretches import Stretches, stretch_field


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
        description="A wide board is ripped into several strips of [stock] height; without it, just that height.",
        json_schema_extra={"example": '"150 mm"'},
    )
    thickness: Thickness | None = Field(
        default=None,
        description="At least [stock] thickness; without it, just that.",
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
    defects: Stretches = stretch_field("Knots, splits, shakes: [from, to] along the board, over its whole width.")


class Buy(Table):
    """A board that could be bought, should the rack not do: one [[buy]] for each kind."""

    length: Size = Field(description="Its length.", json_schema_extra={"example": '"3.0 m"'})
    width: Size | None = Field(
        default=None, description="Without it, [stock] height.", json_schema_extra={"example": '"150 mm"'}
    )
    thickness: Thickness | None = Field(
        default=None, description="Without it, [stock] thickness.", json_schema_extra={"example": '"22 mm"'}
    )
    price: float | None = Field(
        default=None, strict=True, ge=0, le=1e6, description="Of one.", json_schema_extra={"example": "18.00"}
    )
