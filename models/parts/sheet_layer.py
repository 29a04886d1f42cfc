"""One layer of a sled glued up from sheet: the sled's shape, one sheet thick, with the dowel holes that register it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Part
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.sled import KIND as SLED
from scarfwright.models.sled.shape import Hole, shape_of, sled


def sheet_layer(
    length: float = 1500.0,
    heel: float = 150.0,
    nose: float = 25.0,
    thickness: float = 18.0,
    nose_flat: float = 30.0,
    web: float = 25.0,
    notch_length: float = 50.0,
    notch_width: float = 16.0,
    stations: tuple[float, ...] = (400.0,),
    holes: tuple[Hole, ...] = (),
    hand_line: float = 0.0,
    label: str = "",
) -> Part:
    """Build one layer.

    length, heel, nose: outer sizes [mm]
    thickness: of the sheet [mm]
    nose_flat: length of the flat parallel to the work edge [mm], 0 for none
    web, notch_length, notch_width: clamp notches [mm]
    stations: middles of the notches along the work edge from the heel [mm]
    holes: (x from the nose, y from the fence edge, diameter) [mm], drilled through
    hand_line: from the heel along the fence edge [mm], 0 for none
    label: text beside the fence edge
    """
    layer = sled(**locals(), name="sheet_layer", title="Sled layer")
    # all but the two square ends runs along the fence, carries the board or bears a clamp
    edges = [(e.start, e.end) for e in layer.outline.edges() if abs(e.start[0] - e.end[0]) > 1e-9]
    return replace(layer, guides=tuple(edges))


def _from_job(work: Groundwork) -> dict[str, Any] | None:
    if work.job.sled.made_from != "sheet":
        return None
    return {**shape_of(work.way), "thickness": float(work.job.sled.sheet_thickness), "label": ""}


KIND = PartKind(
    name="sheet_layer",
    summary="one layer of a sheet sled, with dowel holes",
    build=sheet_layer,
    from_job=_from_job,
    goes_to=frozenset({"cad", "flat"}),
    count=lambda work: int(work.job.sled.layers),
    handed=True,
    ranges={**SLED.ranges, "thickness": (6.0, 30.0)},
    along_grain=True,
)
