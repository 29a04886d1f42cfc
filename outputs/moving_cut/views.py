"""From where the set-up is looked at: a point to look at, a direction and what must be in sight [mm, degrees]."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.sled.way import SledWay


@dataclass(frozen=True)
class Camera:
    """`turn` is the eye's direction from the point looked at, counter-clockwise from above, 0 away from the operator,
    90 on a free side that lies on the left; `tilt` its height over the level. `wide` by `tall` at that point is in
    sight. `lens` is the angle of sight across `tall`: small, and nothing looks nearer than the rest."""

    name: str
    at: tuple[float, float, float]
    turn: float
    tilt: float
    wide: float
    tall: float
    lens: float


def cameras(way: SledWay) -> tuple[Camera, ...]:
    """Where the operator stands, from above, from the side, near the blade; as the fence stands."""
    side = -1.0 if way.job.saw.fence_side == "left" else 1.0
    saw, blade, height = way.job.saw, way.blade, way.joint.height
    front, back = float(saw.table_front), float(saw.table_back)
    middle, length = (back - front) / 2, back + front
    line = way.fence * side
    deep = way.fence + 2 * height + 180.0
    return (
        Camera("stand", (-110.0, 0.8 * line, 0.0), side * 158.0, 36.0, 800.0, 540.0, 34.0),
        Camera("above", (middle, side * (deep / 2 - 80.0), 0.0), side * 90.0, 89.9, length + 40.0, deep, 8.0),
        Camera("side", (middle, line, height / 2), side * 90.0, 6.0, length + 40.0, 1.8 * blade.height + 60.0, 10.0),
        Camera(
            "near",
            (-0.2 * blade.reach(0.0), line, height / 2),
            side * 125.0,
            28.0,
            2.4 * blade.reach(0.0),
            3 * height,
            30.0,
        ),
    )
