"""The riser with a lip: both boards are pushed against the lips of one row, which keeps them in line.

            _
 __________| |   lip, as wide as the riser
|          | |   seen along the board; printed lying on the lip's outer side
|__________|_|
"""

from __future__ import annotations

from dataclasses import replace

from scarfwright.models.flat.loop import rounded_each
from scarfwright.models.gluing.places import RISER_WIDTH
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part import label as labels
from scarfwright.models.part.lettering import LEAST_HEIGHT
from scarfwright.models.part.part import Part, Place, Raised
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.riser import (
    GROOVE,
    LEAST_SHAPE,
    RANGES,
    ROUND,
    TAPE,
    level,
    places,
    riser,
    shape,
    side,
    top_findings,
)

LIP_THICK, LIP_HEIGHT = 6.0, 10.0


def riser_lip(
    length: float = 60.0,
    width: float = 40.0,
    height: float = 37.0,
    edge: float = ROUND,
    tape: float = TAPE,
    groove: float = GROOVE,
    lip: float = LIP_HEIGHT,
    lip_thickness: float = LIP_THICK,
    label: str = "",
) -> Part:
    """Build the riser, lying on its lip.

    length: across the board, without the lip [mm]
    width: along the board [mm]
    height: bench to work [mm]
    edge: radius of the top edges [mm]
    tape, groove: width and depth of the tape's groove [mm]
    lip: how far the lip stands above the work's lower face [mm]
    lip_thickness: of the lip, across the board [mm]
    label: text cut into the lip
    """
    low = riser(length, width, height, edge, tape, groove)
    top, radius = height + lip, edge if edge >= LEAST_SHAPE else 0.0
    corners = [(0.0, 0.0), (width, 0.0), (width, top), (0.0, top)]
    body = Raised(side(width, height, edge, tape, groove), 0.0, lip_thickness + length, "body")
    part = replace(
        low,
        name="riser_lip",
        title="Riser with a lip",
        outline=rounded_each(corners, [0.0, 0.0, radius, radius]),
        thickness=lip_thickness,
        raised=(body,),
        use="Lips of all in one line against one edge of both boards: push the boards against them before clamping.",
    )
    return labels.engraved(part, label, _place(width, height, lip))


def _place(width: float, height: float, lip: float) -> Place:
    return Place(3.0, height + 1.5, width - 6.0, lip - 3.0)


def _from_job(work: Groundwork) -> Given:
    own = shape(work, work.glue, RISER_WIDTH)
    lip = min(LIP_HEIGHT, work.job.stock.thickness / 2)
    room = _place(RISER_WIDTH, own["height"], lip)
    # a lip against thin boards is too low for any letter, and no other title would mend that
    label = labels.job_label(work.job, work.planned, room) if room.height >= LEAST_HEIGHT else ""
    return {**own, "lip": lip, "label": label}


def _count(work: Groundwork) -> int:
    return sum(s.lip for s in work.glue.supports)


def _resolution(work: Groundwork, _parameters: Values) -> Given:
    return {"count": _count(work), **level(work), "places_mm": places(work)}


KIND = PartKind(
    name="riser_lip",
    summary="riser with a lip that keeps the two boards in line",
    build=riser_lip,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    any_shop=True,
    check=lambda _work, p: top_findings(p),
    count=_count,
    ranges={**RANGES, "lip": (2, 40), "lip_thickness": (2, 20)},
    resolution=_resolution,
    label_place=lambda p: _place(p["width"], p["height"], p["lip"]),
)
