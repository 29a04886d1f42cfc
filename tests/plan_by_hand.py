"""The plan that people make on the back of an envelope, to compare with: longest blank first, longest board first."""

from __future__ import annotations

from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.hunting.fill import windows_now
from scarfwright.models.plan.hunting.state import Row, State
from scarfwright.models.plan.problem import Problem
from scarfwright.models.plan.windows import Spans, reach


def longest_first(problem: Problem) -> Rows:
    """Longest blanks first; each takes the longest runs there are until it is long enough, the last one just so.

    A blank that the longest runs can't make within its windows stays unmade: a person would start over.
    """
    state = State(problem)
    for which in sorted(range(len(problem.items)), key=lambda i: (-problem.items[i].length, i)):
        row = _row(state, which)
        if row is not None:
            state.put(which, row)
    return state.rows


def _row(state: State, which: int) -> Row | None:
    item = state.problem.items[which]
    for n in item.counts:
        chosen = state.ready[: -n - 1 : -1]
        windows = windows_now(state.problem, state, item, n)
        if windows is None or len(chosen) < n or sum(length for length, _ in chosen) < item.totals[n]:
            continue
        sets: list[Spans] = [((0, 0),)]
        for place, (length, _) in enumerate(chosen):
            into = windows[place] if place < n - 1 else ((item.totals[n], item.totals[n]),)
            sets.append(reach(sets[-1], item.least(n, place), length, into))
        if sets[-1]:
            return _cut_back(item.totals[n], sets, chosen, [item.least(n, place) for place in range(n)])
    return None


def _cut_back(total: int, sets: list[Spans], chosen: list[tuple[int, int]], least: list[int]) -> Row:
    """The first pieces as long as they can be, the last one cut to what is missing."""
    row: list[tuple[int, int]] = []
    at = total
    for place in range(len(chosen) - 1, -1, -1):
        length, run = chosen[place]
        nearest, furthest = at - least[place], at - length
        before = max(min(high, nearest) for low, high in sets[place] if low <= nearest and high >= furthest)
        row.append((run, at - before))
        at = before
    return tuple(reversed(row))
