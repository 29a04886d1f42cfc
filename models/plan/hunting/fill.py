"""Filling one blank: runs are drawn, the last by best fit, joints kept in their windows; the cheapest row counts."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from scarfwright.models.plan.hunting.state import Row, State
from scarfwright.models.plan.problem import OneBlank, Problem
from scarfwright.models.plan.windows import Span, Spans, reach, start_forbids, without

STEPS = 4000  # of a table of worth
MOST_PAIRS = 60  # runs looked at for the last but one piece


@dataclass(frozen=True)
class Taste:
    """What a row costs, in marks. table: what a run is worth by what it still gives, in steps of `step` marks.

    joint: cost of one more piece. opening: cost of a board's first piece, by board; empty for none.
    """

    table: tuple[float, ...]
    step: int
    joint: float
    opening: tuple[float, ...] = ()

    def worth(self, length: int) -> float:
        return self.table[length // self.step] if length > 0 else 0.0


def taste(
    longest: int,
    useful: int,
    bend: float,
    joint: float,
    opening: tuple[float, ...] = (),
    tau: int = 0,
    mix: float = 1,
) -> Taste:
    """A run that gives l marks is worth mix * l * (l / longest)^bend and what it has over tau, nothing below useful."""
    step = max(1, longest // STEPS)
    table = []
    for length in range(0, longest + step, step):
        soft = mix * length * (length / max(longest, 1)) ** bend + (max(length - tau, 0) if tau else 0)
        table.append(soft if length >= useful else 0.0)
    return Taste(tuple(table), step, joint, opening)


def starts_of(problem: Problem, row: Row) -> list[Fraction]:
    """Where each joint of a row begins, from the blank's raw start [marks]."""
    found, total = [], 0
    for j, (_, length) in enumerate(row[:-1], 1):
        total += length
        found.append(total - j * problem.overlap)
    return found


def windows_now(problem: Problem, state: State, item: OneBlank, n: int) -> tuple[Spans, ...] | None:
    """Where N_1 .. N_(n-1) may lie, mates that are made taken into account; None if nowhere."""
    windows = item.windows[n]
    if not item.mates or n == 1:
        return windows
    places = [
        (start + further, clear)
        for mate, clear, further in item.mates
        if (row := state.rows[mate]) is not None
        for start in starts_of(problem, row)
    ]
    if not places:
        return windows
    found: list[Spans] = []
    for j, window in enumerate(windows, 1):
        forbidden = [start_forbids(j, start, problem.overlap, clear) for start, clear in places]
        open_: list[Span] = [span for low, high in window for span in without(low, high, forbidden)]
        if not open_:
            return None
        found.append(tuple(open_))
    return tuple(found)


def fill(state: State, which: int, pick: Random, tries: int, taste: Taste, skip: float = 0.0) -> tuple[Row | None, int]:
    """The cheapest row found for a blank in about `tries` draws, and the draws made.

    With chance `skip` a number of pieces that serves is passed over for the next.
    """
    problem = state.problem
    item = problem.items[which]
    made = 0
    for n in item.counts:
        if n > 1 and sum(a for a, _ in state.ready[-n:]) < item.totals[n]:
            continue
        windows = windows_now(problem, state, item, n)
        if windows is None:
            continue
        best: Row | None = None
        least = float("inf")
        for attempt in range(1 if n == 1 else tries):
            made += 1
            row = draw(state, item, n, windows, pick, closely=attempt % 4 == 3)
            if row is None:
                if attempt >= 8 and best is None:
                    break
                continue
            cost = row_cost(state, row, taste)
            if cost < least:
                best, least = row, cost
        if best is not None and (n == item.counts[-1] or pick.random() >= skip):
            return best, made
    return None, made


def row_cost(state: State, row: Row, taste: Taste) -> float:
    """What a row costs in a state, by `taste`."""
    problem = state.problem
    cost = taste.joint * len(row)
    for run, length in row:
        left = state.left[run]
        before = (left - problem.kerf) // problem.unit
        after = (left - length * problem.unit - 2 * problem.kerf) // problem.unit
        cost += taste.worth(before) - taste.worth(after)
        if taste.opening and not state.on_board[problem.board_of[run]]:
            cost += taste.opening[problem.board_of[run]]
    return cost


def draw(
    state: State, item: OneBlank, n: int, windows: tuple[Spans, ...], pick: Random, *, closely: bool = False
) -> Row | None:
    """One random row of n pieces, or None where the draw leads nowhere.

    closely: the last two runs are the pair that leaves least over, of a random half of all.
    """
    ready = state.ready
    many = len(ready)
    total = item.totals[n]
    here: Spans = ((0, 0),)
    sets = [here]
    chosen: list[tuple[int, int]] = []
    for place in range(n - 1):
        window = windows[place]
        least = item.ends if place == 0 else item.middles
        first = bisect_left(ready, (max(least, window[0][0] - here[-1][1]), -1))
        if first >= many:
            return None
        past = many
        if pick.random() < 0.9:  # mostly runs that are used up
            past = bisect_left(ready, (window[-1][1] - here[0][0] + 1, -1), first)
            if past == first:
                past = many
        if closely and place == n - 2:
            at = _pair(ready, first, total - here[-1][1], item.ends, pick)
        else:
            at = first + int((past - first) * pick.random())
        run = ready[at]
        if run in chosen:
            return None
        if len(here) == 1 and len(window) == 1:
            low = max(here[0][0] + least, window[0][0])
            high = min(here[0][1] + run[0], window[0][1])
            if low > high:
                return None
            here = ((low, high),)
        else:
            here = reach(here, least, run[0], window)
            if not here:
                return None
        sets.append(here)
        chosen.append(run)
    last = _best_fit(state, item, n, here, chosen)
    if last is None:
        return None
    chosen.append(last)
    return _lengths(item, n, total, sets, chosen)


def _pair(ready: list[tuple[int, int]], first: int, need: int, least: int, pick: Random) -> int:
    """Where in `ready` (from `first`) the run lies that together with another leaves least over `need`."""
    many = len(ready)
    step = 1 + (many - first) // MOST_PAIRS
    best, over = first, 1 << 60
    chance = pick.random
    for at in range(first + int(step * chance()), many, step):
        if chance() < 0.5:
            continue
        length = ready[at][0]
        other = bisect_left(ready, (max(need - length, least), -1))
        if other == at:
            other += 1
        if other < many and length + ready[other][0] - need < over:
            best, over = at, length + ready[other][0] - need
    return best


def _best_fit(
    state: State, item: OneBlank, n: int, here: Spans, chosen: list[tuple[int, int]]
) -> tuple[int, int] | None:
    """The shortest run that completes the row."""
    least = item.least(n, n - 1)
    total = item.totals[n]
    if least > total - here[0][0]:
        return None
    ready = state.ready
    for at in range(bisect_left(ready, (max(total - here[-1][1], least), -1)), len(ready)):
        run = ready[at]
        nearest, furthest = total - least, total - run[0]
        if run not in chosen and any(low <= nearest and furthest <= high for low, high in here):
            return run
    return None


def _lengths(item: OneBlank, n: int, total: int, sets: list[Spans], chosen: list[tuple[int, int]]) -> Row | None:
    """Lengths from the last piece back, each as long as it can be: the first piece takes what is left over."""
    row: list[tuple[int, int]] = []
    at = total
    for place in range(n - 1, -1, -1):
        most, run = chosen[place]
        least = item.least(n, place)
        before = next(
            (
                max(low, at - most)
                for low, high in sets[place]
                if high >= at - most and max(low, at - most) <= at - least
            ),
            None,
        )
        if before is None:
            return None
        row.append((run, at - before))
        at = before
    return tuple(reversed(row))
