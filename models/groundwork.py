"""What a job comes to before anything is said or drawn: the joint, the way it is cut, and how it is glued."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.cut.cut import Cut
from scarfwright.models.gluing.places import GlueUp
from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.way import SledWay


@dataclass(frozen=True)
class Groundwork:
    """The numbers of a job [mm]. `planned` is the joint at the sled's nominal slope, `joint` at the one it has."""

    job: Job
    joint: Joint
    planned: Joint
    least_board: float
    glue: GlueUp
    way: SledWay
    cut: Cut

    @property
    def mirrored(self) -> bool:
        """Whether parts that have a hand are made as in a mirror: the fence stands on the left."""
        return self.job.saw.fence_side == "left"
