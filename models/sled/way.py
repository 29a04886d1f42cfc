"""The way "sled": a joint cut on the table saw along a tapered sled, every number of it worked out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.blade import Blade, Travels
from scarfwright.models.sled.dividing import Dividing, dividing
from scarfwright.models.sled.layout import Layout, free_travel
from scarfwright.models.sled.sled import Sled, rounding_slack


@dataclass(frozen=True)
class SledWay:
    """Sled, blade, travels and what sits on the sled [mm]. `nominal` and `planned`: the sled and what sits on it before
    anything was measured."""

    job: Job
    joint: Joint
    sled: Sled
    nominal: Sled
    blade: Blade
    travel: Travels
    layout: Layout
    planned: Layout

    @cached_property
    def dividing(self) -> Dividing | None:
        """The cut that divides the plank; None for a sled from sheet. Worked out when it is first asked for."""
        return dividing(self.job, self.nominal, self.planned) if self.job.sled.made_from == "plank" else None

    @property
    def too_short(self) -> bool:
        """Whether the heel notch is off the sled, or something meets blade or fence too soon."""
        heel = next((n for n in self.layout.notches if n.where == "heel"), None)
        off = heel is not None and self.sled.work_edge < heel.station + max(heel.length, heel.width) / 2 - 1e-6
        limit = self.travel_limit
        return off or (limit is not None and limit < self.travel_needed - 1e-3)

    @property
    def shortest(self) -> float:
        """The least sled length the cut asked for allows [mm]."""
        return self.shortest_for(self.travel_needed, self.layout.least_station)

    def shortest_for(self, needed: float, station: float) -> float:
        """The least sled length [mm] for a free travel `needed`: the nose clamp stays before the fence's front end,
        and a heel notch at `station` fits on the work edge."""
        lengths = [(station + self.job.sled.notch_length / 2) * math.cos(self.sled.angle)]
        lengths += [self.sled.length + needed - c.at_fence for c in self.layout.clamps if c.at_fence is not None]
        return max(lengths)

    def length_for(self, lacking: float) -> float:
        """Sled length [mm] at which the nose clamp has the travel it lacks, whichever way its own mark is rounded."""
        front = self.job.saw.fence_front
        return (self.sled.length + lacking - front) * self.stretch + front

    @property
    def stretch(self) -> float:
        """Factor by which the slope of a longer sled may be flatter than this one's, its mark rounded another way.

        Travels and stations grow with N: what is told for another length is multiplied by it.
        """
        job = self.job.sled
        rounding = job.round_marks if job.made_from == "plank" else 0.0
        worst = self.job.joint.ratio * rounding_slack(self.job.joint.ratio, self.sled.length, rounding)
        return max(worst / self.sled.ratio, 1.0)

    @property
    def fence(self) -> float:
        """Fence to the blade's near face, F = heel + c [mm]."""
        return self.sled.heel + self.blade.gap

    @property
    def travel_limit(self) -> float | None:
        """Least travel at which a clamp or the board's tail meets blade or fence [mm]; None if nothing does."""
        limits = [c.limit for c in self.layout.clamps if c.limit is not None]
        tail = self.board_limit
        if tail is not None:
            limits.append(tail)
        return min(limits) if limits else None

    @property
    def board_limit(self) -> float | None:
        """Travel at which a long board's tail meets the fence's front end [mm]; None if it is too short to.

        The board's inner face crosses the fence line at X = heel N. A board of unknown length is taken as long.
        """
        crossing = self.sled.heel * self.sled.ratio
        length = self.job.stock.length
        if length is not None and length * math.cos(self.joint.angle) <= crossing:
            return None
        return crossing - self.job.saw.fence_front

    @property
    def travel_end(self) -> float:
        """Travel at which the cut has ended as asked [mm]."""
        return self.travel.end(self.job.saw.end_of_cut)

    @property
    def travel_needed(self) -> float:
        """Travel that must be free: to the end of the cut asked for, and its margin [mm]."""
        return free_travel(self.job, self.travel_end)

    @property
    def least_board(self) -> float:
        """The shortest board that every clamp's pad bears on wholly, wherever it slides [mm]; 0 without clamps."""
        return max((c.least_board for c in self.layout.clamps), default=0.0)
