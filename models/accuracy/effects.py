"""From one error each to what it does to the joint. Lengths in mm, angles in radians.

Lean e is the angle between cut face and work edge, both about the feed direction: blade tilt less work-edge lean,
positive where the top of the cut face leans away from the fence. Both boards come out of the same set-up, and one lies
turned half round about the upright axis, so the lean doubles.

Source: the project's own derivation, proved by cutting and mating solids with tilted planes.
"""

from __future__ import annotations

import math


def lean(tilt: float, edge_lean: float) -> float:
    """e [rad] from the blade's tilt and the work edge's lean [rad], both positive with the top away from the fence."""
    return tilt - edge_lean


def twist(lean: float, theta: float) -> float:
    """Twist of the far board against the near one, closed tight with the axes in line [rad]: 2 atan(tan e / cos theta).

    Positive: of the far board the side away from the fence goes down. However the boards are turned, every joint cut
    in one set-up twists the same way, so over a stick the twists add.
    """
    return 2 * math.atan(math.tan(lean) / math.cos(theta))


def lean_of_twist(angle: float, theta: float) -> float:
    """The lean [rad] that twists a joint by `angle` [rad]."""
    return math.atan(math.cos(theta) * math.tan(angle / 2))


def edge_gap(lean: float, height: float) -> float:
    """Opening of the glue line at one edge if the boards are held flat [mm]: 2 h tan(e), to first order in e.

    Positive: at the edge that was down at the saw; negative: at the one that was up.
    """
    return 2 * height * math.tan(lean)


def lean_of_gap(gap: float, height: float) -> float:
    """The lean [rad] that opens one edge by `gap` [mm]."""
    return math.atan(gap / (2 * height))


def slope_gap(difference: float, overlap: float) -> float:
    """Opening at one tip if the two slopes differ by d(1/N), held straight [mm]: at most d(1/N) X_o."""
    return abs(difference) * overlap


def kink(one: float, other: float) -> float:
    """Angle between the boards if faces of slopes 1/N `one` and `other` are closed tight [rad]."""
    return math.atan(one) - math.atan(other)


def bow_gap(bow: float) -> float:
    """Opening of the glue line if the work edge is out of straight by `bow` over the taper [mm]: 2 s."""
    return 2 * abs(bow)


def slide_gap(apart: float, ratio: float) -> float:
    """Opening of the glue line if the boards stand `apart` past their marks [mm] and are held flush: dx cos(theta) / N.

    Boards slid together (negative) close, and the joint is thicker.
    """
    return max(apart, 0.0) / ratio * math.cos(math.atan(1 / ratio))


def twist_step(angle: float, height: float) -> float:
    """Step between the faces at each edge of a joint that is twisted by `angle` [rad] about its middle [mm]."""
    return height / 2 * math.sin(abs(angle))


def thickness_step(one: float, other: float) -> float:
    """Step on one face if boards of two thicknesses are flush on the other [mm]."""
    return abs(one - other)


def stiffness_change(thickness: float, nominal: float) -> float:
    """Share by which the bending stiffness differs, across the thickness: (T / t)^3 - 1. Breadth and wood alike."""
    return (thickness / nominal) ** 3 - 1
