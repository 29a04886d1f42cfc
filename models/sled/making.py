"""The sled of a given length, and everything that follows from it: joint, blade, travels, what sits where."""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.blade import Blade, travels
from scarfwright.models.sled.layout import as_measured, lay_out, moved
from scarfwright.models.sled.sled import Sled, as_made, auto_nose_flat, from_plank, from_sheet
from scarfwright.models.sled.way import SledWay


def sled_way(job: Job, length: float) -> tuple[SledWay, bool]:
    """The way along a sled of this length [mm], and whether its measured sizes make no sled."""
    each_side = 5.0 if job.units == "mm" else 25.4 * 3 / 16
    asked = job.sled.nose_flat
    flat = auto_nose_flat(float(job.clamp.pad_width), each_side) if asked == "auto" else float(asked)
    nominal = replace(_nominal_sled(job, length), nose_flat=flat)
    sled, unmeasurable = _measured(job, nominal)
    height = float(job.stock.height) + job.saw.blade_above_work
    blade = Blade(float(job.saw.blade_diameter), float(job.saw.kerf), height, float(job.saw.fence_gap))
    gap = float(job.saw.clear_gap)
    planned_joint, joint = joint_of(job, nominal), joint_of(job, sled)
    planned = layout = lay_out(job, planned_joint, blade, travels(planned_joint, blade, gap), nominal)
    travel = travels(joint, blade, gap)
    if sled != nominal:
        layout = moved(as_measured(planned, job, joint, blade, travel, sled), sled.length - nominal.length)
    way = SledWay(
        job=job,
        joint=joint,
        sled=sled,
        nominal=nominal,
        blade=blade,
        travel=travel,
        layout=layout,
        planned=planned,
    )
    return way, unmeasurable


def _measured(job: Job, nominal: Sled) -> tuple[Sled, bool]:
    """The sled with the sizes that were measured, and whether they make none (then it is the nominal one)."""
    asked = job.sled
    try:
        return as_made(nominal, asked.heel_as_made, asked.nose_as_made, asked.length_as_made), False
    except ValueError:
        return nominal, True


def joint_of(job: Job, sled: Sled) -> Joint:
    """The joint this sled cuts: the fence gap c leaves a tip b = c / cos(theta) [mm]."""
    tip = float(job.saw.fence_gap) / math.cos(math.atan(1 / sled.ratio))
    return Joint(sled.ratio, float(job.stock.thickness), float(job.stock.height), tip)


def _nominal_sled(job: Job, length: float) -> Sled:
    if job.sled.made_from == "sheet":
        thickness = job.sled.sheet_thickness * job.sled.layers
        return from_sheet(float(job.sled.nose_min), thickness, length, job.joint.ratio)
    return from_plank(
        float(job.sled.plank.width),
        float(job.sled.plank.thickness),
        length,
        job.joint.ratio,
        float(job.saw.kerf),
        float(job.sled.round_marks),
    )
