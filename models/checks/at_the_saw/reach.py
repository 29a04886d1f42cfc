"""Whether the board is a stick that a table saw can stand upright and cut at all."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import ABOVE_REACH, Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import common

HIGHEST_RISE = (125.0, 5.0)  # mm, inches: table saws raise a blade no further; common practice, no source


def check_reach(work: Groundwork) -> Iterator[Finding]:
    """A panel, a sheet, a wide plank: its larger side stands up, and no saw of a shop raises a blade so far."""
    stock, saw = work.job.stock, work.job.saw
    tall, rise = max(stock.thickness, stock.height), common(work.job.units, *HIGHEST_RISE)
    if tall + saw.blade_above_work <= max(rise, saw.max_depth) + 1e-6:
        return
    reach = min(saw.max_depth, work.way.blade.radius) - saw.blade_above_work
    yield finding(ABOVE_REACH, tall_mm=tall, rise_mm=rise, reach_mm=reach if reach > 0 else None)
