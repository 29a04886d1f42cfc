"""The cut that divides a plank into two sleds: on a carrier board at the table saw, or along a guide rail.

Carrier frame: x along the feed, y = 0 the carrier's straight edge that runs on the fence, y towards the blade. The
plank lies on it turned by theta, so that its dividing line runs along the feed. The blade passes a fence gap beyond
the carrier's other edge. All lengths mm. Source: plane geometry, the project's own derivation.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.flat.loop import Loop, Point, polygon
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import round_up
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.sled import Sled

BATTEN_WIDTH = 40.0  # the strip the plank's edge bears against; common practice, no source
EDGE_ROOM = 15.0  # carrier left outside the batten; common practice, no source
SCREW_FROM_END = 60.0  # first and last screw from the plank's ends; common practice, no source


@dataclass(frozen=True)
class Dividing:
    """Numbers of the dividing cut [mm].

    `fence` is the rip fence setting, `blade_height` what carrier and plank need together, `screws` the places of
    the screws in the carrier frame, `screws_on_plank` the same from the heel end and from the near plank edge,
    `screw_to_kerf` the least wood between a screw's axis and the kerf, `rail_offset` the distance from the line to
    the edge of a guide rail. `line_beyond` is how far the line drawn on the plank lies beyond the carrier's blade
    edge: the fence gap and half the kerf.
    """

    carrier_length: float
    carrier_width: float
    carrier_thickness: float
    fence: float
    blade_height: float
    screws: tuple[Point, ...]
    screws_on_plank: tuple[Point, ...]
    screw_to_kerf: float
    batten: Loop
    batten_screws: tuple[Point, ...]
    rail_offset: float
    line_beyond: float
    support_strip: float


def dividing(job: Job, sled: Sled) -> Dividing:
    """Lay the nominal half of the plank on its carrier, the heel leading."""
    step = fine_step(job.units)
    sin, cos = math.sin(sled.angle), math.cos(sled.angle)
    across = sled.heel * cos + BATTEN_WIDTH + EDGE_ROOM
    width = round_up(across, step)
    line = width + job.saw.fence_gap  # the blade's near face, and so the work edge of the half on the carrier
    left = max(sled.nose + BATTEN_WIDTH, 0.0) * sin + EDGE_ROOM
    length = round_up(left + sled.length / cos + sled.heel * sin + EDGE_ROOM, step)

    def on_carrier(x: float, y: float) -> Point:
        """From the sled's frame: turned by -theta about the nose end of the work edge, which lies on the line."""
        return (left + x * cos + (y - sled.nose) * sin, line - x * sin + (y - sled.nose) * cos)

    stations = _screw_stations(sled)
    on_plank = tuple((s, sled.width_at(sled.length - s) / 2) for s in stations)
    screws = tuple(on_carrier(sled.length - s, y) for s, y in on_plank)
    strip = [
        on_carrier(x, y)
        for x, y in ((0.0, -BATTEN_WIDTH), (sled.length, -BATTEN_WIDTH), (sled.length, 0.0), (0.0, 0.0))
    ]
    thickness = float(job.sled.sheet_thickness)
    return Dividing(
        carrier_length=length,
        carrier_width=width,
        carrier_thickness=thickness,
        fence=line,
        blade_height=thickness + sled.thickness + job.saw.blade_above_work,
        screws=screws,
        screws_on_plank=on_plank,
        screw_to_kerf=min(line - y for _, y in screws),
        batten=polygon(strip),
        batten_screws=tuple(on_carrier(s, -BATTEN_WIDTH / 2) for s in stations),
        rail_offset=job.saw.base_to_blade + job.saw.kerf / 2,
        line_beyond=job.saw.fence_gap + job.saw.kerf / 2,
        support_strip=thickness,
    )


def _screw_stations(sled: Sled) -> tuple[float, ...]:
    """From the heel: near both ends and in the middle, on a short plank in its thirds."""
    end = min(SCREW_FROM_END, sled.length / 4)
    return (end, sled.length / 2, sled.length - end)
