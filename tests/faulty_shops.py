"""Faulty shops for the tests of `tune`: a saw set up wrong by chance, a test joint cut on it, and what is read off it.

Nothing here uses the calculations under test: the blade is a plane in space, the board is laid on the work edge in
world coordinates, and every figure is read off the line or point where plane and board meet.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.tuning.corrections import Correction, Plan
from scarfwright.models.tuning.measured import Reading, Skew, Station, TestJoint, Twist

CALLIPER, RULE, FEELER, STICKS = 0.05, 0.5, 0.03, 0.3
ALL = ("board_thickness", "taper_run", "tip", "thickness_at", "gap", "twist", "joint_thickness", "line_skew")


@dataclass(frozen=True)
class Shop:
    """The set-up as it is: slope angle, gap between heel and blade at the table, tilt of the blade against the work
    edge (top away from the fence positive); the boards' height and thickness [mm, rad]."""

    theta: float
    gap: float
    lean: float
    height: float
    thickness: float

    def over(self, u: float, z: float) -> float:
        """Thickness left at u along the board and z above the table: where the blade's plane stands off the face."""
        return (self.gap + z * math.tan(self.lean) + u * math.sin(self.theta)) / math.cos(self.theta)

    def along(self, v: float, z: float) -> float:
        """Where along the board the cut face has that thickness at height z."""
        return (v * math.cos(self.theta) - self.gap - z * math.tan(self.lean)) / math.sin(self.theta)

    @property
    def ratio(self) -> float:
        return 1 / math.tan(self.theta)

    @property
    def middle(self) -> float:
        return self.height / 2

    @property
    def feather(self) -> float:
        """Where the board begins at mid-height: at its end, or where the blade has cut its inner face away."""
        return max(0.0, self.along(0.0, self.middle))

    @property
    def tip(self) -> float:
        return max(0.0, self.over(0.0, self.middle))

    @property
    def glue_gap(self) -> float:
        """Opening at one edge held flat, measured square to the near board's face: plane against turned plane."""
        k = math.tan(self.lean) / math.cos(self.theta)
        return abs(2 * self.height * k) / math.sqrt(1 + math.tan(self.theta) ** 2 + k**2)

    @property
    def twist(self) -> float:
        """Positive: the far board's free side goes down."""
        return 2 * math.atan2(self.over(0, 1.0) - self.over(0, 0.0), 1.0)


def planned(rng: random.Random, height: tuple[float, float] = (35.0, 100.0)) -> Plan:
    ratio = rng.uniform(8, 16)
    tall = rng.uniform(*height)
    thick = rng.uniform(15, min(40.0, tall))
    return Plan(1 / ratio, 0.4, tall, thick, rng.uniform(900, 1800), rng.random() < 0.5, Limits(0.15))


def faulty(rng: random.Random, plan: Plan) -> Shop:
    """Tilt within +-1 degree, fence within +-1 mm, N within +-5 %; the boards as planed."""
    ratio = rng.uniform(0.95, 1.05) / plan.slope
    lean = math.radians(rng.uniform(-1, 1))
    gap = plan.gap + rng.uniform(-1, 1)
    return Shop(math.atan(1 / ratio), gap, lean, plan.height, plan.thickness + rng.gauss(0, 0.1))


def corrected(shop: Shop, plan: Plan, todo: tuple[Correction, ...]) -> Shop:
    """The shop after the corrections are done to the letter."""
    theta, gap, lean = shop.theta, shop.gap, shop.lean
    for one in todo:
        if one.instead_of:
            continue
        sign = {"fence": 1.0, "free": -1.0, None: 0.0}[one.towards]
        if one.what == "blade_tilt":
            assert one.by is not None
            lean -= sign * one.by
        elif one.what in ("nose_shim", "heel_shim"):
            assert one.by is not None
            assert one.at is not None
            steeper = one.what == "heel_shim"
            arm = plan.fence_edge - one.at if steeper else one.at
            turn = math.asin(one.by / arm)
            theta += turn if steeper else -turn
            gap -= math.tan(turn) * plan.fence_edge if steeper else 0.0
        elif one.what == "fence":
            gap = plan.gap if one.by is None else gap + sign * one.by
    return Shop(theta, gap, lean, shop.height, shop.thickness)


def measure(rng: random.Random, shop: Shop, keys: tuple[str, ...] = ALL, number: int = 1) -> TestJoint:
    """A test joint measured with callipers, a rule, feelers and winding sticks."""
    z, start = shop.middle, shop.feather
    run = shop.along(shop.thickness, z) - start
    read = _Reader(rng)
    stations = tuple(_station(read, shop, share * run, edges=i == 2) for i, share in enumerate((0.25, 0.6, 0.85)))
    opening = shop.glue_gap * (1 if shop.lean > 0 else -1)
    turn = shop.twist
    apart = rng.uniform(0.6, 0.9) * run
    skew = shop.along(shop.thickness, 0.0) - shop.along(shop.thickness, shop.height)
    seen = {key: key in keys for key in ALL}
    sticks = read(300 * math.sin(abs(turn)), STICKS)
    hand = ("down" if turn > 0 else "up") if "hand" in keys or keys == ALL else None
    skewed = read(abs(skew), RULE)
    return TestJoint(
        number,
        board_thickness=_one(read(shop.thickness, CALLIPER), "board_thickness", seen),
        taper_run=_one(read(run, RULE), "taper_run", seen),
        tip=_one(read(shop.tip, CALLIPER), "tip", seen),
        thickness_at=stations if seen["thickness_at"] else (),
        gap_top=max(0.0, read(-opening, FEELER)) if seen["gap"] and opening < 0 else (0.0 if seen["gap"] else None),
        gap_bottom=max(0.0, read(opening, FEELER)) if seen["gap"] and opening > 0 else (0.0 if seen["gap"] else None),
        twist=Twist(sticks, 300.0, hand) if seen["twist"] else None,  # type: ignore[arg-type]
        joint_thickness=read(2 * shop.tip + apart / shop.ratio, CALLIPER) if seen["joint_thickness"] else None,
        tip_to_tip=read(apart, RULE) if seen["joint_thickness"] else None,
        line_skew=(Skew("line_skew", skewed, "top" if skew > 0 else "bottom"),) if seen["line_skew"] else (),
    )


class _Reader:
    """Reads a length with an error; none comes out below nothing."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng

    def __call__(self, true: float, sigma: float) -> float:
        return max(0.0, self.rng.gauss(true, sigma))


def _one(value: float, key: str, seen: dict[str, bool]) -> tuple[Reading, ...]:
    return (Reading(key, value),) if seen[key] else ()


def _station(read: _Reader, shop: Shop, distance: float, *, edges: bool) -> Station:
    """A mark is struck with a rule; the callipers go where it came to lie."""
    struck = shop.feather + read(distance, RULE)
    if edges:
        top, bottom = (read(shop.over(struck, z), CALLIPER) for z in (shop.height, 0.0))
        return Station("thickness_at", distance, None, top, bottom)
    return Station("thickness_at", distance, read(shop.over(struck, shop.middle), CALLIPER))
