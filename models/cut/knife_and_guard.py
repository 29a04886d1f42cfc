"""The riving knife, which stays on because this is a through cut, and the hood guard over the blade.

Source: EN 1870 series (knife thinner than the kerf, at least 0.2 mm thicker than the blade's plate, 3 to 8 mm from
the teeth, its top at least 2 mm below the blade's). Guards: 29 CFR 1910.213(c), from memory, high; jigs or
featherboards where the standard guard can't be used: California Code of Regulations, title 8, section 4296.
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.sled.layout import pad_lower_edge
from scarfwright.models.sled.way import SledWay

OVER_PLATE = 0.2  # knife over plate at least [mm]; EN 1870 series
GAP = (3.0, 8.0)  # knife to teeth [mm]; EN 1870 series
BELOW_TOP = 2.0  # top of the knife below the blade's top at least [mm]; EN 1870 series
EPS = 1e-6  # a figure on the limit passes, whatever its last bits


@dataclass(frozen=True)
class Knife:
    """The riving knife [mm]: `least` and `most` thickness (thinner than `most`), `top` at most above the table."""

    thickness: float
    plate: float
    kerf: float
    least: float
    most: float
    top: float

    @property
    def fitted(self) -> bool:
        return self.thickness > 0

    @property
    def thinner_than_kerf(self) -> bool:
        return self.thickness < self.most - EPS

    @property
    def thick_enough(self) -> bool:
        return self.thickness >= self.least - EPS


@dataclass(frozen=True)
class Guard:
    """The hood over the blade [mm]. `over` is what it must lift over: work and sled; `over_clamps` the least height
    of the clamps' bars; `free_ahead` how far a hood may reach from the blade's axis towards the operator before it
    meets a clamp at the end of the cut (None: no clamp). `passes` is None where the job doesn't know the hood."""

    over: float
    over_clamps: float
    free_ahead: float | None
    passes: bool | None


def riving_knife(way: SledWay) -> Knife:
    """The knife against kerf and plate."""
    saw = way.job.saw
    top = max(way.blade.height - BELOW_TOP, 0.0)
    return Knife(
        thickness=float(saw.riving_knife),
        plate=float(saw.plate),
        kerf=way.blade.kerf,
        least=saw.plate + OVER_PLATE,
        most=way.blade.kerf,
        top=top,
    )


def guard(way: SledWay) -> Guard:
    """Whether a hood passes over work and clamps, and what to do where it can't."""
    job = way.job
    over = max(way.joint.height, way.sled.thickness)
    over_clamps = pad_lower_edge(job, way.sled) + job.clamp.throat
    free_ahead = _free_ahead(way)
    return Guard(over, over_clamps, free_ahead, _passes(way, over, free_ahead))


def _free_ahead(way: SledWay) -> float | None:
    """From the axis to the nearest clamp's heel-side end when the cut has ended, along the feed."""
    if not way.layout.clamps:
        return None
    sled, joint, clamp = way.sled, way.joint, way.job.clamp
    nearest = []
    for place in way.layout.clamps:
        half = max(clamp.pad_width, way.job.sled.notch_length if place.where != "nose_flat" else sled.nose_flat) / 2
        x, _ = sled.at_work_edge(place.station - half, place.opening - joint.thickness + clamp.jaw_inner)
        nearest.append(sled.from_heel(x) - way.travel_end)
    return min(nearest)


def _passes(way: SledWay, over: float, free_ahead: float | None) -> bool | None:
    saw = way.job.saw
    if saw.guard_height is None or saw.guard_front is None:
        return None
    return saw.guard_height >= over and (free_ahead is None or saw.guard_front <= free_ahead)
