"""Findings about the hands: how far they stay from the blade, the line they stay behind, and the handle's holes.

Published figures disagree (300 mm; 6 in or 12 in) and none is for a sled with handles; what is asked for here is common
practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.room import between, inside_by
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import common, round_up
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.sled.holes import WOOD_AROUND
from scarfwright.models.sled.layout import hand_room, hands_at


def check_hands(work: Groundwork) -> Iterator[Finding]:
    yield from _clear(work)
    yield from _line(work)
    yield from _room(work)
    yield from _holes(work)


def least_clear(work: Groundwork) -> float:
    """Hands to blade [mm]: never nearer, whatever the job says; 150 mm, or 6 in (common practice, no source)."""
    return common(work.job.units, 150.0, 6.0)


def least_line(work: Groundwork) -> float:
    """The hand line [mm from the heel] behind which hands stay so far of the blade, margin included."""
    return hands_at(work.job, work.way.blade, work.way.travel, least_clear(work))


def _clear(work: Groundwork) -> Iterator[Finding]:
    clear, least = float(work.job.saw.hands_clear), least_clear(work)
    if clear < least - 1e-6:
        yield finding("hands.clear_short", hands_clear_mm=clear, least_mm=least)


def _line(work: Groundwork) -> Iterator[Finding]:
    line, least = work.way.layout.hand_line, least_line(work)
    wanted = hands_at(work.job, work.way.blade, work.way.travel, float(work.job.saw.hands_clear))
    numbers = {"hand_line_mm": line, "hands_clear_mm": work.job.saw.hands_clear, "least_clear_mm": least_clear(work)}
    clear = line - least + least_clear(work)
    if line < least - 1e-6:
        yield finding("hands.line_too_near", "", **numbers, needed_mm=least, clear_mm=clear)
    elif line < wanted - fine_step(work.job.units):
        yield finding("hands.line_near", "", **numbers, needed_mm=wanted, clear_mm=clear)


def _room(work: Groundwork) -> Iterator[Finding]:
    sled, line, room = work.way.sled, work.way.layout.hand_line, hand_room(work.job)
    if line > sled.length - room + fine_step(work.job.units) / 2:
        stretched = round_up(line * work.way.stretch, fine_step(work.job.units))
        room_for = (stretched if work.job.sled.hand_line == "auto" else line) + room
        yield finding(
            "sled.hands_have_no_room",
            hand_line_mm=line,
            length_mm=sled.length,
            needed_length_mm=room_for,
            room_mm=room,
        )


def _holes(work: Groundwork) -> Iterator[Finding]:
    job, sled, layout = work.job, work.way.sled, work.way.layout
    if job.sled.handle_hole > 0 and not layout.handle_holes:
        yield finding("handle.no_room", hand_line_mm=layout.hand_line, spacing_mm=job.sled.handle_spacing)
    if len(layout.handle_holes) == 2 and math.dist(*layout.handle_holes) <= 2 * layout.handle_radius:
        yield finding(
            "handle.overlap",
            spacing_mm=job.sled.handle_spacing,
            needed_mm=2 * layout.handle_radius + WOOD_AROUND,
            hole_mm=2 * layout.handle_radius,
        )
    line = max(layout.hand_line, least_line(work))
    corners = sled.corners()
    shapes = layout.capsules(sled)
    notches = [c for name, c in shapes if name.endswith("notch")]
    for name, shape in shapes:
        if name != "handle hole":
            continue
        room = min([inside_by(shape, corners), *(between(shape, other) for other in notches)])
        x = sled.from_heel(shape.start[0])
        if room <= 0:
            yield finding("handle.breaks_out", from_heel_mm=x, room_mm=room)
        elif x - shape.radius < line - 1e-6:
            yield finding("handle.breaks_out", from_heel_mm=x, hand_line_mm=line)
