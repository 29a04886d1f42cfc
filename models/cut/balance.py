"""Where sled and board balance, and what support they need before and behind the table.

Moments about the table's front edge, which stands at X = T + table_front (X from the heel along the fence, T the
travel). Sled and board are taken as one stiff body of one density, so densities cancel out; clamps, notches and
hands are left out. All lengths mm. Statics, the project's own derivation.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.job.board import board_length
from scarfwright.models.lengths.length import Unit, round_to, round_up
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.way import SledWay

STEADY = 50.0  # nearer to an edge than this the centre of mass counts as not carried; common practice, no source


@dataclass(frozen=True)
class Balance:
    """At one travel [mm]: `over_front` how far the centre of mass lies before the table's front edge, `over_back`
    behind its back edge (negative: over the table), and whether the table alone carries it."""

    name: str
    travel: float
    centre: float
    over_front: float
    over_back: float
    carried: bool


@dataclass(frozen=True)
class Stand:
    """Where one roller or trestle stands in front of the table [mm]: from `nearest` to `furthest` before the front
    edge, best at `best`; under the board between `across` from the fence's line (negative: beyond it, away from the
    blade)."""

    nearest: float
    furthest: float
    best: float
    across: tuple[float, float]

    @property
    def fits(self) -> bool:
        """Whether one stand alone serves from start to end."""
        return self.nearest <= self.furthest


@dataclass(frozen=True)
class Support:
    """What the cut needs. `assumed`: the board's length is not the job's. `stand` None: no infeed support needed.
    `past_back`: how far the heel end runs past the table's back edge at the end of the cut, 0 for not at all."""

    board_length: float
    assumed: bool
    balances: tuple[Balance, ...]
    stand: Stand | None
    past_back: float
    outfeed: bool
    infeed_text: str
    outfeed_text: str


def support(way: SledWay) -> Support:
    """Balance at start, done and clear, and the support that follows."""
    say = say_in(way.job.units)
    given = way.job.stock.length
    length = board_length(way.job)
    travel = way.travel
    balances = tuple(
        _balance(way, length, name, at)
        for name, at in (("start", travel.start), ("done", travel.done), ("clear", travel.clear))
    )
    end = travel.end(way.job.saw.end_of_cut)
    stand = _stand(way, length)
    at_end = _balance(way, length, "end", end)
    past = max(end - way.job.saw.table_back, 0.0)
    outfeed = at_end.over_back > -STEADY
    return Support(
        board_length=length,
        assumed=given is None,
        balances=balances,
        stand=stand,
        past_back=past,
        outfeed=outfeed,
        infeed_text=_infeed(way.job.units, length, given is None, balances[0], stand),
        outfeed_text=_outfeed(past, outfeed, say),
    )


def centre_of_mass(way: SledWay, board_length: float, *, cut: bool) -> float:
    """X of the common centre of mass of sled and board [mm]; `cut`: without the wedge that was sawn off."""
    sled, joint = way.sled, way.joint
    sin, cos = math.sin(joint.angle), math.cos(joint.angle)
    pieces = [(sled.area * sled.thickness, _sled_centre(way))]
    u, v = board_length / 2, joint.thickness / 2
    pieces.append((board_length * joint.thickness * joint.height, u * cos + v * sin))
    if cut:
        deep, run = joint.thickness - joint.tip, joint.taper_run
        u, v = run / 3, joint.thickness - deep / 3
        pieces.append((-deep * run / 2 * joint.height, u * cos + v * sin))
    mass = sum(m for m, _ in pieces)
    return sum(m * x for m, x in pieces) / mass


def _sled_centre(way: SledWay) -> float:
    """X of the sled's centre of area [mm]: the trapezium less the nose flat's triangle."""
    sled = way.sled
    whole = (sled.heel + sled.nose) * sled.length / 2
    x = sled.length * (sled.heel + 2 * sled.nose) / (3 * (sled.heel + sled.nose))
    off = sled.nose_flat * sled.flat_step / 2
    x_off = sled.length - 2 * sled.nose_flat / 3
    return (whole * x - off * x_off) / (whole - off)


def _balance(way: SledWay, length: float, name: str, travel: float) -> Balance:
    saw = way.job.saw
    centre = centre_of_mass(way, length, cut=name != "start")
    over_front = centre - (travel + saw.table_front)
    over_back = (travel - saw.table_back) - centre
    return Balance(name, travel, centre, over_front, over_back, max(over_front, over_back) <= -STEADY)


def _stand(way: SledWay, length: float) -> Stand | None:
    """One stand must be beyond the centre of mass at the start, and still under the board until the table carries."""
    saw, sled, angle = way.job.saw, way.sled, way.joint.angle
    start = _balance(way, length, "start", way.travel.start)
    if start.over_front <= -STEADY:
        return None
    centre = max(start.centre, centre_of_mass(way, length, cut=True))
    carried_at = centre + STEADY - saw.table_front  # the travel from which on the table alone carries
    last = min(carried_at, way.travel_end)
    tail = max(length * math.cos(angle), sled.length)
    step = fine_step(way.job.units)
    nearest = round_up(max(start.over_front, 0.0) + STEADY, step)
    furthest = -round_up(last + saw.table_front - tail, step)
    best = round_to((nearest + furthest) / 2, step)
    at = [travel + saw.table_front + best for travel in (way.travel.start, last)]
    inner = [sled.heel - x * math.tan(angle) for x in at]
    return Stand(nearest, furthest, best, (min(inner), max(inner) + way.joint.thickness / math.cos(angle)))


def _infeed(units: Unit, length: float, assumed: bool, start: Balance, stand: Stand | None) -> str:
    say, step = say_in(units), fine_step(units)
    board = f"a board {say(length)} long" + (" (assumed: the job gives no length)" if assumed else "")
    if stand is None:
        return (
            f"With {board} sled and board balance on the table from the start: "
            f"about {say(round_to(-start.over_front, step))} inside its front edge. No infeed support needed."
        )
    over = start.over_front
    rough = say(round_to(abs(over), step))
    where = f"about {rough} before" if over > 0 else f"only about {rough} inside"
    told = (
        f"With {board} sled and board have their centre of mass {where} the table's front edge at the start: without "
        "infeed support everything tips off. "
    )
    if stand.fits:
        told += (
            f"Set a roller or trestle level with the table, {say(stand.nearest)} to {say(stand.furthest)} "
            f"before the front edge (best {say(stand.best)}), under the board: {_across(stand, units)}."
        )
    else:
        told += (
            f"No single stand serves from start to end: set an infeed table level with the saw's, from the front edge "
            f"to {say(stand.nearest)} before it or more."
        )
    return told + " Sled and board taken as equally dense, clamps left out."


def _across(stand: Stand, units: Unit) -> str:
    say, step = say_in(units), fine_step(units)
    low, high = (round_to(across, step) for across in stand.across)
    if low >= 0:
        return f"{say(low)} to {say(high)} from the fence's line, on the blade's side"
    return f"from {say(-low)} beyond the fence's line to {say(max(high, 0.0))} on the blade's side of it"


def _outfeed(past: float, outfeed: bool, say: Say) -> str:
    if past <= 0:
        return "At the end of the cut the sled's heel still lies on the table."
    told = f"At the end of the cut the heel runs {say.up(past)} past the table's back edge: keep that room free"
    if outfeed:
        return f"{told}, with an outfeed support level with the table, as sled and board would tip over the edge."
    return f"{told}. The table still carries sled and board."
