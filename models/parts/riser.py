"""A riser: the block that lifts the work off the bench while the joint is glued."""

from __future__ import annotations

from typing import Any

from scarfwright.models.outline import rounded
from scarfwright.models.part import Part, PartKind
from scarfwright.models.workup import Workup

FINGER_ROOM = 25.0  # room to turn the clamp under the work; common practice, no source


def riser(length: float = 60.0, width: float = 40.0, height: float = 37.0, corner: float = 3.0) -> Part:
    """Build a riser, lying on its base.

    length: across the board [mm]
    width: along the board [mm]
    height: bench to work [mm]
    corner: radius of the upright corners [mm]
    """
    corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    return Part(
        name="riser",
        title="Riser for the glue-up",
        outline=rounded(corners, corner),
        thickness=height,
        colour="#8aa0b8",
        use="Under the boards, clear of every clamp, so that the lower jaws pass.",
    )


def _from_job(work: Workup) -> dict[str, Any]:
    return {"length": float(work.job.stock.height), "height": work.job.clamp.jaw + FINGER_ROOM}


KIND = PartKind(
    name="riser",
    summary="block that lifts the work for gluing",
    build=riser,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    ranges={"length": (20.0, 200.0), "width": (15.0, 100.0), "height": (8.0, 120.0), "corner": (0.0, 7.0)},
)
