"""Test joints of faulty shops for the form: whole ones and ones of which only some figures were taken, in mm
and inches; readings halfway up and at both edges, of one board or both, with and without the hand noted."""

from __future__ import annotations

import random
import tomllib
from dataclasses import dataclass, replace

from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.solve import work_out
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.measured import Reading, Station, TestJoint, Twist
from scarfwright.models.tuning.plan import plan_of

from tests.faulty_shops import ALL, Shop, faulty, measure, planned

# of joints that are not measured whole: each figure is taken by so many
TAKEN = 0.55


JOB = """
units = "{units}"
title = "Test joint {number}"
[stock]
thickness = "{thickness:.1f} mm"
height = "{height:.1f} mm"
[joint]
ratio = {ratio:.1f}
[sled]
made_from = "{made_from}"
[limits]
{limits}
"""


@dataclass(frozen=True)
class Case:
    """A job as text, the set-up it means, and joints measured in a shop that has it wrong."""

    job: str
    plan: Plan
    joints: tuple[TestJoint, ...]


JOBS = 8


def cases(count: int, seed: int) -> list[Case]:
    """So many cases on a few jobs without faults, half of them in inches; the same for the same seed."""
    rng = random.Random(seed)
    jobs = [_job(rng, number) for number in range(JOBS)]
    return [_case(rng, *jobs[number % JOBS]) for number in range(count)]


def _job(rng: random.Random, number: int) -> tuple[str, Plan]:
    """In mm or inches, of a plank or of sheet, with a limit to the twist or without."""
    wide = planned(rng, (35.0, 60.0))
    job = JOB.format(
        number=number,
        units="in" if number % 2 else "mm",
        thickness=min(wide.thickness, 28.0),
        height=wide.height,
        ratio=1 / wide.slope,
        made_from="plank" if number % 4 < 2 else "sheet",
        limits="" if number < 4 else f"twist = {rng.uniform(0.2, 2):.2f}\njoints = {1 + number % 3}",
    )
    work = work_out(job_from_dict(tomllib.loads(job), "job"))
    return _job(rng, number) if faults(list(work.findings)) else (job, plan_of(work))


def _case(rng: random.Random, job: str, plan: Plan) -> Case:
    shop = faulty(rng, plan)
    joints = [_joint(rng, shop, one + 1) for one in range(rng.choice((1, 1, 1, 2, 3)))]
    if all(joint.empty for joint in joints):
        joints[0] = measure(rng, shop)
    return Case(job, plan, tuple(joints))


def _joint(rng: random.Random, shop: Shop, number: int) -> TestJoint:
    """Whole, or some of its figures; some read at the edges, some of both boards; now and then a slip."""
    if rng.random() < 0.3:
        return measure(rng, shop, number=number)
    keys = tuple(key for key in (*ALL, "hand") if rng.random() < TAKEN)
    joint = measure(rng, shop, keys, number)
    if rng.random() < 0.4:
        joint = replace(joint, **{key: _of_both(rng, getattr(joint, key)) for key in ("board_thickness", "taper_run")})
    if rng.random() < 0.4 and joint.tip:
        top, bottom = (max(0.0, rng.gauss(shop.over(0.0, z), 0.05)) for z in (shop.height, 0.0))
        joint = replace(joint, tip=(Reading("tip", None, top, bottom, rng.choice((None, 1, 2))),))
    if rng.random() < 0.3:
        joint = replace(joint, thickness_at=tuple(replace(at, piece=rng.choice((1, 2))) for at in joint.thickness_at))
    if rng.random() < 0.3:
        joint = replace(joint, line_skew=tuple(replace(one, nearer=None) for one in joint.line_skew))
    if rng.random() < 0.1:
        joint = replace(joint, gap_bottom=None, tip_to_tip=None)
    if rng.random() < 0.1:
        joint = replace(joint, twist=Twist(9.0, 300.0, "up"))
    if rng.random() < 0.1:
        joint = replace(joint, thickness_at=(*joint.thickness_at, Station("thickness_at", 70.0, 9.0)))
    return joint


def _of_both(rng: random.Random, readings: tuple[Reading, ...]) -> tuple[Reading, ...]:
    return tuple(
        replace(one, value=rng.gauss(one.value, 0.1), piece=n) for one in readings[:1] for n in (1, 2) if one.value
    )
