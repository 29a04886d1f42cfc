"""One glue-up put together: the joint, where everything stands, how the work lies, and the amounts [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.adhesives.kinds import find_kind
from scarfwright.models.gluing.amounts import Amounts, Asked, amounts
from scarfwright.models.gluing.places import GlueUp
from scarfwright.models.gluing.stations import Lay, lay
from scarfwright.models.job.tables import Clamp, Job
from scarfwright.models.joint.joint import Joint


@dataclass(frozen=True)
class GluePlan:
    """`places`: clamps and risers; `clamp`: the clamps themselves; `lay`: how the work lies under them."""

    joint: Joint
    places: GlueUp
    clamp: Clamp
    lay: Lay
    asked: Asked
    amounts: Amounts


def glue_plan(job: Job, joint: Joint, places: GlueUp, wood: str | None) -> GluePlan:
    """The glue-up of a job. `wood`: "softwood", "hardwood", or None where that is not known."""
    clamp, glue = job.clamp, job.adhesive
    asked = Asked(
        kind=None if glue.kind is None else find_kind(glue.kind),
        wood=wood,
        spread=glue.spread,
        pressure=glue.pressure,
        force=clamp.force,
        count=clamp.count,
        open_time=glue.open_time,
        clamp_time=glue.clamp_time,
    )
    return GluePlan(
        joint,
        places,
        clamp,
        lay(joint.thickness, joint.height, clamp.opening, clamp.throat, clamp.pad_height, job.units),
        asked,
        amounts(joint, asked, places.needed, places.clamp_count),
    )
