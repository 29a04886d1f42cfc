"""The plan as a constraint model in whole numbers, exact: what it rules out is ruled out.

A blank without windows and mates is a heap of pieces (their order does not matter: the two that may be shorter than a
middle piece go to the ends); any other blank is a row of slots with cumulative lengths. The solver counts in integers
throughout, so a proof does not rest on rounding.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.hunting.state import Row
from scarfwright.models.plan.problem import OneBlank, Problem


@dataclass
class Heap:
    """Variables of one blank on the runs of the model: pieces and length by run; ends, middles for a plain blank."""

    choice: dict[int, Any]
    length: dict[int, Any] = field(default_factory=dict)
    pieces: dict[int, Any] = field(default_factory=dict)
    short: dict[int, Any] = field(default_factory=dict)
    long: dict[int, Any] = field(default_factory=dict)
    slots: list[dict[int, tuple[Any, Any]]] = field(default_factory=list)
    ends: list[Any] = field(default_factory=list)
    known: dict[int, Any] = field(default_factory=dict)


@dataclass
class Wood:
    """A model of the problem on some of its runs."""

    problem: Problem
    model: Any
    runs: list[int]
    heaps: list[Heap]
    load: dict[int, Any]
    count: dict[int, Any]
    joints: Any


def size_of(problem: Problem, runs: list[int]) -> int:
    """About how many variables a model would have."""
    return sum(2 * len(runs) * (1 if _plain(item) else max(item.counts, default=1)) for item in problem.items)


def make_model(problem: Problem, runs: list[int], alike: bool) -> Wood:
    """The model on `runs`. alike: runs of the same length may be put in an order (not where boards matter)."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    heaps = [
        _heap(problem, model, item, runs) if _plain(item) else _slots(problem, model, item, runs)
        for item in problem.items
    ]
    _keep_mates_apart(problem, model, heaps)
    load = {
        r: sum(problem.unit * h.length[r] + problem.kerf * h.pieces[r] for h in heaps if r in h.length) for r in runs
    }
    count = {r: sum(h.pieces[r] for h in heaps if r in h.pieces) for r in runs}
    for r in runs:
        model.add(load[r] <= problem.room[r])
    if alike:
        by_room = sorted(runs, key=lambda r: -problem.room[r])
        for one, other in pairwise(by_room):
            if problem.room[one] == problem.room[other]:
                model.add(load[one] >= load[other])
    for one, other in pairwise(range(len(heaps))):
        a, b = problem.items[one], problem.items[other]
        if a.blank == b.blank and not a.mates and not b.mates:
            model.add(_pieces(heaps[one]) <= _pieces(heaps[other]))
    joints = sum(_pieces(h) for h in heaps) - len(heaps)
    return Wood(problem, model, runs, heaps, load, count, joints)


def _plain(item: OneBlank) -> bool:
    return not item.mates and not item.zones


def _pieces(heap: Heap) -> Any:
    return sum(n * chosen for n, chosen in heap.choice.items())


def _choice(model: Any, item: OneBlank) -> dict[int, Any]:
    choice = {n: model.new_bool_var("") for n in item.counts}
    model.add_exactly_one(choice.values())
    return choice


def _total(item: OneBlank, choice: dict[int, Any]) -> Any:
    return sum(item.totals[n] * chosen for n, chosen in choice.items())


def _heap(problem: Problem, model: Any, item: OneBlank, runs: list[int]) -> Heap:
    """A blank whose joints may lie anywhere: at most two pieces shorter than a middle one."""
    heap = Heap(_choice(model, item))
    ends = min(item.ends, item.totals[1])
    apart = item.middles > ends
    for r in runs:
        reach = problem.reach_of(problem.room[r])
        most = _most(problem, problem.room[r], ends)
        if reach < ends or not most:
            continue
        heap.length[r] = model.new_int_var(0, min(reach, max(item.totals[n] for n in item.counts)), "")
        heap.short[r] = model.new_int_var(0, min(most, 2) if apart else most, "")
        pieces, least = heap.short[r], ends * heap.short[r]
        if apart and (long := _most(problem, problem.room[r], item.middles)):
            heap.long[r] = model.new_int_var(0, long, "")
            pieces, least = pieces + heap.long[r], least + item.middles * heap.long[r]
        heap.pieces[r] = pieces
        model.add(heap.length[r] >= least)
        model.add(heap.length[r] <= reach * pieces)
    if apart:
        model.add(sum(heap.short.values()) <= 2)
    model.add(sum(heap.pieces.values()) == _pieces(heap))
    model.add(sum(heap.length.values()) == _total(item, heap.choice))
    return heap


def _most(problem: Problem, room: int, least: int) -> int:
    return room // (least * problem.unit + problem.kerf)


def _slots(problem: Problem, model: Any, item: OneBlank, runs: list[int]) -> Heap:
    """A blank as a row of slots; ends[j] is N_(j+1)."""
    heap = Heap(_choice(model, item))
    most = max(item.counts)
    usable = [r for r in runs if problem.reach_of(problem.room[r]) >= min(item.ends, item.totals[1])]
    total: Any = 0
    there: list[Any] = []
    for place in range(most):
        slot = {}
        for r in usable:
            here = model.new_bool_var("")
            length = model.new_int_var(0, problem.reach_of(problem.room[r]), "")
            model.add(length <= problem.reach_of(problem.room[r]) * here)
            slot[r] = (here, length)
        heap.slots.append(slot)
        there.append(sum(chosen for n, chosen in heap.choice.items() if n > place))
        model.add(sum(here for here, _ in slot.values()) == there[place])
        total = total + sum(length for _, length in slot.values())
        heap.ends.append(total)
    model.add(total == _total(item, heap.choice))
    for n, chosen in heap.choice.items():
        for place in range(n):
            piece = sum(length for _, length in heap.slots[place].values())
            model.add(piece >= item.least(n, place)).only_enforce_if(chosen)
        for j, window in enumerate(item.windows[n]):
            _inside(model, heap.ends[j], window, chosen)
    for r in usable:
        heap.pieces[r] = sum(slot[r][0] for slot in heap.slots)
        heap.length[r] = sum(slot[r][1] for slot in heap.slots)
    return heap


def _inside(model: Any, value: Any, window: Any, chosen: Any) -> None:
    from ortools.sat.python import cp_model

    domain = cp_model.Domain.from_intervals([list(span) for span in window])
    model.add_linear_expression_in_domain(value, domain).only_enforce_if(chosen)


def _keep_mates_apart(problem: Problem, model: Any, heaps: list[Heap]) -> None:
    """Every joint of a blank starts an overlap and the clear distance before or after every joint of a mate."""
    X = problem.overlap
    for one, item in enumerate(problem.items):
        for other, clear, further in item.mates:
            if other <= one:
                continue
            for j in range(1, len(heaps[one].ends)):
                for i in range(1, len(heaps[other].ends)):
                    # N_j - j X = start; the mate's start on this blank's scale lies `further` on.
                    apart = heaps[one].ends[j - 1] - heaps[other].ends[i - 1]
                    after = math.ceil(X + clear + further + (j - i) * X)
                    before = math.floor(further + (j - i) * X - X - clear)
                    side = model.new_bool_var("")
                    both = [*_exists(model, heaps[one], j), *_exists(model, heaps[other], i)]
                    model.add(apart >= after).only_enforce_if([*both, side])
                    model.add(apart <= before).only_enforce_if([*both, ~side])


def _exists(model: Any, heap: Heap, joint: int) -> list[Any]:
    """Literals that hold where the blank has this joint."""
    if joint not in heap.known:
        heap.known[joint] = model.new_bool_var("")
        model.add(heap.known[joint] == sum(chosen for n, chosen in heap.choice.items() if n > joint))
    return [heap.known[joint]]


def hint(wood: Wood, rows: Rows) -> None:
    """Tell the model a plan to start from; pieces on runs that it does not have are left out."""
    model = wood.model
    for heap, row in zip(wood.heaps, rows, strict=True):
        if row is None:
            continue
        for n, chosen in heap.choice.items():
            model.add_hint(chosen, int(n == len(row)))
        if heap.slots:
            for place, slot in enumerate(heap.slots):
                run, length = row[place] if place < len(row) else (-1, 0)
                for r, (here, size) in slot.items():
                    model.add_hint(here, int(r == run))
                    model.add_hint(size, length if r == run else 0)
            continue
        _hint_heap(model, heap, row)


def _hint_heap(model: Any, heap: Heap, row: Row) -> None:
    for r, size in heap.length.items():
        inner = [run for run, _ in row[1:-1]].count(r)
        outer = [run for run, _ in row].count(r) - inner
        model.add_hint(size, sum(length for run, length in row if run == r))
        if heap.long:
            model.add_hint(heap.short[r], outer)
            if r in heap.long:
                model.add_hint(heap.long[r], inner)
        else:
            model.add_hint(heap.short[r], inner + outer)


def rows_of(wood: Wood, solver: Any) -> Rows:
    """The rows of a solution."""
    return [
        _slot_row(heap, solver) if heap.slots else _heap_row(item, heap, solver)
        for item, heap in zip(wood.problem.items, wood.heaps, strict=True)
    ]


def _slot_row(heap: Heap, solver: Any) -> Row:
    return tuple(
        (r, solver.value(length)) for slot in heap.slots for r, (here, length) in slot.items() if solver.value(here)
    )


def _heap_row(item: OneBlank, heap: Heap, solver: Any) -> Row:
    """Pieces in order: the run's total shared out so that every piece has its least; the short ones at the ends."""
    short: list[tuple[int, int]] = []
    long: list[tuple[int, int]] = []
    ends = min(item.ends, item.totals[1])
    for r, size in heap.length.items():
        few = solver.value(heap.short[r])
        many = solver.value(heap.long[r]) if r in heap.long else 0
        rest = solver.value(size) - few * ends - many * item.middles
        for i in range(few + many):
            least = ends if i < few else item.middles
            (short if i < few else long).append((r, least + (rest if i == few + many - 1 else 0)))
    if len(short) > 2:
        short, long = short[:2], short[2:] + long
    return (*short[:1], *long, *short[1:])
