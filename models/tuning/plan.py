"""What a job's set-up was meant to be, for the test joint to be held against."""

from __future__ import annotations

from scarfwright.models.accuracy.outlook import limits_of
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.tuning.corrections import Plan


def plan_of(work: Groundwork) -> Plan:
    """The plan of a job that can be cut; slope and gap as the sled was made, if it was measured."""
    job, sled, joint = work.job, work.way.sled, work.joint
    return Plan(
        slope=1 / joint.ratio,
        gap=work.way.blade.gap,
        height=joint.height,
        thickness=joint.thickness,
        fence_edge=sled.length - sled.nose_flat,
        halves=job.sled.made_from == "plank",
        limits=limits_of(job),
        units=job.units,
    )
