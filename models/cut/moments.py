"""The cut from the start to the travel limit as a row of stretches, each with one thing to say, and its moments.

Travels count as in sled/blade.py: how far the heel has gone past the blade's centre [mm]. Words: words/moments.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.cut.endings import Bound, bounds, start_place, stop_block
from scarfwright.models.cut.scene import has_offcut
from scarfwright.models.findings import Level
from scarfwright.models.lengths.length import shop_step
from scarfwright.models.sled.way import SledWay

TOLERANCE = 0.05  # so near to where a stretch begins a travel belongs to it [mm]
MOST_STEPS = 40  # of "keep pushing so much"


@dataclass(frozen=True)
class Moment:
    """A travel [mm] worth stopping at: "start", "offcut_free", "done", "clear" or "limit"."""

    name: str
    travel: float


@dataclass(frozen=True)
class Stretch:
    """From one travel to another [mm] the same can be said. `kind`: "before" the blade, "cutting", "lip" (the offcut is
    free, the taper not complete), "blade_in_taper" (complete, the cut to be run on), "at_block", "past_block",
    "at_limit". `left`: what is still to push to the end of the taper, at most [mm], for the lip."""

    kind: str
    start: float
    end: float
    level: Level
    left: float = 0.0


@dataclass(frozen=True)
class Passage:
    """The whole cut: from `start` to `last`, the travel limit or, where nothing limits it, the stop block. `block` is
    where the heel meets it, `first` what comes into the way first (None: nothing does)."""

    start: float
    last: float
    block: float
    first: Bound | None
    moments: tuple[Moment, ...]
    stretches: tuple[Stretch, ...]

    def stretch_at(self, travel: float) -> Stretch:
        """The last stretch that begins at a travel, or TOLERANCE after it at most."""
        return next((s for s in reversed(self.stretches) if s.start - TOLERANCE <= travel), self.stretches[0])


def passage(way: SledWay) -> Passage:
    """The cut of this job. What comes after the limit is left out; of a job with a fault all of it may be."""
    every, travel, block = bounds(way), way.travel, stop_block(way).from_axis
    first = every[0] if every else None
    start = -start_place(way).from_axis
    last = max(block if first is None else first.travel, start)
    run_on = way.job.saw.end_of_cut == "run_on"
    named = [("start", start)]
    named += [("offcut_free", travel.offcut_free)] if has_offcut(way) else []
    named += [("done", travel.done)]
    named += [("clear", travel.clear)] if run_on else []
    moments = [Moment(name, at) for name, at in named if start <= at <= last]
    if first is not None:
        moments.append(Moment("limit", last))
    return Passage(start, last, block, first, tuple(moments), tuple(_stretches(way, start, last, block, first)))


def _stretches(way: SledWay, start: float, last: float, block: float, first: Bound | None) -> list[Stretch]:
    travel, saw = way.travel, way.job.saw
    touch = way.blade.gap / way.joint.ratio - way.blade.reach(0.0)  # the blade meets the board's end at the table
    begins = [("before", start, Level.NOTE, 0.0), ("cutting", touch, Level.NOTE, 0.0)]
    if has_offcut(way):
        begins += [("lip", at, Level.CAUTION, left) for at, left in _lip(way)]
    if saw.end_of_cut == "run_on":
        begins.append(("blade_in_taper", travel.done, Level.CAUTION, 0.0))
        begins.append(("at_block", travel.clear, Level.NOTE, 0.0))
    else:
        level = Level.CAUTION if saw.end_of_cut == "draw_back" else Level.NOTE
        begins.append(("at_block", travel.done, level, 0.0))
    # the block holds: only what is clearly past it is past it
    begins.append(("past_block", block + 2 * TOLERANCE, Level.CAUTION, 0.0))
    kept = [b for b in begins if b[1] < last - TOLERANCE or b[0] == "before"]
    if first is None:
        kept = [b for b in kept if b[0] != "past_block"]
    else:
        kept.append(("at_limit", last, Level.FAULT, 0.0))
    found: list[Stretch] = []
    end = last
    # from the last one back: of a job with a fault one may begin before another, or before the start; that is over then
    for name, at, level, left in reversed(kept):
        begin = max(min(at, end), start)
        if begin < end or not found:
            found.insert(0, Stretch(name, begin, end, level, left))
        end = begin
    return found


def _lip(way: SledWay) -> list[tuple[float, float]]:
    """Where the offcut is free and the taper not complete: travels, and what is left to push from each on, which goes
    down by marks that a shop sets."""
    free, done = way.travel.offcut_free, way.travel.done
    step = shop_step(way.job.units)
    step *= max(1, math.ceil((done - free) / step / MOST_STEPS))
    count = math.ceil((done - free) / step - 1e-9)
    return [(free, done - free)] + [(done - i * step, i * step) for i in range(count - 1, 0, -1)]
