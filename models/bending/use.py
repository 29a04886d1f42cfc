"""How much of the wood's bending strength a curve uses up, with and without a joint [mm, MPa].

Strain at the face kappa d / 2, stress E kappa d / 2, d the member's dimension in the plane of the bend.
Use = factor E kappa d / (2 MOR share), the share only where a joint is. A use over 1 is too much.

Sources: bending of a straight stick (computed). The factor is the user's; 2 is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.models.bending.curve import Curve
from scarfwright.models.strength.wood import Wood

Stretch = tuple[float, float]


@dataclass(frozen=True)
class Bend:
    """A member bent to its curve.

    `depth`: of the member in the plane of the bend; `stress`, `use`, `use_joint`: along the curve, at curve.arc's
    places; `allowed`: stretches of the curve a joint may stand in, each long enough for a whole one [mm]. Without a
    known `share` there is no use in a joint, and none is allowed.
    """

    curve: Curve
    depth: float
    wood: Wood
    factor: float
    share: float | None
    joint_length: float
    length: float | None
    use: tuple[float, ...]
    use_joint: tuple[float, ...]
    allowed: tuple[Stretch, ...]

    @property
    def stress(self) -> float:
        """The greatest at the member's faces [MPa]."""
        return bend_stress(self.wood, self.depth, self.curve.sharpest[0])

    @property
    def strain(self) -> float:
        """The greatest at the member's faces."""
        return self.curve.sharpest[0] * self.depth / 2

    @property
    def least_radius(self) -> float:
        """Of wood without a joint [mm]."""
        return least_radius(self.wood, self.depth, self.factor)

    @property
    def least_radius_joint(self) -> float | None:
        """Where a joint is [mm]."""
        return None if self.share is None else least_radius(self.wood, self.depth, self.factor, self.share)

    @property
    def most(self) -> float:
        """The greatest use."""
        return max(self.use)

    @property
    def most_joint(self) -> float | None:
        """The greatest use in a joint."""
        return max(self.use_joint, default=None)

    @property
    def end(self) -> float:
        """How far along the curve the blank reaches [mm]."""
        return self.curve.length if self.length is None else min(self.length, self.curve.length)


def bend_stress(wood: Wood, depth: float, curvature: float) -> float:
    """Stress at the face of a straight stick bent to a curvature [1/mm]: E kappa d / 2 [MPa]."""
    return wood.modulus * curvature * depth / 2


def use_of(wood: Wood, depth: float, curvature: float, factor: float, share: float = 1.0) -> float:
    """Stress times the factor, as a share of the strength; over 1 is too much."""
    return factor * bend_stress(wood, depth, abs(curvature)) / (wood.rupture * share)


def least_radius(wood: Wood, depth: float, factor: float, share: float = 1.0) -> float:
    """The radius [mm] at which the use is 1: factor E d / (2 MOR share)."""
    return factor * wood.modulus * depth / (2 * wood.rupture * share)


def bend_to(
    curve: Curve,
    depth: float,
    wood: Wood,
    factor: float,
    share: float | None,
    joint_length: float,
    length: float | None,
) -> Bend:
    """The use along a curve. `length`: of the blank [mm], which begins where the curve does; None for the curve's."""
    use = tuple(use_of(wood, depth, kappa, factor) for kappa in curve.curvature)
    if share is None:
        return Bend(curve, depth, wood, factor, None, joint_length, length, use, (), ())
    joined = tuple(one / share for one in use)
    end = curve.length if length is None else min(length, curve.length)
    kept = [s for s in below(curve.arc, joined, 1.0, end) if s[1] - s[0] >= joint_length]
    return Bend(curve, depth, wood, factor, share, joint_length, length, use, joined, tuple(kept))


def below(places: Sequence[float], values: Sequence[float], limit: float, end: float = math.inf) -> list[Stretch]:
    """Stretches of `places` up to `end` where `values`, straight between places, is at most `limit`."""
    found: list[Stretch] = []
    for a, b, u, v in zip(places, places[1:], values, values[1:], strict=False):
        if a >= end or min(u, v) > limit:
            continue
        low = a if u <= limit else a + (b - a) * (u - limit) / (u - v)
        high = b if v <= limit else a + (b - a) * (limit - u) / (v - u)
        low, high = min(low, end), min(high, end)
        if found and low <= found[-1][1] + 1e-9:
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return found
