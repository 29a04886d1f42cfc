"""The two boards of a joint seen from above, as points. x along the stick, y from the near tip's face [mm].

The far board's tip is at x = 0, the near board's at x = overlap; the near board comes from the left.
"""

from __future__ import annotations

from scarfwright.models.flat.loop import Point
from scarfwright.models.joint.joint import Joint
from scarfwright.models.pair.turns import Face

WOOD, OTHER_WOOD = "#f3e3c6", "#e2cda3"


def near_board(joint: Joint, reach: float, tall: float = 1.0) -> list[Point]:
    """The board whose tip lies at y = 0; `reach`: how much of it shows beyond the joint; `tall` magnifies y."""
    end, b, t = joint.overlap, joint.tip * tall, joint.thickness * tall
    return [(-reach, 0.0), (end, 0.0), (end, b), (end - joint.taper_run, t), (-reach, t)]


def far_board(joint: Joint, reach: float, tall: float = 1.0) -> list[Point]:
    """Its mate: the same turned half round."""
    t = joint.thickness * tall
    return [(joint.overlap - x, t - y) for x, y in near_board(joint, reach, tall)]


def planed_boards(joint: Joint, planed: float, reach: float, tall: float = 1.0) -> tuple[list[Point], list[Point]]:
    """Both after planing alike from both faces to `planed` [mm]; y from the planed face."""
    off = (joint.thickness - planed) / 2
    # the glue line: y = tip at x = overlap, rising by 1 / N towards the left
    low = joint.overlap - (off - joint.tip) * joint.ratio
    high = low - planed * joint.ratio
    t = planed * tall
    near = [(-reach, 0.0), (low, 0.0), (high, t), (-reach, t)]
    far = [(high, t), (low, 0.0), (joint.overlap + reach, 0.0), (joint.overlap + reach, t)]
    return near, far


def board_from_above(joint: Joint, length: float, left: Face | None, right: Face | None) -> list[Point]:
    """A whole board from above, the front at y = 0; left, right: the face its tip lies on, None for a square end."""
    t = joint.thickness
    points: list[Point] = []
    for end, face in (("left", left), ("right", right)):
        at, inward = (0.0, 1.0) if end == "left" else (length, -1.0)
        tip, run = joint.tip, inward * joint.taper_run
        if face is None:
            corner = [(at, 0.0), (at, t)]
        elif face == "front":
            corner = [(at, 0.0), (at, tip), (at + run, t)]
        else:
            corner = [(at + run, 0.0), (at, t - tip), (at, t)]
        points += list(reversed(corner)) if end == "left" else corner
    return points
