"""One layer of a sled glued up from sheet: the sled's shape, one sheet thick, with the dowel holes that register it."""

from __future__ import annotations

from typing import Any

from scarfwright.models.part import Part, PartKind
from scarfwright.models.parts.sled import shape_of, sled
from scarfwright.models.workup import Workup


def sheet_layer(thickness: float = 18.0, **shape: Any) -> Part:
    """Build one layer.

    thickness: of the sheet [mm]; all other parameters as the sled's
    """
    named = {"name": "sheet_layer", "title": "Sled layer", "label": "", **shape}
    return sled(thickness=thickness, **named)


def _from_job(work: Workup) -> dict[str, Any] | None:
    if work.job.sled.made_from != "sheet":
        return None
    return {**shape_of(work), "thickness": float(work.job.sled.sheet_thickness), "label": ""}


KIND = PartKind(
    name="sheet_layer",
    summary="one layer of a sheet sled, with dowel holes",
    build=sheet_layer,
    from_job=_from_job,
    goes_to=frozenset({"cad", "flat"}),
    count=lambda work: int(work.job.sled.layers),
    handed=True,
    ranges={"thickness": (6.0, 30.0)},
    along_grain=True,
)
