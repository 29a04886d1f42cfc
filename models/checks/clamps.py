"""Findings about how the clamps grip."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, Level, finding, register
from scarfwright.models.layout import pad_lower_edge, swallowed
from scarfwright.models.say import Say
from scarfwright.models.workup import Workup

register(
    {
        "clamp.no_grip": Level.FAULT,
        "clamp.pad_overhangs": Level.FAULT,
        "clamp.throat_short": Level.FAULT,
        "notch.jaw_wont_enter": Level.FAULT,
        "notch.pad_wont_enter": Level.FAULT,
        "notch.pad_bears_partly": Level.CAUTION,
    }
)

_PLACES = {"nose_flat": "across the nose flat", "heel": "in the heel notch", "nose": "in the nose notch"}


def check_clamps(work: Workup, say: Say) -> Iterator[Finding]:
    yield from _opening(work, say)
    yield from _bearing(work, say)
    yield from _slot(work, say)


def _opening(work: Workup, say: Say) -> Iterator[Finding]:
    has = work.job.clamp.opening
    for clamp in work.layout.clamps:
        if clamp.opening <= has:
            continue
        place = _PLACES.get(clamp.where, f"in the notch at {say(clamp.station)}")
        if clamp.where == "nose_flat":
            way = "a longer sled or a narrower plank (thinner nose), or a nose notch (nose_flat = 0)"
        else:
            way = f"web = {say(max(has - work.joint.thickness, 0.0))} or less"
        yield finding(
            "clamp.no_grip",
            f"The clamp {place} must close on {say(clamp.opening)} but opens only {say(has)}. "
            f"Use clamps that open {say(clamp.opening)}, or {way}.",
            station_mm=clamp.station,
            needed_mm=clamp.opening,
            opening_mm=has,
        )


def _bearing(work: Workup, say: Say) -> Iterator[Finding]:
    job = work.job
    lower = min(job.stock.height, work.sled.thickness)
    if pad_lower_edge(job, work.sled) < 0:
        yield finding(
            "clamp.pad_overhangs",
            f"A pad {say(job.clamp.pad_height)} high can't bear wholly on work {say(job.stock.height)} high and a "
            f"sled {say(work.sled.thickness)} thick. Use pads of {say(lower)} or less, or a thicker sled.",
            pad_height_mm=job.clamp.pad_height,
            lower_mm=lower,
        )
    deep = swallowed(job, work.sled)
    if deep > job.clamp.throat:
        yield finding(
            "clamp.throat_short",
            f"To bear wholly on work and sled the clamp must reach {say(deep)} down, and its throat is "
            f"{say(job.clamp.throat)}. Use deeper clamps, pads {say(deep - job.clamp.throat)} lower, or a sled "
            f"{say(max(job.stock.height - job.clamp.throat + job.clamp.pad_height, 0.0))} thick or more "
            "(not over the work's height).",
            swallowed_mm=deep,
            throat_mm=job.clamp.throat,
        )


def _slot(work: Workup, say: Say) -> Iterator[Finding]:
    clamp, sled = work.job.clamp, work.job.sled
    if sled.notch_width < clamp.jaw:
        yield finding(
            "notch.jaw_wont_enter",
            f"The notch is {say(sled.notch_width)} wide and the jaw stands off {say(clamp.jaw)}: it won't go in. "
            f"Set notch_width to {say(clamp.jaw + 2)} or more.",
            notch_width_mm=sled.notch_width,
            jaw_mm=clamp.jaw,
        )
    bearing = max(sled.notch_length - sled.notch_width, 0.0)
    needed = clamp.pad_width + sled.notch_width
    if clamp.pad_width > sled.notch_length:
        yield finding(
            "notch.pad_wont_enter",
            f"The pad is {say(clamp.pad_width)} wide, the notch {say(sled.notch_length)} long: it won't go in. "
            f"Set notch_length to {say(needed)} or more.",
            pad_width_mm=clamp.pad_width,
            notch_length_mm=sled.notch_length,
            needed_mm=needed,
        )
    elif clamp.pad_width > bearing:
        yield finding(
            "notch.pad_bears_partly",
            f"The pad is {say(clamp.pad_width)} wide, but between its round ends the notch is straight for only "
            f"{say(bearing)}: the pad bears partly. Set notch_length to {say(needed)}, or square the ends.",
            pad_width_mm=clamp.pad_width,
            bearing_mm=bearing,
            needed_mm=needed,
        )
