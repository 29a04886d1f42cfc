"""Findings about the sled's size, its nose and what is cut into it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.room import between, inside_by
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import round_up
from scarfwright.models.lengths.say import Say
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.layout import HAND_ROOM, WOOD_AROUND
from scarfwright.models.sled.sled import (
    LEAST_LEFT,
    longest_from_plank,
    plank_width_for,
)


def check_sled(work: Groundwork, say: Say, unmeasurable: bool) -> Iterator[Finding]:
    yield from _as_made(work, say, unmeasurable)
    yield from _plank(work, say)
    yield from _length(work, say)
    yield from _nose_clamp(work, say)
    yield from _nose_flat(work, say)
    yield from _holes(work, say)


def _as_made(work: Groundwork, say: Say, unmeasurable: bool) -> Iterator[Finding]:
    asked = work.job.sled
    measured = asked.heel_as_made is not None or asked.nose_as_made is not None
    if unmeasurable:
        heel = asked.heel_as_made if asked.heel_as_made is not None else work.way.nominal.heel
        nose = asked.nose_as_made if asked.nose_as_made is not None else work.way.nominal.nose
        yield finding(
            "sled.as_made_reversed",
            f"The heel as measured ({say(heel)}) is not wider than the nose ({say(nose)}): that is no taper. "
            "Measure again, square to the fence edge, the heel at the wide end.",
            heel_mm=heel,
            nose_mm=nose,
        )
    if measured and asked.length == "auto":
        yield finding(
            "sled.as_made_needs_length",
            "Measures heel_as_made and nose_as_made belong to a sled that exists: give its measured length too "
            f'([sled] length = "{say(work.way.sled.length)}" is what "auto" would have made).',
            length_mm=work.way.sled.length,
        )


def _plank(work: Groundwork, say: Say) -> Iterator[Finding]:
    sled, job = work.way.nominal, work.job
    nose_min = job.sled.nose_min
    if sled.plank_width is None:
        if work.way.sled.nose < nose_min:
            yield _thin(work, say, " Make a sled with a wider nose")
        return
    if job.saw.kerf >= sled.plank_width:
        yield finding(
            "plank.kerf_too_wide",
            f"The kerf ({say(job.saw.kerf)}) is as wide as the plank ({say(sled.plank_width)}) or wider. "
            "Check [saw] kerf and [sled] plank.",
            kerf_mm=job.saw.kerf,
            plank_width_mm=sled.plank_width,
        )
        return
    # rounding M takes up to half a mark off the nose: what is told holds whichever way it goes
    spare = nose_min + job.sled.round_marks / 2
    longest = longest_from_plank(sled.plank_width, job.joint.ratio, job.saw.kerf, spare)
    needed = plank_width_for(sled.length, job.joint.ratio, job.saw.kerf, spare)
    if longest <= 0 or sled.nose <= 0:
        way = f"a sled no longer than {say.down(longest)}, " if longest > 0 else ""
        yield finding(
            "plank.too_narrow",
            f"A plank {say(sled.plank_width)} wide has no room for two halves {say(sled.length)} long at this slope. "
            f"Take {way}a plank at least {say.up(needed)} wide, or a flatter slope.",
            plank_width_mm=sled.plank_width,
            needed_width_mm=needed,
            longest_mm=max(longest, 0.0),
        )
    elif work.way.sled.nose < nose_min:
        if job.sled.nose_as_made is not None:
            yield _thin(work, say, " Make a sled with a wider nose")
        else:
            yield _thin(
                work, say, f" Take a plank {say.up(needed)} wide, a sled no longer than {say.down(longest)}", needed
            )


def _thin(work: Groundwork, say: Say, way: str, needed: float | None = None) -> Finding:
    least, nose = work.job.sled.nose_min, work.way.sled.nose
    lower = f", or set nose_min to {say.down(nose)}" if nose >= LEAST_LEFT else ""
    return finding(
        "sled.nose_thin",
        f"The nose is {say(nose)} wide, less than nose_min {say(least)}: it breaks or bends.{way}{lower}.",
        nose_mm=nose,
        nose_min_mm=least,
        needed_width_mm=needed,
    )


def _length(work: Groundwork, say: Say) -> Iterator[Finding]:
    sled, layout = work.way.sled, work.way.layout
    heel = next((n for n in layout.notches if n.where == "heel"), None)
    if heel is not None:
        half = max(heel.length, heel.width) / 2
        slack = sled.work_edge - (heel.station + half)
        if slack < 0:
            needed = (heel.station + half) * math.cos(sled.angle) * work.way.stretch
            yield finding(
                "sled.too_short",
                f"The heel clamp belongs at {say(heel.station)} from the heel to stay off the blade, but the sled is "
                f"only {say(sled.length)} long. Make it at least {say.up(needed)} long.",
                station_mm=heel.station,
                length_mm=sled.length,
                needed_length_mm=needed,
            )
    if layout.hand_line > sled.length - HAND_ROOM:
        stretched = round_up(layout.hand_line * work.way.stretch, fine_step(work.job.units))
        room_for = (stretched if work.job.sled.hand_line == "auto" else layout.hand_line) + HAND_ROOM
        yield finding(
            "sled.hands_have_no_room",
            f"The hand line belongs {say(layout.hand_line)} from the heel, which leaves no room for a hand on a sled "
            f"{say(sled.length)} long. Make the sled {say.up(room_for)} long, or push with a "
            "screwed-on handle and a push stick, never with a hand past the line.",
            hand_line_mm=layout.hand_line,
            length_mm=sled.length,
            needed_length_mm=room_for,
        )


def _nose_clamp(work: Groundwork, say: Say) -> Iterator[Finding]:
    job, flat, pad = work.job, work.way.sled.nose_flat, float(work.job.clamp.pad_width)
    clamp = next((c for c in work.way.layout.clamps if c.where in ("nose", "nose_flat")), None)
    if clamp is None:
        yield finding(
            "nose.no_clamp",
            f"No nose notch leaves {say(job.sled.web)} of wood to the fence edge, and there is no nose flat: the heel "
            'clamp alone would hold the board. Set nose_flat to "auto", or make the sled longer and wider.',
            needed_left_mm=job.sled.web,
        )
        return
    asked = job.sled.nose_station
    if clamp.where == "nose_flat" and asked != "auto" and flat >= pad and not pad / 2 <= asked <= flat - pad / 2:
        yield finding(
            "nose.pad_off_flat",
            f"A pad {say(pad)} wide at {say(asked)} from the nose end does not bear wholly on the nose flat "
            f"({say(flat)}). Set nose_station between {say.up(pad / 2)} and {say.down(flat - pad / 2)}, or to "
            '"auto".',
            nose_station_mm=asked,
            least_mm=pad / 2,
            most_mm=flat - pad / 2,
        )


def _nose_flat(work: Groundwork, say: Say) -> Iterator[Finding]:
    sled, job = work.way.sled, work.job
    if sled.nose_flat <= 0:
        return
    if sled.nose_flat > sled.length / 2:
        yield finding(
            "nose.flat_too_long",
            f"The nose flat ({say(sled.nose_flat)}) is longer than half the sled ({say(sled.length)}). "
            f"{_shorter_flat(work, say)}.",
            nose_flat_mm=sled.nose_flat,
            length_mm=sled.length,
        )
    if sled.nose_flat < job.clamp.pad_width:
        yield finding(
            "nose.flat_short",
            f"The nose flat ({say(sled.nose_flat)}) is shorter than the clamp's pad ({say(job.clamp.pad_width)}), "
            f"which then bears only partly. Set nose_flat to {say.up(job.clamp.pad_width)} or more.",
            nose_flat_mm=sled.nose_flat,
            pad_width_mm=job.clamp.pad_width,
        )
    cleared = job.saw.kerf * sled.ratio
    if job.sled.made_from == "plank" and sled.nose_flat > cleared + 1e-9:
        yield finding(
            "nose.flat_leaves_sliver",
            f"Cut on the saw, a kerf of {say(job.saw.kerf)} clears only {say(cleared)} of the nose flat's "
            f"{say(sled.nose_flat)}: saw the sliver off by hand, or use the printed nose wedge instead of a flat.",
            nose_flat_mm=sled.nose_flat,
            cleared_mm=cleared,
        )


def _shorter_flat(work: Groundwork, say: Say) -> str:
    pad, half = work.job.clamp.pad_width, work.way.sled.length / 2
    if pad <= half:
        return f"Set nose_flat to {say.down(half)} or less; {say.up(pad)} is one pad"
    return f"Make the sled {say.up(2 * pad)} long or more and set nose_flat to {say(pad)}, one pad"


def _holes(work: Groundwork, say: Say) -> Iterator[Finding]:
    job, sled, layout = work.job, work.way.sled, work.way.layout
    if job.sled.handle_hole > 0 and not layout.handle_holes:
        yield finding(
            "handle.no_room",
            f"No place behind the hand line ({say(layout.hand_line)} from the heel) takes two handle holes "
            f"{say(job.sled.handle_spacing)} apart, so there are none. A longer sled or a smaller handle_spacing "
            "would do; set handle_hole = 0 if no handle is wanted.",
            hand_line_mm=layout.hand_line,
            spacing_mm=job.sled.handle_spacing,
        )
    if job.sled.made_from == "sheet" and job.sled.dowel > 0 and job.sled.layers > 1 and not layout.dowels:
        yield finding(
            "dowel.no_room",
            f"No two places take dowels of {say(job.sled.dowel)} clear of notches and edges: register the layers by "
            "their edges instead, or use thinner dowels.",
            dowel_mm=job.sled.dowel,
        )
    if len(layout.handle_holes) == 2 and math.dist(*layout.handle_holes) <= 2 * layout.handle_radius:
        needed = 2 * layout.handle_radius + WOOD_AROUND
        yield finding(
            "handle.overlap",
            f"Handle holes {say(2 * layout.handle_radius)} wide, {say(job.sled.handle_spacing)} apart, run into each "
            f"other. Set handle_spacing to {say.up(needed)} or more.",
            spacing_mm=job.sled.handle_spacing,
            needed_mm=needed,
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
                f"The handle hole {say(x)} from the heel runs into a notch or off the sled ({say(room)} of wood "
                'left). Move handle_station, or set it to "auto".',
                from_heel_mm=x,
                room_mm=room,
            )
        elif x - shape.radius < layout.hand_line:
            yield finding(
                "handle.breaks_out",
                f"The handle hole {say(x)} from the heel lies before the hand line at {say(layout.hand_line)}: the "
                'hand on it would come too near the blade. Move handle_station, or set it to "auto".',
                from_heel_mm=x,
                hand_line_mm=layout.hand_line,
            )
