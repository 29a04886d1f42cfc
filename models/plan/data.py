"""What the plan is made from and what it is: frozen data in mm, nothing of the saw, no file formats.

A **board** is what is on the rack, a **blank** the long glued-up piece, a row of pieces with a joint between
neighbours. Every figure may be an int, a float or a Fraction; a float counts as the decimal it prints as (3.2 is
16/5), so that nothing is lost between what people write and what is planned.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

Number = int | float | Fraction
Stretch = tuple[Number, Number]
Proof = Literal["count", "search"] | None
Verdict = Literal["made", "impossible", "not_found"]


def exact(value: Number) -> Fraction:
    """The number as people read it: a float is taken as its shortest decimal."""
    if isinstance(value, float):
        return Fraction(float.__repr__(float(value)))
    return Fraction(value)


@dataclass(frozen=True)
class Board:
    """Boards alike on the rack [mm]; `defects` are stretches along the board, over its whole width.

    `width` and `thickness` None: just the stock's. `price` None: nothing to pay (it is in the shop). A defect
    narrower than the crosscut's kerf counts as one kerf wide about its middle.
    """

    name: str
    length: Number
    width: Number | None = None
    thickness: Number | None = None
    count: int = 1
    price: Number | None = None
    defects: tuple[Stretch, ...] = ()


@dataclass(frozen=True)
class Blank:
    """Blanks alike [mm]. Stations count from the finished start (the bow); `allowance` is added at each end.

    keep_clear: stretches in which no part of a joint may lie.
    mirrored: copies 1 and 2, 3 and 4 ... are pairs whose joints may not lie opposite each other.
    group: blanks that lie side by side; joints of different blanks of a group are `stagger` apart, clear distance.
    neighbours: only blanks at most so many places apart in the group's order count as side by side; None: all.
    members, rip_kerf: how many pieces the glued blank is ripped into, and the saw cut between them.
    use: the greatest bending use of a joint that reaches from the first to the second station, for show only.
    """

    name: str
    length: Number
    count: int = 1
    allowance: Number = 0
    keep_clear: tuple[Stretch, ...] = ()
    mirrored: bool = False
    group: str = ""
    stagger: Number = 0
    neighbours: int | None = None
    members: int = 1
    rip_kerf: Number = 0
    use: Callable[[float, float], float] | None = None


@dataclass(frozen=True)
class Buy:
    """A board that could be bought [mm]; as many as it takes."""

    length: Number
    width: Number | None = None
    thickness: Number | None = None
    price: Number | None = None
    name: str = ""


@dataclass(frozen=True)
class Rules:
    """The stock, the joint and the habits of the shop.

    thickness, height: what a piece has to have [mm]. overlap: what each joint eats [mm].
    mark: lengths of pieces are multiples of it [mm]. least: shortest piece of a joined blank [mm].
    spacing: clear distance between joints of one blank, in overlaps. keep: shortest offcut worth keeping [mm].
    spare: a length for the test joint and the bend test [mm], 0 for none. end_trim: cut off each end of a board,
    the saw cut included [mm]. kerf, rip_kerf: crosscut, and cut between strips of a wide board [mm].
    effort: how much work the search may do (10 is about half a minute). seed: of the search.
    """

    thickness: Number
    height: Number
    overlap: Number
    mark: Number = 1
    least: Number = 0
    spacing: Number = 3
    keep: Number = 300
    spare: Number = 0
    end_trim: Number = 0
    kerf: Number = 3.2
    rip_kerf: Number = 3.2
    effort: float = 10.0
    seed: int = 1


@dataclass(frozen=True)
class Request:
    """All there is to know for a plan."""

    rules: Rules
    boards: tuple[Board, ...]
    blanks: tuple[Blank, ...]
    buy: tuple[Buy, ...] = ()


@dataclass(frozen=True)
class Cut:
    """A piece cut from a board: `start` to `end` along the board [mm], in a strip (counted from 1)."""

    board: int
    copy: int
    strip: int
    start: Fraction
    end: Fraction

    @property
    def length(self) -> Fraction:
        return self.end - self.start


@dataclass(frozen=True)
class JointPlace:
    """Middle of a joint from the finished start [mm], and its bending use if that is known."""

    station: Fraction
    use: float | None = None


@dataclass(frozen=True)
class BlankPlan:
    """One blank as a row of pieces from the bow; `length` includes the allowances [mm]."""

    blank: int
    copy: int
    length: Fraction
    pieces: tuple[Cut, ...]
    joints: tuple[JointPlace, ...]


@dataclass(frozen=True)
class Missing:
    """A blank that this plan does not make, and why."""

    blank: int
    copy: int
    why: str


@dataclass(frozen=True)
class Row:
    """A count that bounds the joints, or that shows there is too little: `need` over all blanks against `have`.

    kind: "length" (row 1: what pieces have beyond `tau`), "pieces" (row 2: pieces longer than `tau`), "middles"
    (row 3: pieces with a joint at both ends), "alone" (one blank by itself), "side by side" (mates by themselves need
    `need` pieces, settled by search; every other blank one by one). Lengths in mm. `pieces` is the least number of
    pieces the count allows (None: no number will do), `need` what one piece fewer would need at least.
    """

    kind: Literal["length", "pieces", "middles", "alone", "side by side"]
    tau: Fraction | None
    pieces: int | None
    need: Fraction | None
    have: Fraction | None
    blanks: tuple[int, ...] = ()


@dataclass(frozen=True)
class Progress:
    """How far the search has come."""

    unmade: int
    joints: int
    wood: float
    bound: int | None
    work: float
    stage: str


@dataclass(frozen=True)
class Remedy:
    """Something that mends a shortage, tried: with it every blank is made.

    kind: "buy" (boards: (index into Request.buy, count)), "overlap", "allowance", "spacing" (greatest value that was
    tried and serves), "opposite" (no blank is mirrored), "beside" (no group), "length" (the named blank
    shorter), "without" (the named blank left out).
    """

    kind: Literal["buy", "overlap", "allowance", "spacing", "opposite", "beside", "length", "without"]
    boards: tuple[tuple[int, int], ...] = ()
    value: Fraction | None = None
    was: Fraction | None = None
    price: Fraction | None = None
    blank: int | None = None
    copy: int | None = None
    joints: int | None = None
    fewest: bool = False


@dataclass(frozen=True)
class Plan:
    """The plan and what is known about it. consumed: pieces, saw cuts and scraps shorter than `keep` [mm of strip].

    joints_proved, wood_proved: "count" (a row that can be checked by hand), "search" (all else was ruled out), None.
    bound_joints, bound_consumed, bound_price: no plan can have less. repeatable: the same request gives the same plan
    (not where a clock or the user stopped the search). Fields that make no sense for the verdict are None or empty.
    """

    verdict: Verdict
    blanks: tuple[BlankPlan, ...]
    missing: tuple[Missing, ...]
    joints: int
    boards_used: int
    consumed: Fraction
    price: Fraction | None
    joints_proved: Proof
    wood_proved: Proof
    bound_joints: int | None
    bound_row: Row | None
    bound_consumed: Fraction | None
    bound_price: Fraction | None
    leftovers: tuple[Cut, ...]
    spare: tuple[Cut, ...]
    spare_short: bool
    unused: tuple[tuple[int, int], ...]
    impossible: Proof = None
    remedies: tuple[Remedy, ...] = ()
    work: float = 0.0
    repeatable: bool = True
    stopped: bool = False
    trail: tuple[Progress, ...] = field(default=(), compare=False)
