"""The strength of a job's joint put together: what its slope keeps, its glue plane, its wood, the test of a sample."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import Unit
from scarfwright.models.strength.bend_test import BendTest, bend_test
from scarfwright.models.strength.slope import (
    SlopeRow,
    Step,
    TooSteepError,
    flatter_steps,
    plane_stress,
    row_behind,
    strength_share,
)
from scarfwright.models.strength.wood import Wood


@dataclass(frozen=True)
class Strength:
    """`share` of clear-wood strength, None for a slope too steep to know it; `row`: of the table that stands behind it;
    `shear`, `normal`: on the glue plane, for an axial stress of 1; `area_ratio`: of glue to cross-section;
    `steps`: flatter slopes; `wood`: None where no figures are known; `section`: width and depth of a sample [mm];
    `test`: None without share or wood, or where a narrow strip is too strong for a scale."""

    share: float | None
    row: SlopeRow | None
    shear: float
    normal: float
    area_ratio: float
    steps: tuple[Step, ...]
    wood: Wood | None
    section: tuple[float, float]
    test: BendTest | None


def strength_of(joint: Joint, wood: Wood | None, finished: float | None, units: Unit) -> Strength:
    """The strength of a joint, tested at its finished thickness [mm], or with its tips planed away."""
    try:
        share = strength_share(joint.ratio)
    except TooSteepError:
        share = None
    shear, normal = plane_stress(1.0, joint.ratio)
    depth = joint.thickest_finish if finished is None else finished
    test = None
    if wood is not None and share is not None:
        test = bend_test(wood, share, joint.finished_run(depth), joint.height, depth, units)
    return Strength(
        share=share,
        row=None if share is None else row_behind(joint.ratio),
        shear=shear,
        normal=normal,
        area_ratio=math.hypot(1.0, joint.ratio),
        steps=flatter_steps(joint),
        wood=wood,
        section=(joint.height, depth),
        test=test,
    )
