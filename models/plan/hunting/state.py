"""A plan in the making: what is left of every run, the rows made so far, the runs sorted by what they still give."""

from __future__ import annotations

from bisect import bisect_left, insort

from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.problem import Problem

Row = tuple[tuple[int, int], ...]


class State:
    """Rows in the making. `ready` holds (longest piece it still gives [marks], run), shortest first."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.left = list(problem.room)
        self.pieces = [0] * len(self.left)
        self.on_board = [0] * problem.boards
        self.rows: Rows = [None] * len(problem.items)
        self.joints = 0
        self.unmade = len(problem.items)
        self.ready = sorted((problem.reach_of(room), r) for r, room in enumerate(problem.room))

    def copy(self) -> State:
        other = object.__new__(State)
        other.problem = self.problem
        other.left, other.pieces, other.on_board = self.left[:], self.pieces[:], self.on_board[:]
        other.rows, other.ready = self.rows[:], self.ready[:]
        other.joints, other.unmade = self.joints, self.unmade
        return other

    def put(self, item: int, row: Row) -> None:
        """Make a blank."""
        for run, length in row:
            self._change(run, -(length * self.problem.unit + self.problem.kerf), 1)
        self.rows[item] = row
        self.joints += len(row) - 1
        self.unmade -= 1

    def take(self, item: int) -> Row:
        """Unmake a blank."""
        row = self.rows[item]
        if row is None:
            return ()
        for run, length in row:
            self._change(run, length * self.problem.unit + self.problem.kerf, -1)
        self.rows[item] = None
        self.joints -= len(row) - 1
        self.unmade += 1
        return row

    def _change(self, run: int, by: int, pieces: int) -> None:
        unit, kerf = self.problem.unit, self.problem.kerf
        before = (self.left[run] - kerf) // unit
        self.left[run] += by
        after = (self.left[run] - kerf) // unit
        if before > 0:
            del self.ready[bisect_left(self.ready, (before, run))]
        if after > 0:
            insort(self.ready, (after, run))
        self.pieces[run] += pieces
        self.on_board[self.problem.board_of[run]] += pieces

    @classmethod
    def of(cls, problem: Problem, rows: Rows) -> State:
        """The state that has these rows."""
        state = cls(problem)
        for item, row in enumerate(rows):
            if row is not None:
                state.put(item, row)
        return state
