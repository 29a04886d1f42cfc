"""What a joint with known errors comes to, held against the adhesive's gap limit and the twist allowed over a stick."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.accuracy.effects import (
    bow_gap,
    edge_gap,
    kink,
    lean_of_gap,
    lean_of_twist,
    slide_gap,
    slope_gap,
    stiffness_change,
    thickness_step,
    twist,
    twist_step,
)
from scarfwright.models.joint.joint import Joint


@dataclass(frozen=True)
class Limits:
    """gap [mm] that the adhesive bridges; twist [rad] allowed over the whole stick, None if none is set; its joints."""

    gap: float
    twist: float | None = None
    joints: int = 1

    def lean_for_gap(self, height: float) -> float:
        """The greatest lean [rad] at which a joint held flat stays within the gap limit."""
        return lean_of_gap(self.gap, height)

    def lean_for_twist(self, theta: float) -> float | None:
        """The greatest lean [rad] at which the joints of a stick, closed tight, twist it no more than allowed."""
        return None if self.twist is None else lean_of_twist(self.twist / self.joints, theta)

    def most_lean(self, height: float, theta: float) -> float:
        """The lean [rad] at which the first of the two is met."""
        by_gap, by_twist = self.lean_for_gap(height), self.lean_for_twist(theta)
        return by_gap if by_twist is None else min(by_gap, by_twist)


@dataclass(frozen=True)
class Errors:
    """One joint's errors: lean [rad]; 1/N of either board's taper; bow of either cut [mm]; thickness of either board
    beyond the nominal [mm]; tip beyond the nominal [mm]; slide past the overlap marks, positive together [mm]."""

    lean: float = 0.0
    slope_difference: float = 0.0
    bow: float = 0.0
    thicknesses: tuple[float, float] = (0.0, 0.0)
    tip: float = 0.0
    slide: float = 0.0


@dataclass(frozen=True)
class Verdict:
    """The worst opening of the joint held flat [mm], what it is made of, the twist if it is closed tight instead [rad]
    and over the stick, steps [mm], kink [rad], thickness [mm], sound thickness [mm], change of stiffness [share]."""

    gap: float
    gap_of: dict[str, float]
    twist: float
    twist_over_stick: float
    step: float
    twist_step: float
    kink: float
    thickness: float
    sound: float
    stiffness: float
    gap_inside: bool
    twist_inside: bool

    @property
    def inside(self) -> bool:
        """Inside both limits: it may be held flat or closed tight, as it comes."""
        return self.gap_inside and self.twist_inside


def judge(joint: Joint, errors: Errors, limits: Limits) -> Verdict:
    """Work out what the errors do together; openings are added, as if they met at one corner."""
    angle = twist(errors.lean, joint.angle)
    gap_of = {
        "lean": abs(edge_gap(errors.lean, joint.height)),
        "slope": slope_gap(errors.slope_difference, joint.overlap),
        "bow": bow_gap(errors.bow),
        "slide": slide_gap(-errors.slide, joint.ratio),
    }
    gap = sum(gap_of.values())
    over = angle * limits.joints
    thick = joint.thickness + sum(errors.thicknesses) / 2
    extra = max(errors.slide, 0.0) / joint.ratio
    tip = max(joint.tip + errors.tip, 0.0)
    slope = 1 / joint.ratio
    return Verdict(
        gap=gap,
        gap_of=gap_of,
        twist=angle,
        twist_over_stick=over,
        step=thickness_step(*errors.thicknesses),
        twist_step=twist_step(angle, joint.height),
        kink=kink(slope + errors.slope_difference, slope),
        thickness=thick + extra,
        sound=thick + extra - 2 * max(tip, extra),
        stiffness=stiffness_change(thick + extra, joint.thickness),
        gap_inside=gap <= limits.gap,
        twist_inside=limits.twist is None or abs(over) <= limits.twist,
    )
