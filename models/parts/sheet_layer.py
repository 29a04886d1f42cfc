"""One layer of a sled glued up from sheet: the sled's shape, one sheet thick, with the dowel holes that register it."""

from __future__ import annotations

from dataclasses import replace

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Part
from scarfwright.models.part.values import Given
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.sled import KIND as SLED
from scarfwright.models.sled.shape import shape_of


def layer_of(sled: Part) -> Part:
    """The sled as one of its layers: it lies along the grain, and a tab is on none of the edges that guide."""
    # all but the two square ends runs along the fence, carries the board or bears a clamp
    edges = [(e.start, e.end) for e in sled.outline.edges() if abs(e.start[0] - e.end[0]) > 1e-9]
    return replace(sled, name="sheet_layer", title="Sled layer", guides=tuple(edges))


def _from_job(work: Groundwork) -> Given | None:
    if work.job.sled.made_from != "sheet":
        return None
    return {**shape_of(work.way), "thickness": float(work.job.sled.sheet_thickness), "label": ""}


KIND = PartKind(
    name="sheet_layer",
    summary="one layer of a sheet sled, with dowel holes",
    build=SLED.build,
    defaults={"thickness": 18.0},
    finish=layer_of,
    from_job=_from_job,
    goes_to=frozenset({"cad", "flat"}),
    count=lambda work: int(work.job.sled.layers),
    handed=True,
    ranges={**SLED.ranges, "thickness": (6.0, 30.0)},
    along_grain=True,
)
