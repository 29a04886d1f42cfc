"""Closing the gap: the exact model with the best plan as a start and the bound as a row, goal after goal."""

from __future__ import annotations

import math
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from scarfwright.models.plan.closing.model import Wood, hint, make_model, rows_of, size_of
from scarfwright.models.plan.closing.patterns import cutting_goals, cutting_rows, make_cutting, patterns, suits
from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.hunting.search import Budget
from scarfwright.models.plan.problem import Problem

LARGEST_LATER = 6_000  # with the later goals
LARGEST = 60_000  # variables; a larger model is left to the search alone
SOLVER_WORK = 1.0  # the solver's own measure of work for one point of effort


@dataclass(frozen=True)
class Answer:
    """What the solver says: rows if it found any and what they cost; settled: they are the best, or there are none.

    least: nothing costs less.
    """

    rows: Rows | None
    value: int | None
    settled: bool
    impossible: bool
    least: int = 0


NOTHING = Answer(None, None, False, False)


def solve(model: Any, read: Callable[[Any], Rows], budget: Budget, effort: float) -> Answer:
    """Run the solver on one thread, bounded by its own measure of work (the same on every machine), the clock and the
    user. Ctrl-C stays with Python: the solver runs in a thread of its own while this one watches the flag."""
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.catch_sigint_signal = False
    solver.parameters.max_deterministic_time = effort * SOLVER_WORK
    if budget.left < math.inf:
        solver.parameters.max_time_in_seconds = max(budget.left, 0.01)
    found: list[Any] = []
    worker = threading.Thread(target=lambda: found.append(solver.solve(model)), daemon=True)
    worker.start()
    try:
        while worker.is_alive():
            worker.join(0.02)
            if budget.over():
                solver.stop_search()
    finally:
        solver.stop_search()
        worker.join()
    status = found[0]
    budget.work += solver.response_proto.deterministic_time / SOLVER_WORK
    good = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return Answer(
        read(solver) if good else None,
        round(solver.objective_value) if good else None,
        status == cp_model.OPTIMAL or status == cp_model.INFEASIBLE,
        status == cp_model.INFEASIBLE,
        math.ceil(solver.best_objective_bound - 1e-6) if good or status == cp_model.UNKNOWN else 0,
    )


def any_plan(problem: Problem, budget: Budget, effort: float) -> Answer:
    """A plan, whatever it costs, or the proof that there is none."""
    runs = list(range(len(problem.room)))
    if size_of(problem, runs) > LARGEST:
        return NOTHING
    wood = make_model(problem, runs, alike=True)
    return solve(wood.model, lambda solver: rows_of(wood, solver), budget, effort)


def fewer_joints(problem: Problem, rows: Rows | None, best: int, bound: int, budget: Budget, effort: float) -> Answer:
    """A plan with fewer than `best` joints, or the proof that there is none.

    A plan of P pieces uses at most P runs, and the P longest will do: whatever lies on a shorter run can be moved to
    one of them that is free.
    """
    pieces = best - 1 + len(problem.items)
    runs = sorted(range(len(problem.room)), key=lambda r: (-problem.room[r], r))[:pieces]
    if size_of(problem, runs) > LARGEST:
        return NOTHING
    wood = make_model(problem, runs, alike=True)
    wood.model.add(wood.joints <= best - 1)
    wood.model.add(wood.joints >= bound)
    wood.model.minimize(wood.joints)
    if rows is not None:
        hint(wood, rows)
    answer = solve(wood.model, lambda solver: rows_of(wood, solver), budget, effort)
    return replace(answer, least=best) if answer.impossible else answer


@dataclass(frozen=True)
class Closed:
    """The best rows after the later goals, how many of the three were settled, and the bound of the first."""

    rows: Rows
    settled: int


def later_goals(problem: Problem, rows: Rows, joints: int, least: int, budget: Budget, effort: float) -> Closed:
    """Price or wood, boards and the longest leftover at `joints` joints, one after the other while each is settled.

    least: no plan has less of the first of them.
    """
    runs = list(range(len(problem.room)))
    if size_of(problem, runs) + 4 * len(runs) > LARGEST_LATER:
        return Closed(rows, 0)
    wood = make_model(problem, runs, alike=False)
    wood.model.add(wood.joints <= joints)
    goals = goals_of(wood)
    wood.model.add(goals[0] >= least)
    return _in_turn(wood.model, goals, lambda s: rows_of(wood, s), rows, budget, effort, lambda r: hint(wood, r))


def single_lengths(problem: Problem, budget: Budget, effort: float) -> Closed | None:
    """The plan where no blank may have a joint, by patterns; None where that does not suit or finds nothing."""
    kinds = patterns(problem) if suits(problem) else None
    if kinds is None:
        return None
    cutting = make_cutting(problem, kinds)
    closed = _in_turn(
        cutting.model, cutting_goals(cutting), lambda s: cutting_rows(cutting, s), None, budget, effort, lambda _: None
    )
    return closed if closed.rows else None


def _in_turn(
    model: Any,
    goals: list[Any],
    read: Callable[[Any], Rows],
    rows: Rows | None,
    budget: Budget,
    effort: float,
    start: Callable[[Rows], None],
) -> Closed:
    """Minimise goal after goal; each is held before the next begins. What is not settled ends it."""
    settled = 0
    best = rows
    for goal in goals:
        model.clear_hints()
        if best is not None:
            start(best)
        model.minimize(goal)
        answer = solve(model, read, budget, effort)
        if answer.rows is not None:
            best = answer.rows
        if not answer.settled or answer.value is None:
            break
        settled += 1
        model.add(goal <= answer.value)
    return Closed(best or [], settled)


def goals_of(wood: Wood) -> list[Any]:
    """What is to be least after the joints, in order: price or wood, boards, minus the longest leftover [units]."""
    problem, model = wood.problem, wood.model
    opened = {b: model.new_bool_var("") for b in sorted(set(problem.board_of))}
    lost, kept = [], []
    for r in wood.runs:
        whole, keep = problem.room[r] - problem.kerf, max(problem.keep, 1)
        used, keeps = model.new_bool_var(""), model.new_bool_var("")
        model.add(wood.count[r] <= (problem.room[r] // (problem.unit + problem.kerf)) * used)
        model.add(wood.count[r] >= 1).only_enforce_if(used)
        model.add_implication(used, opened[problem.board_of[r]])
        model.add_implication(keeps, used)
        model.add(wood.load[r] <= whole - keep).only_enforce_if(keeps)
        loss = model.new_int_var(0, whole, "")
        model.add(loss >= wood.load[r]).only_enforce_if(keeps)
        model.add(loss >= whole).only_enforce_if([used, ~keeps])
        lost.append(loss)
        kept.append((r, whole, used, keeps))
    for b, literal in opened.items():
        model.add(sum(wood.count[r] for r in wood.runs if problem.board_of[r] == b) >= 1).only_enforce_if(literal)
    longest = model.new_int_var(0, max(problem.room), "")
    none = model.new_bool_var("")
    model.add(longest == 0).only_enforce_if(none)
    ways = [none]
    for r, whole, used, keeps in kept:
        cut, uncut = model.new_bool_var(""), model.new_bool_var("")
        model.add_implication(cut, keeps)
        model.add(longest <= whole - wood.load[r]).only_enforce_if(cut)
        ways.append(cut)
        if whole >= max(problem.keep, 1):
            model.add_bool_and(opened[problem.board_of[r]], ~used).only_enforce_if(uncut)
            model.add(longest <= whole).only_enforce_if(uncut)
            ways.append(uncut)
    model.add_exactly_one(ways)
    prices = sum(problem.prices[b] * literal for b, literal in opened.items())
    return [prices if problem.priced else sum(lost), sum(opened.values()), -longest]
