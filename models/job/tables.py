"""The job: what the user has and wants, one model a table, every field with its default and its meaning.

Field descriptions are the single source for the JSON Schema and for the commented job `start` writes.
Lengths are mm inside (`Length` keeps the writing). A default is given twice, in mm and as the nearest sensible
rule fraction; which one a job gets is decided by its `units` (see jobfile.fill_defaults).
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    PlainSerializer,
    PlainValidator,
    ValidationInfo,
    WithJsonSchema,
)
from scarfwright.models.lengths.length import Length, LengthError, Unit, parse_length, shown
from scarfwright.models.lengths.lumber import hardwood_thickness, nominal_plank

Auto = Literal["auto"]
_LENGTH_SCHEMA: dict[str, Any] = {"anyOf": [{"type": "string"}, {"type": "number"}]}


def _positive(value: Length) -> Length:
    if value <= 0:
        raise LengthError(f"found {value.text}, expected more than zero")
    return value


def _units(info: ValidationInfo) -> Unit:
    return (info.context or {}).get("units", "mm")  # type: ignore[no-any-return]


def _auto_or_size(value: object, info: ValidationInfo) -> Length | Auto:
    found = _auto_or_length(value, info)
    return found if found == "auto" else _positive(found)


def _auto_or_length(value: object, info: ValidationInfo) -> Length | Auto:
    if value == "auto":
        return "auto"
    if isinstance(value, Length):
        return value
    try:
        return parse_length(value, _units(info))
    except LengthError as error:
        raise LengthError(f'{error}, or "auto"') from None


def _thickness(value: object, info: ValidationInfo) -> Length:
    if isinstance(value, str):
        named = hardwood_thickness(value)
        if named is not None:
            return named
    return _positive(value if isinstance(value, Length) else parse_length(value, _units(info)))


def _ratio(value: object) -> float:
    expected = "the N of a slope of 1 in N: a number from 1 to 100, such as 12"
    if isinstance(value, str):
        match = re.fullmatch(r"\s*1\s*(?:in|:)\s*(\d+(?:\.\d+)?)\s*", value, re.ASCII)
        if match is None:
            hint = "; degrees are not a ratio: 1 in 10 is 5.71 degrees" if "deg" in value or "°" in value else ""
            raise LengthError(f"found {shown(value)}, expected {expected}{hint}")
        value = float(match[1])
    if isinstance(value, bool) or not isinstance(value, int | float) or not 1 <= value <= 100:  # NaN fails the range
        raise LengthError(f"found {shown(value)}, expected {expected}")
    return float(value)


def _span(value: tuple[Length, Length]) -> tuple[Length, Length]:
    if value[0] >= value[1]:
        raise LengthError(f"found {value[0].text} to {value[1].text}, expected the least first, then the most")
    return value


def _plank(value: object, info: ValidationInfo) -> Plank:
    if isinstance(value, Plank):
        return value
    if isinstance(value, str):
        thickness, width = nominal_plank(value)
        return Plank(thickness, width, value.strip())
    if isinstance(value, list | tuple) and len(value) == 2:
        thickness = _thickness(value[0], info)
        return Plank(thickness, _positive(parse_length(value[1], _units(info))), None)
    raise LengthError(
        f'found {shown(value)}, expected a nominal size such as "2x8", '
        'or two lengths ["38 mm", "184 mm"] (thickness, width)'
    )


class Plank(tuple[Length, Length]):
    """Thickness and width of the plank [mm], and its nominal name if it was given by one."""

    name: str | None

    def __new__(cls, thickness: Length, width: Length, name: str | None) -> Plank:
        self = super().__new__(cls, (thickness, width))
        self.name = name
        return self

    def __reduce__(self) -> tuple[Any, tuple[Length, Length, str | None]]:
        return Plank, (self[0], self[1], self.name)

    @property
    def thickness(self) -> Length:
        return self[0]

    @property
    def width(self) -> Length:
        return self[1]

    def written(self) -> str | list[str]:
        return self.name or [self.thickness.text, self.width.text]


Size = Annotated[Length, AfterValidator(_positive)]
SizeOrZero = Length
AutoSize = Annotated[
    Length | Auto,
    PlainValidator(_auto_or_length),
    PlainSerializer(lambda v: v if v == "auto" else v.text),
    WithJsonSchema(_LENGTH_SCHEMA),
]
AutoLength = Annotated[
    Length | Auto,
    PlainValidator(_auto_or_size),
    PlainSerializer(lambda v: v if v == "auto" else v.text),
    WithJsonSchema(_LENGTH_SCHEMA),
]
Thickness = Annotated[
    Length, PlainValidator(_thickness), PlainSerializer(lambda v: v.text), WithJsonSchema(_LENGTH_SCHEMA)
]
Ratio = Annotated[
    float,
    PlainValidator(_ratio),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": 1, "maximum": 100}, {"type": "string"}]}),
]
PlankSize = Annotated[
    Plank,
    PlainValidator(_plank),
    PlainSerializer(lambda v: v.written()),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string"},
                {"type": "array", "items": _LENGTH_SCHEMA, "minItems": 2, "maxItems": 2},
            ]
        }
    ),
]


def dim(mm: str, inch: str, about: str, *, guess: bool = False) -> Any:
    """A length field with its default in both systems. `guess`: about the user's own machine, to be measured."""
    extra: dict[str, Any] = {"inch": inch, "default": mm, "guess": guess}
    note = " Measure yours." if guess else ""
    return Field(default=parse_length(mm), description=about + note, json_schema_extra=extra)


def auto(about: str) -> Any:
    """A length field that the tool works out unless told."""
    return Field(default="auto", description=about)


class Table(BaseModel):
    """Base of all tables: unknown keys are errors, values are frozen."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True)


class Stock(Table):
    """The wood to be tapered."""

    species: str = Field(default="", max_length=60, description="Kind of wood, for the title blocks.")
    thickness: Thickness = Field(description='The taper runs through it. Hardwood also as "8/4 S2S".')
    height: Size = Field(description="Stands up at the saw.")
    finished_thickness: Size | None = Field(default=None, description="After planing the glued piece.")
    length: Size | None = Field(default=None, description="Of the longest board to be tapered.")


class JointTable(Table):
    """The scarf."""

    ratio: Ratio = Field(description="N of a slope of 1 in N. Not degrees: 1 in 10 is 5.71 degrees.")


class Saw(Table):
    """The table saw and how the cut is ended."""

    blade_diameter: Size = dim("254 mm", "10 in", "Blade diameter.", guess=True)
    kerf: Size = dim("3.2 mm", "1/8 in", "Width of the cut.", guess=True)
    plate: Size = dim("2.2 mm", "5/64 in", "Thickness of the blade's plate.", guess=True)
    riving_knife: SizeOrZero = dim(
        "2.5 mm", "3/32 in", "Thickness of the riving knife; 0 if there is none.", guess=True
    )
    max_depth: Size = dim("79 mm", "3 1/8 in", "How far the blade rises above the table.", guess=True)
    fence_gap: SizeOrZero = dim("0.4 mm", "1/64 in", "Fence set this much over the heel: keeps the blade off the sled.")
    blade_above_work: SizeOrZero = dim("6 mm", "1/4 in", "How far the blade stands above the work.")
    fence_side: Literal["right", "left"] = Field(
        default="right", description="Side of the blade the fence stands on, as the operator sees it."
    )
    table_front: Size = dim("430 mm", "17 in", "From the blade's axis to the table's front edge.", guess=True)
    table_back: Size = dim("380 mm", "15 in", "From the blade's axis to the table's back edge.", guess=True)
    fence_front: Size = dim(
        "450 mm", "17 3/4 in", "From the blade's axis forward to the fence's front end.", guess=True
    )
    fence_height: Size = dim("65 mm", "2 1/2 in", "Height of the fence.", guess=True)
    teeth: int | None = Field(default=None, strict=True, ge=2, le=200, description="Teeth of the blade.")
    rpm: float | None = Field(default=None, strict=True, ge=100, le=30000, description="Speed of the blade [1/min].")
    feed_time: float | None = Field(
        default=None,
        strict=True,
        gt=0,
        le=600,
        description="Time from first touch to taper complete [s].",
    )
    tooth_feed: Annotated[tuple[Size, Size], AfterValidator(_span)] = Field(
        default=(parse_length("0.02 mm"), parse_length("0.1 mm")),
        description="Least and most feed per tooth; the default is common practice, no source.",
        json_schema_extra={"default": ["0.02 mm", "0.1 mm"]},
    )
    cutting_energy: float | None = Field(
        default=None,
        strict=True,
        gt=0,
        le=1000,
        description="Energy that cutting your wood takes [J/cm3], if known.",
    )
    motor_power: float | None = Field(
        default=None, strict=True, gt=0, le=50000, description="Power the motor gives at the arbor [W], if known."
    )
    guard_height: Size | None = Field(
        default=None, description="Hood guard: how high its lower edge lifts above the table."
    )
    guard_front: Size | None = Field(
        default=None, description="Hood guard: how far it reaches from the blade's axis towards the operator."
    )
    end_of_cut: Literal["hold", "run_on", "draw_back"] = Field(
        default="hold",
        description="hold: stop against a block, hold, switch off, wait. run_on: push until the blade is clear. "
        "draw_back: out of a running blade (kickback; last choice).",
    )
    travel_margin: SizeOrZero = dim("50 mm", "2 in", "Travel left over before anything could meet the blade.")
    side_clearance: SizeOrZero = dim("10 mm", "3/8 in", "A clamp stays this far to the side of the blade.")
    clear_gap: SizeOrZero = dim("5 mm", "3/16 in", "Gap between blade and finished taper when the blade is clear.")
    base_to_blade: Size = dim(
        "130 mm",
        "5 1/8 in",
        "Hand-held circular saw for the dividing cut: edge of its base to the near side of its blade.",
        guess=True,
    )


class Clamp(Table):
    """The clamps that hold the board on the sled."""

    opening: Size = dim("50 mm", "2 in", "Widest opening.", guess=True)
    throat: Size = dim("60 mm", "2 3/8 in", "Depth from pad to bar.", guess=True)
    pad_width: Size = dim("25 mm", "1 in", "Pad, along the board.", guess=True)
    pad_height: Size = dim("20 mm", "3/4 in", "Pad, up and down.", guess=True)
    jaw: Size = dim("12 mm", "1/2 in", "How far a jaw stands off the face it presses.", guess=True)


class Sled(Table):
    """The tapered sled."""

    made_from: Literal["plank", "sheet"] = Field(
        default="plank",
        description="plank: one plank cut into two equal halves. sheet: glued layers of sheet.",
    )
    plank: PlankSize = Field(
        default=Plank(*nominal_plank("2x8"), "2x8"),
        description='Nominal size ("2x8") or thickness and width.',
        json_schema_extra={"default": "2x8"},
    )
    sheet_thickness: Size = dim("18 mm", "3/4 in", "Thickness of one sheet layer.")
    layers: int = Field(default=2, strict=True, ge=1, le=12, description="Sheet layers glued into one sled.")
    dowel: SizeOrZero = dim("8 mm", "5/16 in", "Dowels that register the sheet layers; 0 for none.")
    length: AutoLength = auto('Length of the sled; "auto" is the shortest that serves, to the next 50 mm or 2 in.')
    round_marks: SizeOrZero = dim("0.5 mm", "1/32 in", "Marks fall on multiples of this; 0 for off.")
    nose_min: Size = dim("25 mm", "1 in", "Least width of the nose.")
    web: Size = dim("25 mm", "1 in", "Wood between notch and work edge.")
    notch_length: Size = dim("50 mm", "2 in", "Clamp notch, overall length.")
    notch_width: Size = dim("16 mm", "5/8 in", "Clamp notch, width.")
    nose_flat: Annotated[AutoSize, Field()] = auto(
        'Length of the nose cut parallel to the work edge for a clamp; 0 for none; "auto" is what the saw clears.'
    )
    heel_station: AutoSize = auto('Heel notch, from the heel along the work edge; "auto" is the least safe one.')
    nose_station: AutoSize = auto("Nose clamp, from the nose end: on the nose flat, or a notch further in.")
    extra_stations: list[Size] = Field(
        default=[], max_length=20, description="More notches, from the heel, for short work."
    )
    hand_line: AutoSize = auto("Line behind which the hands stay, from the heel along the fence edge.")
    handle_station: AutoSize = auto("Middle of the two handle holes, from the heel along the fence edge.")
    handle_spacing: Size = dim("96 mm", "3 3/4 in", "Distance between the two handle holes.")
    handle_hole: SizeOrZero = dim("5 mm", "3/16 in", "Handle holes, diameter; 0 for none.")
    heel_as_made: Size | None = Field(default=None, description="Measured width at the heel, once the sled is made.")
    nose_as_made: Size | None = Field(default=None, description="Measured width at the nose, once the sled is made.")


class Adhesive(Table):
    """The glue."""

    gap_limit: Size = dim(
        "0.15 mm",
        "0.15 mm",
        "Thickest glue line that still holds; the adhesive maker's figure comes first "
        "(the default is for PVA and resorcinol, from memory).",
    )


class Printer(Table):
    """The printer for gauges and shop aids."""

    bed: tuple[Size, Size, Size] = Field(
        default=(parse_length("220 mm"), parse_length("220 mm"), parse_length("240 mm")),
        description="Bed and height: x, y, z.",
        json_schema_extra={"default": ["220 mm", "220 mm", "240 mm"]},
    )
    margin: SizeOrZero = dim(
        "5 mm", "3/16 in", "Kept free on each side of the bed, for skirt and brim (common practice, no source)."
    )
    layer: Size = dim("0.2 mm", "0.2 mm", "Layer height.")
    tolerance: SizeOrZero = dim("0.2 mm", "0.2 mm", "How far printed sizes are out.", guess=True)


class Laser(Table):
    """The laser cutter for templates."""

    bed: tuple[Size, Size] = Field(
        default=(parse_length("600 mm"), parse_length("400 mm")),
        description="Bed: x, y.",
        json_schema_extra={"default": ["600 mm", "400 mm"]},
    )
    kerf: SizeOrZero = dim("0.15 mm", "0.15 mm", "Width of the laser's cut.", guess=True)
    thickness: Size = dim("3 mm", "1/8 in", "Thickness of the template sheet.")


class Router(Table):
    """The CNC router for sheets."""

    cutter: Size = dim("6 mm", "1/4 in", "Cutter diameter.")
    sheet: tuple[Size, Size] = Field(
        default=(parse_length("2440 mm"), parse_length("1220 mm")),
        description="Sheet: x, y.",
        json_schema_extra={"default": ["2440 mm", "1220 mm"], "inch": ["96 in", "48 in"]},
    )
    spacing: AutoSize = auto('Between pieces, and to the sheet\'s edges; "auto" is twice the cutter.')
    tabs: int = Field(
        default=0, strict=True, ge=0, le=40, description="Holding tabs on each outline, two cutters wide; 0 for none."
    )
    grain: Literal["x", "y"] = Field(
        default="x", description="Direction of the sheet's face grain; the sled lies along it."
    )


class Files(Table):
    """What the cutting files and the paper are made for."""

    machine: Literal["router", "laser"] = Field(default="router", description="Machine the cut files are for.")
    dxf: Literal["r2010", "r12"] = Field(default="r2010", description="DXF version; r12 for old controllers.")
    dxf_units: Literal["auto", "mm", "in"] = Field(default="auto", description='Unit of the DXF; "auto" is the job\'s.')
    direction: Literal["clockwise", "counter_clockwise"] = Field(
        default="clockwise",
        description="Which way round outside cuts run, seen from above; inside cuts run the other way.",
    )
    tool_path: bool = Field(
        default=False,
        description="Router: a second set of sheets, offset by the cutter's radius, for machines without CAM.",
    )
    paper: Literal["A4", "Letter", "roll"] = Field(default="A4", description="Paper of the full-size templates.")
    roll_width: Size = dim("610 mm", "24 in", "Width of the roll, where the paper is a roll.")


class Job(Table):
    """A whole job file."""

    title: str = Field(default="", max_length=80, description="Name of the job, for every sheet.")
    units: Unit = Field(default="mm", description="mm or in: reading of bare numbers, and how lengths are shown.")
    stock: Stock
    joint: JointTable
    saw: Saw = Field(default_factory=Saw.model_construct)
    clamp: Clamp = Field(default_factory=Clamp.model_construct)
    sled: Sled = Field(default_factory=Sled.model_construct)
    adhesive: Adhesive = Field(default_factory=Adhesive.model_construct)
    printer: Printer = Field(default_factory=Printer.model_construct)
    laser: Laser = Field(default_factory=Laser.model_construct)
    router: Router = Field(default_factory=Router.model_construct)
    files: Files = Field(default_factory=Files.model_construct)
