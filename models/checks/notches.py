"""Findings about the clamp notches: on the sled, off its edges, apart."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.room import between, inside_by
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say
from scarfwright.models.sled.sled import LEAST_LEFT, Notch, station_off_flat, station_with_left


def check_notches(work: Groundwork, say: Say) -> Iterator[Finding]:
    sled, layout = work.way.sled, work.way.layout
    corners = sled.corners()
    for notch in layout.notches:
        left = notch.left(sled)
        at = f"The {notch.where} notch at {say(notch.station)} from the heel"
        if notch.length >= sled.work_edge:
            yield _notch_too_long(work, notch, say)
            continue
        least, most = notch.stations_within(sled)
        if not least - 1e-9 <= notch.station <= most + 1e-9:
            if not (notch.where == "heel" and notch.station > most):  # that one is sled.too_short
                yield finding(
                    "notch.off_sled",
                    f"{at} reaches past the end of the sled. {_keep_on(notch, work, say)}",
                    station_mm=notch.station,
                    least_mm=least,
                    most_mm=most,
                )
        elif left <= 0 or inside_by(notch.capsule(sled), corners) <= 0:
            yield finding(
                "notch.breaks_fence_edge",
                f"{at} breaks into the fence edge or the nose flat: {say(left)} of wood would be left to the fence "
                f"edge. {_towards_heel(work, notch, say)}",
                station_mm=notch.station,
                left_mm=left,
                most_mm=furthest(work, notch),
            )
        elif left < LEAST_LEFT:
            yield finding(
                "notch.thin_left",
                f"{at} leaves only {say(left)} of wood to the fence edge (under {say(LEAST_LEFT)} it is likely to "
                f"break; common practice, no source). {_towards_heel(work, notch, say)}",
                station_mm=notch.station,
                left_mm=left,
                most_mm=furthest(work, notch),
            )
    yield from _overlaps(work, say)


def _notch_too_long(work: Groundwork, notch: Notch, say: Say) -> Finding:
    edge, needed = work.way.sled.work_edge, work.job.clamp.pad_width + notch.width
    way = f"Set notch_length to {say.up(needed)}, the pad and the round ends." if needed < edge else ""
    return finding(
        "notch.longer_than_sled",
        f"The {notch.where} notch is {say(notch.length)} long, the sled's work edge {say(edge)}. "
        f"{way or f'Make the sled longer than {say.up(notch.length)}.'}",
        notch_length_mm=notch.length,
        work_edge_mm=edge,
    )


def _keep_on(notch: Notch, work: Groundwork, say: Say) -> str:
    sled = work.way.sled
    least, most = notch.stations_within(sled)
    if least > most:
        return f"Make the sled longer or the notch ({say(notch.length)}) shorter."
    if notch.where == "nose":
        nearest, furthest_in = sled.work_edge - most, sled.work_edge - least
        return f"Keep nose_station between {say.up(max(nearest, 0.0))} and {say.down(furthest_in)}."
    return f"Keep its middle between {say.up(least)} and {say.down(most)} from the heel."


def furthest(work: Groundwork, notch: Notch) -> float:
    """The station furthest from the heel at which this notch keeps LEAST_LEFT to fence edge and nose flat [mm]."""
    size = (notch.web, notch.length, notch.width, LEAST_LEFT)
    by_edge = station_with_left(work.way.sled, *size)
    return min(by_edge, station_off_flat(work.way.sled, *size)) if work.way.sled.nose_flat > 0 else by_edge


def _towards_heel(work: Groundwork, notch: Notch, say: Say) -> str:
    """Where the notch would do, only if it may lie there; else what else would help."""
    most = furthest(work, notch)
    if most >= max(work.way.layout.least_station, notch.stations_within(work.way.sled)[0]):
        return f"Put it {say.down(most)} or less from the heel, or take a wider plank."
    return "Make web or notch_width smaller, or take a wider plank and a longer sled."


def _overlaps(work: Groundwork, say: Say) -> Iterator[Finding]:
    pairs: list[tuple[Notch, Notch]] = list(combinations(work.way.layout.notches, 2))
    for one, other in pairs:
        room = between(one.capsule(work.way.sled), other.capsule(work.way.sled))
        if room <= 1e-6:  # touching is one opening
            apart = max(one.length, other.length, one.width) + LEAST_LEFT
            yield finding(
                "notch.overlap",
                f"The {one.where} notch at {say(one.station)} and the {other.where} notch at {say(other.station)} "
                f"run into each other. Keep them {say.up(apart)} apart, or take a longer sled.",
                station_mm=one.station,
                other_station_mm=other.station,
                needed_mm=apart,
            )
