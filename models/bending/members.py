"""The bent members of a job: each blank with a curve, its use, and laminations where a solid stick won't do [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.bending.curve import Curve, curve_through
from scarfwright.models.bending.laminations import Laminations, laminate
from scarfwright.models.bending.use import Bend, bend_to
from scarfwright.models.strength.wood import Wood

LOOSE = 0.5  # change of the curvature at an end when one offset is left out; twice the true error, by trials
COARSE = 0.25  # of the sharpest curvature: readings that are out by more tell little; common practice, no source


@dataclass(frozen=True)
class Member:
    """`number`: of the blank in the job, from 1; `length`: of the blank, None if not given; `bend`: None where the wood
    has no figures; `laminations`: where a solid stick is overstrained or no joint has a place."""

    number: int
    name: str
    length: float | None
    depth: float
    curve: Curve
    bend: Bend | None
    laminations: Laminations | None

    @property
    def loose(self) -> bool:
        """Whether the offsets stand too far apart to tell the curvature at the ends."""
        return self.curve.ends > LOOSE

    @property
    def coarse(self) -> bool:
        """Whether the offsets were read too coarsely, for stations so close, to tell the curvature."""
        return self.curve.reading > COARSE * self.curve.sharpest[0] > 0


def member(
    number: int,
    name: str,
    points: list[tuple[float, float]],
    depth: float,
    length: float | None,
    wood: Wood | None,
    factor: float,
    share: float | None,
    joint_length: float,
) -> Member:
    """Bend a member to its offsets. `share`: of strength in a joint, None where it is not known.

    Loads numpy and scipy. Raises CurveError for offsets that make no curve.
    """
    curve = curve_through(points)
    if wood is None:
        return Member(number, name, length, depth, curve, None, None)
    bend = bend_to(curve, depth, wood, factor, share, joint_length, length)
    found = None
    if share is not None and (bend.most > 1 or not bend.allowed):
        found = laminate(depth, wood, 1 / curve.sharpest[0], factor, share)
    return Member(number, name, length, depth, curve, bend, found)
