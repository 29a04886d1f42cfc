"""What a job allows and what is to be expected of it: its limits, and the budget of a careful set-up."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.accuracy.budget import Budget, Spreads, budget, careful
from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint


@dataclass(frozen=True)
class Outlook:
    """The limits, the spreads taken of the set-up, what they come to, and the greatest lean that meets both limits
    [rad]."""

    limits: Limits
    spreads: Spreads
    budget: Budget
    lean_allowed: float


def limits_of(job: Job) -> Limits:
    """The adhesive's gap limit, and the twist the user allows."""
    twist = None if job.limits.twist is None else math.radians(job.limits.twist)
    return Limits(float(job.adhesive.gap_limit), twist, job.limits.joints)


def outlook(job: Job, joint: Joint, blade_height: float, sled_thickness: float) -> Outlook:
    """For a joint that can be cut; blade height and sled thickness [mm] are what a square is held against."""
    limits = limits_of(job)
    spreads = careful(blade_height, sled_thickness)
    return Outlook(limits, spreads, budget(joint, spreads, limits), limits.most_lean(joint.height, joint.angle))
