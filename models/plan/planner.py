"""The plan: bound by count, ruin and recreate, closing. One verdict, never mixed: made, impossible, not found."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from scarfwright.models.plan.closing.model import size_of
from scarfwright.models.plan.closing.parts import fewer_by_parts
from scarfwright.models.plan.closing.solver import any_plan, fewer_joints, later_goals, single_lengths
from scarfwright.models.plan.closing.whole import whole_runs
from scarfwright.models.plan.counting.least import least_consumed, least_price
from scarfwright.models.plan.counting.rows import Bound, bound_by_count
from scarfwright.models.plan.data import Missing, Plan, Progress, Proof, Request, Row, Verdict
from scarfwright.models.plan.goals import Rows, Score, score
from scarfwright.models.plan.hunting.search import Budget, Search, joints_round, wood_round
from scarfwright.models.plan.layout import beside_spare, lay_out, spare_from
from scarfwright.models.plan.problem import Problem, build, by_themselves, mates_together
from scarfwright.models.plan.troubles import troubles

# Shares of the effort: search for joints, runs whole, runs whole a part at a time and then the solver, search for
# wood, closing that.
SHARES = (0.45, 0.6, 0.2, 0.2, 0.15)
SIDE = 0.1  # of the effort, for blanks that lie side by side, taken by themselves
CLOCKED = 1e5  # effort where the clock rules
SMALL = 400  # variables of the solver's model
ROUNDS = 3  # fresh starts of the search for joints


@dataclass
class Work:
    """A plan under way."""

    problem: Problem
    bound: Bound
    budget: Budget
    rows: Rows
    best: Score
    effort: float = 0.0
    floor: int = 0  # no plan has fewer joints, by count or by search
    joints_proved: Proof = None
    wood_proved: Proof = None
    impossible: Proof = None


def plan(
    request: Request,
    *,
    seconds: float | None = None,
    stop: Callable[[], bool] = lambda: False,
    tell: Callable[[Progress], None] = lambda _: None,
) -> Plan:
    """The best plan there is, or the best found within the rules' effort.

    Parameters: seconds, ends the search by the clock instead (the effort then bounds nothing); stop, asked now and
    then, True ends the search; tell, told how far it is. Raises ValueError where troubles.py finds what stops it.
    The plan holds what is proved, and for a shortage the blanks that are not made; what would mend it is worked out
    by remedies.py.
    """
    bad = [t for t in troubles(request) if t.stops and t.code != "plan.no_board"]
    if bad:
        raise ValueError(f"the request can't be planned: {bad[0].code}")
    until = None if seconds is None else time.monotonic() + seconds
    work = search(build(request), Budget(request.rules.effort, until, stop, tell))
    return finish(work)


def search(problem: Problem, budget: Budget) -> Work:
    """All stages in turn; each may be cut short, and the best so far is kept."""
    bound = bound_by_count(problem)
    budget.bound = bound.joints
    nothing: Rows = [None] * len(problem.items)
    work = Work(problem, bound, budget, nothing, score(problem, nothing))
    if bound.pieces is None:
        work.impossible = "count"
        budget.stage(0.3)
        _take(work, Search(problem, budget, problem.request.rules.seed).best_rows)
        return work
    effort = budget.effort if budget.until is None else CLOCKED
    if _by_patterns(work):
        return work
    work.effort = effort
    _side_by_side(work)
    if not work.impossible:
        _joints(work, effort)
    if work.best[0] == 0 and not budget.ended():
        _wood(work)
    budget.show(problem, work.best, "done", always=True)
    return work


def _take(work: Work, rows: Rows) -> None:
    fresh = score(work.problem, rows)
    if fresh < work.best:
        work.rows, work.best = rows, fresh


def _by_patterns(work: Work) -> bool:
    """Whether blanks without joints were settled by their patterns."""
    work.budget.stage(0.5)
    effort = work.budget.effort if work.budget.until is None else CLOCKED
    closed = single_lengths(work.problem, work.budget, effort)
    if closed is None:
        return False
    _take(work, closed.rows)
    work.joints_proved = "count"
    work.wood_proved = "search" if closed.settled else None
    return closed.settled == 3


def _joints(work: Work, effort: float) -> None:
    """All blanks and fewest joints. What the solver alone is likely to settle gets a short search first."""
    work.floor = work.bound.joints or 0
    rounds: list[Callable[[], None]] = [partial(_hunt, work, effort, seed) for seed in range(ROUNDS)]
    whole, close = partial(_whole, work, effort), partial(_close_joints, work, effort)
    steps: list[Callable[[], None]] = [rounds[0], whole, *rounds[1:], partial(_by_parts, work, effort), close]
    if _small(work.problem):
        steps = [partial(_hunt, work, effort / 10, 0), close, *steps]
    for step in steps:
        step()
        if _settled(work) or work.budget.ended():
            break


def _side_by_side(work: Work) -> None:
    """Blanks that keep their joints apart, taken by themselves on all the boards: what they need at least counts."""
    problem, budget = work.problem, work.budget
    groups = mates_together(problem)
    alone = sum(item.counts[0] for item in problem.items if not item.mates)
    if not alone and len(groups) < 2:
        return  # it is all there is
    need = 0
    for group in groups:
        part, nothing = by_themselves(problem, group), [None] * len(group)
        own = Work(part, bound_by_count(part), budget.part(SIDE / len(groups)), [*nothing], score(part, [*nothing]))
        _joints(own, work.effort * SIDE / len(groups))
        budget.take_back(own.budget)
        if own.impossible:
            work.impossible = own.impossible
            _take(work, Search(problem, budget, problem.request.rules.seed).best_rows)
            return
        need += len(group) + own.floor
    if alone + need > (work.bound.pieces or 0):
        blanks = {problem.items[i].blank for group in groups for i in group}
        row = Row("side by side", None, alone + need, Fraction(need), None, tuple(sorted(blanks)))
        work.bound = Bound(alone + need, row, len(problem.items))
        budget.bound = work.bound.joints


def _settled(work: Work) -> bool:
    """Whether the joints are proved, or that there is no plan."""
    if work.best[:2] == (0, work.floor):
        counted = work.bound.row is None or work.bound.row.kind != "side by side"
        work.joints_proved = "count" if counted and work.floor == work.bound.joints else "search"
    return bool(work.joints_proved or work.impossible)


def _hunt(work: Work, effort: float, again: int) -> None:
    """A fresh start of the search for joints, until no plan can be better."""
    problem = work.problem
    work.budget.stage(SHARES[0] / (ROUNDS - again))
    hunt = Search(problem, work.budget, problem.request.rules.seed + again)
    if hunt.best[:2] > (0, work.floor):
        hunt.run(joints_round(problem, work.floor, effort * SHARES[0] / ROUNDS, work.bound.row))
    _take(work, hunt.best_rows)


def _whole(work: Work, effort: float) -> None:
    """Plans in which every piece has a run to itself, from the fewest pieces up; the floor rises with every proof."""
    work.budget.stage(0.6)
    while work.best[:2] > (0, work.floor):
        rows, none = whole_runs(work.problem, work.floor + len(work.problem.items), work.budget, effort * SHARES[1])
        if rows is not None:
            _take(work, rows)
        if not none:
            break
        work.floor += 1


def _by_parts(work: Work, effort: float) -> None:
    """Runs parted anew among a few blanks at a time; the only one that many blanks allow."""
    work.budget.stage(0.4)
    if work.best[0] == 0:
        _take(work, fewer_by_parts(work.problem, work.rows, work.floor, work.budget, effort * SHARES[2]))


def _close_joints(work: Work, effort: float) -> None:
    """Ask for fewer joints, or for any plan and then for fewer joints, until there is a proof that there is none."""
    work.budget.stage(0.4)
    if work.best[0]:
        answer = any_plan(work.problem, work.budget, effort * SHARES[2])
        work.impossible = "search" if answer.impossible else None
        if answer.rows is None:
            return
        _take(work, answer.rows)
    if not _settled(work):
        answer = fewer_joints(work.problem, work.rows, work.best[1], work.floor, work.budget, effort * SHARES[2])
        if answer.rows is not None:
            _take(work, answer.rows)
        work.floor = max(work.floor, answer.least)


def _small(problem: Problem) -> bool:
    """Whether the solver alone is likely to settle all."""
    return size_of(problem, list(range(len(problem.room)))) <= SMALL


def _wood(work: Work) -> None:
    """Least wood or price at that number of joints, then boards and leftovers."""
    problem, budget = work.problem, work.budget
    effort = work.effort
    budget.stage(0.6)
    hunt = Search(problem, budget, problem.request.rules.seed, work.rows)
    least = -1 if problem.priced else int(least_consumed(problem, work.best[1]) / problem.unit_mm)
    hunt.run(wood_round(problem, work.best[1], effort * SHARES[3] * (0.05 if _small(problem) else 1), least))
    _take(work, hunt.best_rows)
    if budget.ended():
        return
    budget.stage(1.0)
    closed = later_goals(problem, work.rows, work.best[1], least, budget, effort * SHARES[4])
    _take(work, closed.rows)
    if closed.settled:
        work.wood_proved = "search"


def finish(work: Work) -> Plan:
    """The plan as people need it: places on the boards, what is proved, what is missing."""
    problem = work.problem
    laid = lay_out(problem, work.rows)
    made = work.best[0] == 0
    spare, short = spare_from(problem, laid)
    leftovers, unused = beside_spare(problem, laid, spare)
    verdict: Verdict = "made" if made else "impossible" if work.impossible else "not_found"
    wood = least_consumed(problem, work.best[1]) if made else None
    price = problem.coin * least_price(problem, work.best[1]) if made and problem.priced else None
    proved = work.wood_proved
    if (made and not problem.priced and laid.consumed == wood) or (price is not None and laid.price == price):
        proved = "count"
    if proved and not problem.priced:
        wood = laid.consumed
    elif proved:
        price = laid.price
    missing = tuple(
        Missing(item.blank, item.copy, "alone" if not item.counts else "wood")
        for item, row in zip(problem.items, work.rows, strict=True)
        if row is None
    )
    return Plan(
        verdict=verdict,
        blanks=laid.blanks,
        missing=missing,
        joints=work.best[1],
        boards_used=laid.boards_used,
        consumed=laid.consumed,
        price=laid.price,
        joints_proved=work.joints_proved if made else None,
        wood_proved=proved if made else None,
        bound_joints=work.bound.joints,
        bound_row=work.bound.row,
        bound_consumed=wood,
        bound_price=price,
        leftovers=leftovers,
        spare=spare,
        spare_short=short,
        unused=unused,
        impossible=None if made else work.impossible,
        work=work.budget.work,
        repeatable=work.budget.until is None and not work.budget.stopped,
        stopped=work.budget.stopped,
    )
