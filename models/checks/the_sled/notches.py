"""Findings about the clamp notches: on the sled, off its edges, apart."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.room import between, inside_by
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.sled.sled import LEAST_LEFT, Notch, station_off_flat, station_with_left


def check_notches(work: Groundwork) -> Iterator[Finding]:
    sled, layout = work.way.sled, work.way.layout
    corners = sled.corners()
    for notch in layout.notches:
        if notch.length >= sled.work_edge:
            yield _too_long(work, notch)
            continue
        left = notch.left(sled)
        least, most = notch.stations_within(sled)
        if not least - 1e-9 <= notch.station <= most + 1e-9:
            if not (notch.where == "heel" and notch.station > most):  # that one is sled.too_short
                yield finding(
                    "notch.off_sled",
                    where=notch.where,
                    station_mm=notch.station,
                    least_mm=least,
                    most_mm=most,
                    notch_length_mm=notch.length,
                    work_edge_mm=sled.work_edge,
                )
        elif left <= 0 or inside_by(notch.capsule(sled), corners) <= 0:
            yield finding("notch.breaks_fence_edge", "", left_mm=left, **_place(work, notch))
        elif left < LEAST_LEFT:
            yield finding("notch.thin_left", "", left_mm=left, wanted_mm=LEAST_LEFT, **_place(work, notch))
    yield from _overlaps(work)


def _too_long(work: Groundwork, notch: Notch) -> Finding:
    edge, enough = work.way.sled.work_edge, work.job.clamp.pad_width + notch.width
    return finding(
        "notch.longer_than_sled",
        where=notch.where,
        notch_length_mm=notch.length,
        work_edge_mm=edge,
        enough_mm=enough if enough < edge else None,
    )


def _place(work: Groundwork, notch: Notch) -> dict[str, float | str]:
    """Where the notch is, and between what it would have to be: `least_mm` by blade and heel end."""
    return {
        "where": notch.where,
        "station_mm": notch.station,
        "most_mm": furthest(work, notch),
        "least_mm": max(work.way.layout.least_station, notch.stations_within(work.way.sled)[0]),
    }


def furthest(work: Groundwork, notch: Notch) -> float:
    """The station furthest from the heel at which this notch keeps LEAST_LEFT to fence edge and nose flat [mm]."""
    size = (notch.web, notch.length, notch.width, LEAST_LEFT)
    by_edge = station_with_left(work.way.sled, *size)
    return min(by_edge, station_off_flat(work.way.sled, *size)) if work.way.sled.nose_flat > 0 else by_edge


def _overlaps(work: Groundwork) -> Iterator[Finding]:
    for one, other in combinations(work.way.layout.notches, 2):
        room = between(one.capsule(work.way.sled), other.capsule(work.way.sled))
        if room <= 1e-6:  # touching is one opening
            yield finding(
                "notch.overlap",
                where=one.where,
                other_where=other.where,
                station_mm=one.station,
                other_station_mm=other.station,
                needed_mm=max(one.length, other.length, one.width) + LEAST_LEFT,
            )
