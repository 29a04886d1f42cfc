"""Where clamps and risers stand while the joint is glued. s runs along the joint from the tip of one board [mm].

Clamps stand on both long edges (see stations). Risers carry the boards so that every clamp's lower jaw passes under
them; none stands where a clamp does.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.gluing.stations import clamp_stations, clamps_needed
from scarfwright.models.job.tables import Clamp
from scarfwright.models.joint.joint import Joint

FINGER_ROOM = 25.0  # room to turn a clamp under the work; common practice, no source
CLEAR = 5.0  # between a clamp's pad and a riser; common practice, no source
RISER_WIDTH = 40.0  # along the board
LEAST_WIDTH = 20.0  # narrower ones topple; common practice, no source
APART = 800.0  # between risers under a board; common practice, no source
LONGEST_SPAN = 14.0  # of the joint between two risers, in thicknesses; common practice, no source


@dataclass(frozen=True)
class RiserPlace:
    """One riser: where its middle stands, how wide it is along the board, and whether it has a lip [mm]."""

    place: float
    width: float
    lip: bool


@dataclass(frozen=True)
class GlueUp:
    """Clamps and risers of one joint [mm].

    `clamps`: stations on each of the two long edges; `needed`: clamps that cover the joint, `room`: clamps that can
    stand on it, both edges together; `riser_width`: of a plain riser, so that one fits between clamps; `span`: the
    longest stretch of joint between two risers.
    """

    clamps: tuple[float, ...]
    needed: int
    room: int
    pad: float
    supports: tuple[RiserPlace, ...]
    riser_height: float
    riser_width: float
    board_length: float
    span: float

    @property
    def clamp_count(self) -> int:
        """Clamps on both edges together."""
        return 2 * len(self.clamps)


def glue_up(joint: Joint, clamp: Clamp, length: float) -> GlueUp:
    """Place clamps and risers for one joint of two boards, each `length` long [mm].

    As many clamps as cover the joint; all there are, where there are more and their pads have room side by side.
    """
    overlap = max(joint.overlap, 1.0)
    pad = float(clamp.pad_width)
    needed = clamps_needed(overlap, pad, joint.thickness)
    room = max(int(overlap / pad + 1e-9), needed)
    count = max(needed, min((clamp.count or 0) // 2, room))
    clamps = clamp_stations(overlap, pad, count)
    outer = _outer(max(length - overlap, 0.0), max(pad / 2 - clamps[0], 0.0))
    between = clamps[1] - clamps[0] - pad - 2 * CLEAR if count > 1 else 0.0
    middle = between >= LEAST_WIDTH
    plain = min(between, RISER_WIDTH) if middle else RISER_WIDTH
    width = {True: RISER_WIDTH, False: plain}
    supports = [RiserPlace(-s, width[lip], lip) for s, lip in reversed(outer)]
    if middle:
        supports.append(RiserPlace((clamps[count // 2 - 1] + clamps[count // 2]) / 2, plain, False))
    supports += [RiserPlace(overlap + s, width[lip], lip) for s, lip in outer]
    return GlueUp(
        clamps=clamps,
        needed=2 * needed,
        room=2 * room,
        pad=pad,
        supports=tuple(supports),
        riser_height=max(clamp.jaw_outer, clamp.jaw_inner) + FINGER_ROOM,
        riser_width=plain,
        board_length=length,
        span=(overlap + 2 * CLEAR) / (2 if middle else 1),
    )


def _outer(reach: float, overhang: float) -> list[tuple[float, bool]]:
    """Risers under one board outside the joint, from the joint's end: the first beside it, the last near the end.

    `overhang`: how far the outermost clamp's pad reaches past the joint's end.

    The first and the last have a lip: two lips a board make a line.
    """
    first = overhang + CLEAR + RISER_WIDTH / 2
    last = reach - RISER_WIDTH
    if last - first < 2 * RISER_WIDTH:
        return [(first, True)]
    steps = math.ceil((last - first) / APART)
    places = [first + (last - first) * i / steps for i in range(steps + 1)]
    return [(s, i in (0, steps)) for i, s in enumerate(places)]
