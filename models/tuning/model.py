"""What a set-up leaves on a test joint: each measurement as a function of slope, tip and lean, for the fit.

A cut face lies v = b + u m + w k from the sled face: u along the board from the tip, w up from the middle of the
height, m = 1 / N, k = tan(e) sqrt(1 + m^2), e the lean. A reading of top and bottom edge is taken apart into mean and
difference, whose errors are independent. Source: the project's own derivation, proved by solids.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from scarfwright.models.tuning.measured import CALLIPER, FEELER, PLANED, RULE, STICKS, Reading, Station, TestJoint

BOTH_EDGES = math.sqrt(2)
NOTHING = 2 * CALLIPER  # a tip read thinner than this may be no tip at all


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


@dataclass(frozen=True)
class Row:
    """One measurement for the fit: what it is, the value read, its standard deviation, and what a set-up would give.

    unsigned: only its size was read, the lean's hand was not noted. needs: the unknowns it hangs on.
    """

    key: str
    what: str
    read: float
    sigma: float
    model: Callable[[Setup], float]
    unsigned: bool = False


class Boards:
    """Numbers the boards whose thickness is unknown: one for each piece of each joint, one where none was named."""

    def __init__(self) -> None:
        self.seen: list[tuple[int, int | None]] = []

    def of(self, joint: TestJoint, piece: int | None) -> int:
        """The place of a piece's thickness in Setup.boards; pieces whose thickness was not read share the joint's."""
        named = any(reading.piece == piece for reading in joint.board_thickness)
        key = (joint.number, piece if named else None)
        if key not in self.seen:
            self.seen.append(key)
        return self.seen.index(key)


def rows(joints: tuple[TestJoint, ...], height: float, thickness: float, slope: float) -> tuple[list[Row], Boards]:
    """All measurements as rows. height, thickness: the job's [mm]; slope: 1/N about which a rule's error is turned into
    one of thickness."""
    boards = Boards()
    found: list[Row] = []
    for joint in joints:
        found += _runs(joint, boards, height)
        found += _tips(joint, height)
        found += [row for at in joint.thickness_at for row in _station(joint, at, height, slope)]
        found += _pair(joint, height, slope)
        found += _skews(joint, height)
    found += _thicknesses(joints, boards, thickness)
    return found, boards


def _runs(joint: TestJoint, boards: Boards, height: float) -> Iterator[Row]:
    for reading in joint.taper_run:
        index = boards.of(joint, reading.piece)

        def mean(s: Setup, i: int = index) -> float:
            return (s.boards[i] - s.tip) / s.slope

        yield from _rows_of(reading, joint, "taper_run", RULE, mean, lambda s: -height * s.across / s.slope)


def _tips(joint: TestJoint, height: float) -> Iterator[Row]:
    for reading in joint.tip:
        if reading.top is not None and min(reading.top, reading.bottom or 0.0) <= NOTHING:
            continue  # cut to nothing at one edge: how far beyond can't be read
        yield from _rows_of(reading, joint, "tip", CALLIPER, lambda s: s.tip, lambda s: height * s.across)


def _rows_of(
    reading: Reading,
    joint: TestJoint,
    what: str,
    sigma: float,
    mean: Callable[[Setup], float],
    difference: Callable[[Setup], float],
) -> Iterator[Row]:
    key = _key(joint, reading.key)
    if reading.value is not None:
        yield Row(key, what, reading.value, sigma, mean)
    if reading.top is not None and reading.bottom is not None:
        yield Row(key, what, (reading.top + reading.bottom) / 2, sigma / BOTH_EDGES, mean)
        yield Row(key, what, reading.top - reading.bottom, sigma * BOTH_EDGES, difference)


def _station(joint: TestJoint, at: Station, height: float, slope: float) -> Iterator[Row]:
    key = _key(joint, at.key)
    marked = RULE * slope  # a mark out of place reads as a thickness out

    def mean(s: Setup) -> float:
        return s.tip + at.distance * s.slope

    if at.thickness is not None:
        yield Row(key, "thickness_at", at.thickness, math.hypot(CALLIPER, marked), mean)
    if at.top is not None and at.bottom is not None:
        sigma = math.hypot(CALLIPER / BOTH_EDGES, marked)
        yield Row(key, "thickness_at", (at.top + at.bottom) / 2, sigma, mean)
        difference = at.top - at.bottom
        yield Row(key, "thickness_at", difference, CALLIPER * BOTH_EDGES, lambda s: height * s.across)


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
        sign = {"down": 1.0, "up": -1.0, None: 1.0}[turn.hand]
        key = _key(joint, "twist")
        yield Row(
            key, "twist", sign * turn.difference, STICKS, lambda s: turn.length * math.sin(s.twist), turn.hand is None
        )
    if joint.joint_thickness is not None and joint.tip_to_tip is not None:
        overlap = joint.tip_to_tip
        key = _key(joint, "joint_thickness, tip_to_tip")
        sigma = math.hypot(CALLIPER, RULE * slope)
        yield Row(key, "joint_thickness", joint.joint_thickness, sigma, lambda s: 2 * s.tip + overlap * s.slope)


def _skews(joint: TestJoint, height: float) -> Iterator[Row]:
    for skew in joint.line_skew:
        sign = {"top": 1.0, "bottom": -1.0, None: 1.0}[skew.nearer]
        key = _key(joint, skew.key)
        yield Row(
            key, "line_skew", sign * skew.offset, RULE, lambda s: height * s.across / s.slope, skew.nearer is None
        )


def _thicknesses(joints: tuple[TestJoint, ...], boards: Boards, usual: float) -> Iterator[Row]:
    """Board thicknesses as measured; where the one needed was not, the joint's other one or the job's, less surely."""
    by_number = {joint.number: joint for joint in joints}
    for number, piece in list(boards.seen):
        joint = by_number[number]
        index = boards.of(joint, piece)
        own = [r for r in joint.board_thickness if piece is None or r.piece in (piece, None)]
        for reading in own:
            key = _key(joint, reading.key)
            value = reading.value
            if value is None and reading.top is not None and reading.bottom is not None:
                value = (reading.top + reading.bottom) / 2
            if value is not None:
                yield Row(key, "board_thickness", value, CALLIPER, _board(index))
        if not own:
            yield Row("the job's thickness", "board_thickness", usual, PLANED, _board(index))


def _board(index: int) -> Callable[[Setup], float]:
    return lambda s: s.boards[index]


def _key(joint: TestJoint, name: str) -> str:
    return f"test_joint {joint.number}, {name}"
