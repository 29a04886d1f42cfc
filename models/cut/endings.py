"""What to do with the sled at the end of the cut: three ways to end it, the offcut, the stop block, the start.

Travels count as in saw.py: how far the heel has gone past the blade's axis [mm]. "From the front edge" is measured
on the table, away from the operator. The geometry is the project's own derivation; what is said of risks is common
practice, no source, and never replaces the saw maker's manual.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.cut.sides import sides
from scarfwright.models.lengths.length import round_up, rule_step
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.layout import least_station, safe_station
from scarfwright.models.sled.sled import rounding_slack
from scarfwright.models.sled.way import SledWay

ENDINGS = ("hold", "run_on", "draw_back")
NAMES = {"hold": "hold", "run_on": "run on", "draw_back": "draw back"}
_HOW = {
    "hold": "against the stop block, hold the sled down, switch off by knee or helper, wait until the blade stands",
    "run_on": "push on in one go until the blade is clear of the taper, then switch off and wait until it stands",
    "draw_back": "with the taper complete, draw the sled straight back out of the running blade, against the fence",
}
_RISKS = {
    "hold": "Risk: the blade runs down beside the finished face; a sled that moves or lifts meanwhile is marked or "
    "thrown, so both hands stay on it, behind the line, and the switch is knocked by knee or by a helper.",
    "run_on": "Risk: the sled travels far past the blade and its clamps come nearest to it; whatever is pushed too "
    "far brings a clamp into the teeth.",
    "draw_back": "Risk: KICKBACK. The rising teeth at the back of the blade run towards the operator along the "
    "finished face; the least twist or a dropped offcut in the way lets them throw sled and work. Last choice.",
}


@dataclass(frozen=True)
class Bound:
    """Something that limits the travel: what it is, the travel at which it meets blade or fence, and which."""

    what: str
    travel: float
    meets: str


@dataclass(frozen=True)
class Ending:
    """One way to end the cut. `needed` is its travel and the margin; `least_station` of the heel clamp, on a mark,
    and `least_length` of the sled are what it would take; `lacks` are the bounds that come too early."""

    name: str
    asked: bool
    travel: float
    needed: float
    possible: bool
    lacks: tuple[Bound, ...]
    spare: float | None
    least_station: float
    least_length: float
    how: str
    why: str
    risk: str


@dataclass(frozen=True)
class Offcut:
    """The piece that falls: `length` along the feed, `thick` at its heel end (0: the kerf eats it all), where it is."""

    length: float
    thick: float
    side: str
    text: str


@dataclass(frozen=True)
class StopBlock:
    """What the sled's heel end runs against: `from_front` the block's near face from the table's front edge,
    `from_axis` past the blade's axis; `on_table` whether it can be clamped there; `cleat` from the heel along the
    fence edge: a batten under the sled that meets the table's front edge instead, None where the sled is too short.
    """

    travel: float
    from_front: float
    from_axis: float
    on_table: bool
    cleat: float | None
    text: str


@dataclass(frozen=True)
class Start:
    """Where the heel stands, blade at full speed: `from_front` in from the table's front edge."""

    travel: float
    from_front: float
    text: str


@dataclass(frozen=True)
class TravelAdvice:
    """All advice on the travel. `go_on` is how far to push after the offcut drops (k N), `lip` how thick what stands
    till then."""

    endings: tuple[Ending, ...]
    limit_text: str
    go_on: float
    lip: float
    go_on_text: str
    offcut: Offcut
    stop: StopBlock
    start: Start


def travel_advice(way: SledWay) -> TravelAdvice:
    """Advice for this job's clamps, in the order hold, run on, draw back."""
    say = say_in(way.job.units)
    go_on = way.travel.done - way.travel.offcut_free
    return TravelAdvice(
        endings=tuple(_ending(way, name, say) for name in ENDINGS),
        limit_text=_limit_text(way, say),
        go_on=go_on,
        lip=way.blade.kerf,
        go_on_text=(
            f"When the offcut drops the cut is not done: go on by {say.up(go_on)}. Until then a lip up to "
            f"{say(way.blade.kerf)} thick stands on the work, and the joint cannot close on it."
        ),
        offcut=_offcut(way, say),
        stop=stop_block(way),
        start=_start(way, say),
    )


def bounds(way: SledWay, *, pushed_down: bool = False) -> list[Bound]:
    """All that limits the travel, nearest first. `pushed_down`: with the clamps as low as they go."""
    say = say_in(way.job.units)
    found = []
    for clamp in way.layout.clamps:
        limit = clamp.limit
        if pushed_down:
            limit = min((t for t in (clamp.pushed_down, clamp.at_fence) if t is not None), default=None)
        if limit is not None:
            what = f"the {clamp.where.replace('_', ' ')} clamp at {say(clamp.station)}"
            found.append(Bound(what, limit, "fence" if limit == clamp.at_fence else "blade"))
    if way.board_limit is not None:
        known = "" if way.job.stock.length is not None else ", if it is long enough,"
        found.append(Bound(f"the board's tail{known}", way.board_limit, "fence"))
    return sorted(found, key=lambda b: b.travel)


def _ending(way: SledWay, name: str, say: Say) -> Ending:
    travel = way.travel.end(name)
    needed = travel + way.job.saw.travel_margin
    every = bounds(way)
    lacks = tuple(b for b in every if b.travel < needed - 1e-6)
    least = least_station(way.job, way.joint, way.blade, way.sled, travel)
    station = safe_station(way.job, way.sled, least)
    length = _least_length(way, needed, station)
    return Ending(
        name=name,
        asked=name == way.job.saw.end_of_cut,
        travel=travel,
        needed=needed,
        possible=not lacks,
        lacks=lacks,
        spare=every[0].travel - travel if every else None,
        least_station=station,
        least_length=length,
        how=_HOW[name],
        why=_why(travel, needed, every, lacks, say) + f" It takes, at this slope, a heel station of {say.up(station)}"
        f" or more and a sled of {say.up(length)} or more.",
        risk=_RISKS[name],
    )


def _least_length(way: SledWay, needed: float, station: float) -> float:
    """Sled length [mm] that has the travel, whichever way the mark of a plank sled of that length is rounded."""
    job, exact = way.job, way.shortest_for(needed, station)
    if job.sled.made_from == "sheet":
        return exact
    slack = rounding_slack(job.joint.ratio, exact, float(job.sled.round_marks))
    return max(exact, (exact - job.saw.fence_front) * slack + job.saw.fence_front)


def _why(travel: float, needed: float, every: list[Bound], lacks: tuple[Bound, ...], say: Say) -> str:
    if not every:
        return f"Possible: it ends at a travel of {say(travel)}, and nothing ever comes into the way."
    if not lacks:
        first = every[0]
        return (
            f"Possible: it ends at a travel of {say(travel)}, and the first to be in the way, {first.what}, meets the "
            f"{first.meets} {say.down(first.travel - travel)} later."
        )
    told = "; ".join(f"{b.what} meets the {b.meets} at {say.down(b.travel)}" for b in lacks)
    return f"Not with these clamps: it ends at a travel of {say(travel)} and wants {say.up(needed)} free, but {told}."


def _limit_text(way: SledWay, say: Say) -> str:
    every = bounds(way)
    if not every:
        return "Nothing limits the travel."
    first = every[0]
    return f"Travel limit {say.down(first.travel)}: there {first.what} meets the {first.meets}."


def _offcut(way: SledWay, say: Say) -> Offcut:
    """A wedge: thick at the heel end, running out where the far side of the kerf leaves the board."""
    joint, free = way.joint, sides(way.job).free
    thick = max(joint.thickness - joint.tip - way.blade.kerf / math.cos(joint.angle), 0.0)
    length = thick * joint.ratio
    if thick <= 0:
        return Offcut(0.0, 0.0, free, "There is no offcut: the kerf is as wide as the work is thick.")
    return Offcut(
        length,
        thick,
        free,
        f"The offcut, a wedge {say(length)} long and {say(thick)} thick at its heel end, falls on the {free}, the free "
        "side of the blade, never between blade and fence. Keep that side clear, and leave it where it fell until the "
        "blade stands: never reach for it, never push it with a hand.",
    )


def stop_block(way: SledWay) -> StopBlock:
    """The heel's end, square to the fence, runs against the block at T = the end of the cut, up to the next mark."""
    saw, say = way.job.saw, say_in(way.job.units)
    from_front = round_up(saw.table_front + way.travel_end, rule_step(way.job.units))
    travel = from_front - saw.table_front
    on_table = travel <= saw.table_back
    cleat = from_front if from_front <= way.sled.length else None
    text = (
        f"Stop block clamped to the fence, on its blade side and clear of the blade, its near face {say(from_front)} "
        f"from the table's front edge ({say(travel)} past the blade's axis): the sled's heel end runs against it. "
        f"Make it narrower than the heel ({say(way.sled.heel)}) and chamfer its lower edge: sawdust must not hold "
        "the sled off."
    )
    if not on_table:
        text += (
            f" That is {say(travel - saw.table_back)} past the table's back edge: it needs an outfeed table and a "
            "fence that reaches so far."
        )
    if cleat is not None:
        text += (
            f" Or, without infeed table in its way, a cleat under the sled {say(cleat)} from the heel that meets "
            "the table's front edge."
        )
    return StopBlock(travel, from_front, travel, on_table, cleat, text)


def _start(way: SledWay, say: Say) -> Start:
    inward = way.job.saw.table_front + way.travel.start
    return Start(
        way.travel.start,
        inward,
        f"Start with the heel {say.down(inward)} inside the table's front edge, {say.up(-way.travel.start)} before "
        "the blade's axis, the blade at full speed and touching nothing.",
    )
