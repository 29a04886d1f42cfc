"""The sled of a given length, and everything that follows from it: joint, blade, travels, what sits where."""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.blade import Blade, travels
from scarfwright.models.sled.dividing import dividing
from scarfwright.models.sled.layout import lay_out
from scarfwright.models.sled.sled import Sled, as_made, auto_nose_flat, from_plank, from_sheet
from scarfwright.models.sled.way import SledWay


def sled_way(job: Job, length: float) -> tuple[SledWay, bool]:
    """The way along a sled of this length [mm], and whether its measured sizes make no sled."""
    nominal = _nominal_sled(job, length)
    sled = nominal
    unmeasurable = False
    if job.sled.heel_as_made is not None or job.sled.nose_as_made is not None:
        try:
            sled = as_made(nominal, job.sled.heel_as_made, job.sled.nose_as_made)
        except ValueError:
            unmeasurable = True
    flat, kerf = job.sled.nose_flat, float(job.saw.kerf)
    length_of_flat = auto_nose_flat(kerf, sled.ratio, job.clamp.pad_width) if flat == "auto" else float(flat)
    sled = replace(sled, nose_flat=length_of_flat)
    nominal = replace(nominal, nose_flat=length_of_flat)
    joint = joint_of(job, sled)
    height = float(job.stock.height) + job.saw.blade_above_work
    blade = Blade(float(job.saw.blade_diameter), kerf, height, float(job.saw.fence_gap))
    travel = travels(joint, blade, float(job.saw.clear_gap))
    layout = lay_out(job, joint, blade, travel, sled)
    way = SledWay(
        job=job,
        joint=joint,
        sled=sled,
        nominal=nominal,
        blade=blade,
        travel=travel,
        layout=layout,
        dividing=dividing(job, nominal, layout) if job.sled.made_from == "plank" else None,
    )
    return way, unmeasurable


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
