"""What to change at the saw, rounded to what a hand can do, and what the next joint is then expected to be.

Lengths in mm, angles in radians. The blade tilts about the line where it meets the table. A shim stands between sled
and fence; the sled turns about the end it still touches with. Source: the project's own geometry, proved by solids.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from scarfwright.models.accuracy.budget import FENCE
from scarfwright.models.accuracy.verdict import Errors, Limits, judge
from scarfwright.models.joint.joint import MOST_OFF, Joint
from scarfwright.models.lengths.length import Unit, round_to, round_up
from scarfwright.models.tuning.fit import Fit, Value
from scarfwright.models.tuning.model import Setup

What = Literal["fence", "nose_shim", "heel_shim", "blade_tilt", "other_half", "recut"]
Towards = Literal["fence", "free"]

TILT_STEP = math.radians(0.05)  # what a blade can be tilted by and read on a gauge; common practice, no source
SHIM_STEP: dict[Unit, float] = {"mm": 0.1, "in": 0.127}  # paper and feelers: 0.1 mm, five thousandths of an inch
CUT_STEP: dict[Unit, float] = {"mm": 1.0, "in": 25.4 / 16}
PLACE_STEP: dict[Unit, float] = {"mm": 5.0, "in": 25.4 / 2}
SURE = 2.0  # standard deviations within which nothing is corrected
SHIM_WIDTH = 20.0  # mm, half of it stays clear of the sled's end


@dataclass(frozen=True)
class Plan:
    """What the set-up was meant to be: slope 1/N, fence gap, board height and thickness [mm], and the sled: how far
    from the heel its fence edge reaches [mm], whether it is one of two halves of a plank. Unit of the job; limits."""

    slope: float
    gap: float
    height: float
    thickness: float
    fence_edge: float
    halves: bool
    limits: Limits
    units: Unit = "mm"

    @property
    def tip(self) -> float:
        return self.gap * math.sqrt(1 + self.slope**2)

    @property
    def theta(self) -> float:
        return math.atan(self.slope)


@dataclass(frozen=True)
class Correction:
    """One thing to change. by: mm, or rad for blade_tilt; None where it is to be set anew. towards: where the fence or
    the top of the blade goes: the fence's side or the free side. at: a shim's middle from the heel [mm]. instead_of:
    this one is another way to the same end; do not do both."""

    what: What
    by: float | None
    towards: Towards | None = None
    at: float | None = None
    instead_of: What | None = None
    why: str = ""


@dataclass(frozen=True)
class Expected:
    """A joint to be expected: opening held flat [mm] and twist closed tight [rad], root mean square; the chance that it
    is inside the limits, and whether the expected figures are."""

    gap: float
    twist: float
    inside: bool
    chance: float


def corrections(found: Fit, plan: Plan) -> tuple[Correction, ...]:
    """What to change, in the order of doing it."""
    tilt = tilt_by(found, plan)
    shim, turn = _shim(found, plan)
    todo: list[Correction] = []
    if tilt:
        todo.append(Correction("blade_tilt", abs(tilt), "fence" if tilt > 0 else "free", why="lean"))
        if plan.halves:
            todo.append(Correction("other_half", None, instead_of="blade_tilt", why="lean"))
    if shim is not None:
        todo.append(shim)
    todo += _fence(found, plan, tilt, _heel_moves(shim, plan))
    if tilt or shim is not None:
        todo.append(Correction("recut", _recut(found, plan, tilt, turn), why="same_boards"))
    return tuple(todo)


def tilt_by(found: Fit, plan: Plan) -> float:
    """How far the top of the blade goes towards the fence [rad]; 0: leave it."""
    if found.lean is None or not found.signed or _inside_now(found.lean, plan):
        return 0.0
    return round_to(found.lean.value, TILT_STEP)


def _inside_now(lean: Value, plan: Plan) -> bool:
    """Surely inside already: more can't be wished for."""
    return abs(lean.value) + SURE * lean.sigma <= most_lean(plan)


def most_lean(plan: Plan) -> float:
    """The lean at which the first limit is met [rad]."""
    return plan.limits.most_lean(plan.height, plan.theta)


def _shim(found: Fit, plan: Plan) -> tuple[Correction | None, float]:
    """The shim for the slope, and the angle it turns the sled by [rad, positive: steeper].

    A slope that is off by less than the check of the job allows is left: both boards come off one sled and close.
    """
    slope = found.slope
    if slope is None:
        return None, 0.0
    off = abs(slope.value - plan.slope)
    if off <= max(MOST_OFF * plan.slope, SURE * slope.sigma):
        return None, 0.0
    turn = plan.theta - math.atan(slope.value)
    what: What = "heel_shim" if turn > 0 else "nose_shim"
    at = place_of_shim(plan, at_heel=turn > 0)
    arm = plan.fence_edge - at if turn > 0 else at
    by = round_to(abs(turn) * arm, SHIM_STEP[plan.units])
    if by <= 0:
        return None, 0.0
    return Correction(what, by, at=at, why="slope"), math.copysign(math.asin(by / arm), turn)


def _heel_moves(shim: Correction | None, plan: Plan) -> float:
    """How far a heel shim pushes the heel towards the blade [mm]; a nose shim leaves it."""
    if shim is None or shim.what != "heel_shim" or shim.by is None:
        return 0.0
    return shim.by * plan.fence_edge / (plan.fence_edge - place_of_shim(plan, at_heel=True))


def place_of_shim(plan: Plan, *, at_heel: bool) -> float:
    """Its middle from the heel [mm], on a mark of a rule, half its width or a little more from the sled's end."""
    mark = PLACE_STEP[plan.units]
    least = round_up(SHIM_WIDTH / 2, mark)
    return least if at_heel else (plan.fence_edge - least) // mark * mark


def _fence(found: Fit, plan: Plan, tilt: float, heel_moves: float) -> list[Correction]:
    """Move the fence for the gap: in the middle of the height, with the blade as it will be tilted."""
    gap = fence_gap(found)
    if found.tip is None:
        return []
    if gap is None:
        return [Correction("fence", None, why="no_tip")]
    swing = plan.height / 2 * math.tan(tilt)
    by = plan.gap - (gap.value - swing) + heel_moves
    rounded = round_to(by, SHIM_STEP[plan.units])
    if abs(by) <= max(FENCE, SURE * gap.sigma):
        return []
    why = "gap_and_tilt" if tilt else "gap"
    return [Correction("fence", abs(rounded), "fence" if rounded > 0 else "free", why=why)]


def fence_gap(found: Fit) -> Value | None:
    """The gap between heel and blade, in the middle of the height [mm]; None where no tip was left to tell it by."""
    if found.tip is None or found.tip.value <= SURE * found.tip.sigma:
        return None
    share = math.cos(math.atan(found.slope.value)) if found.slope else 1.0
    return Value(found.tip.value * share, found.tip.sigma * share)


def _recut(found: Fit, plan: Plan, tilt: float, turn: float) -> float:
    """How far past the heel the tips stand, at least, so that the new cut takes the whole of the old one away [mm].

    New and old cut lie b + u m + w k from the sled face; the new one is `by` further back along the board.
    """
    slope = found.slope.value if found.slope else plan.slope
    lean = found.lean.value if found.lean else 0.0
    old = Setup(slope, found.tip.value if found.tip else 0.0, lean)
    new = Setup(math.tan(math.atan(slope) + turn), plan.tip, lean - tilt)
    run = (plan.thickness - old.tip) / old.slope
    corners = [(u, w) for u in (0.0, run) for w in (-plan.height / 2, plan.height / 2)]
    over = max(new.tip - old.tip + u * (new.slope - old.slope) + w * (new.across - old.across) for u, w in corners)
    return round_up(max(over, 0.0) / new.slope + CUT_STEP[plan.units], CUT_STEP[plan.units])


def expected(found: Fit, plan: Plan, tilt: float = 0.0) -> Expected | None:
    """The joint to be expected with the blade's top moved by `tilt` [rad] towards the fence; None if lean is untold."""
    if found.lean is None:
        return None
    left = found.lean.value - tilt
    likely = math.hypot(left, found.lean.sigma)
    joint = Joint(1 / plan.slope, plan.thickness, plan.height, plan.tip)
    verdict = judge(joint, Errors(lean=likely), plan.limits)
    chance = _chance(left, found.lean.sigma, most_lean(plan))
    return Expected(verdict.gap, verdict.twist, verdict.inside, chance)


def _chance(middle: float, sigma: float, most: float) -> float:
    """Chance that a normal value lies within +-most."""
    if sigma <= 0:
        return 1.0 if abs(middle) <= most else 0.0
    above, below = (most - middle) / (sigma * math.sqrt(2)), (-most - middle) / (sigma * math.sqrt(2))
    return (math.erf(above) - math.erf(below)) / 2
