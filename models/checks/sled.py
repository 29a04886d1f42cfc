"""Findings about the sled's size, its nose and what is cut into it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from scarfwright.models.findings import Finding, Level, finding, register
from scarfwright.models.layout import HAND_ROOM
from scarfwright.models.outline import between, inside_by
from scarfwright.models.say import Say
from scarfwright.models.sled import Notch, longest_from_plank, plank_width_for
from scarfwright.models.workup import Workup

register(
    {
        "plank.too_narrow": Level.FAULT,
        "plank.kerf_too_wide": Level.FAULT,
        "sled.nose_thin": Level.FAULT,
        "sled.too_short": Level.FAULT,
        "sled.as_made_reversed": Level.FAULT,
        "sled.as_made_needs_length": Level.FAULT,
        "sled.hands_have_no_room": Level.CAUTION,
        "nose.flat_too_long": Level.FAULT,
        "nose.flat_short": Level.CAUTION,
        "nose.flat_leaves_sliver": Level.NOTE,
        "notch.longer_than_sled": Level.FAULT,
        "notch.off_sled": Level.FAULT,
        "notch.breaks_fence_edge": Level.FAULT,
        "notch.thin_left": Level.CAUTION,
        "notch.overlap": Level.FAULT,
        "handle.no_room": Level.NOTE,
        "handle.breaks_out": Level.FAULT,
        "dowel.no_room": Level.CAUTION,
    }
)

LEAST_LEFT = 10.0  # wood between notch and fence edge below which it is likely to break; common practice, no source


def check_sled(work: Workup, say: Say, unmeasurable: bool) -> Iterator[Finding]:
    yield from _as_made(work, say, unmeasurable)
    yield from _plank(work, say)
    yield from _length(work, say)
    yield from _nose_flat(work, say)
    yield from _notches(work, say)
    yield from _holes(work, say)


def _as_made(work: Workup, say: Say, unmeasurable: bool) -> Iterator[Finding]:
    asked = work.job.sled
    measured = asked.heel_as_made is not None or asked.nose_as_made is not None
    if unmeasurable:
        heel = asked.heel_as_made if asked.heel_as_made is not None else work.nominal.heel
        nose = asked.nose_as_made if asked.nose_as_made is not None else work.nominal.nose
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
            "heel_as_made and nose_as_made belong to a sled that exists: give its measured length too "
            f'([sled] length = "{say(work.sled.length)}" is what "auto" would have made).',
            length_mm=work.sled.length,
        )


def _plank(work: Workup, say: Say) -> Iterator[Finding]:
    sled, job = work.nominal, work.job
    nose_min = job.sled.nose_min
    if sled.plank_width is None:
        if work.sled.nose < nose_min:
            yield _thin(work, say, float(job.sled.nose_min), " Make a sled with a wider nose, or lower nose_min.")
        return
    if job.kerf >= sled.plank_width:
        yield finding(
            "plank.kerf_too_wide",
            f"The kerf ({say(job.kerf)}) is as wide as the plank ({say(sled.plank_width)}) or wider. "
            "Check [saw] kerf and [sled] plank.",
            kerf_mm=job.kerf,
            plank_width_mm=sled.plank_width,
        )
        return
    longest = longest_from_plank(sled.plank_width, job.joint.ratio, job.kerf, nose_min)
    needed = plank_width_for(sled.length, job.joint.ratio, job.kerf, nose_min)
    if longest <= 0 or sled.nose <= 0:
        way = f"a sled no longer than {say(longest)}, " if longest > 0 else ""
        yield finding(
            "plank.too_narrow",
            f"A plank {say(sled.plank_width)} wide has no room for two halves {say(sled.length)} long at this slope. "
            f"Take {way}a plank at least {say(needed)} wide, or a flatter slope.",
            plank_width_mm=sled.plank_width,
            needed_width_mm=needed,
            longest_mm=max(longest, 0.0),
        )
    elif work.sled.nose < nose_min:
        out = f", a sled no longer than {say(longest)}" if longest < sled.length else ""
        yield _thin(work, say, float(nose_min), f" Take a plank {say(needed)} wide{out}, or lower nose_min.")


def _thin(work: Workup, say: Say, least: float, way: str) -> Finding:
    return finding(
        "sled.nose_thin",
        f"The nose is {say(work.sled.nose)} wide, less than nose_min {say(least)}: it breaks or bends.{way}",
        nose_mm=work.sled.nose,
        nose_min_mm=least,
    )


def _length(work: Workup, say: Say) -> Iterator[Finding]:
    sled, layout = work.sled, work.layout
    heel = next((n for n in layout.notches if n.where == "heel"), None)
    if heel is not None:
        slack = sled.work_edge - (heel.station + heel.length / 2)
        if slack < 0:
            needed = (heel.station + heel.length / 2) * math.cos(sled.angle)
            yield finding(
                "sled.too_short",
                f"The heel clamp belongs at {say(heel.station)} from the heel to stay off the blade, but the sled is "
                f"only {say(sled.length)} long. Make it at least {say(needed)} long.",
                station_mm=heel.station,
                length_mm=sled.length,
                needed_length_mm=needed,
            )
    if layout.hand_line > sled.length - HAND_ROOM:
        yield finding(
            "sled.hands_have_no_room",
            f"The hand line belongs {say(layout.hand_line)} from the heel, which leaves no room for a hand on a sled "
            f"{say(sled.length)} long. Make the sled {say(layout.hand_line + HAND_ROOM)} long, or push with a "
            "screwed-on handle and a push stick, never with a hand past the line.",
            hand_line_mm=layout.hand_line,
            length_mm=sled.length,
            needed_length_mm=layout.hand_line + HAND_ROOM,
        )


def _nose_flat(work: Workup, say: Say) -> Iterator[Finding]:
    sled, job = work.sled, work.job
    if sled.nose_flat <= 0:
        return
    if sled.nose_flat > sled.length / 2:
        yield finding(
            "nose.flat_too_long",
            f"The nose flat ({say(sled.nose_flat)}) is longer than half the sled ({say(sled.length)}). "
            f"Set nose_flat to {say(job.clamp.pad_width)} or so.",
            nose_flat_mm=sled.nose_flat,
            length_mm=sled.length,
        )
    if sled.nose_flat < job.clamp.pad_width:
        yield finding(
            "nose.flat_short",
            f"The nose flat ({say(sled.nose_flat)}) is shorter than the clamp's pad ({say(job.clamp.pad_width)}), "
            f"which then bears only partly. Set nose_flat to {say(job.clamp.pad_width)} or more.",
            nose_flat_mm=sled.nose_flat,
            pad_width_mm=job.clamp.pad_width,
        )
    cleared = job.kerf * sled.ratio
    if job.sled.made_from == "plank" and sled.nose_flat > cleared + 1e-9:
        yield finding(
            "nose.flat_leaves_sliver",
            f"Cut on the saw, a kerf of {say(job.kerf)} clears only {say(cleared)} of the nose flat's "
            f"{say(sled.nose_flat)}: saw the sliver off by hand, or use the printed nose wedge instead of a flat.",
            nose_flat_mm=sled.nose_flat,
            cleared_mm=cleared,
        )


def _notches(work: Workup, say: Say) -> Iterator[Finding]:
    sled, layout = work.sled, work.layout
    corners = sled.corners()
    for notch in layout.notches:
        left = notch.left(sled)
        at = f"The {notch.where} notch at {say(notch.station)} from the heel"
        if notch.length >= sled.work_edge:
            yield finding(
                "notch.longer_than_sled",
                f"The {notch.where} notch is {say(notch.length)} long, the sled's work edge {say(sled.work_edge)}. "
                f"Set notch_length a little over the pad ({say(work.job.clamp.pad_width)}) plus notch_width.",
                notch_length_mm=notch.length,
                work_edge_mm=sled.work_edge,
            )
            continue
        ends = (notch.station - notch.length / 2, notch.station + notch.length / 2)
        if ends[0] < 0 or ends[1] > sled.work_edge:
            if not (notch.where == "heel" and ends[0] >= 0):  # that one is sled.too_short
                yield finding(
                    "notch.off_sled",
                    f"{at} reaches past the end of the sled. Keep its middle between {say(notch.length / 2)} and "
                    f"{say(sled.work_edge - notch.length / 2)} from the heel.",
                    station_mm=notch.station,
                    least_mm=notch.length / 2,
                    most_mm=sled.work_edge - notch.length / 2,
                )
        elif left <= 0 or inside_by(notch.capsule(sled), corners) <= 0:
            yield finding(
                "notch.breaks_fence_edge",
                f"{at} breaks into the fence edge or the nose flat: {say(left)} of wood would be left to the fence "
                "edge. Move it towards the heel, make web or notch_width smaller, or take a wider plank.",
                station_mm=notch.station,
                left_mm=left,
            )
        elif left < LEAST_LEFT:
            yield finding(
                "notch.thin_left",
                f"{at} leaves only {say(left)} of wood to the fence edge (under {say(LEAST_LEFT)} it is likely to "
                "break; common practice, no source). Move it towards the heel or take a wider plank.",
                station_mm=notch.station,
                left_mm=left,
            )
    yield from _overlaps(work, say)


def _overlaps(work: Workup, say: Say) -> Iterator[Finding]:
    pairs: list[tuple[Notch, Notch]] = list(combinations(work.layout.notches, 2))
    for one, other in pairs:
        room = between(one.capsule(work.sled), other.capsule(work.sled))
        if room <= 0:
            apart = max(one.length, other.length) + LEAST_LEFT
            yield finding(
                "notch.overlap",
                f"The {one.where} notch at {say(one.station)} and the {other.where} notch at {say(other.station)} "
                f"run into each other. Keep them {say(apart)} apart, or take a longer sled.",
                station_mm=one.station,
                other_station_mm=other.station,
                needed_mm=apart,
            )


def _holes(work: Workup, say: Say) -> Iterator[Finding]:
    job, sled, layout = work.job, work.sled, work.layout
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
