"""Findings about the margins: what a shop can keep (common practice, no source)."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import common
from scarfwright.models.sled.blade import LEAST_ABOVE_WORK
from scarfwright.models.sled.layout import stop_spare

# below these a shop can't keep what the numbers ask for; common practice, no source
LEAST = {  # mm, inches
    "margin.travel_small": (25.0, 1.0),
    "margin.side_small": (5.0, 3 / 16),
    "margin.blade_small": LEAST_ABOVE_WORK,
    "margin.gap_small": (0.2, 0.008),
}


def check_margins(work: Groundwork) -> Iterator[Finding]:
    """The stop block as it is set must stand short of the limit; margins of nothing are cautions."""
    spare = stop_spare(work.job)
    stop, limit = work.cut.advice.stop.from_axis, work.way.travel_limit
    if limit is not None and limit < stop + spare - 1e-6:
        yield finding("margin.stop_beyond", stop_mm=stop, limit_mm=limit, spare_mm=spare)
    saw = work.job.saw
    values = {
        "margin.travel_small": saw.travel_margin,
        "margin.side_small": saw.side_clearance,
        "margin.blade_small": saw.blade_above_work,
        "margin.gap_small": saw.fence_gap if saw.fence_gap > 0 else None,  # without any the sled is cut: a fault
    }
    for code, value in values.items():
        least = common(work.job.units, *LEAST[code])
        if value is not None and value < least - 1e-6:
            yield finding(code, value_mm=value, least_mm=least)
