"""What a sled is made of, and what goes with it: sizes only; what they are called is said in words/. All lengths mm.

Sizes of handle, hand stop and stop block are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import round_up
from scarfwright.models.sled.screws import ScrewLength, screw_length
from scarfwright.models.sled.way import SledWay

Size = tuple[float, float, float]
HAND_STOP_WIDE, HAND_STOP_HIGH = 24.0, 30.0
HAND_STOP_LONG = (40.0, 80.0)  # least, most
HANDLE_THICK, HANDLE_HIGH, PAST_HOLES = 35.0, 80.0, 25.0
STOP_BLOCK = (150.0, 40.0, 60.0)  # along the fence, across (at most the heel's half), high
ENDS = 10.0  # plank left for cutting its ends square


@dataclass(frozen=True)
class Bolts:
    """Through the sled from below: `count` of `diameter`, `length` without the head, which is let in."""

    count: int
    diameter: float
    length: float


@dataclass(frozen=True)
class SledMaterial:
    """Pieces of the sled (length, width, thickness), of which `pieces` are needed, and what is fixed to it."""

    wood: Size
    pieces: int
    handle: Size | None
    handle_bolts: Bolts | None
    hand_stop: Size | None
    hand_stop_screw: ScrewLength | None
    stop_block: Size
    clamps: int
    dowels: int
    dowel: tuple[float, float]


def sled_material(way: SledWay) -> SledMaterial:
    """Material for one sled (for both, if it is cut from a plank) of this job."""
    job, sled, layout = way.job, way.nominal, way.layout
    handle = bolts = None
    if layout.handle_holes:
        handle = (job.sled.handle_spacing + 2 * PAST_HOLES, HANDLE_THICK, HANDLE_HIGH)
        diameter = 2 * layout.handle_radius
        bolts = Bolts(2, diameter, sled.thickness + HANDLE_HIGH / 2)
    stop = _hand_stop(way)
    wood, pieces = _wood(job, way)
    dowels = len(layout.dowels)
    return SledMaterial(
        wood=wood,
        pieces=pieces,
        handle=handle,
        handle_bolts=bolts,
        hand_stop=stop,
        hand_stop_screw=None if stop is None else screw_length(HAND_STOP_HIGH, sled.thickness),
        stop_block=(STOP_BLOCK[0], min(STOP_BLOCK[1], sled.heel / 2), STOP_BLOCK[2]),
        clamps=len(layout.clamps),
        dowels=dowels,
        dowel=(2 * layout.dowel_radius, sled.thickness),
    )


def _wood(job: Job, way: SledWay) -> tuple[Size, int]:
    sled = way.nominal
    if job.sled.made_from == "sheet":
        return (sled.length, sled.heel, float(job.sled.sheet_thickness)), job.sled.layers
    length = round_up(sled.length + 2 * ENDS, 10.0 if job.units == "mm" else 25.4 / 2)
    return (length, float(job.sled.plank.width), float(job.sled.plank.thickness)), 1


def _hand_stop(way: SledWay) -> Size | None:
    """Across the sled at the hand line, where there is one on the sled and room for it."""
    sled, line = way.nominal, way.layout.hand_line
    if not 0 < line < sled.length:
        return None
    least, most = HAND_STOP_LONG
    room = sled.width_at(sled.length - line) - 10.0
    return (min(room, most), HAND_STOP_WIDE, HAND_STOP_HIGH) if room >= least else None
