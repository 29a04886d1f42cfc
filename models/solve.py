"""From a checked job to the worked-out one: picks what is "auto", computes, and asks the checks."""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.checks import check_all, check_machine
from scarfwright.models.findings import faults, worst_first
from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.blade import Blade, travels
from scarfwright.models.sled.dividing import dividing
from scarfwright.models.sled.layout import lay_out
from scarfwright.models.sled.sled import Sled, as_made, auto_nose_flat, from_plank, from_sheet, longest_from_plank
from scarfwright.models.sled.workup import Workup
from scarfwright.models.wanted.wanted import part_findings

LONGEST_SLED = 6000.0  # "auto" looks no further; longer boards are rarely sold (common practice, no source)


def work_up(job: Job) -> Workup:
    """Work a job out. Never raises for a valid job: what is impossible is a finding."""
    work = work_out(job)
    if faults(list(work.findings)):
        return work  # nothing is made, so nothing is said about parts and machines
    work = replace(work, findings=tuple(check_machine(work)))
    return replace(work, findings=tuple(worst_first([*work.findings, *part_findings(work)])))


def work_out(job: Job) -> Workup:
    """Joint, sled and cut alone: all but what the machines and the smaller parts have to say."""
    return _shortest_that_serves(job) if job.sled.length == "auto" else _at_length(job, float(job.sled.length))


def length_step(job: Job) -> float:
    """Sled lengths are multiples of this [mm]: 50 mm, or 2 in."""
    return 50.0 if job.units == "mm" else 50.8


def _shortest_that_serves(job: Job) -> Workup:
    """The first length, going up, without a fault; else the one with the fewest faults, shortest first."""
    step = length_step(job)
    longest = LONGEST_SLED
    if job.sled.made_from == "plank":
        longest = min(
            longest,
            longest_from_plank(job.sled.plank.width, job.joint.ratio, job.kerf, job.sled.nose_min),
        )
    top = max(math.floor(longest / step + 1e-9), 1)
    best: tuple[int, Workup] | None = None
    for count in range(1, top + 1):
        trial = _at_length(job, count * step)
        wrong = len(faults(list(trial.findings)))
        if wrong == 0:
            return trial
        if best is None or wrong < best[0]:
            best = (wrong, trial)
    assert best is not None
    return best[1]


def _at_length(job: Job, length: float) -> Workup:
    nominal = _nominal_sled(job, length)
    sled = nominal
    unmeasurable = False
    if job.sled.heel_as_made is not None or job.sled.nose_as_made is not None:
        try:
            sled = as_made(nominal, job.sled.heel_as_made, job.sled.nose_as_made)
        except ValueError:
            unmeasurable = True
    flat = job.sled.nose_flat
    length_of_flat = auto_nose_flat(job.kerf, sled.ratio, job.clamp.pad_width) if flat == "auto" else float(flat)
    sled = replace(sled, nose_flat=length_of_flat)
    nominal = replace(nominal, nose_flat=length_of_flat)
    joint = Joint(sled.ratio, float(job.stock.thickness), float(job.stock.height), job.gap)
    blade = Blade(float(job.saw.blade_diameter), job.kerf, float(job.stock.height) + job.saw.blade_above_work)
    travel = travels(joint, blade, float(job.saw.clear_gap))
    work = Workup(
        job=job,
        sled=sled,
        nominal=nominal,
        joint=joint,
        blade=blade,
        travel=travel,
        layout=lay_out(job, joint, blade, travel, sled),
        dividing=dividing(job, nominal) if job.sled.made_from == "plank" else None,
        findings=(),
    )
    return replace(work, findings=tuple(check_all(work, unmeasurable=unmeasurable)))


def _nominal_sled(job: Job, length: float) -> Sled:
    if job.sled.made_from == "sheet":
        thickness = job.sled.sheet_thickness * job.sled.layers
        return from_sheet(float(job.sled.nose_min), thickness, length, job.joint.ratio)
    return from_plank(
        float(job.sled.plank.width),
        float(job.sled.plank.thickness),
        length,
        job.joint.ratio,
        job.kerf,
        float(job.sled.round_marks),
    )
