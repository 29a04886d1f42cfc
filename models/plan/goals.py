"""What is better: all blanks made; fewest joints; least price or least wood; fewest boards; longest leftovers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.models.plan.problem import Problem

# A row of (run, length in marks) from the bow for every blank; None: not made.
Rows = list[tuple[tuple[int, int], ...] | None]
Score = tuple[int, int, int, int, int]


@dataclass(frozen=True)
class Used:
    """What a set of rows uses. left[r]: room left on run r with one kerf, in units. consumed in units."""

    left: tuple[int, ...]
    pieces: tuple[int, ...]
    opened: frozenset[int]
    consumed: int
    price: int


def run_consumed(room: int, kerf: int, left: int, pieces: int, keep: int) -> int:
    """What a run loses: pieces and saw cuts, and the scrap if it is shorter than worth keeping [units]."""
    if pieces == 0:
        return 0
    scrap = left - kerf
    return room - kerf - (scrap if scrap > 0 and scrap >= keep else 0)


def used(problem: Problem, rows: Rows) -> Used:
    """Count a set of rows."""
    left = list(problem.room)
    pieces = [0] * len(left)
    for row in rows:
        for run, length in row or ():
            left[run] -= length * problem.unit + problem.kerf
            pieces[run] += 1
    opened = frozenset(problem.board_of[r] for r, many in enumerate(pieces) if many)
    consumed = sum(
        run_consumed(problem.room[r], problem.kerf, left[r], pieces[r], problem.keep)
        for r, many in enumerate(pieces)
        if many
    )
    return Used(tuple(left), tuple(pieces), opened, consumed, sum(problem.prices[b] for b in opened))


def longest_leftover(problem: Problem, state: Used) -> int:
    """The longest clear stretch worth keeping that is left of a board that was cut into [units]; 0 if there is none."""
    rests = [left - problem.kerf for left, b in zip(state.left, problem.board_of, strict=True) if b in state.opened]
    return max((s for s in rests if s >= max(problem.keep, 1)), default=0)


def score(problem: Problem, rows: Rows) -> Score:
    """The goals in their order; smaller is better."""
    state = used(problem, rows)
    return (
        sum(row is None for row in rows),
        joints(rows),
        state.price if problem.priced else state.consumed,
        len(state.opened),
        -longest_leftover(problem, state),
    )


def joints(rows: Sequence[tuple[tuple[int, int], ...] | None]) -> int:
    """Joints of all rows."""
    return sum(len(row) - 1 for row in rows if row)
