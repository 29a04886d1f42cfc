"""What a set-up leaves on a test joint: each measurement as a function of slope, tip and lean, for the fit.

A cut face lies v = b + u m + w k from the sled face: u along the board from the tip, w up from the middle of the
height, m = 1 / N, k = tan(e) sqrt(1 + m^2), e the lean. A reading of top and bottom edge is taken apart into mean and
difference, whose errors are independent. Source: the project's own derivation, proved by solids.
outputs/joint_form/tuning.js does the same, function by function.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from scarfwright.models.tuning.measured import CALLIPER, FEELER, PLANED, RULE, STICKS, Reading, Station, TestJoint

BOTH_EDGES = math.sqrt(2)
NOTHING = 2 * CALLIPER  # a tip read thinner than this may be no tip at all
SIGNS = {"down": 1, "top": 1, "up": -1, "bottom": -1, None: 1}  # of the lean that a twist's hand or a line's end shows


@dataclass(frozen=True)
class Setup:
    """What is sought: m = 1 / N, tip b in the middle of the height [mm], lean e [rad], and board thicknesses [mm]."""

    slope: float
    tip: float
    lean: float
    boards: tuple[float, ...] = ()

    @property
    def across(self) -> float:
        """k: how much thicker the taper is for each mm further up."""
        return math.tan(self.lean) * math.sqrt(1 + self.slope**2)

    @property
    def twist(self) -> float:
        """Of the joint closed tight [rad]."""
        return 2 * math.atan(self.across)


Model = Callable[[Setup], float]


@dataclass(frozen=True)
class Row:
    """One measurement for the fit: what it is, the value read, its standard deviation, and what a set-up would give.

    unsigned: only its size was read, the lean's hand was not noted.
    """

    key: str
    what: str
    read: float
    sigma: float
    model: Model
    unsigned: bool = False

    def turned(self, hand: int) -> Row:
        """As it would be if its hand were this one [1 or -1]; a reading with a hand of its own stays."""
        return replace(self, model=lambda s: hand * self.model(s)) if self.unsigned else self


def rows(
    joints: tuple[TestJoint, ...], height: float, thickness: float, slope: float
) -> tuple[list[Row], tuple[float, ...]]:
    """All measurements as rows, and the thickness of each board they hang on as it was read [mm]. height, thickness:
    the job's [mm]; slope: 1/N by which a rule's error is turned into one of thickness."""
    boards: list[tuple[TestJoint, int | None]] = []
    found: list[Row] = []
    for joint in joints:
        found += _runs(joint, boards, height)
        found += _tips(joint, height)
        for at in joint.thickness_at:
            found += _station(joint, at, height, slope)
        found += _pair(joint, height, slope)
        found += _skews(joint, height)
    thick = [_thicknesses(joint, piece, index, thickness) for index, (joint, piece) in enumerate(boards)]
    return [*found, *(row for some in thick for row in some)], tuple(some[-1].read for some in thick)


def _board(joint: TestJoint, piece: int | None, boards: list[tuple[TestJoint, int | None]]) -> int:
    """The place of a piece's thickness in Setup.boards; pieces whose thickness was not read share the joint's."""
    named = any(reading.piece == piece for reading in joint.board_thickness)
    board = (joint, piece if named else None)
    if board not in boards:
        boards.append(board)
    return boards.index(board)


def _runs(joint: TestJoint, boards: list[tuple[TestJoint, int | None]], height: float) -> Iterator[Row]:
    for reading in joint.taper_run:
        index = _board(joint, reading.piece, boards)

        def mean(s: Setup, index: int = index) -> float:
            return (s.boards[index] - s.tip) / s.slope

        yield from _read(joint, reading, "taper_run", RULE, mean, lambda s: -height * s.across / s.slope)


def _tips(joint: TestJoint, height: float) -> Iterator[Row]:
    for reading in joint.tip:
        if reading.top is not None and min(reading.top, reading.bottom or 0.0) <= NOTHING:
            continue  # cut to nothing at one edge: how far beyond can't be read
        yield from _read(joint, reading, "tip", CALLIPER, lambda s: s.tip, lambda s: height * s.across)


def _station(joint: TestJoint, at: Station, height: float, slope: float) -> Iterator[Row]:
    marked = RULE * slope  # a mark out of place reads as a thickness out
    yield from _read(
        joint,
        at,
        "thickness_at",
        CALLIPER,
        lambda s: s.tip + at.distance * s.slope,
        lambda s: height * s.across,
        marked,
    )


def _read(
    joint: TestJoint,
    reading: Reading | Station,
    what: str,
    sigma: float,
    mean: Model,
    difference: Model,
    marked: float = 0.0,
) -> Iterator[Row]:
    """What was read halfway up or at both edges, with an error `sigma`, and one `marked` that both edges share."""
    key = _key(joint, reading.key)
    if reading.value is not None:
        yield Row(key, what, reading.value, math.hypot(sigma, marked), mean)
    if reading.top is not None and reading.bottom is not None:
        middle = (reading.top + reading.bottom) / 2
        yield Row(key, what, middle, math.hypot(sigma / BOTH_EDGES, marked), mean)
        yield Row(key, what, reading.top - reading.bottom, sigma * BOTH_EDGES, difference)


def _pair(joint: TestJoint, height: float, slope: float) -> Iterator[Row]:
    """What is measured on the mated joint."""
    top, bottom = joint.gap_top, joint.gap_bottom
    if top is not None and bottom is not None:
        # where no feeler goes in the faces touch, and that reading is exact
        sigma = FEELER * (BOTH_EDGES if top > 0 and bottom > 0 else 1.0)
        key = _key(joint, "gap_top, gap_bottom")
        yield Row(key, "gap", bottom - top, sigma, lambda s: 2 * height * math.tan(s.lean))
    if joint.twist is not None:
        turn = joint.twist
        read = SIGNS[turn.hand] * turn.difference
        key = _key(joint, "twist")
        yield Row(key, "twist", read, STICKS, lambda s: turn.length * math.sin(s.twist), turn.hand is None)
    if joint.joint_thickness is not None and joint.tip_to_tip is not None:
        overlap = joint.tip_to_tip
        key = _key(joint, "joint_thickness, tip_to_tip")
        sigma = math.hypot(CALLIPER, RULE * slope)
        yield Row(key, "joint_thickness", joint.joint_thickness, sigma, lambda s: 2 * s.tip + overlap * s.slope)


def _skews(joint: TestJoint, height: float) -> Iterator[Row]:
    for skew in joint.line_skew:
        read = SIGNS[skew.nearer] * skew.offset
        key = _key(joint, skew.key)
        yield Row(key, "line_skew", read, RULE, lambda s: height * s.across / s.slope, skew.nearer is None)


def _thicknesses(joint: TestJoint, piece: int | None, index: int, usual: float) -> list[Row]:
    """A board's thickness as measured; where it was not, the joint's other one or the job's, less surely."""
    own = [
        Row(_key(joint, reading.key), "board_thickness", value, CALLIPER, lambda s: s.boards[index])
        for reading in joint.board_thickness
        if (piece is None or reading.piece in (piece, None)) and (value := reading.middle) is not None
    ]
    return own or [Row("the job's thickness", "board_thickness", usual, PLANED, lambda s: s.boards[index])]


def _key(joint: TestJoint, name: str) -> str:
    return f"test_joint {joint.number}, {name}"
