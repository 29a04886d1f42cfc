"""Where sled and board balance, and what support they need before and behind the table.

Moments about the table's front edge, which stands at X = T + table_front (X from the heel along the fence, T the
travel). Sled and board are taken as one stiff body of one density, so densities cancel out; clamps, notches and
hands are left out. All lengths mm. Statics, the project's own derivation. Words: words/support.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.lengths.length import Unit, round_to, round_up
from scarfwright.models.sled.way import SledWay

ASSUMED_LENGTH = {"mm": 2400.0, "in": 8 * 12 * 25.4}  # common lengths of boards; common practice, no source
STEADY = 50.0  # nearer to an edge than this the centre of mass counts as not carried; common practice, no source


def coarse(units: Unit) -> float:
    """A stand is set to this [mm]: finer says more than a roller keeps."""
    return 10.0 if units == "mm" else 12.7


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

    def infeed_numbers(self) -> dict[str, float | str]:
        """What is told of the infeed support that is needed [mm]; only where there is a `stand`."""
        assert self.stand is not None
        return {
            "over_front_mm": self.balances[0].over_front,
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
    length = ASSUMED_LENGTH[way.job.units] if given is None else float(given)
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
    step = coarse(way.job.units)
    nearest = round_up(max(start.over_front, 0.0) + STEADY, step)
    furthest = -round_up(last + saw.table_front - tail, step)
    best = round_to((nearest + furthest) / 2, step)
    at = [travel + saw.table_front + best for travel in (way.travel.start, last)]
    inner = [sled.heel - x * math.tan(angle) for x in at]
    return Stand(nearest, furthest, best, (min(inner), max(inner) + way.joint.thickness / math.cos(angle)))
