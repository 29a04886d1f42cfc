"""Ruin and recreate: unmake a few blanks that share boards, make them again, keep what is not much worse.

Two rounds: first all blanks and fewest joints, then least wood or price at that number of joints. Both are seeded
and bounded by the number of rows drawn; a clock and a stop flag may end them sooner.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from scarfwright.models.plan.data import Progress, Row
from scarfwright.models.plan.goals import Rows, Score, score
from scarfwright.models.plan.hunting.fill import Taste, fill, taste
from scarfwright.models.plan.hunting.state import State
from scarfwright.models.plan.problem import Problem

DRAWS = 80_000  # rows drawn for each point of effort in each round
TELL_EVERY = 0.5  # [s]


@dataclass
class Budget:
    """What ends a search: work, the clock, or the user. `work` counts points of effort spent.

    until: when the clock ends all; `stage` gives one stage a part of what is left of it.
    """

    effort: float
    until: float | None = None
    stop: Callable[[], bool] = lambda: False
    tell: Callable[[Progress], None] = lambda _: None
    work: float = 0.0
    stopped: bool = False
    bound: int | None = None
    _told: float = 0.0
    _begun: float = 0.0
    _stage: float | None = None

    def stage(self, part: float) -> None:
        """Begin a stage that may use `part` of the time left; without a clock all of it."""
        self._begun = time.monotonic()
        self._stage = None if self.until is None else self._begun + part * max(self.until - self._begun, 0.0)

    def part(self, share: float) -> Budget:
        """A quiet budget of its own, with a share of the time left; its work comes back by `take_back`."""
        now = time.monotonic()
        until = None if self.until is None else now + share * max(self.until - now, 0.0)
        return Budget(self.effort, until, self.stop)

    def take_back(self, other: Budget) -> None:
        """What a part has spent, and whether the user stopped it."""
        self.work, self.stopped = self.work + other.work, self.stopped or other.stopped

    def ended(self) -> bool:
        """Whether clock or user say that all is over."""
        self.stopped = self.stopped or self.stop()
        return self.stopped or (self.until is not None and time.monotonic() >= self.until)

    def over(self) -> bool:
        """Whether this stage is over."""
        return self.ended() or (self._stage is not None and time.monotonic() >= self._stage)

    @property
    def left(self) -> float:
        """Seconds left of this stage by the clock."""
        return math.inf if self._stage is None else max(self._stage - time.monotonic(), 0.0)

    @property
    def gone(self) -> float:
        """Part of this stage's time that is gone, 0 to 1; 0 without a clock."""
        if self._stage is None:
            return 0.0
        return min(1.0, (time.monotonic() - self._begun) / max(self._stage - self._begun, 1e-9))

    def show(self, problem: Problem, best: Score, stage: str, always: bool = False) -> None:
        """Tell how far it is, now and then."""
        now = time.monotonic()
        if always or now - self._told >= TELL_EVERY:
            self._told = now
            wood = best[2] * float(problem.coin if problem.priced else problem.unit_mm)
            self.tell(Progress(best[0], best[1], wood, self.bound, self.work, stage))


@dataclass(frozen=True)
class Round:
    """One round's way of judging. `goal` (the first of the goals) ends it at once; cap: no more joints than this."""

    taste: Taste
    stage: str
    goal: tuple[int, ...] | None
    cap: int | None
    draws: int
    heat: float


def first_rows(problem: Problem, pick: Random, taste: Taste, budget: Budget, tries: int) -> State:
    """Longest blanks first, each by its cheapest row."""
    state = State(problem)
    for which in sorted(range(len(problem.items)), key=lambda i: -problem.items[i].length):
        if budget.over():
            break
        row, draws = fill(state, which, pick, tries, taste)
        budget.work += draws / DRAWS
        if row is not None:
            state.put(which, row)
    return state


def joints_round(problem: Problem, bound: int | None, effort: float, row: Row | None = None) -> Round:
    """All blanks, fewest joints: long runs are dear, most of all what they have over the tau of the row that binds."""
    useful = min((i.ends for i in problem.items), default=1)
    goal = None if bound is None else (0, bound)
    tau = int(row.tau / problem.mark) if row is not None and row.kind == "length" and row.tau else 0
    if tau > 0:
        joint = 1.3 * max(tau - float(problem.overlap), 1.0)
        chosen = taste(problem.longest, useful, 0.6, joint, tau=tau, mix=0.05)
    else:
        chosen = taste(problem.longest, useful, 0.6, 0.4 * problem.longest)
    return Round(chosen, "joints", goal, None, _draws(effort), 0.1)


def wood_round(problem: Problem, cap: int, effort: float, least: int = -1) -> Round:
    """Least wood, or least price: what is too short to keep is lost, opening a board costs its price.

    least: no plan has less of what is minimised; reaching it ends the round.
    """
    longest = problem.longest
    useful = max(min((i.ends for i in problem.items), default=1), math.ceil(problem.keep / problem.unit))
    if problem.priced:
        opening = tuple(p / max(problem.prices) * longest for p in problem.prices)
    else:
        opening = (0.01 * longest,) * problem.boards
    chosen = taste(longest, useful, 0.1, longest, opening)
    return Round(chosen, "price" if problem.priced else "wood", (0, cap, least), cap, _draws(effort), 0.02)


def _draws(effort: float) -> int:
    return max(1, round(min(effort, 1e6) * DRAWS))


class Search:
    """The state a search is in, the best rows so far, and the random source they came from."""

    def __init__(self, problem: Problem, budget: Budget, seed: int, start: Rows | None = None) -> None:
        self.problem, self.budget = problem, budget
        self.pick = Random(seed)
        if start is None:
            opening = joints_round(problem, None, 1.0)
            state = first_rows(problem, self.pick, opening.taste, budget, 12)
        else:
            state = State.of(problem, start)
        self.best_rows = state.rows[:]
        self.best = score(problem, state.rows)

    def run(self, plan: Round) -> None:
        """One round, from the best rows so far."""
        state = State.of(self.problem, self.best_rows)
        value = self._value(state, plan)
        cooled = since = draws = 0
        lowest = value
        while draws < plan.draws and not self._done(plan) and not self.budget.over():
            heat = plan.heat * max(0.0, 1 - max(draws / plan.draws, self.budget.gone)) ** 2
            trial = state.copy()
            spent = self._again(trial, plan)
            draws += spent
            self.budget.work += spent / DRAWS
            since += 1
            fresh = self._value(trial, plan)
            if fresh <= value - heat * self.problem.longest * math.log(max(self.pick.random(), 1e-12)):
                state, value = trial, fresh
                if value < lowest - 1e-9:
                    lowest, since = value, 0
                self._keep(state)
            if since > 400:
                state, since, cooled = State.of(self.problem, self.best_rows), 0, cooled + 1
                value = lowest = self._value(state, plan)
            self.budget.show(self.problem, self.best, plan.stage)

    def _done(self, plan: Round) -> bool:
        return plan.goal is not None and self.best[: len(plan.goal)] <= plan.goal

    def _keep(self, state: State) -> None:
        if (state.unmade, state.joints) > self.best[:2]:
            return
        fresh = score(self.problem, state.rows)
        if fresh < self.best:
            self.best, self.best_rows = fresh, state.rows[:]

    def _again(self, state: State, plan: Round) -> int:
        """Ruin and recreate in place; the draws made."""
        pick = self.pick
        todo = self._ruin(state)
        todo += [i for i, row in enumerate(state.rows) if row is None and i not in todo]
        by_length = pick.random() < 0.5
        todo.sort(
            key=lambda i: -self.problem.items[i].length * (1 + 0.3 * pick.random()) if by_length else pick.random()
        )
        made = 0
        for which in todo[:12]:
            row, draws = fill(state, which, pick, pick.choice((3, 8, 20)), plan.taste, 0.06)
            made += draws + 1
            if row is not None:
                state.put(which, row)
        return made

    def _ruin(self, state: State) -> list[int]:
        """Unmake 2 to 6 blanks: one at random and those that share its boards or lie beside it, then any."""
        pick, rows = self.pick, state.rows
        made = [i for i, row in enumerate(rows) if row is not None]
        if not made:
            return []
        many = min(pick.randint(2, 6), len(made))
        seed = pick.choice(made)
        near = [seed]
        boards = {self.problem.board_of[run] for run, _ in rows[seed] or ()}
        others = made[:]
        pick.shuffle(others)
        mates = {mate for mate, _, _ in self.problem.items[seed].mates}
        for other in others:
            if len(near) >= many:
                break
            if other != seed and (
                other in mates or any(self.problem.board_of[run] in boards for run, _ in rows[other] or ())
            ):
                near.append(other)
        near += [o for o in others if o not in near][: many - len(near)]
        for which in near:
            state.take(which)
        return near

    def _value(self, state: State, plan: Round) -> float:
        """One figure for a state, in marks; what is left is worth something."""
        problem = self.problem
        longest = problem.longest
        taste = plan.taste
        table, step = taste.table, taste.step
        worth = sum([table[length // step] for length, _ in state.ready])
        lacking = sum(
            float(item.length) + 2 * longest for item, row in zip(problem.items, state.rows, strict=True) if row is None
        )
        value = 4 * lacking + taste.joint * state.joints - worth
        if taste.opening:
            value += sum(cost for cost, many in zip(taste.opening, state.on_board, strict=True) if many)
        if plan.cap is not None and (state.unmade or state.joints > plan.cap):
            value += 1e3 * longest * (1 + state.joints - plan.cap)
        return value
