"""From a checked job to the worked-out one: picks what is "auto", computes, and asks the checks."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

from scarfwright.models.accuracy.outlook import outlook
from scarfwright.models.checks import check_all, check_machine
from scarfwright.models.checks.craft import check_craft
from scarfwright.models.checks.heard import heard
from scarfwright.models.checks.outlook import check_outlook
from scarfwright.models.craft import craft_of
from scarfwright.models.cut.cut import the_cut
from scarfwright.models.findings import faults, worst_first
from scarfwright.models.gluing.places import glue_up
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.board import board_length
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.steps import coarse_step
from scarfwright.models.remedies.proving import with_remedies
from scarfwright.models.sled.making import joint_of, sled_way
from scarfwright.models.sled.sled import longest_from_plank
from scarfwright.models.sled.way import SledWay
from scarfwright.models.wanted.plug_ins import not_loaded
from scarfwright.models.wanted.wanted import left_out_as_coarse, wanted
from scarfwright.models.words.sentences import worded
from scarfwright.models.workup import Workup

FURTHER = 4  # steps that "auto" goes on for a handle's place; common practice, no source
LONGEST_SLED = 6000.0  # "auto" looks no further; longer boards are rarely sold (common practice, no source)


def work_up(job: Job, *, advice: bool = True) -> Workup:
    """Work a job out. Never raises for a valid job: what is impossible is a finding.

    advice: with the ways out of findings, each tried, which takes many times as long where there are any.
    """
    work = advised(job) if advice else work_out(job)
    if faults(list(work.findings)):
        return work  # nothing is made, so nothing is said about parts and machines
    parts = wanted(work)
    craft = craft_of(work)
    ahead = outlook(job, work.joint, work.way.blade.height, work.way.sled.thickness)
    of_parts = [*(f for one in parts for f in one.findings), *left_out_as_coarse(parts), *not_loaded()]
    found = [*work.findings, *check_machine(work, parts), *of_parts, *check_craft(job, craft), *check_outlook(ahead)]
    return replace(work, findings=worded(worst_first(found), job.units), wanted=parts, craft=craft, outlook=ahead)


def work_out(job: Job) -> Workup:
    """Joint, sled and cut alone: all but what the machines and the smaller parts have to say."""
    found = _judged(job)
    return replace(found, findings=worded(found.findings, job.units))


def advised(job: Job) -> Workup:
    """The same, and every finding with the ways out that were tried and do: many times the work where there are any."""
    found = _judged(job)
    tried = with_remedies(found, found.findings, lambda changed: _judged(changed).findings)
    return replace(found, findings=worded(tried, job.units))


def _judged(job: Job) -> Workup:
    work = _along_its_sled(job)
    return replace(work, findings=heard(work.findings))


def _along_its_sled(job: Job) -> Workup:
    """A length of "auto" is searched for the job as it was before anything was measured."""
    if job.sled.length != "auto":
        return _of_sled(*sled_way(job, float(job.sled.length)))
    sled = job.sled.model_copy(update={"heel_as_made": None, "nose_as_made": None, "length_as_made": None})
    if sled == job.sled:
        return _shortest_that_serves(job)
    planned = _shortest_that_serves(job.model_copy(update={"sled": sled}))
    return _of_sled(*sled_way(job, planned.way.nominal.length))


def _shortest_that_serves(job: Job) -> Workup:
    """Of the first length, going up, without a fault, or one a little longer that has a place for the handle too; else
    of the one with the fewest faults, shortest first."""
    step = coarse_step(job.units)
    longest = LONGEST_SLED
    if job.sled.made_from == "plank":
        longest = min(
            longest,
            longest_from_plank(job.sled.plank.width, job.joint.ratio, float(job.saw.kerf), job.sled.nose_min),
        )

    @cache
    def way(length: float) -> tuple[SledWay, bool]:
        return sled_way(job, length)

    @cache
    def work(length: float) -> Workup:
        return _of_sled(*way(length))

    def wrong(length: float) -> tuple[int, bool]:
        """How many faults a sled of this length has, and whether the handle asked for has no place."""
        found = work(length).findings
        return len(faults(list(found))), any(f.code == "handle.no_room" for f in found)

    lengths = [count * step for count in range(1, max(math.floor(longest / step + 1e-9), 1) + 1)]
    for place, length in enumerate(lengths):
        if way(length)[0].too_short:
            continue  # a fault, whatever else is found
        count, no_handle = wrong(length)
        if count == 0:
            further = lengths[place + 1 : place + 1 + FURTHER] if no_handle else ()
            return work(next((longer for longer in further if wrong(longer) == (0, False)), length))
    return work(min(lengths, key=lambda length: (wrong(length)[0], length)))


def _of_sled(way: SledWay, unmeasurable: bool) -> Workup:
    job = way.job
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
