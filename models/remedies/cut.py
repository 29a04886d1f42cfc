"""What may mend the findings about clamps and board that meet blade or fence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scarfwright.models.checks.the_sled.margins import LEAST
from scarfwright.models.findings import Finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import common
from scarfwright.models.remedies.offers import (
    Family,
    automatic,
    longer,
    measured,
    number,
    said,
    setting,
    station,
    together,
)
from scarfwright.models.sled.blade import LEAST_ABOVE_WORK


def _meets_blade(work: Groundwork, one: Finding) -> Iterator[Family]:
    """The clamp's own place is told by its station: the finding itself does not say which it is."""
    at = number(one, "station_mm")
    clamp = next((c for c in work.way.layout.clamps if abs(c.station - at) < 1e-6), None)
    if clamp is not None:
        which = replace(one, numbers={**one.numbers, "where": clamp.where})
        yield from station(work, which, work.way.layout.least_station)
    if measured(work):
        yield _with_less_margin(work, one)
    yield longer(work)
    yield automatic(work, "sled.length")


def _with_less_margin(work: Groundwork, one: Finding) -> Family:
    """The notches of a sled that is made are cut: it can run with what margin is left, where that is enough. What
    "auto" worked out with the whole margin is written down, or it would move."""
    say, job = said(work), work.job
    left = number(one, "limit_mm") - number(one, "end_mm")
    if left < common(job.units, *LEAST["margin.travel_small"]):
        return []
    heel = next(n.station for n in work.way.layout.notches if n.where == "heel")
    now = (("heel_station", job.sled.heel_station, heel), ("hand_line", job.sled.hand_line, work.way.layout.hand_line))
    kept = [(f"sled.{key}", say(place)) for key, asked, place in now if asked == "auto"]
    return [(("saw.travel_margin", say.down(left)), *kept)]


def _meets_fence(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield longer(work, number(one, "needed_length_mm"))
    lacking = number(one, "needed_mm") - number(one, "limit_mm")
    front = work.job.saw.fence_front - lacking
    if front > 0:
        yield setting("saw.fence_front", said(work).down(front))
    if not measured(work):
        yield setting("sled.nose_flat", 0)
    yield automatic(work, "sled.length")


def _board(work: Groundwork, one: Finding) -> Iterator[Family]:
    say, front = said(work), work.job.saw.fence_front - number(one, "needed_mm") + number(one, "limit_mm")
    if front > 0:
        yield setting("saw.fence_front", say.down(front))
    yield setting("stock.length", say.down(work.way.sled.heel * work.way.sled.ratio))


def _anew(work: Groundwork) -> tuple[tuple[str, str], ...]:
    """What moves along with another blade or fence, for a sled that is not made yet."""
    return () if measured(work) else (("sled.length", "auto"), ("sled.hand_line", "auto"))


def _blade(work: Groundwork, one: Finding) -> Iterator[Family]:
    """A lower board, less of the blade above it, or another blade or saw: `most` is how high this one may stand."""
    say, wanted = said(work), number(one, "blade_height_mm")
    of_saw = one.code == "blade.too_low"
    most = number(one, "max_depth_mm") if of_saw else work.way.blade.radius
    above, height = float(work.job.saw.blade_above_work), work.joint.height
    if most > above:
        yield setting("stock.height", say.down(most - above))
    if most - height >= common(work.job.units, *LEAST_ABOVE_WORK) - 1e-6:
        yield setting("saw.blade_above_work", say.down(most - height))
    if of_saw:
        yield setting("saw.max_depth", say.up(wanted))
    else:
        yield together(setting("saw.blade_diameter", say.up(2 * wanted)), *_anew(work))


def _lead(work: Groundwork, one: Finding) -> Iterator[Family]:
    """The fence towards you; further where "auto" then makes a sled with a wider heel."""
    say, needed = said(work), number(one, "needed_mm")
    yield together(setting("saw.fence_front", *(say.up(needed + more) for more in (0.0, 50.8))), *_anew(work))


# no other sled mends these: the last resort is not tried for them
OF_THE_SAW = frozenset({"blade.too_low", "blade.axis_above_table", "blade.smaller_than_work", "fence.behind_blade"})
WAYS = {
    "blade.too_low": _blade,
    "blade.axis_above_table": _blade,
    "blade.smaller_than_work": _blade,
    "fence.behind_blade": _lead,
    "fence.short_lead": _lead,
    "clamp.meets_blade": _meets_blade,
    "clamp.meets_fence": _meets_fence,
    "board.meets_fence": _board,
}
