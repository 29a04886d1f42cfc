"""How boards become a stick, tried out with solids: each board laid at the saw, cut by the blade, put together."""

from __future__ import annotations

import math
from typing import Any, Literal

import cadquery as cq
import pytest
from scarfwright.models.joint.joint import Joint
from scarfwright.models.pair import marks, turns
from scarfwright.models.pair.turns import Board

from tests.cut_boards import Saw, Size, block, box, common, cut, cut_face, half_turn, volume

SIZE = Size(600.0, 22.0, 60.0)
JOINT = Joint(12, 22, 60, 0.4 / math.cos(math.atan(1 / 12)))  # a fence gap of 0.4
TOUCH = 5.0  # mm3 of the kernel's own fuzz where two faces lie on one another
SIDES: tuple[Literal["right", "left"], ...] = ("right", "left")
AXES: tuple[Literal["none", "length", "upright", "face"], ...] = ("none", "length", "upright", "face")


def made(board: Board, saw: Saw) -> Any:
    shape = box(SIZE)
    for one in turns.cuts_of(board, saw.fence_side):  # type: ignore[arg-type]
        shape, down = cut(shape, SIZE, one.end, one.sled_face, saw)
        assert down == one.edge_down
    return shape


def placed(shape: Any, number: int, overlap: float) -> Any:
    return shape.moved(cq.Location((number * (SIZE.length - overlap), 0, 0)))


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("end", SIDES)
@pytest.mark.parametrize("face", ["front", "back"])
def test_end_and_face_settle_the_edge(side: Any, end: Any, face: Any) -> None:
    shape, down = cut(box(SIZE), SIZE, end, face, Saw(fence_side=side))
    assert turns.edge_down(end, face, side) == down
    # the tip is left on the face that lay on the sled, at the end that led
    x = SIZE.length if end == "right" else 0.0
    y = 0.0 if face == "front" else SIZE.thickness
    tip = block(2, 0.2, 70).moved(cq.Location((x, y, 30)))
    assert common(shape, tip) == pytest.approx(1 * 0.1 * 60, rel=1e-3)
    far = block(2, 0.2, 70).moved(cq.Location((x, SIZE.thickness - y, 30)))
    assert common(shape, far) == 0


@pytest.mark.parametrize("side", SIDES)
def test_stick_closes_with_the_marked_edge_down(side: Any) -> None:
    boards = turns.stick_of(3, side)
    saw = Saw(fence_side=side)
    assert all(one.edge_down == "marked" for board in boards for one in turns.cuts_of(board, side))
    shapes = [placed(made(board, saw), i, JOINT.overlap) for i, board in enumerate(boards)]
    assert {boards[1].left, boards[1].right} == {"front", "back"}  # its two cuts are parallel
    # full but for the grooves at the four tips: triangles b high and b N long
    stick = shapes[0].fuse(*shapes[1:])
    length = 3 * SIZE.length - 2 * JOINT.overlap
    grooves = 4 * JOINT.tip * JOINT.tip * 12 / 2 * SIZE.height
    assert common(shapes[0], shapes[1]) < TOUCH
    assert common(shapes[1], shapes[2]) < TOUCH
    assert volume(stick) == pytest.approx(length * SIZE.thickness * SIZE.height - grooves, abs=2 * TOUCH)
    # one half millimetre more and they meet
    assert common(shapes[0], placed(made(boards[1], saw), 1, JOINT.overlap + 0.5)) > 100 * TOUCH


@pytest.mark.parametrize("second", [Board("back"), Board("back", "front"), Board("back", "back")])
@pytest.mark.parametrize("about", AXES)
def test_every_turn_of_the_mate(second: Board, about: Any) -> None:
    """Right and wrong turns: what `meeting` says is what the solids do when slid together to the full overlap."""
    saw = Saw()
    first = Board(None, "front")
    shape = made(second, saw)
    shape = shape if about == "none" else half_turn(shape, SIZE, about)
    turned = second if about == "none" else turns.turned(second, about)
    near, far = made(first, saw), placed(shape, 1, JOINT.overlap)
    outcome = turns.meeting(first, turned)
    assert (common(near, far) < TOUCH) == (outcome == "closes")
    if outcome == "closes":
        apart = near.fuse(far)
        hole = (2 * SIZE.length - JOINT.overlap) * 22 * 60
        lost = 2 * JOINT.tip**2 * 12 / 2 * 60 + (0 if turned.right is None else _taken())
        assert volume(apart) == pytest.approx(hole - lost, abs=2 * TOUCH)
    if outcome == "open_v":
        # no overlap at all can be had: they meet as soon as the tips pass
        assert common(near, placed(shape, 1, 1.0)) > 0
        assert common(near, placed(shape, 1, -0.01)) < 1e-6
        angle = _angle(cut_face(near).normalAt(), _end_face(shape).normalAt())
        assert angle == pytest.approx(2 * JOINT.angle, abs=1e-6)  # of an open V
    if outcome == "square_end":
        assert common(near, far) == pytest.approx(_left_of_taper() * 60, rel=1e-3)


def _taken() -> float:
    return (22 - JOINT.tip) ** 2 * 12 / 2 * 60


def _left_of_taper() -> float:
    """Area of the near board over the overlap, all of which a square end meets."""
    return JOINT.tip * JOINT.overlap + JOINT.overlap**2 / 24


def _end_face(shape: Any) -> Any:
    """The sloping face at the left end."""
    slopes = [f for f in shape.Faces() if 0.01 < abs(f.normalAt().x) < 0.5]
    return min(slopes, key=lambda f: f.Center().x)


def _angle(one: Any, other: Any) -> float:
    return math.acos(max(-1.0, min(1.0, one.dot(other))))


def test_quarter_turn_of_a_square_section_stands_across() -> None:
    size = Size(300.0, 30.0, 30.0)
    near, _ = cut(box(size), size, "right", "front", Saw(8))
    far, _ = cut(box(size), size, "left", "back", Saw(8))
    middle = cq.Vector(0, 15, 15)
    rolled = far.rotate(middle, middle + cq.Vector(1, 0, 0), 90)
    angle = math.pi - _angle(cut_face(near).normalAt(), cut_face(rolled).normalAt())
    # 0 would be closed; the faces stand nearly square to one another and touch in a point: cos = sin^2 of the slope
    assert angle == pytest.approx(math.acos(math.sin(math.atan(1 / 8)) ** 2), abs=1e-6)
    assert common(near, rolled.moved(cq.Location((300 - 100, 0, 0)))) > 1000


@pytest.mark.parametrize("slide", [-4.0, 0.0, 2.0, 9.0])
def test_closed_after_a_slide(slide: float) -> None:
    """Thickness and sound thickness of the pair slid together or apart and closed."""
    saw = Saw()
    told = marks.closed(JOINT, slide)
    near = made(Board(None, "front"), saw)
    far = placed(made(Board("back"), saw), 1, told.overlap).moved(cq.Location((0, told.thickness - 22, 0)))
    assert common(near, far) < TOUCH
    assert common(near, far.moved(cq.Location((0, -0.01, 0)))) > 50
    both = near.fuse(far)
    # between planes as far in as the tale says, every section of the joint is full; a little less and it is not
    waste = (told.thickness - told.sound) / 2
    assert _full(both, waste + 1e-3, told)
    assert not _full(both, waste - 0.1, told)


def test_most_slide_still_planes_clean() -> None:
    for finished in (21.0, 20.0, 15.0):
        most = marks.most_slide(JOINT, finished)
        assert marks.closed(JOINT, most).sound == pytest.approx(finished)
        assert marks.closed(JOINT, most + 1).sound < finished


def _full(both: Any, waste: float, told: marks.Closed) -> bool:
    start = SIZE.length - told.overlap - 60
    long = told.overlap + 120
    high = told.thickness - 2 * waste
    slab = block(long, high, 20, centered=False).moved(cq.Location((start, waste, 20)))
    return common(both, slab) > long * high * 20 - 0.5


def test_pencil_marks() -> None:
    sticks = marks.marked_stick(JOINT, 3)
    assert [board.number for board in sticks] == [1, 2, 3]
    middle = sticks[1]
    to_sled = {(m.end, m.surface) for m in middle.marks if m.kind == "to_sled"}
    assert to_sled == {("right", "front"), ("left", "back")}
    assert {m.place for m in middle.marks if m.kind == "overlap"} == {JOINT.overlap}
    assert {(m.end, m.surface) for m in sticks[0].marks if m.kind == "run_out"} == {("right", "back")}


def test_mate_lies_to_the_overlap_mark() -> None:
    """The mate's tip ends where the overlap mark says, on the face away from the sled."""
    saw = Saw()
    far = placed(made(Board("back"), saw), 1, JOINT.overlap)
    assert far.BoundingBox().xmin == pytest.approx(SIZE.length - JOINT.overlap, abs=1e-6)
    near = made(Board(None, "front"), saw)
    beside = block(0.01, 0.01, 80)
    at = SIZE.length - JOINT.taper_run
    assert common(near, beside.moved(cq.Location((at - 1, 22, 30)))) > 0
    assert common(near, beside.moved(cq.Location((at + 1, 22, 30)))) == 0
