"""What may mend the findings about clamps and board that meet blade or fence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scarfwright.models.findings import Finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.remedies.offers import Family, automatic, longer, measured, number, said, setting, station


def _meets_blade(work: Groundwork, one: Finding) -> Iterator[Family]:
    """The clamp's own place is told by its station: the finding itself does not say which it is."""
    at = number(one, "station_mm")
    clamp = next((c for c in work.way.layout.clamps if abs(c.station - at) < 1e-6), None)
    if clamp is not None:
        which = replace(one, numbers={**one.numbers, "where": clamp.where})
        yield from station(work, which, work.way.layout.least_station)
    yield longer(work)
    yield automatic(work, "sled.length")


def _meets_fence(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield longer(work, number(one, "needed_length_mm"))
    yield automatic(work, "sled.length")
    lacking = number(one, "needed_mm") - number(one, "limit_mm")
    front = work.job.saw.fence_front - lacking
    if front > 0:
        yield setting("saw.fence_front", said(work).down(front))
    if not measured(work):
        yield setting("sled.nose_flat", 0)


def _board(work: Groundwork, one: Finding) -> Iterator[Family]:
    say, front = said(work), work.job.saw.fence_front - number(one, "needed_mm") + number(one, "limit_mm")
    if front > 0:
        yield setting("saw.fence_front", say.down(front))
    yield setting("stock.length", say.down(work.way.sled.heel * work.way.sled.ratio))


WAYS = {
    "clamp.meets_blade": _meets_blade,
    "clamp.meets_fence": _meets_fence,
    "board.meets_fence": _board,
}
