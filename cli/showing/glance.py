"""The cut at a glance, why "auto" came out as it did, and what to do next."""

from __future__ import annotations

import shlex
from pathlib import Path

from scarfwright.models.findings import faults
from scarfwright.models.job.guesses import is_default
from scarfwright.models.job.tables import Clamp, Job
from scarfwright.models.lengths.length import parse_length
from scarfwright.models.lengths.say import say_in
from scarfwright.models.lengths.steps import coarse_step
from scarfwright.models.solve import work_out
from scarfwright.models.words.at_the_saw.endings import NAMES
from scarfwright.models.words.at_the_saw.place import OF, from_centre, heel_at
from scarfwright.models.workup import Workup

WHY = 158  # characters: two lines of a terminal 80 wide; a reason that is longer is left out, never cut off
WIDE = {"mm": "150 mm", "in": "6 in"}  # clamps of an ordinary size that open wider than most jobs ask


def the_cut(work: Workup) -> list[tuple[str, str]]:
    """Five lines: the sled, start, taper and limit, end, hands. What is set at the saw is told as the card tells it."""
    say, way, advice = say_in(work.job.units), work.way, work.cut.advice
    sled, travel, limit = way.sled, way.travel, way.travel_limit
    room = "nothing limits it" if limit is None else f"never past {say.down(limit)}"
    return [
        ("sled", f"{say(sled.length)} long, heel {say(sled.heel)}, nose {say(sled.nose)}"),
        ("start", f"heel {from_centre(-advice.start.from_axis, say)}"),
        ("taper complete", f"{heel_at(travel.done, say, OF)}; {room}"),
        ("end of the cut", f"{NAMES[advice.asked.name]}, stop block {from_centre(advice.stop.from_axis, say)}"),
        ("hands", f"on your side of the line {say(way.layout.hand_line)} from the heel"),
    ]


def why_so_long(work: Workup) -> str:
    """Why "auto" chose this length: what stops the next shorter sled; empty where the job gives the length."""
    job, sled = work.job, work.way.sled
    shorter = sled.length - coarse_step(job.units)
    if job.sled.length != "auto" or shorter <= 0 or faults(list(work.findings)):
        return ""
    found = faults(list(_with_length(job, shorter).findings))
    say = say_in(job.units)
    head = f'Length "auto": {say(sled.length)} is the shortest that serves.'
    if not found:
        return head
    wider = _with_wider_clamps(work)
    if wider is not None:
        mine, assumed = say(job.clamp.opening), is_default(job.clamp.opening, Clamp, "opening", job)
        known = f"{mine} is assumed, measure yours" if assumed else f"the job says {mine}"
        return f"{head} Clamps that open {WIDE[job.units]} would make it {say(wider)} ({known})."
    whole = found[0].text.partition(". ")[0].rstrip(".")
    whole = whole if whole[:2].isupper() else whole[0].lower() + whole[1:]
    told = (f"{head} At {say(shorter)}: {why}." for why in (whole, whole.partition("; ")[0]))
    return next((text for text in told if len(text) <= WHY), head)


def _with_length(job: Job, length: float) -> Workup:
    given = {"length": parse_length(f"{length:.3f} mm")}
    return work_out(job.model_copy(update={"sled": job.sled.model_copy(update=given)}))


def _with_wider_clamps(work: Workup) -> float | None:
    """The sled's length with clamps of an ordinary size, where that is shorter [mm]."""
    job, wide = work.job, parse_length(WIDE[work.job.units])
    if job.clamp.opening >= wide:
        return None
    with_wide = job.model_copy(update={"clamp": job.clamp.model_copy(update={"opening": wide})})
    length = work_out(with_wide).way.sled.length
    return length if length < work.way.sled.length - 1.0 else None


def what_next(work: Workup, file: Path, options: str = "") -> list[str]:
    """What to do now, one line each; `options` go with every command."""
    name = shlex.quote(str(file)) + options
    if faults(list(work.findings)):
        return [f"Mend what stops the job in {file}, then: scarfwright check {name}"]
    return [
        f"scarfwright make {name}",
        f"scarfwright check --cut {name}   (also: --sled, --all)",
        "Pin paper/setup-card.pdf up at the saw. The saw maker's manual comes first.",
    ]
