"""What was measured on test joints, as data. Lengths in mm; every field may be left out.

One test joint is a pair of boards cut in one set-up. `piece` is 1 or 2, or None where it was not said: readings of one
piece share its thickness; slope, tip and lean are the set-up's and the same in both.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Hand = Literal["up", "down"]
Edge = Literal["top", "bottom"]

CALLIPER = 0.05  # mm, one standard deviation of a reading; common practice, no source
RULE = 0.5
FEELER = 0.03
STICKS = 0.3  # by which two winding sticks are seen to differ
PLANED = 0.1  # how well the job's thickness is that of the board, where the board was not measured


@dataclass(frozen=True)
class Reading:
    """One figure of one piece; `key` is where it stands in the file, for messages.

    top and bottom: read at the edges that were up and down at the saw instead of in the middle of the height.
    """

    key: str
    value: float | None = None
    top: float | None = None
    bottom: float | None = None
    piece: int | None = None

    @property
    def middle(self) -> float | None:
        """Halfway up, or halfway between what was read at the edges."""
        if self.value is not None or self.top is None or self.bottom is None:
            return self.value
        return (self.top + self.bottom) / 2


@dataclass(frozen=True)
class Station:
    """A thickness at a mark: `distance` from the tip along the board, in the middle or at top and bottom edge."""

    key: str
    distance: float
    value: float | None = None
    top: float | None = None
    bottom: float | None = None
    piece: int | None = None


@dataclass(frozen=True)
class Twist:
    """Winding sticks `length` long differ by `difference` with the joint closed tight.

    hand: of the far board the corner on the side away from the fence lies "up" or "down"; None: not noted.
    """

    difference: float
    length: float
    hand: Hand | None = None


@dataclass(frozen=True)
class Skew:
    """The line where the taper runs out is out of square by `offset` over the height; `nearer`: its end nearer the
    tip, at the edge that was up ("top") or down ("bottom") at the saw; None: not noted."""

    key: str
    offset: float
    nearer: Edge | None = None
    piece: int | None = None


@dataclass(frozen=True)
class TestJoint:
    """All that was measured on one test joint; `number` counts from 1 as in the file."""

    __test__ = False  # no test of ours, whatever the name says

    number: int
    board_thickness: tuple[Reading, ...] = ()
    taper_run: tuple[Reading, ...] = ()
    tip: tuple[Reading, ...] = ()
    thickness_at: tuple[Station, ...] = ()
    gap_top: float | None = None
    gap_bottom: float | None = None
    twist: Twist | None = None
    joint_thickness: float | None = None
    tip_to_tip: float | None = None
    line_skew: tuple[Skew, ...] = field(default=())

    @property
    def empty(self) -> bool:
        return self == TestJoint(self.number)
