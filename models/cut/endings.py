"""What to do with the sled at the end of the cut, in numbers: three ways to end it, the offcut, stop block, start.

Travels count as in sled/blade.py: how far the heel has gone past the blade's centre [mm]. "From the front edge" is
measured on the table, away from the operator. The geometry is the project's own derivation. Words: words/endings.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.cut.sides import sides
from scarfwright.models.lengths.length import round_up, shop_step
from scarfwright.models.sled.layout import least_station, safe_station
from scarfwright.models.sled.sled import rounding_slack
from scarfwright.models.sled.way import SledWay

ENDINGS = ("hold", "run_on", "draw_back")


@dataclass(frozen=True)
class Bound:
    """Something that limits the travel: a clamp by its place and station [mm], or the "board" (station None); the
    travel [mm] at which it `meets` "blade" or "fence". `sure` False: only a board that is long enough gets there."""

    where: str
    station: float | None
    travel: float
    meets: str
    sure: bool = True


@dataclass(frozen=True)
class Ending:
    """One way to end the cut. `needed` is its travel and the margin; `least_station` of the heel clamp, on a mark,
    and `least_length` of the sled are what it would need; `first` is what comes into the way first, `lacks` are the
    bounds that come too early, `spare` the travel from the end to the first."""

    name: str
    asked: bool
    travel: float
    needed: float
    first: Bound | None
    lacks: tuple[Bound, ...]
    spare: float | None
    least_station: float
    least_length: float

    @property
    def possible(self) -> bool:
        return not self.lacks


@dataclass(frozen=True)
class Offcut:
    """The piece that falls: `length` along the feed, `thick` at its heel end (0: the kerf eats it all), where it is."""

    length: float
    thick: float
    side: str


@dataclass(frozen=True)
class StopBlock:
    """What the sled's heel end runs against: `from_front` the block's near face from the table's front edge,
    `from_axis` past the blade's centre, `past_table` beyond the table's far edge (0 or less: it stands on it); `cleat`
    from the heel along the fence edge: a batten under the sled that meets the table's front edge instead, None where
    the sled is too short.
    """

    from_front: float
    from_axis: float
    past_table: float
    cleat: float | None

    @property
    def on_table(self) -> bool:
        """Whether it can be clamped over the table."""
        return self.past_table <= 0


@dataclass(frozen=True)
class Start:
    """Where the heel stands, blade at full speed: `from_front` in from the table's front edge, on a mark that a shop
    sets, and `from_axis` short of the blade's centre."""

    from_front: float
    from_axis: float


@dataclass(frozen=True)
class TravelAdvice:
    """All that follows from the travel. `bounds` limit it, nearest first. `go_on` is how far to push after the offcut
    drops (k N), `lip` how thick what stands till then."""

    endings: tuple[Ending, ...]
    bounds: tuple[Bound, ...]
    go_on: float
    lip: float
    offcut: Offcut
    stop: StopBlock
    start: Start

    @property
    def asked(self) -> Ending:
        """The ending that the job asks for."""
        return next(ending for ending in self.endings if ending.asked)


def travel_advice(way: SledWay) -> TravelAdvice:
    """The numbers for this job's clamps, in the order hold, run on, draw back."""
    every = bounds(way)
    return TravelAdvice(
        endings=tuple(_ending(way, name, every) for name in ENDINGS),
        bounds=every,
        go_on=way.travel.done - way.travel.offcut_free,
        lip=way.blade.kerf,
        offcut=_offcut(way),
        stop=stop_block(way),
        start=start_place(way),
    )


def bounds(way: SledWay) -> tuple[Bound, ...]:
    """All that limits the travel, nearest first."""
    found = []
    for clamp in way.layout.clamps:
        if clamp.limit is not None:
            meets = "fence" if clamp.limit == clamp.at_fence else "blade"
            found.append(Bound(clamp.where, clamp.station, clamp.limit, meets))
    if way.board_limit is not None:
        found.append(Bound("board", None, way.board_limit, "fence", way.job.stock.length is not None))
    return tuple(sorted(found, key=lambda b: b.travel))


def _ending(way: SledWay, name: str, every: tuple[Bound, ...]) -> Ending:
    travel = way.travel.end(name)
    needed = travel + way.job.saw.travel_margin
    least = least_station(way.job, way.joint, way.blade, way.sled, travel)
    station = safe_station(way.job, way.sled, least)
    return Ending(
        name=name,
        asked=name == way.job.saw.end_of_cut,
        travel=travel,
        needed=needed,
        first=every[0] if every else None,
        lacks=tuple(b for b in every if b.travel < needed - 1e-6),
        spare=every[0].travel - travel if every else None,
        least_station=station,
        least_length=_least_length(way, needed, station),
    )


def _least_length(way: SledWay, needed: float, station: float) -> float:
    """Sled length [mm] that has the travel, whichever way the mark of a plank sled of that length is rounded."""
    job, exact = way.job, way.shortest_for(needed, station)
    if job.sled.made_from == "sheet":
        return exact
    slack = rounding_slack(job.joint.ratio, exact, float(job.sled.round_marks))
    return max(exact, (exact - job.saw.fence_front) * slack + job.saw.fence_front)


def _offcut(way: SledWay) -> Offcut:
    """A wedge: thick at the heel end, running out where the far side of the kerf leaves the board."""
    joint = way.joint
    thick = max(joint.thickness - joint.tip - way.blade.kerf / math.cos(joint.angle), 0.0)
    return Offcut(thick * joint.ratio, thick, sides(way.job).free)


def stop_block(way: SledWay) -> StopBlock:
    """The heel's end, square to the fence, runs against the block at the end of the cut, up to the next shop mark."""
    saw = way.job.saw
    from_front = round_up(saw.table_front + way.travel_end, shop_step(way.job.units))
    from_axis = from_front - saw.table_front
    cleat = from_front if from_front <= way.sled.length else None
    return StopBlock(from_front, from_axis, from_axis - saw.table_back, cleat)


def start_place(way: SledWay) -> Start:
    """Where the heel stands at the start: the next mark towards the operator, never nearer to the teeth."""
    front = way.job.saw.table_front
    inward = -round_up(-(front + way.travel.start), shop_step(way.job.units))
    return Start(inward, front - inward)
