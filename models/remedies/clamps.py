"""What may mend the findings about how the clamps grip."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.checks.the_sled.clamps import backing_wanted
from scarfwright.models.findings import Finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.remedies.offers import (
    Family,
    automatic,
    longer,
    measured,
    number,
    said,
    setting,
    station,
    thicker,
)
from scarfwright.models.sled.sled import LEAST_LEFT


def _no_grip(work: Groundwork, one: Finding) -> Iterator[Family]:
    say = said(work)
    yield setting("clamp.opening", say.up(number(one, "needed_mm")))
    if measured(work):
        return
    if one.numbers["where"] == "nose_flat":
        yield setting("sled.nose_flat", 0)
        yield longer(work)
        return
    web = work.job.clamp.opening - work.joint.thickness
    if web >= LEAST_LEFT:
        yield setting("sled.web", say.down(web))


def _grips_air(work: Groundwork, one: Finding) -> Iterator[Family]:
    say, needed = said(work), one.numbers["needed_length_mm"]
    first, last = one.numbers["notch_from_mm"], one.numbers["notch_to_mm"]
    if isinstance(first, float) and isinstance(last, float):
        now = [s.text for s in work.job.sled.extra_stations]
        yield setting("sled.extra_stations", [*now, say.up(first)], [*now, say.down(last)])
    if isinstance(needed, float):
        yield setting("stock.length", say.up(needed))


def _deep(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield from station(work, one, work.way.layout.least_station)
    yield longer(work)


def _deep_at_fence(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield longer(work, number(one, "needed_length_mm"))
    yield automatic(work, "sled.length")
    front = work.job.saw.fence_front - number(one, "end_mm") - number(one, "spare_mm") + number(one, "limit_mm")
    if front > 0:
        yield setting("saw.fence_front", said(work).down(front))
    if not measured(work):
        yield setting("sled.nose_flat", 0)


def _overhangs(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("clamp.pad_height", said(work).down(number(one, "lower_mm")))
    yield thicker(work, number(one, "pad_height_mm"))


def _throat(work: Groundwork, one: Finding) -> Iterator[Family]:
    say, throat = said(work), number(one, "throat_mm")
    height, sled, pad = (number(one, key) for key in ("height_mm", "sled_mm", "pad_height_mm"))
    yield setting("clamp.throat", say.up(number(one, "swallowed_mm")))
    if throat - abs(height - sled) > say.step:
        yield setting("clamp.pad_height", say.down(throat - abs(height - sled)))
    if sled < height and throat > pad:
        yield thicker(work, height - throat + pad)


def _jaw(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("sled.notch_width", said(work).up(number(one, "needed_mm")))


def _pad(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("sled.notch_length", said(work).up(number(one, "needed_mm")))


def _backing(work: Groundwork, _one: Finding) -> Iterator[Family]:
    yield thicker(work, backing_wanted(work))


WAYS = {
    "clamp.no_grip": _no_grip,
    "clamp.grips_air": _grips_air,
    "clamp.deep_meets_blade": _deep,
    "clamp.deep_meets_fence": _deep_at_fence,
    "clamp.pad_overhangs": _overhangs,
    "clamp.throat_short": _throat,
    "notch.jaw_wont_enter": _jaw,
    "notch.pad_wont_enter": _pad,
    "notch.pad_bears_partly": _pad,
    "backing.low": _backing,
}
