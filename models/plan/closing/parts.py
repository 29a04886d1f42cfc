"""Fewer joints a part at a time: a few blanks with much wood to spare are unmade and their runs parted anew."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from scarfwright.models.plan.closing.whole import whole_runs
from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.hunting.search import Budget
from scarfwright.models.plan.hunting.state import State
from scarfwright.models.plan.problem import Problem, by_themselves

MANY = (8, 14)  # blanks in a part
LOOKS = (300_000,)
TRIES = 150  # parts that make a point of effort, what parting them costs aside


def fewer_by_parts(problem: Problem, rows: Rows, goal: int, budget: Budget, effort: float) -> Rows:
    """Rows with as many joints or fewer, down to `goal`. Blanks with mates stay as they are."""
    pick, state = Random(problem.request.rules.seed), State.of(problem, rows)
    free = [i for i, item in enumerate(problem.items) if not item.mates]
    end = budget.work + effort
    while len(free) >= MANY[0] and state.joints > goal and budget.work < end and not budget.over():
        budget.work += 1 / TRIES
        spare = {i: sum(state.left[run] for run, _ in state.rows[i] or ()) * pick.random() for i in free}
        part = sorted(sorted(free, key=lambda i: -spare[i])[: pick.randint(*MANY)])
        trial = state.copy()
        pieces = sum(len(trial.take(i)) for i in part)
        runs = [r for r, left in enumerate(trial.left) if problem.reach_of(left) > 0]
        room, board_of = (tuple(of[r] for r in runs) for of in (trial.left, problem.board_of))
        alone = replace(by_themselves(problem, part), room=room, board_of=board_of)
        better, _ = whole_runs(alone, pieces - 1, budget, end - budget.work, LOOKS)
        if better is not None:
            for i, row in zip(part, better, strict=True):
                trial.put(i, tuple((runs[r], length) for r, length in row or ()))
            state = trial
    return state.rows
