"""Kinds of change that several findings share, each from the smallest change up, as a job file writes them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from scarfwright.models.findings import Finding, Remedy, Written
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import common, round_up
from scarfwright.models.lengths.say import Say, say_in

Family = Iterable[Remedy]
WIDEST = 400.0  # planks [mm]; wider ones are rarely sold (common practice, no source)
LONGEST = 6000.0


def said(work: Groundwork) -> Say:
    return say_in(work.job.units)


def measured(work: Groundwork) -> bool:
    """Whether the sled is made already: then no advice leads to another one."""
    sled = work.job.sled
    return any(size is not None for size in (sled.heel_as_made, sled.nose_as_made, sled.length_as_made))


def setting(key: str, *values: Written) -> Family:
    """One key, several values to try in turn."""
    return [((key, value),) for value in values]


def step(work: Groundwork) -> float:
    """Planks are told to this [mm]: 10 mm, or 1/2 in."""
    return common(work.job.units, 10.0, 0.5)


def longer(work: Groundwork, least: float = 0.0) -> Iterator[Remedy]:
    """Sled lengths from `least` [mm] up; a length that is "auto" has had them all already."""
    now = work.way.nominal.length
    if measured(work) or work.job.sled.length == "auto":
        return
    say, stride = said(work), 50.0 if work.job.units == "mm" else 50.8
    if now < least < LONGEST:
        yield (("sled.length", say.up(least)),)
    first = math.floor(max(now, least) / stride) + 1
    for count in range(first, min(first + 36, int(LONGEST / stride))):
        yield (("sled.length", say(count * stride)),)


def shorter(work: Groundwork, most: float) -> Iterator[Remedy]:
    """Sled lengths from `most` [mm] down."""
    if measured(work) or work.job.sled.length == "auto" or most <= 0:
        return
    say, stride = said(work), 50.0 if work.job.units == "mm" else 50.8
    yield (("sled.length", say.down(most)),)
    for count in range(math.floor(most / stride), 0, -1):
        yield (("sled.length", say(count * stride)),)


def together(first: Family, *then: tuple[str, Written]) -> Iterator[Remedy]:
    """Each change alone, then with more of the others: what it moves, moves along."""
    for remedy in first:
        yield remedy
        for count in range(1, len(then) + 1):
            yield (*remedy, *then[:count])


def automatic(work: Groundwork, key: str) -> Family:
    """Leave it to the tool, where that is not so already."""
    table, name = key.split(".")
    now = getattr(getattr(work.job, table), name)
    return [] if now == "auto" or (name in ("length", "nose_flat") and measured(work)) else setting(key, "auto")


def wider(work: Groundwork, least: float = 0.0) -> Iterator[Remedy]:
    """Planks from `least` [mm] wide up."""
    sled = work.job.sled
    if measured(work) or sled.made_from != "plank":
        return
    say, stride = said(work), step(work)
    if least > sled.plank.width:
        yield (("sled.plank", [say(sled.plank.thickness), say.up(least)]),)
    width = (math.floor(max(sled.plank.width, least) / stride) + 1) * stride
    while width <= WIDEST:
        yield (("sled.plank", [say(sled.plank.thickness), say(width)]),)
        width += stride


def thicker(work: Groundwork, least: float) -> Iterator[Remedy]:
    """More sheet layers, or a thicker plank, from `least` [mm] thick up."""
    sled, say = work.job.sled, said(work)
    if measured(work):
        return
    if sled.made_from == "sheet":
        first = max(math.ceil(least / sled.sheet_thickness - 1e-9), sled.layers + 1)
        yield from ((("sled.layers", n),) for n in range(first, 13))
        return
    yield (("sled.plank", [say(round_up(max(least, sled.plank.thickness), step(work) / 2)), say(sled.plank.width)]),)
    for more in range(1, 12):
        yield (("sled.plank", [say(round_up(least, step(work) / 2) + more * step(work) / 2), say(sled.plank.width)]),)


def number(one: Finding, key: str) -> float:
    """A length of the finding [mm]."""
    value = one.numbers[key]
    assert isinstance(value, float | int)
    return float(value)


def station(work: Groundwork, one: Finding, *from_heel: float) -> Iterator[Family]:
    """The notch of this finding elsewhere: at these stations, or where the tool puts it."""
    where, say = one.numbers.get("where"), said(work)
    if where == "heel":
        yield setting("sled.heel_station", *(say.up(s) for s in from_heel if s > 0))
        yield automatic(work, "sled.heel_station")
    elif where == "nose":
        edge = work.way.sled.work_edge
        yield setting("sled.nose_station", *(say.up(edge - s) for s in from_heel if edge - s > 0))
        yield automatic(work, "sled.nose_station")
    elif where == "extra":
        yield from extra(work, one, *from_heel)


def extra(work: Groundwork, one: Finding, *from_heel: float) -> Iterator[Family]:
    """One of the extra notches elsewhere, or none."""
    now, say = work.job.sled.extra_stations, said(work)
    at = [number(one, key) for key in ("station_mm", "other_station_mm") if key in one.numbers]
    for index in [i for i, s in enumerate(now) if any(abs(s - a) < 1e-6 for a in at)][::-1]:
        written = [s.text for s in now]
        yield setting(
            "sled.extra_stations",
            *([*written[:index], say.up(s), *written[index + 1 :]] for s in from_heel if s > 0),
        )
        yield setting("sled.extra_stations", [*written[:index], *written[index + 1 :]])
