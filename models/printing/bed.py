"""Whether a flat part goes on a bed, straight or turned."""

from __future__ import annotations

import math
from functools import lru_cache

from scarfwright.models.flat.loop import Edge, Loop
from scarfwright.models.part.part import Part

Bounds = tuple[float, float, float, float]
SLACK = 1e-6  # rounding when a part is as large as the bed [mm]
STEP = math.radians(1)  # how finely slanting positions are tried


def part_bounds(part: Part, angle: float = 0.0) -> Bounds:
    """Box of a part turned by `angle` [rad] about the origin, what stands out over the plate included [mm]."""
    boxes = [_turned(loop, angle).bounds for loop in (part.outline, *(r.loop for r in part.raised))]
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def size(part: Part, angle: float = 0.0) -> tuple[float, float]:
    """Length and width of that box [mm]."""
    x0, y0, x1, y1 = part_bounds(part, angle)
    return (x1 - x0, y1 - y0)


def height(part: Part) -> float:
    """From the part's lower face to its highest point [mm]."""
    return max([part.thickness, *(r.top for r in part.raised)])


def angle_to_fit(part: Part, bed_x: float, bed_y: float) -> float | None:
    """Angle [rad] at which the part lies inside the bed [mm]: as it is, a quarter turned, slanting, or None."""
    return _angle((part.outline, *(r.loop for r in part.raised)), bed_x, bed_y)


@lru_cache(maxsize=256)
def _angle(loops: tuple[Loop, ...], bed_x: float, bed_y: float) -> float | None:
    shape = [edge for loop in loops for edge in loop.edges()]

    def fits(angle: float) -> bool:
        return _extent(shape, angle) <= bed_x + SLACK and _extent(shape, angle + math.pi / 2) <= bed_y + SLACK

    for angle in (0.0, math.pi / 2):
        if fits(angle):
            return angle
    long, wide = _extent(shape, 0.0), _extent(shape, math.pi / 2)
    if long * wide > 0 and math.hypot(long, wide) > 2 * math.hypot(bed_x, bed_y):
        return None
    return next((n * STEP for n in range(1, 180) if n != 90 and fits(n * STEP)), None)


def _extent(shape: list[Edge], angle: float) -> float:
    """How long a shape is along x once turned by `angle` [rad]: from its least to its greatest reach that way [mm]."""
    c, s = math.cos(angle), -math.sin(angle)
    reach = [c * x + s * y for (x, y), _, _ in shape]
    for edge in shape:
        if edge.bulge:
            reach += _bulging(edge, c, s)
    return max(reach) - min(reach)


def _bulging(edge: Edge, c: float, s: float) -> list[float]:
    """Reach of an arc where it runs square to a direction, as far as it comes there."""
    (cx, cy), radius, middle = edge.centre, edge.radius, edge.middle
    towards, half = math.atan2(middle[1] - cy, middle[0] - cx), 2 * math.atan(abs(edge.bulge))
    found = []
    for sign in (1.0, -1.0):
        off = abs(math.remainder(math.atan2(sign * s, sign * c) - towards, math.tau))
        if off <= half:
            found.append(c * cx + s * cy + sign * radius)
    return found


def _turned(loop: Loop, angle: float) -> Loop:
    return loop.turned(angle) if angle else loop
