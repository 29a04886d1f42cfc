"""Where the fence is set, by what one measures to: a tooth, or the blade's plate.

F = heel + c is the distance to the kerf's near side, which only a tooth that reaches out towards the fence marks; the
plate lies (kerf - plate) / 2 further on, more than the whole gap on most blades. Plane geometry, our own derivation.
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.cut.sides import sides
from scarfwright.models.sled.way import SledWay


@dataclass(frozen=True)
class FenceSetting:
    """Fence to a tooth set towards it, and to the plate [mm]; each is `heel` and what is added to the heel as
    measured. `side`: where it stands, as the operator sees it. `tooth_turn`: from a tooth at the front of the blade,
    level with the table, to the same at its back."""

    side: str
    heel: float
    gap: float
    plate_gap: float
    tooth_turn: float

    @property
    def to_tooth(self) -> float:
        return self.heel + self.gap

    @property
    def to_plate(self) -> float:
        return self.heel + self.plate_gap


def fence_setting(way: SledWay) -> FenceSetting:
    """The fence for this sled and blade."""
    gap, saw = way.blade.gap, way.job.saw
    beside = max((way.blade.kerf - saw.plate) / 2, 0.0)
    return FenceSetting(sides(way.job).fence, way.sled.heel, gap, gap + beside, 2 * way.blade.reach(0.0))
