"""Which hand is which: the words for the fence's side and the free side, as the operator sees them."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.job.tables import Job


@dataclass(frozen=True)
class Sides:
    """`fence` and `free` are "right" or "left", seen by the operator who stands before the table's front edge."""

    fence: str
    free: str


def sides(job: Job) -> Sides:
    """Fence on the right: the free side of the blade is the left one; and the other way round."""
    return Sides("right", "left") if job.saw.fence_side == "right" else Sides("left", "right")
