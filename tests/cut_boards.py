"""Boards cut at the saw as solids, for the tests of pair and accuracy: world coordinates, none of the calculations.

At the saw x runs along the feed, y from the fence towards the blade (to the left with the fence on the right), z up.
The board's own frame is the stick's: X to the right, Y away from the one who looks at the front, Z up with the marked
edge down; it fills 0..length, 0..thickness, 0..height.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cadquery as cq

BIG = 4000.0
Matrix = tuple[tuple[float, float, float], ...]  # rows: where X, Y, Z of the board point at the saw


@dataclass(frozen=True)
class Saw:
    """Slope 1 in N, fence gap [mm], tilt of blade and lean of work edge [rad], top away from the fence positive."""

    ratio: float = 12.0
    gap: float = 0.4
    tilt: float = 0.0
    edge_lean: float = 0.0
    fence_side: str = "right"

    @property
    def theta(self) -> float:
        return math.atan(1 / self.ratio)


@dataclass(frozen=True)
class Size:
    """Of a board [mm]."""

    length: float = 600.0
    thickness: float = 22.0
    height: float = 60.0


def block(x: float, y: float, z: float, centered: bool | tuple[bool, bool, bool] = True) -> Any:
    """A block along the axes."""
    return cq.Workplane("XY").box(x, y, z, centered).val()


def box(size: Size) -> Any:
    return block(size.length, size.thickness, size.height, centered=False)


def laid(end: str, sled_face: str, fence_side: str) -> tuple[Matrix, str]:
    """How the board's X, Y, Z point in (feed, away from the fence, up), so that the end leads and the face is on the
    sled; and which edge is then down. With the fence on the left, away from the fence is to the right."""
    ahead = 1.0 if end == "right" else -1.0
    out = 1.0 if sled_face == "front" else -1.0  # Y of the board points from front to back
    # x, y, z of the saw are right-handed with the fence on the right, left-handed on the left
    handed = 1.0 if fence_side == "right" else -1.0
    up = handed * ahead * out
    return ((ahead, 0, 0), (0, out, 0), (0, 0, up)), "marked" if up > 0 else "other"


def cut(shape: Any, size: Size, end: str, sled_face: str, saw: Saw) -> tuple[Any, str]:
    """The board after one cut, in its own frame, and the edge that was down."""
    (x, y, z), down = laid(end, sled_face, saw.fence_side)
    # the waste, in saw coordinates with the heel's work-edge corner as origin and true to a right-handed frame
    handed = 1.0 if saw.fence_side == "right" else -1.0
    waste = block(2 * BIG, BIG, 2 * BIG, centered=(True, False, True))
    waste = waste.rotate(cq.Vector(), cq.Vector(1, 0, 0), -math.degrees(saw.tilt)).moved(cq.Location((0, saw.gap, 0)))
    # the board lies on the work edge: undo the edge's lean about the feed, then its slope about the upright
    waste = waste.rotate(cq.Vector(), cq.Vector(1, 0, 0), math.degrees(saw.edge_lean))
    waste = waste.rotate(cq.Vector(), cq.Vector(0, 0, 1), -math.degrees(saw.theta))
    if handed < 0:
        waste = waste.mirror("XZ")
    # from (board's end backwards, off the sled face, up) to the board's own frame: a proper rotation
    turn = cq.Matrix([[x[0], 0.0, 0.0, 0.0], [0.0, handed * y[1], 0.0, 0.0], [0.0, 0.0, z[2], 0.0]])
    waste = waste.transformGeometry(turn)
    at = (
        size.length if end == "right" else 0.0,
        0.0 if sled_face == "front" else size.thickness,
        0.0 if z[2] > 0 else size.height,
    )
    return shape.cut(waste.moved(cq.Location(at))), down


def half_turn(shape: Any, size: Size, about: str) -> Any:
    """The board turned half round in its place."""
    axis = {"length": (1, 0, 0), "face": (0, 1, 0), "upright": (0, 0, 1)}[about]
    middle = cq.Vector(size.length / 2, size.thickness / 2, size.height / 2)
    return shape.rotate(middle, middle + cq.Vector(*axis), 180)


def volume(shape: Any) -> float:
    return float(sum(solid.Volume() for solid in shape.Solids()))


def common(one: Any, other: Any) -> float:
    """Volume in both [mm3]."""
    return volume(one.intersect(other))


def cut_face(shape: Any) -> Any:
    """The sloping face: the largest that is none of the board's own six."""

    def own(face: Any) -> bool:
        n = face.normalAt()
        return bool(max(abs(n.x), abs(n.y), abs(n.z)) > 1 - 1e-9)

    return max((face for face in shape.Faces() if not own(face)), key=lambda face: face.Area())
