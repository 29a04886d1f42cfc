"""The cut that divides a plank into two sleds, on a carrier board at the table saw.

Carrier frame: x along the feed, y = 0 the carrier's straight edge that runs on the fence, y towards the blade. The
plank lies on it turned by theta, so that its dividing line runs along the feed, the heel of the half on the carrier
leading. The blade passes a fence gap beyond the carrier's other edge; beyond the blade the free half runs on a strip
as thick as the carrier, screwed under it. All lengths mm. Source: plane geometry, the project's own derivation.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from scarfwright.models.flat.loop import Loop, Point, polygon, rectangle
from scarfwright.models.flat.room import Capsule
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import round_to, round_up, shop_step
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.blade import START_CLEARANCE, Blade
from scarfwright.models.sled.holes import nearest_first
from scarfwright.models.sled.layout import Layout
from scarfwright.models.sled.rail import Rail, guide_rail
from scarfwright.models.sled.screws import ScrewLength, has_wood, screw_length
from scarfwright.models.sled.sled import Sled

BATTEN_WIDTH = 40.0  # the strip the plank's edge bears against; common practice, no source
BATTEN_HEIGHT = 18.0  # at most; never higher than the plank; common practice, no source
EDGE_ROOM = 15.0  # carrier left outside the batten; common practice, no source
SCREW_FROM_END = 60.0  # first and last screw from the plank's ends; common practice, no source
SCREWS_APART = 60.0  # least, between two screws; common practice, no source
FROM_KERF = 5.0  # the strip under the free half keeps this far from the kerf; common practice, no source
STRIP_SHARE = 2 / 3  # of the heel's width: the strip then reaches past the free half's centre of mass
HANDLE = (120.0, 40.0, 80.0)  # along the feed, across, high; common practice, no source
HANDLE_FROM_END = 40.0
STICK_FROM = 300.0  # the last of the cut with a push stick: HSE, circular saw bench (sources: the last 300 mm)


@dataclass(frozen=True)
class FreeHalf:
    """What carries the half beyond the blade: a strip `length` x `width`, as thick as the carrier; `loop` and `screws`
    in the carrier frame. `centre` is how far that half's centre of mass lies from the kerf."""

    loop: Loop
    length: float
    width: float
    centre: float
    screws: tuple[Point, ...]


@dataclass(frozen=True)
class Run:
    """How the carrier runs past the blade. `start`: its leading end short of the blade's centre; `end`: its trailing
    end past it; `infeed` and `outfeed`: how far it then reaches beyond the table's edges on either side (0: not at
    all). `stick_from`: the trailing end this far short of the blade's centre, the hand leaves the handle."""

    start: float
    end: float
    infeed: float
    outfeed: float
    stick_from: float
    guard_at: float


@dataclass(frozen=True)
class Dividing:
    """Numbers of the dividing cut [mm].

    `fence` is the rip fence setting to a tooth set towards the fence, `fence_to_plate` the same to the plate,
    `blade_height` what carrier and plank need together, `screws` the places of the screws in the carrier frame,
    `screws_on_plank` the same from the heel end and from the near plank edge (true of either half, each from its own
    heel and edge), `screw_to_kerf` the least wood between a screw's axis and the kerf. `line_beyond` is how far the
    line drawn on the plank lies beyond the carrier's blade edge: the fence gap and half the kerf. `batten_ends` are
    the corners of the batten that the plank touches, nose end and heel end. `handle` is the middle of the handle, None
    where the carrier has no room for it.
    """

    carrier_length: float
    carrier_width: float
    carrier_thickness: float
    fence: float
    fence_to_plate: float
    blade_height: float
    screws: tuple[Point, ...]
    screws_on_plank: tuple[Point, ...]
    screw_to_kerf: float
    screw: ScrewLength | None
    batten: Loop
    batten_height: float
    batten_screws: tuple[Point, ...]
    batten_screw: ScrewLength | None
    line_beyond: float
    free: FreeHalf
    run: Run
    handle: Point | None
    rail: Rail

    @property
    def rail_offset(self) -> float:
        """From the dividing line to the edge of a guide rail [mm]."""
        return self.rail.offset

    @property
    def support_strip(self) -> float:
        """Thickness of the strip under the free half [mm]: the carrier's."""
        return self.carrier_thickness

    @property
    def batten_ends(self) -> tuple[Point, Point]:
        return (self.batten.vertices[3].point, self.batten.vertices[2].point)

    @property
    def handle_loop(self) -> Loop | None:
        """The handle from above, in the carrier frame."""
        if self.handle is None:
            return None
        x, y = self.handle
        return rectangle(x - HANDLE[0] / 2, y - HANDLE[1] / 2, HANDLE[0], HANDLE[1])


def dividing(job: Job, sled: Sled, layout: Layout) -> Dividing:
    """Lay the nominal half of the plank on its carrier, the heel leading."""
    step, mark = fine_step(job.units), shop_step(job.units)
    sin, cos = math.sin(sled.angle), math.cos(sled.angle)
    width = round_up(sled.heel * cos + BATTEN_WIDTH + EDGE_ROOM, step)
    line = width + job.saw.fence_gap  # the blade's near face, and so the work edge of the half on the carrier
    left = max(sled.nose + BATTEN_WIDTH, 0.0) * sin + EDGE_ROOM
    length = round_up(left + sled.length / cos + sled.heel * sin + EDGE_ROOM, step)

    def on_carrier(x: float, y: float) -> Point:
        """From the sled's frame: turned by -theta about the nose end of the work edge, which lies on the line."""
        return (left + x * cos + (y - sled.nose) * sin, line - x * sin + (y - sled.nose) * cos)

    openings = [shape for _, shape in layout.capsules(sled)]
    on_plank = tuple(_screw_places(sled, openings, mark))
    screws = tuple(on_carrier(sled.length - s, y) for s, y in on_plank)
    corners = ((0.0, -BATTEN_WIDTH), (sled.length, -BATTEN_WIDTH), (sled.length, 0.0), (0.0, 0.0))
    batten = polygon(on_carrier(x, y) for x, y in corners)
    thickness = float(job.sled.sheet_thickness)
    batten_height = min(BATTEN_HEIGHT, sled.thickness)
    height = thickness + sled.thickness + job.saw.blade_above_work
    handle = _handle(batten)
    return Dividing(
        carrier_length=length,
        carrier_width=width,
        carrier_thickness=thickness,
        fence=line,
        fence_to_plate=line + (job.saw.kerf - job.saw.plate) / 2,
        blade_height=height,
        screws=screws,
        screws_on_plank=on_plank,
        screw_to_kerf=min((line - y for _, y in screws), default=0.0),
        screw=screw_length(thickness, sled.thickness),
        batten=batten,
        batten_height=batten_height,
        batten_screws=tuple(on_carrier(s, -BATTEN_WIDTH / 2) for s in _wished(sled.length)),
        batten_screw=screw_length(thickness, batten_height),
        line_beyond=job.saw.fence_gap + job.saw.kerf / 2,
        free=_free_half(job, sled, on_carrier, on_plank, step),
        run=_run(job, height, length, thickness + sled.thickness, handle),
        handle=handle,
        rail=guide_rail(job, sled),
    )


def _wished(length: float) -> tuple[float, ...]:
    """Near both ends and in the middle, on a short plank in its quarters."""
    end = min(SCREW_FROM_END, length / 4)
    return (end, length / 2, length - end)


def _screw_places(sled: Sled, openings: Sequence[Capsule], mark: float) -> Iterator[Point]:
    """From the heel and from the half's straight edge, on marks of a rule: in the middle of the width at the places
    wished, else as near them as there is wood; none where there is none."""
    corners = sled.corners()
    apart = min(SCREWS_APART, sled.length / 5)
    taken: list[float] = []
    stations = _stations(sled.length, mark)
    for wish in _wished(sled.length):
        for station in nearest_first(stations, wish):
            x = sled.length - station
            if any(abs(station - other) < apart for other in taken):
                continue
            depths = (round_to(share * sled.width_at(x), mark) for share in (0.5, 0.4, 0.6, 0.7))
            depth = next((y for y in depths if has_wood((x, y), corners, openings)), None)
            if depth is not None:
                taken.append(station)
                yield (station, depth)
                break


def _stations(length: float, mark: float) -> list[float]:
    """Stations a screw may have: every fifth mark, the places wished among them where they fall on marks."""
    wished = [round_to(s, mark) for s in _wished(length)]
    return sorted({*wished, *(i * 5 * mark for i in range(1, int(length / (5 * mark))))})


def _free_half(
    job: Job, sled: Sled, on_carrier: Callable[[float, float], Point], on_plank: tuple[Point, ...], step: float
) -> FreeHalf:
    """The strip runs along the kerf under the whole free half, which is the half on the carrier turned half round."""
    sin, cos = math.sin(sled.angle), math.cos(sled.angle)
    far = on_carrier(0.0, sled.nose)[1] + job.saw.kerf  # the kerf's other face, and so this half's work edge
    wide, narrow = sled.heel * cos, sled.nose * cos
    width = round_up(max(STRIP_SHARE * wide, narrow), step)
    length = round_up(sled.length / cos, step)
    low = on_carrier(0.0, sled.nose)[0] + job.saw.kerf * sin / cos
    across = job.saw.kerf / cos + sled.nose + sled.heel  # the plank's width, from one half's straight edge to the other
    screws = [on_carrier(s, across - y) for s, y in on_plank]
    return FreeHalf(
        loop=rectangle(low, far + FROM_KERF, length, width),
        length=length,
        width=width,
        centre=(wide**2 + wide * narrow + narrow**2) / (3 * (wide + narrow)),
        screws=tuple(screws),
    )


def _handle(batten: Loop) -> Point | None:
    """Near the trailing end, in the middle between fence edge and batten, if there is room for it and a hand."""
    x = HANDLE_FROM_END + HANDLE[0] / 2
    (x0, y0), (x1, y1) = (batten.vertices[i].point for i in (0, 1))
    free = y0 + (y1 - y0) * (x + HANDLE[0] / 2 - x0) / (x1 - x0)
    return (x, free / 2) if free >= 2 * HANDLE[1] else None


def _run(job: Job, height: float, length: float, work: float, handle: Point | None) -> Run:
    """The whole carrier runs past the blade, from before its front to behind its back."""
    saw = job.saw
    reach = Blade(float(saw.blade_diameter), float(saw.kerf), height, float(saw.fence_gap)).reach(0.0)
    start, end = reach + START_CLEARANCE, reach + saw.clear_gap
    hand = handle[0] if handle is not None else 0.0
    return Run(
        start=start,
        end=end,
        infeed=max(length + start - saw.table_front, 0.0),
        outfeed=max(length + end - saw.table_back, 0.0),
        stick_from=hand + reach + STICK_FROM,
        guard_at=work,
    )
