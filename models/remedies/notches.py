"""What may mend the findings about notches."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.remedies.offers import (
    Family,
    automatic,
    extra,
    longer,
    measured,
    number,
    said,
    setting,
    station,
    wider,
)


def _too_long(work: Groundwork, one: Finding) -> Iterator[Family]:
    enough = one.numbers["enough_mm"]
    if isinstance(enough, float):
        yield setting("sled.notch_length", said(work).up(enough))
    yield longer(work, number(one, "notch_length_mm"))


def _off_sled(work: Groundwork, one: Finding) -> Iterator[Family]:
    least, most = number(one, "least_mm"), number(one, "most_mm")
    if least <= most:
        step = said(work).step  # what is written is rounded up, from the nose end too
        near = least + step if one.numbers["where"] == "nose" else least
        inside = near if number(one, "station_mm") < least else most - 2 * step
        yield from station(work, one, inside)
    yield longer(work)


def _thin(work: Groundwork, one: Finding) -> Iterator[Family]:
    most, least = number(one, "most_mm"), number(one, "least_mm")
    if most >= least:
        yield from station(work, one, most - 2 * said(work).step)
    else:
        yield from station(work, one)
    if measured(work):
        return
    yield wider(work)
    yield longer(work)
    if work.job.sled.made_from == "sheet":
        say, now = said(work), work.job.sled.nose_min
        yield setting("sled.nose_min", *(say.up(now + more * 5.0) for more in range(1, 30)))


def _overlap(work: Groundwork, one: Finding) -> Iterator[Family]:
    places = sorted((number(one, "station_mm"), number(one, "other_station_mm")))
    apart = number(one, "needed_mm")
    if "extra" in (one.numbers["where"], one.numbers["other_where"]):
        yield from extra(work, one, places[0] + apart, places[1] + apart)
    yield automatic(work, "sled.heel_station")
    yield automatic(work, "sled.nose_station")
    yield longer(work)


WAYS = {
    "notch.longer_than_sled": _too_long,
    "notch.off_sled": _off_sled,
    "notch.breaks_fence_edge": _thin,
    "notch.thin_left": _thin,
    "notch.overlap": _overlap,
}
