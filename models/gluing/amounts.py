"""How much glue, how hard the clamps press, how long it takes [mm, N, MPa, g, min].

Pressure is count x force / (overlap x height); glue is spread x slant area, the spread counted for both faces together.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.adhesives.kinds import AdhesiveKind, Range
from scarfwright.models.joint.joint import Joint

PER_CLAMP = 1 / 3  # minutes to set one clamp; common practice, no source
TO_SPREAD = 2.0  # minutes to spread, lay together, align; common practice, no source


@dataclass(frozen=True)
class Asked:
    """What glue and clamps of a job are said to do; None where the job is silent.

    `kind`: of adhesive; `wood`: "softwood", "hardwood" or None; `spread` [g/m2], `pressure` [MPa]: the maker's own;
    `force`: of one clamp [N]; `count`: clamps there are; `open_time`, `clamp_time` [min].
    """

    kind: AdhesiveKind | None = None
    wood: str | None = None
    spread: float | None = None
    pressure: float | None = None
    force: float | None = None
    count: int | None = None
    open_time: float | None = None
    clamp_time: float | None = None

    @property
    def spread_range(self) -> Range | None:
        """The maker's figure, else the kind's range [g/m2]."""
        if self.spread is not None:
            return (self.spread, self.spread)
        return None if self.kind is None else self.kind.spread

    @property
    def pressure_range(self) -> Range | None:
        """The maker's figure as the least, else the kind's range [MPa]. The most stays the kind's, if that is more."""
        by_kind = None if self.kind is None else self.kind.pressure(self.wood)
        if self.pressure is None:
            return by_kind
        most = math.inf if by_kind is None or by_kind[1] <= self.pressure else by_kind[1]
        return (self.pressure, most)


@dataclass(frozen=True)
class Amounts:
    """`area`: slant glue area of one face; `pressed`: overlap x height, what the clamps press on [mm2].

    `mass`: least and most glue, both faces together [g]; `needed`: clamps that cover the joint, both edges together;
    `used`: clamps counted with; `given`: pressure they give [MPa]; `force_each`: least and most force of one for the
    pressure asked for [N]; `time_needed`: to spread and clamp [min], a guess.
    """

    area: float
    pressed: float
    mass: Range | None
    needed: int
    used: int
    given: float | None
    force_each: Range | None
    time_needed: float


def amounts(joint: Joint, asked: Asked, needed: int, placed: int) -> Amounts:
    """The amounts for a joint that `needed` clamps cover, and on which `placed` are drawn. The overlap is taken as at
    least 1 mm."""
    pressed = max(joint.overlap, 1.0) * joint.height
    used = placed if asked.count is None else min(asked.count, placed)
    spread, pressure = asked.spread_range, asked.pressure_range
    return Amounts(
        area=joint.glue_area,
        pressed=pressed,
        mass=None if spread is None else (spread[0] * joint.glue_area / 1e6, spread[1] * joint.glue_area / 1e6),
        needed=needed,
        used=used,
        given=None if asked.force is None else used * asked.force / pressed,
        force_each=None if pressure is None else (pressure[0] * pressed / used, pressure[1] * pressed / used),
        time_needed=TO_SPREAD + used * PER_CLAMP,
    )
