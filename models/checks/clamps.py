"""Findings about how the clamps grip."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say
from scarfwright.models.sled.layout import pad_lower_edge, swallowed
from scarfwright.models.sled.sled import LEAST_LEFT

_PLACES = {"nose_flat": "across the nose flat", "heel": "in the heel notch", "nose": "in the nose notch"}


def check_clamps(work: Groundwork, say: Say) -> Iterator[Finding]:
    yield from _opening(work, say)
    yield from _board(work, say)
    yield from _pushed_down(work, say)
    yield from _bearing(work, say)
    yield from _slot(work, say)


def _opening(work: Groundwork, say: Say) -> Iterator[Finding]:
    has = work.job.clamp.opening
    for clamp in work.way.layout.clamps:
        if clamp.opening <= has:
            continue
        place = _PLACES.get(clamp.where, f"in the notch at {say(clamp.station)}")
        yield finding(
            "clamp.no_grip",
            f"The clamp {place} must close on {say(clamp.opening)} but opens only {say(has)}. "
            f"Use clamps that open {say.up(clamp.opening)}{_other_grip(clamp.where, work, say)}.",
            station_mm=clamp.station,
            needed_mm=clamp.opening,
            opening_mm=has,
        )


def _board(work: Groundwork, say: Say) -> Iterator[Finding]:
    """Two clamps must hold the board, each with its whole pad, wherever it slides in its slot."""
    length = work.job.stock.length
    if length is None:
        return
    clamps = sorted(work.way.layout.clamps, key=lambda c: c.least_board)
    past = [c for c in clamps if c.least_board > length + 1e-6]
    if len(clamps) - len(past) < 2:
        needed = clamps[1].least_board if len(clamps) > 1 else None
        longer = "" if needed is None else f" Take boards {say.up(needed)} long or more{_closer(work, length, say)}."
        held = "only one clamp" if len(clamps) > len(past) else "no clamp"
        yield finding(
            "clamp.grips_air",
            f"A board {say(length)} long reaches {held}: the others grip air, and two must hold it.{longer}",
            length_mm=length,
            needed_length_mm=needed,
            station_mm=past[0].station if past else None,
        )
    elif past:
        told = ", ".join(say(c.station) for c in past)
        yield finding(
            "clamp.past_board",
            f"A board {say(length)} long does not reach the clamp at {told}: it is held by the others.",
            length_mm=length,
            station_mm=past[0].station,
        )


def _closer(work: Groundwork, length: float, say: Say) -> str:
    """A further notch behind the heel's, where the board reaches and the sled has room for one."""
    job = work.job
    half = max(job.clamp.pad_width, job.sled.notch_length) / 2
    last = length - half
    heel = next((c.station for c in work.way.layout.clamps if c.where == "heel"), None)
    first = max(work.way.layout.least_station, 0.0 if heel is None else heel + job.sled.notch_length + LEAST_LEFT)
    if last < first or heel is None or heel + half > length:
        return ""
    return f", or give the sled a notch between {say.up(first)} and {say.down(last)} (extra_stations)"


def _pushed_down(work: Groundwork, say: Say) -> Iterator[Finding]:
    """The limits hold for pads as high as they may sit; pushed down to the bar a clamp meets the blade sooner."""
    end = work.way.travel_end
    for clamp in work.way.layout.clamps:
        sooner = clamp.pushed_down
        if sooner is None or sooner >= end or (clamp.limit is not None and clamp.limit < end):
            continue
        low = pad_lower_edge(work.job, work.way.sled)
        yield finding(
            "clamp.deep_meets_blade",
            f"The clamp at {say(clamp.station)} is safe with its pads' lower edge {say(low)} above the table, but "
            f"pushed down as far as it goes it would meet the blade at {say(sooner)}, before the end of the cut at "
            f"{say(end)}. Keep its pads flush with the lower of sled and work, or put a packing piece under its bar.",
            station_mm=clamp.station,
            limit_mm=sooner,
            end_mm=end,
            lower_edge_mm=low,
        )


def _other_grip(where: str, work: Groundwork, say: Say) -> str:
    """What else than wider clamps would do, only where it would."""
    job, thickness = work.job, work.joint.thickness
    if where == "nose_flat":
        notch = ", or a nose notch (nose_flat = 0)" if job.sled.web + thickness <= job.clamp.opening else ""
        return f", or a longer sled or a narrower plank (thinner nose){notch}"
    web = job.clamp.opening - thickness
    return f", or set web to {say.down(web)} or less" if web >= LEAST_LEFT else ""


def _bearing(work: Groundwork, say: Say) -> Iterator[Finding]:
    job = work.job
    lower = min(job.stock.height, work.way.sled.thickness)
    if pad_lower_edge(job, work.way.sled) < 0:
        yield finding(
            "clamp.pad_overhangs",
            f"A pad {say(job.clamp.pad_height)} high can't bear wholly on work {say(job.stock.height)} high and a "
            f"sled {say(work.way.sled.thickness)} thick. Use pads of {say.down(lower)} or less, or a thicker sled.",
            pad_height_mm=job.clamp.pad_height,
            lower_mm=lower,
        )
    deep = swallowed(job, work.way.sled)
    if deep > job.clamp.throat:
        yield finding(
            "clamp.throat_short",
            f"To bear wholly on work and sled the clamp must reach {say(deep)} down, and its throat is "
            f"{say(job.clamp.throat)}. Use clamps that reach {say.up(deep)}{_less_deep(work, say)}.",
            swallowed_mm=deep,
            throat_mm=job.clamp.throat,
        )


def _less_deep(work: Groundwork, say: Say) -> str:
    """What else than deeper clamps would do, only where it would."""
    job, height, sled = work.job, work.joint.height, work.way.sled.thickness
    apart, spare = abs(height - sled), job.clamp.throat - job.clamp.pad_height
    pads = f", or pads {say.down(job.clamp.throat - apart)} high or less" if job.clamp.throat > apart else ""
    if spare < 0:
        return pads
    if sled < height:
        return f"{pads}, or a sled {say.up(height - spare)} thick or more (not over the work's height)"
    return f"{pads}, or a sled {say.down(height + spare)} thick or less"


def _slot(work: Groundwork, say: Say) -> Iterator[Finding]:
    clamp, sled = work.job.clamp, work.job.sled
    if sled.notch_width < clamp.jaw:
        yield finding(
            "notch.jaw_wont_enter",
            f"The notch is {say(sled.notch_width)} wide and the jaw stands off {say(clamp.jaw)}: it won't go in. "
            f"Set notch_width to {say.up(clamp.jaw + 2)} or more.",
            notch_width_mm=sled.notch_width,
            jaw_mm=clamp.jaw,
        )
    bearing = max(sled.notch_length - sled.notch_width, 0.0)
    needed = clamp.pad_width + sled.notch_width
    if clamp.pad_width > sled.notch_length:
        yield finding(
            "notch.pad_wont_enter",
            f"The pad is {say(clamp.pad_width)} wide, the notch {say(sled.notch_length)} long: it won't go in. "
            f"Set notch_length to {say.up(needed)} or more.",
            pad_width_mm=clamp.pad_width,
            notch_length_mm=sled.notch_length,
            needed_mm=needed,
        )
    elif clamp.pad_width > bearing:
        yield finding(
            "notch.pad_bears_partly",
            f"The pad is {say(clamp.pad_width)} wide, but between its round ends the notch is straight for only "
            f"{say(bearing)}: the pad bears partly. Set notch_length to {say.up(needed)}, or square the ends.",
            pad_width_mm=clamp.pad_width,
            bearing_mm=bearing,
            needed_mm=needed,
        )
