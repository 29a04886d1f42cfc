"""How thin laminations have to be where a solid stick would be overstrained, and what gluing them bent costs [mm].

Sources: curvature factor 1 - 2000 (t/R)^2, National Design Specification for Wood Construction 5.3.8 (formula seen);
its limits R/t 100 for hardwoods, 125 for softwoods (from memory, high; southern pine counts as softwood here);
200 t is the milder rule of DIN 1052-1:1988 (seen, quoted by a glulam trade association).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.bending.use import least_radius
from scarfwright.models.strength.wood import Wood

LEAST_HARDWOOD = 100.0  # R/t
LEAST_SOFTWOOD = 125.0  # R/t; taken for a wood of unknown kind too
TIGHT = 200.0  # R/t: under this, tight


@dataclass(frozen=True)
class Laminations:
    """`count` equal laminations, each `thickness` thick, bent to a least `radius` [mm]."""

    count: int
    thickness: float
    radius: float

    @property
    def radius_to_thickness(self) -> float:
        return self.radius / self.thickness

    @property
    def factor(self) -> float:
        """Share of the strength in bending that is left after gluing bent."""
        return curvature_factor(self.thickness, self.radius)

    @property
    def tight(self) -> bool:
        return self.radius_to_thickness < TIGHT


def curvature_factor(thickness: float, radius: float) -> float:
    """1 - 2000 (t/R)^2; not below 0."""
    return max(1 - 2000 * (thickness / radius) ** 2, 0.0)


def thickest_lamination(wood: Wood, radius: float, factor: float, share: float) -> float:
    """The thickest that bends to `radius` [mm], a joint anywhere in it: its use at most 1, R/t at least the limit."""
    limit = LEAST_HARDWOOD if wood.kind == "hardwood" else LEAST_SOFTWOOD
    return radius / max(limit, least_radius(wood, 1.0, factor, share))


def laminate(depth: float, wood: Wood, radius: float, factor: float, share: float) -> Laminations:
    """The fewest equal laminations that make up `depth` [mm] and take the radius."""
    count = max(math.ceil(depth / thickest_lamination(wood, radius, factor, share) - 1e-9), 1)
    return Laminations(count, depth / count, radius)
