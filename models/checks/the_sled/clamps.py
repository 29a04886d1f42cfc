"""Findings about how the clamps grip."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.sled.layout import pad_lower_edge, stop_spare, swallowed
from scarfwright.models.sled.sled import LEAST_LEFT


def check_clamps(work: Groundwork) -> Iterator[Finding]:
    yield from _opening(work)
    yield from _board(work)
    yield from _pushed_down(work)
    yield from _down_on_fence(work)
    yield from _bearing(work)
    yield from _slot(work)
    yield from _backing(work)


def _opening(work: Groundwork) -> Iterator[Finding]:
    has = work.job.clamp.opening
    for clamp in work.way.layout.clamps:
        if clamp.opening > has + 1e-6:
            yield finding(
                "clamp.no_grip",
                where=clamp.where,
                station_mm=clamp.station,
                needed_mm=clamp.opening,
                opening_mm=has,
            )


def _board(work: Groundwork) -> Iterator[Finding]:
    """Two clamps must hold the board, each with its whole pad, wherever it slides in its slot."""
    length = work.job.stock.length
    if length is None:
        return
    clamps = sorted(work.way.layout.clamps, key=lambda c: c.least_board)
    past = [c for c in clamps if c.least_board > length + 1e-6]
    held = len(clamps) - len(past)
    if held < 2:
        first, last = _closer(work, length)
        yield finding(
            "clamp.grips_air",
            length_mm=length,
            needed_length_mm=clamps[1].least_board if len(clamps) > 1 else None,
            station_mm=past[0].station if past else None,
            held=float(held),
            notch_from_mm=first,
            notch_to_mm=last,
        )
    else:
        for clamp in past:
            yield finding("clamp.past_board", length_mm=length, station_mm=clamp.station)


def _closer(work: Groundwork, length: float) -> tuple[float, float] | tuple[None, None]:
    """A further notch behind the heel's, where the board reaches and the sled has room for one: from, to."""
    job = work.job
    half = max(job.clamp.pad_width, job.sled.notch_length) / 2
    last = length - half
    heel = next((c.station for c in work.way.layout.clamps if c.where == "heel"), None)
    first = max(work.way.layout.least_station, 0.0 if heel is None else heel + job.sled.notch_length + LEAST_LEFT)
    if last < first or heel is None or heel + half > length:
        return None, None
    return first, last


def _pushed_down(work: Groundwork) -> Iterator[Finding]:
    """The limits hold for pads as high as they may sit; pushed down to the bar a clamp meets the blade sooner."""
    end, spare = work.way.travel_end, stop_spare(work.job)
    for clamp in work.way.layout.clamps:
        sooner = clamp.pushed_down
        if sooner is None or sooner >= end + spare - 1e-6 or (clamp.limit is not None and clamp.limit < end):
            continue
        yield finding(
            "clamp.deep_meets_blade",
            where=clamp.where,
            **_deep(work, clamp.station, sooner),
        )


def _deep(work: Groundwork, station: float, sooner: float) -> dict[str, float]:
    """What is told of a clamp that is pushed down: where it sits, its limit then, and where the cut ends [mm]."""
    return {
        "station_mm": station,
        "limit_mm": sooner,
        "end_mm": work.way.travel_end,
        "spare_mm": stop_spare(work.job),
        "lower_edge_mm": pad_lower_edge(work.job, work.way.sled),
    }


def _down_on_fence(work: Groundwork) -> Iterator[Finding]:
    """A nose clamp whose pads ride over the fence as set: pushed down it meets the fence's near end in the cut."""
    end, spare = work.way.travel_end, stop_spare(work.job)
    for clamp in work.way.layout.clamps:
        sooner = clamp.low_at_fence
        if clamp.at_fence is not None or sooner is None or sooner >= end + spare - 1e-6:
            continue
        yield finding(
            "clamp.deep_meets_fence",
            where=clamp.where,
            **_deep(work, clamp.station, sooner),
            fence_height_mm=work.job.saw.fence_height,
            needed_length_mm=work.way.length_for(end + spare - sooner),
        )


def backing_wanted(work: Groundwork) -> float:
    """The least thickness of a sled [mm] that backs the board well enough: half its height, and the middle of the pads
    a third up (common practice, no source)."""
    height = float(work.job.stock.height)
    return max(height / 2, height / 3 + work.job.clamp.pad_height / 2)


def _backing(work: Groundwork) -> Iterator[Finding]:
    """What of the board stands higher than the sled is not held beside the blade."""
    height, thick = float(work.job.stock.height), work.way.sled.thickness
    if height <= thick + 0.05:
        return
    wanted = backing_wanted(work)
    numbers = {"unbacked_mm": height - thick, "height_mm": height, "sled_mm": thick, "wanted_mm": wanted}
    low = thick < wanted - 0.05
    yield finding("backing.low" if low else "backing.partial", "", **numbers)


def _bearing(work: Groundwork) -> Iterator[Finding]:
    clamp, height, thick = work.job.clamp, work.job.stock.height, work.way.sled.thickness
    if pad_lower_edge(work.job, work.way.sled) < -1e-6:
        yield finding(
            "clamp.pad_overhangs",
            pad_height_mm=clamp.pad_height,
            lower_mm=min(height, thick),
            height_mm=height,
            sled_mm=thick,
        )
    deep = swallowed(work.job, work.way.sled)
    if deep > clamp.throat + 1e-6:
        yield finding(
            "clamp.throat_short",
            swallowed_mm=deep,
            throat_mm=clamp.throat,
            height_mm=height,
            sled_mm=thick,
            pad_height_mm=clamp.pad_height,
        )


def _slot(work: Groundwork) -> Iterator[Finding]:
    clamp, sled = work.job.clamp, work.job.sled
    if sled.notch_width < clamp.jaw_inner - 1e-6:
        yield finding(
            "notch.jaw_wont_enter",
            notch_width_mm=sled.notch_width,
            jaw_mm=clamp.jaw_inner,
            needed_mm=clamp.jaw_inner + 2,
        )
    bearing = max(sled.notch_length - sled.notch_width, 0.0)
    needed = clamp.pad_width + sled.notch_width
    if clamp.pad_width > sled.notch_length + 1e-6:
        yield finding(
            "notch.pad_wont_enter",
            pad_width_mm=clamp.pad_width,
            notch_length_mm=sled.notch_length,
            needed_mm=needed,
        )
    elif clamp.pad_width > bearing + 1e-6:
        yield finding("notch.pad_bears_partly", pad_width_mm=clamp.pad_width, bearing_mm=bearing, needed_mm=needed)
