"""Boards of a stick, the tapers on their ends, and what turning a board does to them.

The stick lies before you as it will be: its boards run from left to right, the marked edge is down, the front face
looks at you. Every end is tapered in the saw with the end leading (at the sled's heel) and one face on the sled; the
tip is left on that face. A board is a rigid thing: end and face settle which edge is down at the saw.

A cut end is a prism as long as the board is high. Two of them close only if one is the other turned half round about
the upright axis, so one tip lies on the front face and the other on the back face. Proved by cutting and turning
solids. Source: the project's own geometry.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Face = Literal["front", "back"]
Side = Literal["left", "right"]  # an end of a board, and a side of the blade
Edge = Literal["marked", "other"]
Axis = Literal["none", "length", "upright", "face"]  # none: as it is; face: the axis square to the faces
Meeting = Literal["closes", "open_v", "square_end"]

OTHER_FACE: dict[Face, Face] = {"front": "back", "back": "front"}
OTHER_EDGE: dict[Edge, Edge] = {"marked": "other", "other": "marked"}


@dataclass(frozen=True)
class Board:
    """A board of the stick: the face each end's tip lies on, None for a square end."""

    left: Face | None = None
    right: Face | None = None


@dataclass(frozen=True)
class Cut:
    """One cut at the saw: which end leads (lies at the heel), which face lies on the sled, which edge is down."""

    end: Side
    sled_face: Face
    edge_down: Edge


def edge_down(end: Side, sled_face: Face, fence_side: Side = "right") -> Edge:
    """The edge that is down at the saw.

    end: the end that leads; sled_face: the face on the sled; fence_side: side of the blade the fence stands on, as the
    operator sees it. The board can't lie otherwise with that end ahead and that face towards the fence.
    """
    usual = (sled_face == "front") == (end == "right")
    return "marked" if usual == (fence_side == "right") else "other"


def cut_of(end: Side, sled_face: Face, fence_side: Side = "right") -> Cut:
    """The cut of one end with one face on the sled."""
    return Cut(end, sled_face, edge_down(end, sled_face, fence_side))


def stick_of(count: int, fence_side: Side = "right") -> tuple[Board, ...]:
    """`count` boards whose joints all slope the same way, so that every cut is made with the marked edge down."""
    right: Face = "front" if fence_side == "right" else "back"
    left = OTHER_FACE[right]
    return tuple(Board(left if i else None, right if i < count - 1 else None) for i in range(count))


def cuts_of(board: Board, fence_side: Side = "right") -> tuple[Cut, ...]:
    """The cuts a board needs, right end first."""
    ends: tuple[tuple[Side, Face | None], ...] = (("right", board.right), ("left", board.left))
    return tuple(cut_of(end, face, fence_side) for end, face in ends if face is not None)


def turned(board: Board, about: Axis) -> Board:
    """The board turned half round in its place in the stick.

    about: "length" rolls it over (the marked edge comes up, front and back change places); "upright" turns it end for
    end with the marked edge still down; "face" turns it end for end with its front still in front.
    """
    left, right = board.left, board.right
    if about in ("upright", "face"):
        left, right = right, left
    if about in ("upright", "length"):
        left, right = _swapped(left), _swapped(right)
    return Board(left, right)


def _swapped(face: Face | None) -> Face | None:
    return None if face is None else OTHER_FACE[face]


def meeting(left: Board, right: Board) -> Meeting:
    """What happens where the left board's right end meets the right board's left end.

    open_v: both tips lie on one face. The cut faces look the same way; only the tips butt, with an open V between.
    square_end: an end that was not tapered is there; there is no joint.
    """
    one, other = left.right, right.left
    if one is None or other is None:
        return "square_end"
    return "closes" if one != other else "open_v"
