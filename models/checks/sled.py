"""Findings about the sled's size, its nose and what is cut into it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import between, inside_by
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import round_up
from scarfwright.models.sled.layout import HAND_ROOM, WOOD_AROUND, hand_step
from scarfwright.models.sled.sled import (
    LEAST_LEFT,
    longest_from_plank,
    plank_width_for,
)


def check_sled(work: Groundwork, unmeasurable: bool) -> Iterator[Finding]:
    yield from _as_made(work, unmeasurable)
    yield from _plank(work)
    yield from _length(work)
    yield from _nose_clamp(work)
    yield from _nose_flat(work)
    yield from _holes(work)


def _as_made(work: Groundwork, unmeasurable: bool) -> Iterator[Finding]:
    asked = work.job.sled
    measured = asked.heel_as_made is not None or asked.nose_as_made is not None
    if unmeasurable:
        heel = asked.heel_as_made if asked.heel_as_made is not None else work.way.nominal.heel
        nose = asked.nose_as_made if asked.nose_as_made is not None else work.way.nominal.nose
        yield finding(
            "sled.as_made_reversed",
            heel_mm=heel,
            nose_mm=nose,
        )
    if measured and asked.length == "auto":
        yield finding(
            "sled.as_made_needs_length",
            length_mm=work.way.sled.length,
        )


def _plank(work: Groundwork) -> Iterator[Finding]:
    sled, job = work.way.nominal, work.job
    nose_min = job.sled.nose_min
    if sled.plank_width is None:
        if work.way.sled.nose < nose_min:
            yield _thin(work)
        return
    if job.saw.kerf >= sled.plank_width:
        yield finding(
            "plank.kerf_too_wide",
            kerf_mm=job.saw.kerf,
            plank_width_mm=sled.plank_width,
        )
        return
    # rounding M takes up to half a mark off the nose: what is told holds whichever way it goes
    spare = nose_min + job.sled.round_marks / 2
    longest = longest_from_plank(sled.plank_width, job.joint.ratio, job.saw.kerf, spare)
    needed = plank_width_for(sled.length, job.joint.ratio, job.saw.kerf, spare)
    if longest <= 0 or sled.nose <= 0:
        yield finding(
            "plank.too_narrow",
            plank_width_mm=sled.plank_width,
            length_mm=sled.length,
            needed_width_mm=needed,
            longest_mm=max(longest, 0.0),
        )
    elif work.way.sled.nose < nose_min:
        measured = job.sled.nose_as_made is not None
        yield _thin(work) if measured else _thin(work, needed, longest)


def _thin(work: Groundwork, needed: float | None = None, longest: float | None = None) -> Finding:
    nose = work.way.sled.nose
    return finding(
        "sled.nose_thin",
        nose_mm=nose,
        nose_min_mm=work.job.sled.nose_min,
        needed_width_mm=needed,
        longest_mm=longest,
        nose_min_at_most_mm=nose if nose >= LEAST_LEFT else None,
    )


def _length(work: Groundwork) -> Iterator[Finding]:
    sled, layout = work.way.sled, work.way.layout
    heel = next((n for n in layout.notches if n.where == "heel"), None)
    if heel is not None:
        half = max(heel.length, heel.width) / 2
        slack = sled.work_edge - (heel.station + half)
        if slack < 0:
            needed = (heel.station + half) * math.cos(sled.angle) * work.way.stretch
            yield finding(
                "sled.too_short",
                station_mm=heel.station,
                length_mm=sled.length,
                needed_length_mm=needed,
            )
    if layout.hand_line > sled.length - HAND_ROOM:
        stretched = round_up(layout.hand_line * work.way.stretch, hand_step(work.job))
        room_for = (stretched if work.job.sled.hand_line == "auto" else layout.hand_line) + HAND_ROOM
        yield finding(
            "sled.hands_have_no_room",
            hand_line_mm=layout.hand_line,
            length_mm=sled.length,
            needed_length_mm=room_for,
        )


def _nose_clamp(work: Groundwork) -> Iterator[Finding]:
    job, flat, pad = work.job, work.way.sled.nose_flat, float(work.job.clamp.pad_width)
    clamp = next((c for c in work.way.layout.clamps if c.where in ("nose", "nose_flat")), None)
    if clamp is None:
        yield finding(
            "nose.no_clamp",
            needed_left_mm=job.sled.web,
        )
        return
    asked = job.sled.nose_station
    if clamp.where == "nose_flat" and asked != "auto" and flat >= pad and not pad / 2 <= asked <= flat - pad / 2:
        yield finding(
            "nose.pad_off_flat",
            nose_station_mm=asked,
            least_mm=pad / 2,
            most_mm=flat - pad / 2,
            pad_width_mm=pad,
            nose_flat_mm=flat,
        )


def _nose_flat(work: Groundwork) -> Iterator[Finding]:
    sled, job = work.way.sled, work.job
    if sled.nose_flat <= 0:
        return
    if sled.nose_flat > sled.length / 2:
        yield finding(
            "nose.flat_too_long",
            nose_flat_mm=sled.nose_flat,
            length_mm=sled.length,
            pad_width_mm=job.clamp.pad_width,
        )
    if sled.nose_flat < job.clamp.pad_width:
        yield finding(
            "nose.flat_short",
            nose_flat_mm=sled.nose_flat,
            pad_width_mm=job.clamp.pad_width,
        )
    cleared = job.saw.kerf * sled.ratio
    if job.sled.made_from == "plank" and sled.nose_flat > cleared + 1e-9:
        yield finding(
            "nose.flat_leaves_sliver",
            nose_flat_mm=sled.nose_flat,
            cleared_mm=cleared,
            kerf_mm=job.saw.kerf,
        )


def _holes(work: Groundwork) -> Iterator[Finding]:
    job, sled, layout = work.job, work.way.sled, work.way.layout
    if job.sled.handle_hole > 0 and not layout.handle_holes:
        yield finding(
            "handle.no_room",
            hand_line_mm=layout.hand_line,
            spacing_mm=job.sled.handle_spacing,
        )
    if job.sled.made_from == "sheet" and job.sled.dowel > 0 and job.sled.layers > 1 and not layout.dowels:
        yield finding(
            "dowel.no_room",
            dowel_mm=job.sled.dowel,
        )
    if len(layout.handle_holes) == 2 and math.dist(*layout.handle_holes) <= 2 * layout.handle_radius:
        needed = 2 * layout.handle_radius + WOOD_AROUND
        yield finding(
            "handle.overlap",
            spacing_mm=job.sled.handle_spacing,
            needed_mm=needed,
            hole_mm=2 * layout.handle_radius,
        )
    corners = sled.corners()
    shapes = layout.capsules(sled)
    notches = [c for name, c in shapes if name.endswith("notch")]
    for name, shape in shapes:
        if name != "handle hole":
            continue
        room = min([inside_by(shape, corners), *(between(shape, other) for other in notches)])
        x = sled.length - shape.start[0]
        if room <= 0:
            yield finding(
                "handle.breaks_out",
                from_heel_mm=x,
                room_mm=room,
            )
        elif x - shape.radius < layout.hand_line:
            yield finding(
                "handle.breaks_out",
                from_heel_mm=x,
                hand_line_mm=layout.hand_line,
            )
