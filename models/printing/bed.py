"""Whether a flat part goes on a bed, straight or turned."""

from __future__ import annotations

import math

from scarfwright.models.flat.loop import Loop
from scarfwright.models.part.part import Part

Bounds = tuple[float, float, float, float]
SLACK = 1e-6  # rounding when a part is as large as the bed [mm]
STEP = math.radians(1)  # how finely slanting positions are tried


def bounds(part: Part, angle: float = 0.0) -> Bounds:
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
    x0, y0, x1, y1 = bounds(part, angle)
    return (x1 - x0, y1 - y0)


def height(part: Part) -> float:
    """From the part's lower face to its highest point [mm]."""
    return max([part.thickness, *(r.top for r in part.raised)])


def angle_to_fit(part: Part, bed_x: float, bed_y: float) -> float | None:
    """Angle [rad] at which the part lies inside the bed [mm]: as it is, a quarter turned, slanting, or None."""
    for angle in (0.0, math.pi / 2):
        if _fits(part, angle, bed_x, bed_y):
            return angle
    long, wide = size(part)
    if long * wide > 0 and math.hypot(long, wide) > 2 * math.hypot(bed_x, bed_y):
        return None
    for count in range(1, 180):
        if count != 90 and _fits(part, count * STEP, bed_x, bed_y):
            return count * STEP
    return None


def _fits(part: Part, angle: float, bed_x: float, bed_y: float) -> bool:
    long, wide = size(part, angle)
    return long <= bed_x + SLACK and wide <= bed_y + SLACK


def _turned(loop: Loop, angle: float) -> Loop:
    return loop.turned(angle) if angle else loop
