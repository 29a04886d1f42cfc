"""What is pencilled on each board before the cut, and the marks that tell how a pair was glued. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from scarfwright.models.joint.joint import Joint
from scarfwright.models.pair.turns import Board, Edge, Face, Side, cuts_of, stick_of

Kind = Literal["number", "marked_edge", "arrow", "to_sled", "overlap", "run_out"]


@dataclass(frozen=True)
class Mark:
    """One pencil mark.

    kind: number and arrow (towards the stick's right end) stand on the front face, marked_edge on the edge that lies
    down in the stick; to_sled on the face that lies on the sled, at the end that leads; overlap (where the mate's tip
    will lie) and run_out (where the taper ends) across the face opposite, squared round onto both edges.
    place: distance from that end [mm], None where it does not matter.
    """

    kind: Kind
    surface: Face | Edge
    end: Side | None = None
    place: float | None = None


@dataclass(frozen=True)
class MarkedBoard:
    """A board of the stick with its number from the left, and its marks."""

    number: int
    board: Board
    marks: tuple[Mark, ...]


def marked_stick(joint: Joint, count: int, fence_side: Side = "right") -> tuple[MarkedBoard, ...]:
    """The boards of a stick with every pencil mark to make before the cut."""
    boards = stick_of(count, fence_side)
    return tuple(MarkedBoard(i, board, _marks(joint, board, fence_side)) for i, board in enumerate(boards, 1))


def _marks(joint: Joint, board: Board, fence_side: Side) -> tuple[Mark, ...]:
    marks = [Mark("number", "front"), Mark("arrow", "front"), Mark("marked_edge", "marked")]
    for cut in cuts_of(board, fence_side):
        away: Face = "back" if cut.sled_face == "front" else "front"
        marks.append(Mark("to_sled", cut.sled_face, cut.end))
        marks.append(Mark("overlap", away, cut.end, joint.overlap))
        marks.append(Mark("run_out", away, cut.end, joint.taper_run))
    return tuple(marks)


@dataclass(frozen=True)
class Closed:
    """A pair slid together and glued, seen from its marked edge. u runs along the stick from the first board's tip.

    All in mm. `slide` is how far the boards went together past their overlap marks (negative: apart).
    """

    thickness: float
    overlap: float
    slide: float
    sound: float


def closed(joint: Joint, slide: float = 0.0) -> Closed:
    """The pair closed tight after a slide from the overlap marks [mm].

    Together by dx it is s = dx / N thicker, t + s, of which t + s - 2 max(b, s) is sound: at each tip the mate falls
    away over the tip's thickness b, and past it the boards stand s off one another. Slid apart (negative) and closed it
    is thinner by as much; held flush instead, the glue line opens (`accuracy.effects.slide_gap`).
    """
    s = slide / joint.ratio
    thickness = joint.thickness + s
    return Closed(thickness, joint.overlap + slide, slide, thickness - 2 * max(joint.tip, s))


def most_slide(joint: Joint, finished: float) -> float:
    """How far the boards may go together past their marks and still plane clean to `finished` [mm]: (t - t_f) N."""
    return (joint.thickness - finished) * joint.ratio
