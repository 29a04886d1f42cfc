"""Where sled and board balance, and what support they need on the near and on the far side of the table.

Moments about the table's front edge, which stands at X = T + table_front (X from the heel along the fence, T the
travel). Sled and board are taken as one stiff body of one density, notches taken out, clamps left out; a hand presses
on the far handle. All lengths mm. Statics, the project's own derivation. Words: words/support.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.cut.endings import stop_block
from scarfwright.models.job.board import board_length
from scarfwright.models.lengths.length import round_to, round_up
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.way import SledWay

LIGHT_WOOD = 320.0  # kg/m3: the lightest wood for it, western redcedar (Wood Handbook, Table 5-3a); the less, the safer
HAND = 100.0  # N down on the far handle; common practice, no source
HAND_ROOM = 100.0  # without handle holes the hand presses so far beyond the hand line; common practice, no source
GRAVITY = 9.81  # m/s2
TAKES_OFF = 1200.0  # where somebody takes off: spindle to the table's far edge at least; HSE, circular saw bench
STEADY = 50.0  # nearer to an edge than this the centre of mass counts as not carried; common practice, no source


@dataclass(frozen=True)
class Balance:
    """At one travel [mm]: `over_front` how far the centre of mass lies before the table's front edge, `over_back`
    beyond its far edge (negative: over the table); `hand_over` the same before the front edge with a hand on the far
    handle; `carried`: whether the table alone carries them, and the hand."""

    name: str
    travel: float
    centre: float
    over_front: float
    over_back: float
    hand_over: float
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
    `handle`: X of the hand on the far handle. `past_back`: how far the heel end runs past the table's far edge at the
    end of the cut, 0 for not at all. `short_table`: too short for somebody who takes off behind the saw."""

    board_length: float
    assumed: bool
    balances: tuple[Balance, ...]
    stand: Stand | None
    handle: float
    past_back: float
    outfeed: bool
    short_table: bool

    def infeed_numbers(self) -> dict[str, float | str]:
        """What is told of the infeed support that is needed [mm]; only where there is a `stand`."""
        assert self.stand is not None
        return {
            "over_front_mm": self.balances[0].over_front,
            "hand_over_mm": self.balances[0].hand_over,
            "nearest_mm": self.stand.nearest,
            "furthest_mm": self.stand.furthest,
            "best_mm": self.stand.best,
            "across_from_mm": self.stand.across[0],
            "across_to_mm": self.stand.across[1],
            "board_length_mm": self.board_length,
            "board_length_is": "assumed" if self.assumed else "given",
        }


def support(way: SledWay) -> Support:
    """Balance at start, done and clear, and the support that follows."""
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
    past = max(stop_block(way).past_table, 0.0)
    outfeed = at_end.over_back > -STEADY
    return Support(
        board_length=length,
        assumed=given is None,
        balances=balances,
        stand=stand,
        handle=far_handle(way),
        past_back=past,
        outfeed=outfeed,
        short_table=way.job.saw.table_back < TAKES_OFF,
    )


def centre_of_mass(way: SledWay, board_length: float, *, cut: bool) -> float:
    """X of the common centre of mass of sled and board [mm]; `cut`: without the wedge that was sawn off."""
    return _mass(way, board_length, cut=cut)[1]


def far_handle(way: SledWay) -> float:
    """X of the handle hole furthest from the heel, or of the hand's place beyond the hand line [mm]."""
    holes = [way.sled.from_heel(x) for x, _ in way.layout.handle_holes]
    return max(holes, default=min(way.layout.hand_line + HAND_ROOM, way.sled.length))


def _mass(way: SledWay, board_length: float, *, cut: bool) -> tuple[float, float]:
    """Volume of sled and board [mm3] and X of its centre [mm]."""
    sled, joint = way.sled, way.joint
    sin, cos = math.sin(joint.angle), math.cos(joint.angle)
    pieces = [(sled.area * sled.thickness, _sled_centre(way))]
    for notch in way.layout.notches:
        slot = notch.capsule(sled)
        area = 2 * slot.radius * math.dist(slot.start, slot.end) + math.pi * slot.radius**2
        pieces.append((-area * sled.thickness, sled.from_heel((slot.start[0] + slot.end[0]) / 2)))
    u, v = board_length / 2, joint.thickness / 2
    pieces.append((board_length * joint.thickness * joint.height, u * cos + v * sin))
    if cut:
        deep, run = joint.thickness - joint.tip, joint.taper_run
        u, v = run / 3, joint.thickness - deep / 3
        pieces.append((-deep * run / 2 * joint.height, u * cos + v * sin))
    volume = sum(m for m, _ in pieces)
    return volume, sum(m * x for m, x in pieces) / volume


def _with_hand(way: SledWay, board_length: float, *, cut: bool) -> float:
    """X at which sled, board and the hand's pressure together balance [mm]."""
    volume, centre = _mass(way, board_length, cut=cut)
    weight = volume * 1e-9 * LIGHT_WOOD * GRAVITY
    return (weight * centre + HAND * far_handle(way)) / (weight + HAND)


def _sled_centre(way: SledWay) -> float:
    """X of the sled's centre of area [mm]: the trapezium less the nose flat's triangle."""
    sled = way.sled
    whole = (sled.heel + sled.nose) * sled.length / 2
    x = sled.length * (sled.heel + 2 * sled.nose) / (3 * (sled.heel + sled.nose))
    off = sled.nose_flat * sled.flat_step / 2
    x_off = sled.length - 2 * sled.nose_flat / 3
    return (whole * x - off * x_off) / (whole - off)


def _balance(way: SledWay, length: float, name: str, travel: float) -> Balance:
    saw, cut = way.job.saw, name != "start"
    centre = centre_of_mass(way, length, cut=cut)
    over_front = centre - (travel + saw.table_front)
    over_back = (travel - saw.table_back) - centre
    hand_over = _with_hand(way, length, cut=cut) - (travel + saw.table_front)
    carried = max(over_front, over_back) <= -STEADY and hand_over <= 0
    return Balance(name, travel, centre, over_front, over_back, hand_over, carried)


def _stand(way: SledWay, length: float) -> Stand | None:
    """One stand must be beyond the centre of mass and the far handle at the start, and still under the board until the
    table carries both."""
    saw, sled, angle = way.job.saw, way.sled, way.joint.angle
    start = _balance(way, length, "start", way.travel.start)
    if start.over_front <= -STEADY and start.hand_over <= 0:
        return None
    centre = max(start.centre, centre_of_mass(way, length, cut=True))
    pressed = max(_with_hand(way, length, cut=False), _with_hand(way, length, cut=True))
    carried_at = max(centre + STEADY, pressed) - saw.table_front  # the travel from which on the table alone carries
    last = min(carried_at, way.travel_end)
    tail = max(length * math.cos(angle), sled.length)
    step = fine_step(way.job.units)
    handle_out = far_handle(way) - (way.travel.start + saw.table_front)
    nearest = round_up(max(start.over_front + STEADY, handle_out, STEADY), step)
    furthest = -round_up(last + saw.table_front - tail, step)
    best = round_to((nearest + furthest) / 2, step)
    at = [travel + saw.table_front + best for travel in (way.travel.start, last)]
    inner = [sled.heel - x * math.tan(angle) for x in at]
    return Stand(nearest, furthest, best, (min(inner), max(inner) + way.joint.thickness / math.cos(angle)))
