"""From the offsets of a curved member, in one plane, to its curvature along its length [mm, 1/mm].

Seen along the chord between its ends, the curve is the arc through the first, the middle and the last offset, where
there is one, plus a cubic spline (not-a-knot ends) through what departs from it. So a circle comes out as that circle
whatever the spacing, and everything else as a cubic spline has it, least surely in the first and the last interval.
numpy and scipy are loaded inside the functions alone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

Offset = tuple[float, float]  # station, offset [mm]

LEAST_OFFSETS = 4  # a cubic has four coefficients
STRAIGHT = 1e-9  # 1/mm: what arithmetic makes of a straight line
SAMPLES = 600  # evenly spaced stations the curve is worked out at, besides the offsets' own
STEEPEST_ARC = 0.9  # of the radius: how far from its top the arc is used; beyond, it turns too steep for offsets
READ_STEPS = (10.0, 5.0, 2.0, 1.0, 0.5, 0.1, 3.175, 1.5875, 0.79375, 0.396875)  # marks that offsets are read to [mm]


class CurveError(ValueError):
    """The offsets make no curve. `index` is the offset's, from 0; None if it is about all of them."""

    def __init__(self, index: int | None, text: str) -> None:
        super().__init__(text)
        self.index = index


@dataclass(frozen=True)
class Curve:
    """A member's curve at many places: arc length along it, station, offset [mm], signed curvature [1/mm].

    `reading`: standard error of the curvature that comes from the offsets being read to a mark [1/mm];
    `ends`: how much the curvature at an end changes when the offset next to each end is left out, as a share of the
    sharpest; 0 with too few offsets to leave any out. The true error is about half of it, or less.
    """

    arc: tuple[float, ...]
    station: tuple[float, ...]
    offset: tuple[float, ...]
    curvature: tuple[float, ...]
    reading: float
    ends: float

    @property
    def length(self) -> float:
        """Along the curve [mm]."""
        return self.arc[-1]

    @property
    def sharpest(self) -> tuple[float, float]:
        """The greatest curvature, unsigned [1/mm], and how far along the curve it is [mm]."""
        i = max(range(len(self.arc)), key=lambda k: abs(self.curvature[k]))
        return abs(self.curvature[i]), self.arc[i]


def check_offsets(points: Sequence[Offset]) -> None:
    """Raises CurveError unless there are enough offsets, each station beyond the one before."""
    if len(points) < LEAST_OFFSETS:
        raise CurveError(None, f"found {len(points)} offsets, expected at least {LEAST_OFFSETS}")
    for i, (one, other) in enumerate(pairwise(points), 1):
        if not other[0] > one[0]:
            raise CurveError(i, f"station {other[0]:g} mm does not lie beyond {one[0]:g} mm, the one before it")


def curve_through(points: Sequence[Offset]) -> Curve:
    """The curve through [station, offset] pairs [mm]. Raises CurveError."""
    curve = _through(points)
    if len(points) < LEAST_OFFSETS + 2:
        return curve
    fewer = _through([points[0], *points[2:-2], points[-1]])
    change = max(abs(curve.curvature[i] - fewer.curvature[i]) for i in (0, -1))
    sharpest = curve.sharpest[0]
    return replace(curve, ends=change / sharpest) if sharpest > STRAIGHT else curve


def _through(points: Sequence[Offset]) -> Curve:
    import numpy as np
    from scipy.integrate import cumulative_simpson
    from scipy.interpolate import CubicSpline

    check_offsets(points)
    turn, turned = _along_chord(points)
    x, y = np.array([p[0] for p in turned], float), np.array([p[1] for p in turned], float)
    arc_at, slope_at, second_at = _base(turned)
    spline = CubicSpline(x, y - arc_at(x), bc_type="not-a-knot")
    at = np.union1d(np.linspace(x[0], x[-1], SAMPLES + 1), x)
    rise = slope_at(at) + spline(at, 1)
    bend = (second_at(at) + spline(at, 2)) / (1 + rise**2) ** 1.5
    along = cumulative_simpson(np.sqrt(1 + rise**2), x=at, initial=0.0)
    off = arc_at(at) + spline(at)
    c, s = math.cos(turn), math.sin(turn)
    return Curve(
        tuple(map(float, along)),
        tuple(map(float, points[0][0] + c * at - s * off)),
        tuple(map(float, points[0][1] + s * at + c * off)),
        tuple(map(float, bend)),
        reading_error(points),
        0.0,
    )


def _along_chord(points: Sequence[Offset]) -> tuple[float, list[Offset]]:
    """The angle [rad] of the chord from the first offset to the last, and the offsets counted along and square to it,
    from the first: a curve is least steep seen so. Not turned where they would not be in order along the chord."""
    x0, y0 = points[0]
    for turn in (math.atan2(points[-1][1] - y0, points[-1][0] - x0), 0.0):
        c, s = math.cos(turn), math.sin(turn)
        turned = [(c * (x - x0) + s * (y - y0), c * (y - y0) - s * (x - x0)) for x, y in points]
        if all(b[0] > a[0] for a, b in pairwise(turned)):
            break
    return turn, turned


def reading_error(points: Sequence[Offset]) -> float:
    """Standard error of the curvature [1/mm] from offsets that were read to the nearest mark.

    The mark is the coarsest that every offset falls on; a reading is out by mark / sqrt(12). A second difference over
    the closest spacing h is out by sqrt(6) / h^2 of that.
    """
    for mark in READ_STEPS:
        if all(abs(y - mark * round(y / mark)) < 1e-6 for _, y in points):
            closest = min(b[0] - a[0] for a, b in pairwise(points))
            return mark / math.sqrt(12) * math.sqrt(6) / closest**2
    return 0.0


def _base(points: Sequence[Offset]) -> tuple[Any, Any, Any]:
    """The arc through first, middle and last offset: height, slope and second derivative as functions of the station.

    Zero functions where the three stand in line or the arc would turn too steep between the ends.
    """
    import numpy as np

    first, middle, last = points[0], points[len(points) // 2], points[-1]
    circle = _circle(first, middle, last)
    if circle is None or max(abs(first[0] - circle[0]), abs(last[0] - circle[0])) > STEEPEST_ARC * circle[2]:
        return (np.zeros_like,) * 3
    cx, cy, radius = circle
    side = 1.0 if middle[1] > cy else -1.0  # the branch of the circle the offsets lie on

    def depth(x: Array) -> Array:
        return np.sqrt(radius**2 - (x - cx) ** 2)

    return (
        lambda x: cy + side * depth(x),
        lambda x: -side * (x - cx) / depth(x),
        lambda x: -side * radius**2 / depth(x) ** 3,
    )


def _circle(a: Offset, b: Offset, c: Offset) -> tuple[float, float, float] | None:
    """Centre and radius of the circle through three points; None if they are in line."""
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    cross = 2 * (bx * cy - by * cx)
    if abs(cross) < 1e-9 * math.hypot(bx, by) * math.hypot(cx, cy):
        return None
    ux = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / cross
    uy = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / cross
    return a[0] + ux, a[1] + uy, math.hypot(ux, uy)
