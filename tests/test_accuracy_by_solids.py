"""Twist, gap and the two halves of a plank, proved by cutting with tilted planes, mating and measuring."""

from __future__ import annotations

import math
from typing import Any, Literal

import cadquery as cq
import pytest
from scarfwright.models.accuracy import effects, halves
from scarfwright.models.joint.joint import Joint

from tests.cut_boards import Saw, Size, block, box, common, cut, cut_face, volume

SIZE = Size(500.0, 22.0, 60.0)
CASES = [(12.0, 0.5, 0.0), (12.0, -0.5, 0.0), (8.0, 2.0, 0.0), (8.0, 0.4, 1.1), (20.0, -3.0, -1.0)]


def pair(saw: Saw) -> tuple[Any, Any]:
    """The near board, tapered at its right end, and its mate as it lies in the stick."""
    near, _ = cut(box(SIZE), SIZE, "right", "front", saw)
    far, _ = cut(box(SIZE), SIZE, "left", "back", saw)
    return near, far


def lean_of(tilt: float, edge: float) -> float:
    return effects.lean(math.radians(tilt), math.radians(edge))


@pytest.mark.parametrize(("ratio", "tilt", "edge"), CASES)
@pytest.mark.parametrize("side", ["right", "left"])
def test_twist_closes_the_joint(ratio: float, tilt: float, edge: float, side: str) -> None:
    """Turned about the stick's length by the twist, and by nothing else, the cut faces are parallel: exactly."""
    saw = Saw(ratio, 1.5, math.radians(tilt), math.radians(edge), side)
    near, far = pair(saw) if side == "right" else _left_pair(saw)
    angle = effects.twist(lean_of(tilt, edge), saw.theta)
    normal = cut_face(near).normalAt()
    # positive: the far board's side away from the fence goes down. With the fence on the right that side is the back
    # (+Y) of a stick seen from its front, so +Y towards -Z: a negative turn about +X; on the left the mirror image
    turn = -angle if side == "right" else angle
    mate = cut_face(far)
    assert (_turned(mate, (1, 0, 0), turn) + normal).Length < 1e-9
    for other in (0.0, 0.99 * turn, -turn):
        assert (_turned(mate, (1, 0, 0), other) + normal).Length > 1e-5


def _turned(face: Any, axis: tuple[float, float, float], angle: float) -> Any:
    """The normal of a face once its board is turned."""
    return face.rotate(cq.Vector(), cq.Vector(*axis), math.degrees(angle)).normalAt()


def _left_pair(saw: Saw) -> tuple[Any, Any]:
    near, _ = cut(box(SIZE), SIZE, "right", "back", saw)
    far, _ = cut(box(SIZE), SIZE, "left", "front", saw)
    return near, far


@pytest.mark.parametrize(("ratio", "tilt", "edge"), CASES)
def test_gap_held_flat(ratio: float, tilt: float, edge: float) -> None:
    """Held flat and pushed together until they touch, the faces stand 2 h tan(e) apart at one edge, and at which."""
    saw = Saw(ratio, 1.5, math.radians(tilt), math.radians(edge))
    near, far = pair(saw)
    lean = lean_of(tilt, edge)
    told = effects.edge_gap(lean, SIZE.height)
    face = cut_face(near)
    far = far.moved(cq.Location((SIZE.length - 100, 0, 0)))
    other = cut_face(far)
    gaps = {}
    n = face.normalAt()
    for z in (0.0, SIZE.height):
        foot = _on(face, z)
        gaps[z] = _along(foot, n, other)
    least = min(gaps.values())
    opening = {z: gap - least for z, gap in gaps.items()}
    wide = 0.0 if told > 0 else SIZE.height
    assert opening[SIZE.height - wide] == pytest.approx(0.0, abs=1e-9)
    assert opening[wide] == pytest.approx(abs(told), rel=0.01 + 5 * lean**2)


def _on(face: Any, z: float) -> Any:
    """The point of a face's plane in the middle of the overlap, at height z."""
    n, p = face.normalAt(), face.Center()
    x = SIZE.length - 100.0
    y = p.y - (n.x * (x - p.x) + n.z * (z - p.z)) / n.y
    return cq.Vector(x, y, z)


def _along(point: Any, n: Any, face: Any) -> float:
    """Distance from a point along a direction to the plane of a face, with sign."""
    m = face.normalAt()
    return float((face.Center() - point).dot(m) / n.dot(m))


def test_twists_of_a_stick_add() -> None:
    """Both joints of a middle board twist the same way, whether its tapers are alike or opposed."""
    saw = Saw(12.0, 1.5, math.radians(0.5))
    turns = []
    for second in ("front", "back"):
        middle, _ = cut(box(SIZE), SIZE, "left", "back", saw)
        middle, _ = cut(middle, SIZE, "right", second, saw)
        end, _ = cut(box(SIZE), SIZE, "left", "back" if second == "front" else "front", saw)
        slopes = [f for f in middle.Faces() if 0.01 < abs(f.normalAt().x) < 0.5]
        right = max(slopes, key=lambda f: f.Center().x).normalAt()
        mate = cut_face(end).normalAt()
        # angle in the plane across the stick from the mate's face, turned over, to the middle board's
        turn = math.atan2(right.z, right.y) - math.atan2(-mate.z, -mate.y)
        turns.append(math.remainder(turn, math.tau))
    told = -effects.twist(math.radians(0.5), saw.theta)
    assert turns == pytest.approx([told, told], abs=1e-9)


HALVES: list[tuple[Literal["fence", "free"], Literal["heel", "nose"]]] = [
    ("fence", "heel"),
    ("fence", "nose"),
    ("free", "heel"),
    ("free", "nose"),
]


@pytest.mark.parametrize(("lay", "led"), HALVES)
@pytest.mark.parametrize("tilt", [0.8, -0.5])
def test_which_half_takes_the_tilt_back(lay: Any, led: Any, tilt: float) -> None:
    """A plank is cut apart by a tilted plane; each half is turned as it must be and its work edge measured."""
    phi = math.radians(tilt)
    theta = math.atan(1 / 12)
    plank = block(900, 180, 38)
    # a plane along the feed (+x), the blade's top leaning to +y, away from the fence; the plank lies at the slope, so
    # that the half between fence and blade is wide at its leading end, or at its trailing end
    wide_first = (led == "heel") == (lay == "fence")
    slope = -theta if wide_first else theta  # the plank is turned, the blade runs straight
    halfspace = block(4000, 2000, 4000, centered=(True, False, True))
    halfspace = halfspace.rotate(cq.Vector(), cq.Vector(1, 0, 0), -math.degrees(phi))
    turned = plank.rotate(cq.Vector(), cq.Vector(0, 0, 1), math.degrees(slope))
    half = turned.cut(halfspace) if lay == "fence" else turned.intersect(halfspace)
    half = half.rotate(cq.Vector(), cq.Vector(0, 0, 1), -math.degrees(slope))
    assert volume(half) == pytest.approx(900 * 180 * 38 / 2, rel=0.02)
    # heel first towards +x, fence edge towards -y: turn it as told
    axis = {"as_it_lay": None, "turned_over": (1, 0, 0), "end_over_end": (0, 1, 0), "end_for_end": (0, 0, 1)}
    about = axis[halves.turn(lay, led)]
    if about is not None:
        half = half.rotate(cq.Vector(), cq.Vector(*about), 180)
    edge = cut_face(half)
    n = edge.normalAt()
    assert n.y > 0.9  # the work edge looks away from the fence
    ends = [common(half, block(2, 400, 100).moved(cq.Location((x, 0, 0)))) for x in (449, -449)]
    assert ends[0] > ends[1]  # the heel, the wide end, leads
    # the dividing cut ran along the work edge, so that is what the edge leans about: by the tilt, exactly
    along = cq.Vector(-n.y, n.x, 0).normalized()
    lean = math.atan2(-n.z, math.hypot(n.x, n.y))
    assert lean == pytest.approx(halves.edge_lean(phi, led), abs=1e-9)
    # and the joint: a board on that edge, the blade's plane along x at the same tilt, seen in the board's own frame
    blade = cq.Vector(0, math.cos(phi), -math.sin(phi))
    up = along.cross(n) * (1 if along.cross(n).z > 0 else -1)
    across = -blade.dot(up) / blade.dot(n)
    e = halves.half_lean(phi, led)
    # the two feeds are the slope's angle apart: what is left of the tilt is phi (1 - cos(theta)), nothing to speak of
    left = abs(phi) * (1 - math.cos(theta))
    assert across == pytest.approx(math.tan(e) / math.cos(theta), abs=1.05 * left + 2 * abs(phi) ** 3)
    assert left < math.radians(0.003)


def test_slide_apart_held_flush() -> None:
    """Boards slid apart and kept flush: the faces stand (dx / N) cos(theta) apart."""
    saw = Saw(12.0, 0.4)
    near, far = pair(saw)
    far = far.moved(cq.Location((SIZE.length - Joint(12, 22, 60, 0.4 / math.cos(saw.theta)).overlap + 3.0, 0, 0)))
    gap = near.distance(far)
    assert gap == pytest.approx(effects.slide_gap(3.0, 12.0), abs=1e-9)


@pytest.mark.parametrize(("first", "second"), [(12.0, 12.4), (12.4, 12.0)])
def test_two_sleds_that_differ(first: float, second: float) -> None:
    """Slopes of two sleds: held straight a gap at one tip, closed tight a kink."""
    near, _ = cut(box(SIZE), SIZE, "right", "front", Saw(first, 0.4))
    far, _ = cut(box(SIZE), SIZE, "left", "back", Saw(second, 0.4))
    kink = effects.kink(1 / first, 1 / second)
    assert (_turned(cut_face(far), (0, 0, 1), -kink) + cut_face(near).normalAt()).Length < 1e-9
    overlap = Joint(first, 22, 60, 0.4).overlap
    n = cut_face(near).normalAt()
    gaps = []
    for back in (0.0, overlap):
        p = cut_face(near).Center()
        x = SIZE.length - back
        foot = cq.Vector(x, p.y - n.x * (x - p.x) / n.y, 30)
        gaps.append(_along(foot, n, cut_face(far)))
    told = effects.slope_gap(1 / first - 1 / second, overlap)
    assert abs(gaps[0] - gaps[1]) == pytest.approx(told, rel=0.01)
    assert abs(gaps[0] - gaps[1]) <= told
