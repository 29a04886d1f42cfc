"""Findings about the blade, its height and the fence."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork

THINNEST_CARRIER = 6.0  # a thinner board bends under the plank; common practice, no source


def check_saw(work: Groundwork) -> Iterator[Finding]:
    yield from _height(work)
    saw = work.job.saw
    if saw.fence_gap <= 0:
        yield finding("fence.cuts_sled", fence_gap_mm=saw.fence_gap)
    yield from _dividing(work)


def _height(work: Groundwork) -> Iterator[Finding]:
    saw, blade = work.job.saw, work.way.blade
    wanted = {"work_height_mm": work.joint.height, "blade_above_work_mm": saw.blade_above_work}
    if blade.diameter <= blade.height:
        yield finding("blade.smaller_than_work", diameter_mm=blade.diameter, blade_height_mm=blade.height, **wanted)
    elif blade.axis_depth < 0:
        yield finding("blade.axis_above_table", blade_height_mm=blade.height, radius_mm=blade.radius, **wanted)
    if blade.height > saw.max_depth + 1e-6:  # 1 3/4 in and 1/4 in are 2 in, whatever binary fractions make of it
        yield finding("blade.too_low", blade_height_mm=blade.height, max_depth_mm=saw.max_depth, **wanted)
    if saw.max_depth > blade.radius:
        yield finding("blade.max_depth_beyond", max_depth_mm=saw.max_depth, radius_mm=blade.radius)


def _dividing(work: Groundwork) -> Iterator[Finding]:
    cut, most = work.way.dividing, work.job.saw.max_depth
    if cut is None or cut.blade_height <= most:
        return
    room = most - cut.blade_height + cut.carrier_thickness
    yield finding(
        "dividing.blade_too_low",
        blade_height_mm=cut.blade_height,
        max_depth_mm=most,
        rail_mm=cut.rail_offset,
        carrier_most_mm=room if room >= THINNEST_CARRIER else None,
    )
