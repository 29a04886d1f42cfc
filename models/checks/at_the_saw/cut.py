"""Findings about the travel: nothing may meet blade or fence before the cut has ended as asked."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, Numbers, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.sled.layout import ClampPlace, flat_jaw


def check_cut(work: Groundwork) -> Iterator[Finding]:
    asked = work.cut.advice.asked
    end, needed = asked.travel, asked.needed
    for clamp in work.way.layout.clamps:
        if clamp.limit is None or clamp.limit >= needed - 1e-6:
            continue
        numbers: Numbers = {
            "where": clamp.where,
            "station_mm": clamp.station,
            "limit_mm": clamp.limit,
            "end_mm": end,
            "end_of_cut": asked.name,
            "needed_mm": needed,
        }
        if clamp.meets == "fence":
            longer = work.way.length_for(needed - clamp.limit)
            yield finding("clamp.meets_fence", **numbers, needed_length_mm=longer)
        else:
            yield finding("clamp.meets_blade", **numbers, least_station_mm=_least_for(clamp, work, needed))
    tail = work.way.board_limit
    if tail is not None and tail < needed:
        yield finding(
            "board.meets_fence",
            limit_mm=tail,
            end_mm=end,
            end_of_cut=asked.name,
            needed_mm=needed,
            longest_board_mm=work.way.sled.heel * work.way.sled.ratio,
        )


def _least_for(clamp: ClampPlace, work: Groundwork, needed: float) -> float:
    """Least station of this clamp: on the nose flat it slides by the flat's length, not by a slot's."""
    if clamp.where != "nose_flat":
        return work.way.layout.least_station
    return flat_jaw(work.job, work.way.sled, clamp.station).least_station(needed, work.joint, work.way.blade)
