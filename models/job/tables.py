"""The job: what the user has and wants, one model a table, every field with its default and its meaning.

Field descriptions are the single source for the JSON Schema and for the commented job `start` writes.
Lengths are mm inside (`Length` keeps the writing).
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field
from scarfwright.models.job.blank import Blank
from scarfwright.models.job.fields import (
    AutoLength,
    AutoSize,
    Plank,
    PlankSize,
    Ratio,
    Size,
    SizeOrZero,
    Table,
    Thickness,
    auto,
    dim,
    span,
)
from scarfwright.models.job.quantities import AdhesiveName, Force, Pressure, Spread, Stress, Time
from scarfwright.models.job.shop import Gauges, PaperName, ShopHas
from scarfwright.models.job.wood import Board, Buy, PlanTable
from scarfwright.models.lengths.length import Unit, parse_length
from scarfwright.models.lengths.lumber import nominal_plank


class Stock(Table):
    """The wood to be tapered."""

    species: str = Field(
        default="", max_length=60, description="Kind of wood, for the title blocks and for its strength."
    )
    modulus: Stress | None = Field(
        default=None, description="Its modulus of elasticity, if you know better than the table."
    )
    rupture: Stress | None = Field(
        default=None, description="Its modulus of rupture (bending strength), if you know better than the table."
    )
    thickness: Thickness = Field(description='The taper runs through it. Hardwood also as "8/4 S2S".')
    height: Size = Field(description="The side that is upright at the saw.")
    finished_thickness: Size | None = Field(default=None, description="After planing the glued stick.")
    length: Size | None = Field(default=None, description="Of the longest board to be tapered.")


class JointTable(Table):
    """The scarf."""

    ratio: Ratio = Field(description="Slope, N long for 1 across: 12:1 is 1 in 12. Not degrees: 10:1 is 5.71 degrees.")


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
    blade_above_work: SizeOrZero = dim("6 mm", "1/4 in", "How far the blade reaches above the work.")
    fence_side: Literal["right", "left"] = Field(
        default="right", description="Side of the blade the fence is on, as you see it from where you push."
    )
    table_front: Size = dim(
        "430 mm", "17 in", "From the blade's centre (arbor) to the table's front edge, on your side.", guess=True
    )
    table_back: Size = dim("380 mm", "15 in", "From the blade's centre to the table's far edge.", guess=True)
    fence_front: Size = dim(
        "450 mm", "17 3/4 in", "From the blade's centre to the near end of the fence, on your side.", guess=True
    )
    fence_height: Size = dim("65 mm", "2 1/2 in", "Height of the fence.", guess=True)
    teeth: int | None = Field(default=None, strict=True, ge=2, le=200, description="Teeth of the blade.")
    rpm: float | None = Field(default=None, strict=True, ge=100, le=30000, description="Speed of the blade [1/min].")
    max_rpm: float | None = Field(
        default=None,
        strict=True,
        ge=100,
        le=30000,
        description="Speed marked on the blade, the most it may turn [1/min].",
    )
    feed_time: float | None = Field(
        default=None,
        strict=True,
        gt=0,
        le=600,
        description="Time from first touch to taper complete [s].",
    )
    tooth_feed: Annotated[tuple[Size, Size], AfterValidator(span)] = Field(
        default=(parse_length("0.02 mm"), parse_length("0.1 mm")),
        description="Least and most feed per tooth; the default is common practice, no source.",
        json_schema_extra={"default": ["0.02 mm", "0.1 mm"], "inch": ["0.001 in", "0.004 in"]},
    )
    guard_height: Size | None = Field(
        default=None, description="Hood guard: how high its lower edge lifts above the table."
    )
    guard_front: Size | None = Field(
        default=None, description="Hood guard: how far it reaches from the blade's centre towards you."
    )
    end_of_cut: Literal["hold", "run_on", "draw_back"] = Field(
        default="hold",
        description="hold: stop against a block, hold, switch off, wait. run_on: push until the blade is clear. "
        "draw_back: out of a running blade (kickback; last choice).",
    )
    travel_margin: SizeOrZero = dim("50 mm", "2 in", "Travel left over before anything could meet the blade.")
    side_clearance: SizeOrZero = dim("10 mm", "3/8 in", "A clamp stays this far to the side of the blade.")
    hands_clear: Size = dim(
        "300 mm",
        "12 in",
        "Hands stay this far from the blade at the end of the cut; 150 mm (6 in) at least. Published figures disagree, "
        "and none is for a sled with handles.",
    )
    clear_gap: SizeOrZero = dim("5 mm", "3/16 in", "Gap between blade and finished taper when the blade is clear.")
    base_to_blade: Size = dim(
        "130 mm",
        "5 1/8 in",
        "Hand-held circular saw for the dividing cut: edge of its base to the near side of its blade.",
        guess=True,
    )
    hand_kerf: Size = dim("2.2 mm", "3/32 in", "Hand-held circular saw: width of its cut.", guess=True)


def old_keys_read(raw: dict[str, Any]) -> dict[str, Any]:
    """The tables with keys of older jobs under their names of today: [clamp] jaw stood for both jaws."""
    clamp = raw.get("clamp")
    if not isinstance(clamp, dict) or "jaw" not in clamp:
        return raw
    rest = {key: value for key, value in clamp.items() if key != "jaw"}
    return {**raw, "clamp": {"jaw_outer": clamp["jaw"], "jaw_inner": clamp["jaw"], **rest}}


class Clamp(Table):
    """The clamps that hold the board on the sled."""

    opening: Size = dim("50 mm", "2 in", "Widest opening.", guess=True)
    throat: Size = dim("60 mm", "2 3/8 in", "Depth from pad to bar.", guess=True)
    pad_width: Size = dim("25 mm", "1 in", "Pad, along the board.", guess=True)
    pad_height: Size = dim("20 mm", "3/4 in", "Pad, up and down.", guess=True)
    jaw_outer: Size = dim("12 mm", "1/2 in", "How far the jaw on the work stands off its face.", guess=True)
    jaw_inner: Size = dim("12 mm", "1/2 in", "How far the jaw in the notch, or on the nose, stands off.", guess=True)
    force: Force | None = Field(default=None, description="What one clamp presses with when the joint is glued.")
    count: int | None = Field(
        default=None, strict=True, ge=1, le=1000, description="Clamps there are for gluing a joint."
    )


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
    length: AutoLength = auto(
        'Length of the sled; "auto" is the shortest that serves hands and cut, to the next 50 mm or 2 in.'
    )
    round_marks: SizeOrZero = dim("0.5 mm", "1/32 in", "Marks fall on multiples of this; 0 for off.")
    nose_min: Size = dim("25 mm", "1 in", "Least width of the nose.")
    web: Size = dim("25 mm", "1 in", "Wood between notch and work edge.")
    notch_length: Size = dim("50 mm", "2 in", "Clamp notch, overall length.")
    notch_width: Size = dim("16 mm", "5/8 in", "Clamp notch, width.")
    nose_flat: Annotated[AutoSize, Field()] = auto(
        "Length of the nose cut parallel to the work edge for a clamp, by hand saw; 0 for none; "
        '"auto" is the pad and 5 mm (3/16 in) each side, at most 60 mm.'
    )
    heel_station: AutoSize = auto(
        'Heel notch, from the heel along the work edge; "auto": as near the heel as is still safe.'
    )
    nose_station: AutoSize = auto("Nose clamp, from the nose end: on the nose flat, or a notch further in.")
    extra_stations: list[Size] = Field(
        default=[], max_length=20, description="More notches, from the heel, for short work."
    )
    hand_line: AutoSize = auto("Hands stay on your side of this line; from the heel along the fence edge.")
    handle_station: AutoSize = auto("Middle of the two handle holes, from the heel along the fence edge.")
    handle_spacing: Size = dim("96 mm", "3 3/4 in", "Distance between the two handle holes.")
    handle_hole: SizeOrZero = dim("5 mm", "3/16 in", "Handle holes, diameter; 0 for none.")
    heel_as_made: Size | None = Field(default=None, description="Measured width at the heel, once the sled is made.")
    nose_as_made: Size | None = Field(default=None, description="Measured width at the nose, once the sled is made.")
    length_as_made: Size | None = Field(default=None, description="Measured length, once the sled is made.")


class Adhesive(Table):
    """The glue. Its maker's instructions come before every figure here."""

    kind: AdhesiveName | None = Field(
        default=None, description="resorcinol, urea-formaldehyde, PVA, polyurethane or epoxy."
    )
    spread: Spread | None = Field(default=None, description="Glue for the joint, both faces together, by its maker.")
    pressure: Pressure | None = Field(default=None, description="Least pressure its maker gives.")
    open_time: Time | None = Field(
        default=None, description="From spreading until the joint must be closed and clamped, by its maker."
    )
    clamp_time: Time | None = Field(default=None, description="How long the clamps stay on, by its maker.")
    gap_limit: Size = dim(
        "0.15 mm",
        "0.15 mm",
        "Thickest glue line that still holds; the adhesive maker's figure comes first "
        "(the default is for PVA and resorcinol, from memory).",
    )


class Limits(Table):
    """What the piece may be asked to bear."""

    bend_factor: float = Field(
        default=2.0,
        strict=True,
        ge=1,
        le=20,
        description="Held in reserve where wood is bent: a share of strength used of 1/2 counts as all of it. "
        "2 is common practice, no source.",
    )
    twist: float | None = Field(
        default=None,
        strict=True,
        gt=0,
        le=45,
        description="Twist allowed over the whole blank [degrees], if there is a limit.",
    )
    joints: int = Field(default=1, strict=True, ge=1, le=100, description="Joints in that blank; their twists add.")


class Printer(Table):
    """The printer for gauges and shop aids; asked only where shop_has names it."""

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
    gauges: Gauges = Field(
        default="useful",
        description='"useful": those that read finely enough for the joint; "all"; or a list of names '
        "(scarfwright parts lists them).",
    )


class Laser(Table):
    """The laser cutter for templates; asked only where shop_has names it."""

    bed: tuple[Size, Size] = Field(
        default=(parse_length("600 mm"), parse_length("400 mm")),
        description="Bed: x, y.",
        json_schema_extra={"default": ["600 mm", "400 mm"], "inch": ["24 in", "16 in"]},
    )
    kerf: SizeOrZero = dim("0.15 mm", "0.15 mm", "Width of the laser's cut.", guess=True)
    thickness: Size = dim("3 mm", "1/8 in", "Thickness of the template sheet.")


class Router(Table):
    """The CNC router for sheets; asked only where shop_has names it."""

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
    paper: PaperName = Field(
        default="A4",
        description="Paper of the drawings and full-size templates: A4, Letter or roll.",
        json_schema_extra={"default": "A4", "inch": "Letter"},
    )
    roll_width: Size = dim("610 mm", "24 in", "Width of the roll, where the paper is a roll.")


class Job(Table):
    """A whole job file."""

    title: str = Field(default="", max_length=80, description="Name of the job, for every sheet.")
    units: Unit = Field(default="mm", description="mm or in: reading of bare numbers, and how lengths are shown.")
    shop_has: ShopHas = Field(
        default=(),
        description='Machines there are besides the saw: "printer", "router", "laser". Files are made for these only.',
    )
    stock: Stock
    joint: JointTable
    saw: Saw = Field(default_factory=Saw.model_construct)
    clamp: Clamp = Field(default_factory=Clamp.model_construct)
    sled: Sled = Field(default_factory=Sled.model_construct)
    adhesive: Adhesive = Field(default_factory=Adhesive.model_construct)
    limits: Limits = Field(default_factory=Limits.model_construct)
    printer: Printer = Field(default_factory=Printer.model_construct)
    laser: Laser = Field(default_factory=Laser.model_construct)
    router: Router = Field(default_factory=Router.model_construct)
    files: Files = Field(default_factory=Files.model_construct)
    plan: PlanTable = Field(default_factory=PlanTable.model_construct)
    board: list[Board] = Field(default=[], max_length=2000, description="Boards on the rack, for the plan.")
    blank: list[Blank] = Field(default=[], max_length=200, description="Long pieces to be glued up.")
    buy: list[Buy] = Field(default=[], max_length=50, description="Boards that could be bought.")
