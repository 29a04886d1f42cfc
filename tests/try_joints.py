"""The budget by trial: joints drawn at random, cut and mated by their exact geometry. Proves `budget`; not used by it.

Each board's cut face is a plane in space, bowed along the joint; the mate's is the same turned half round about the
upright axis. Held flat, the boards touch where they are nearest; the opening is the range of the distance between the
faces over the joint. Lengths in mm, angles in radians. Imports numpy inside the function.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from scarfwright.models.accuracy.budget import Spreads
from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.joint.joint import Joint

ALONG = 33  # stations along the joint at which a bowed face is measured


@dataclass(frozen=True)
class Trial:
    """Shares of the joints drawn: inside both limits, inside the gap limit, inside the twist limit."""

    inside: float
    gap_inside: float
    twist_inside: float


def try_joints(joint: Joint, spreads: Spreads, limits: Limits, count: int = 100_000, seed: int = 1) -> Trial:
    """Draw `count` joints and judge them."""
    import numpy as np

    rng = np.random.default_rng(seed)
    tilt, edge = rng.normal(0, spreads.tilt, count), rng.normal(0, spreads.edge_lean, count)
    seats = rng.normal(0, spreads.seat, (2, count))
    bows = rng.normal(0, spreads.board_bow, (2, count)) + rng.normal(0, spreads.edge_bow, count)
    apart = np.maximum(-rng.normal(0, spreads.slide, count), 0.0)
    near = _face(joint, tilt - edge, seats[0])
    far = _face(joint, tilt - edge, seats[1])
    opening = _range(joint, near, far, bows) + apart / joint.ratio * math.cos(joint.angle)
    twist = np.abs(_twist(near, far)) * limits.joints
    gap_inside = opening <= limits.gap
    twist_inside = np.ones(count, bool) if limits.twist is None else twist <= limits.twist
    both, gap, wound = (float(np.mean(x)) for x in (gap_inside & twist_inside, gap_inside, twist_inside))
    return Trial(both, gap, wound)


def _face(joint: Joint, lean: Any, seat: Any) -> Any:
    """Normals of cut faces in the board's frame: u along it from the tip, v from the sled face, w up; (3, count).

    The board is laid on the work edge (turned by theta, out by the seat over the overlap) and the blade leans about the
    feed direction.
    """
    import numpy as np

    theta = joint.angle + np.arctan(seat / joint.overlap)
    x, y, z = np.zeros_like(lean), np.cos(lean), -np.sin(lean)  # blade plane, x along the feed
    return np.stack([-np.sin(theta) * y - np.cos(theta) * x, np.cos(theta) * y - np.sin(theta) * x, z])


def _range(joint: Joint, near: Any, far: Any, bows: Any) -> Any:
    """Range of the distance between the faces over the joint, square to them [mm]."""
    import numpy as np

    # v of either face over (u, w); the mate's turned half round about the upright axis: u and v change sign, w stays
    along = near[0] / near[1] - far[0] / far[1]
    across = near[2] / near[1] + far[2] / far[1]
    share = np.linspace(0.0, 1.0, ALONG)[:, None]
    bowed = bows.sum(axis=0) * 4 * share * (1 - share)
    line = along * share * joint.overlap + bowed / math.cos(joint.angle)
    # a bow is measured square to the face and so is the opening
    flat = math.cos(joint.angle)
    return (np.ptp(line, axis=0) + np.abs(across) * joint.height) * flat


def _twist(near: Any, far: Any) -> Any:
    """Angle by which the far board turns about its length until the faces' lines across the boards are parallel."""
    import numpy as np

    return np.arctan(-near[2] / near[1]) + np.arctan(-far[2] / far[1])
