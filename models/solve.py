"""From a checked job to the worked-out one: picks what is "auto", computes, and asks the checks."""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.checks import check_all, check_machine
from scarfwright.models.cut.cut import the_cut
from scarfwright.models.findings import faults, worst_first
from scarfwright.models.gluing.places import glue_up
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.board import board_length
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.steps import coarse_step
from scarfwright.models.sled.making import joint_of, sled_way
from scarfwright.models.sled.sled import longest_from_plank
from scarfwright.models.wanted.wanted import wanted
from scarfwright.models.words.sentences import worded
from scarfwright.models.workup import Workup

LONGEST_SLED = 6000.0  # "auto" looks no further; longer boards are rarely sold (common practice, no source)


def work_up(job: Job) -> Workup:
    """Work a job out. Never raises for a valid job: what is impossible is a finding."""
    work = work_out(job)
    if faults(list(work.findings)):
        return work  # nothing is made, so nothing is said about parts and machines
    parts = wanted(work)
    found = [*work.findings, *check_machine(work, parts), *(f for one in parts for f in one.findings)]
    return replace(work, findings=worded(worst_first(found), job.units), wanted=parts)


def work_out(job: Job) -> Workup:
    """Joint, sled and cut alone: all but what the machines and the smaller parts have to say."""
    found = _shortest_that_serves(job) if job.sled.length == "auto" else _at_length(job, float(job.sled.length))
    return replace(found, findings=worded(found.findings, job.units))


def _shortest_that_serves(job: Job) -> Workup:
    """The first length, going up, without a fault; else the one with the fewest faults, shortest first."""
    step = coarse_step(job.units)
    longest = LONGEST_SLED
    if job.sled.made_from == "plank":
        longest = min(
            longest,
            longest_from_plank(job.sled.plank.width, job.joint.ratio, float(job.saw.kerf), job.sled.nose_min),
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
    way, unmeasurable = sled_way(job, length)
    work = Groundwork(
        job=job,
        joint=way.joint,
        planned=joint_of(job, way.nominal),
        least_board=way.least_board,
        glue=glue_up(way.joint, job.clamp, board_length(job)),
        way=way,
        cut=the_cut(way),
    )
    return Workup(**vars(work), findings=tuple(check_all(work, unmeasurable=unmeasurable)))
