"""Where no blank may have a joint: the cutting of single lengths, solved over all ways to fill a run.

Every way to cut one run is a pattern; how often each is used is settled in whole numbers, goal after goal.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from scarfwright.models.plan.goals import Rows, run_consumed
from scarfwright.models.plan.problem import Problem

MOST_PATTERNS = 30_000


@dataclass(frozen=True)
class Pattern:
    """Pieces cut from a run of a kind: how many of each length; what it loses and what is left over [units]."""

    shelf: int
    many: tuple[int, ...]
    consumed: int
    leftover: int


@dataclass
class Shelf:
    """Runs alike: the room and the price of their boards."""

    room: int
    price: int
    runs: list[int]


def suits(problem: Problem) -> bool:
    """No blank may have a joint, and no board gives two runs, so that runs and boards are one."""
    return all(i.counts == (1,) for i in problem.items) and len(set(problem.board_of)) == len(problem.board_of)


def patterns(problem: Problem) -> tuple[list[Shelf], list[int], list[Pattern]] | None:
    """Kinds of runs, lengths wanted (longest first) and all patterns; None where there are too many."""
    lengths = sorted({i.totals[1] for i in problem.items}, reverse=True)
    wanted = [sum(i.totals[1] == x for i in problem.items) for x in lengths]
    shelves: dict[tuple[int, int], Shelf] = {}
    for r, room in enumerate(problem.room):
        price = problem.prices[problem.board_of[r]]
        shelves.setdefault((room, price), Shelf(room, price, [])).runs.append(r)
    found: list[Pattern] = []
    for number, shelf in enumerate(shelves.values()):
        for many, left in _ways(problem, lengths, wanted, shelf.room):
            consumed = run_consumed(shelf.room, problem.kerf, left, sum(many), problem.keep)
            scrap = left - problem.kerf
            found.append(Pattern(number, many, consumed, scrap if scrap >= max(problem.keep, 1) else 0))
            if len(found) > MOST_PATTERNS:
                return None
    return list(shelves.values()), lengths, found


def _ways(problem: Problem, lengths: list[int], wanted: list[int], room: int) -> Iterator[tuple[tuple[int, ...], int]]:
    """All ways to fill a run with at least one piece, and the room left."""

    def onward(at: int, left: int) -> Iterator[tuple[tuple[int, ...], int]]:
        if at == len(lengths):
            yield (), left
            return
        size = lengths[at] * problem.unit + problem.kerf
        for many in range(min(left // size, wanted[at]) + 1):
            for rest, over in onward(at + 1, left - many * size):
                yield (many, *rest), over

    return ((many, left) for many, left in onward(0, room) if any(many))


@dataclass
class Cutting:
    """The model over patterns."""

    problem: Problem
    model: Any
    shelves: list[Shelf]
    lengths: list[int]
    patterns: list[Pattern]
    times: list[Any]


def make_cutting(problem: Problem, kinds: tuple[list[Shelf], list[int], list[Pattern]]) -> Cutting:
    """Every length as often as wanted, no kind of run more often than there is."""
    from ortools.sat.python import cp_model

    shelves, lengths, found = kinds
    model = cp_model.CpModel()
    times = [model.new_int_var(0, len(shelves[p.shelf].runs), "") for p in found]
    for at, length in enumerate(lengths):
        wanted = sum(i.totals[1] == length for i in problem.items)
        model.add(sum(p.many[at] * t for p, t in zip(found, times, strict=True) if p.many[at]) == wanted)
    for number, shelf in enumerate(shelves):
        here = [t for p, t in zip(found, times, strict=True) if p.shelf == number]
        if here:
            model.add(sum(here) <= len(shelf.runs))
    return Cutting(problem, model, shelves, lengths, found, times)


def cutting_goals(cutting: Cutting) -> list[Any]:
    """What is to be least, in order: price or wood, boards, minus the longest leftover."""
    pairs = list(zip(cutting.patterns, cutting.times, strict=True))
    if cutting.problem.priced:
        first = sum(cutting.shelves[p.shelf].price * t for p, t in pairs)
    else:
        first = sum(p.consumed * t for p, t in pairs)
    chosen = {x: cutting.model.new_bool_var("") for x in sorted({p.leftover for p in cutting.patterns})}
    cutting.model.add_exactly_one(chosen.values())
    for x, literal in chosen.items():
        if x:
            cutting.model.add(sum(t for p, t in pairs if p.leftover == x) >= 1).only_enforce_if(literal)
    return [first, sum(cutting.times), sum(-x * literal for x, literal in chosen.items())]


def cutting_rows(cutting: Cutting, solver: Any) -> Rows:
    """The rows of a solution."""
    problem = cutting.problem
    rows: Rows = [None] * len(problem.items)
    waiting = {x: [k for k, i in enumerate(problem.items) if i.totals[1] == x] for x in cutting.lengths}
    idle = [shelf.runs[:] for shelf in cutting.shelves]
    for pattern, times in zip(cutting.patterns, cutting.times, strict=True):
        for _ in range(solver.value(times)):
            run = idle[pattern.shelf].pop(0)
            for length, many in zip(cutting.lengths, pattern.many, strict=True):
                for _ in range(many):
                    rows[waiting[length].pop(0)] = ((run, length),)
    return rows
