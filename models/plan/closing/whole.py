"""Where wood is so scarce that every piece has a clear run to itself: which runs make which blank, exactly.

P pieces lie on the P longest runs at most. If P - 1 runs can't make all blanks with P pieces, each of the P longest
gives exactly one. Then runs are parted among blanks, and what is over is little: only sets of runs that are hardly
longer than their blank serve. All sets for each blank are written down, joined blank by blank from two sides, and the
two sides must meet with every run taken once. No solver: sets are whole numbers, a bit or a few for each length of run.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from scarfwright.models.plan.counting.rows import bound_by_count
from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.hunting.search import Budget
from scarfwright.models.plan.problem import OneBlank, Problem
from scarfwright.models.plan.windows import Spans, reach

MOST_STEPS = 3_000_000  # choices of runs for one blank
MOST_WAYS = 20_000  # of one blank
MOST_BITS = 63
LOOKS = (1_000_000, 10_000_000, 40_000_000)  # joins looked at in one step: first few of all sets, then more
SETS = 60_000  # sets of runs for one blank that make a point of effort, if tried for an order
LOOKED, KEPT = 50_000_000, 10_000_000  # joins looked at, and kept to be sorted, that make a point of effort


@dataclass(frozen=True)
class Way:
    """One way to make a blank: lengths of its runs in the order of the pieces [marks], the same as a whole number, and
    what the runs have over the blank, rounded down [marks]."""

    order: tuple[int, ...]
    code: int
    over: int


@dataclass(frozen=True)
class Shelf:
    """Sets of runs as whole numbers: a field of bits a length counts how many are taken.

    A field begins so high that one too many carries into the next: `edges` are the bits that are carried into.
    """

    field: dict[int, int]
    edges: int
    begin: int
    full: int


def whole_runs(
    problem: Problem, pieces: int, budget: Budget, effort: float, steps: tuple[int, ...] = LOOKS
) -> tuple[Rows | None, bool]:
    """A plan of `pieces` pieces in which each has a run to itself, and whether without one there is no plan at all.

    Mates are left out of account: a proof holds all the same, a plan is given only where there are none.
    """
    runs = sorted(range(len(problem.room)), key=lambda r: (-problem.room[r], r))[:pieces]
    lengths = Counter(problem.reach_of(problem.room[r]) for r in runs)
    shelf = _shelf(lengths)
    alone = len(runs) == pieces and not _may_share(problem, runs[:-1], pieces)
    if len(runs) < pieces or shelf.full.bit_length() > MOST_BITS or budget.over():
        return None, False
    end = budget.work + effort
    ways = _all_ways(problem, lengths, shelf, pieces, budget, end)
    if ways is None:
        return None, False
    chosen, all_seen = None, False
    for looks in steps:
        if chosen is None and not all_seen and budget.work < end and not budget.over():
            chosen, all_seen = _Meeting(ways, _over(problem, lengths, pieces), shelf, budget, looks).chosen()
    if chosen is None or any(item.mates for item in problem.items):
        return None, alone and all_seen and chosen is None
    free: dict[int, list[int]] = {}
    for r in reversed(runs):
        free.setdefault(problem.reach_of(problem.room[r]), []).append(r)
    return [
        tuple((free[length].pop(), size) for length, size in zip(way.order, _cut(item, way.order), strict=True))
        for item, way in zip(problem.items, chosen, strict=True)
    ], False


def _may_share(problem: Problem, runs: list[int], pieces: int) -> bool:
    """Whether so many pieces might come out of fewer runs, as far as counting tells."""
    room, board_of = (tuple(of[r] for r in runs) for of in (problem.room, problem.board_of))
    least = bound_by_count(replace(problem, room=room, board_of=board_of)).pieces
    return least is not None and least <= pieces


def _shelf(lengths: Counter[int]) -> Shelf:
    field, edges, begin, at = {}, 0, 0, 0
    for length, many in sorted(lengths.items()):
        field[length] = 1 << at
        begin |= ((1 << many.bit_length()) - 1 - many) << at
        at += many.bit_length()
        edges |= 1 << at
    return Shelf(field, edges, begin, (1 << at) - 1)


def _over(problem: Problem, lengths: Counter[int], pieces: int) -> int:
    """What all runs together have over what is wanted [marks]."""
    wanted = sum((i.length for i in problem.items), Fraction(0)) + (pieces - len(problem.items)) * problem.overlap
    return math.floor(lengths.total() and sum(lengths.elements()) - wanted)


def _all_ways(
    problem: Problem, lengths: Counter[int], shelf: Shelf, pieces: int, budget: Budget, end: float
) -> list[list[Way]] | None:
    """For every blank all its ways; None where they are too many to write down, or the work is at its end."""
    over = _over(problem, lengths, pieces)
    runs = sorted(lengths.elements())
    alike: dict[Any, list[Way]] = {}
    for item in problem.items:
        key = (item.totals, item.zones)
        if key in alike:
            continue
        alike[key] = []
        for n in item.counts:
            total = item.totals[n]
            if sum(runs[:n]) > total + over or sum(runs[-n:]) < total:
                continue
            if math.comb(len(runs), n - 1) > MOST_STEPS:
                return None
            for chosen in _sets(runs, n, total, over):
                budget.work += 1 / SETS
                if budget.over() or budget.work >= end or len(alike[key]) > MOST_WAYS:
                    return None
                if (order := _order(item, chosen)) is not None:
                    more = math.floor(sum(chosen) - item.length - (n - 1) * problem.overlap)
                    alike[key].append(Way(order, sum(shelf.field[x] for x in chosen), more))
    return [alike[item.totals, item.zones] for item in problem.items]


def _sets(lengths: list[int], n: int, total: int, over: int) -> Iterator[tuple[int, ...]]:
    """All different sets of n of the lengths (sorted) that add up to total .. total + over."""
    many = len(lengths)
    heads = [0]
    for length in lengths:
        heads.append(heads[-1] + length)

    def onward(first: int, n: int, total: int) -> Iterator[tuple[int, ...]]:
        if n == 0:
            yield ()
            return
        for at in range(first, many - n + 1):
            if heads[at + n] - heads[at] > total + over:
                return
            most = lengths[at] + heads[many] - heads[many - n + 1]
            if most >= total and (at == first or lengths[at] != lengths[at - 1]):
                for rest in onward(at + 1, n - 1, total - lengths[at]):
                    yield (lengths[at], *rest)

    return onward(0, n, total)


def _order(item: OneBlank, chosen: tuple[int, ...]) -> tuple[int, ...] | None:
    """An order of the runs with which every joint lies in its window; None if there is none. Short ones at the ends
    come first; for a blank without stretches no other order does better."""
    best = (*chosen[:1], *chosen[2:], *chosen[1:2])
    if _tables(item, best)[-1]:
        return best
    return _onward(item, len(chosen), chosen, ((0, 0),)) if item.zones else None


def _onward(item: OneBlank, n: int, rest: tuple[int, ...], here: Spans) -> tuple[int, ...] | None:
    """An order of the runs that are left, from where the last joint may lie; None if there is none."""
    place = n - len(rest)
    into = item.windows[n][place] if place < n - 1 else ((item.totals[n], item.totals[n]),)
    for at, length in enumerate(rest):
        if at and length == rest[at - 1]:
            continue
        ahead = reach(here, item.least(n, place), length, into)
        others = (*rest[:at], *rest[at + 1 :])
        if not ahead or ahead[-1][1] + sum(others) < item.totals[n]:
            continue
        if not others:
            return (length,)
        if (row := _onward(item, n, others, ahead)) is not None:
            return (length, *row)
    return None


def _tables(item: OneBlank, order: tuple[int, ...]) -> list[Spans]:
    """Where N_0, N_1 .. N_n may lie for pieces no longer than these runs."""
    n = len(order)
    sets: list[Spans] = [((0, 0),)]
    for place, length in enumerate(order):
        into = item.windows[n][place] if place < n - 1 else ((item.totals[n], item.totals[n]),)
        sets.append(reach(sets[-1], item.least(n, place), length, into))
    return sets


def _cut(item: OneBlank, order: tuple[int, ...]) -> list[int]:
    """Lengths of the pieces, found from the last one back, each as long as it can be."""
    sets, at, sizes = _tables(item, order), item.totals[len(order)], []
    for place in range(len(order) - 1, -1, -1):
        furthest, nearest = at - order[place], at - item.least(len(order), place)
        before = next(max(low, furthest) for low, high in sets[place] if max(low, furthest) <= min(high, nearest))
        sizes.append(at - before)
        at = before
    return sizes[::-1]


class _Meeting:
    """Two sides joined blank by blank that meet in the last blank; `thinned` where not all could be kept."""

    def __init__(self, ways: list[list[Way]], over: int, shelf: Shelf, budget: Budget, looks: int) -> None:
        self.over, self.shelf, self.budget, self.looks = over, shelf, budget, looks
        self.thinned = False
        self.ways = self._fitting(ways)
        self.least = [min((w.over for w in row), default=0) for row in self.ways]

    def _fitting(self, ways: list[list[Way]]) -> list[list[Way]]:
        """Ways that leave enough over for the other blanks."""
        while all(ways):
            least = [min(w.over for w in row) for row in ways]
            left = self.over - sum(least)
            fewer = [[w for w in row if w.over <= left + low] for row, low in zip(ways, least, strict=True)]
            if sum(map(len, fewer)) == sum(map(len, ways)):
                break
            ways = fewer
        return ways

    def chosen(self) -> tuple[list[Way] | None, bool]:
        """A way for every blank that together take every run once, and whether all there is was looked at."""
        import numpy as np

        if not all(self.ways):
            return None, True
        order = sorted(range(len(self.ways)), key=lambda i: (len(self.ways[i]), i))
        last = order.pop()
        sides = [order[0::2], order[1::2]]
        one, other = (self._joined(side) for side in sides)
        rest = np.sort(np.uint64(self.shelf.full + self.shelf.begin) - other[-1][0])
        for way in self.ways[last]:
            if not len(rest):
                break
            met, _ = self._with(*one[-1], way, self.over)
            at = np.minimum(np.searchsorted(rest, met), len(rest) - 1)
            if (hits := met[rest[at] == met]).size:
                back = self.shelf.full + self.shelf.begin - int(hits[0])
                found = {last: way}
                found |= self._traced(sides[0], one, int(hits[0]) - way.code) | self._traced(sides[1], other, back)
                return [found[i] for i in range(len(self.ways))], True
        return None, not self.thinned

    def _with(self, sets: Any, overs: Any, way: Way, limit: int) -> tuple[Any, Any]:
        """All sets that a way can be added to; sets lie in the order of what is over."""
        import numpy as np

        most = int(np.searchsorted(overs, limit - way.over, side="right"))
        if self.budget.over():
            self.thinned, most = True, 0
        code = np.uint64(way.code)
        both = sets[:most] + code
        fits = ((both ^ sets[:most] ^ code) & np.uint64(self.shelf.edges)) == 0
        fitting = both[fits]
        self.budget.work += most / LOOKED + len(fitting) / KEPT
        return fitting, overs[:most][fits] + way.over

    def _joined(self, side: list[int]) -> list[tuple[Any, Any]]:
        """Level by level the sets of runs that the first blanks of a side take, and what they have over, least first.
        Where they are too many to look at, those with their share of it are kept."""
        import numpy as np

        levels = [(np.array([self.shelf.begin], dtype=np.uint64), np.zeros(1, dtype=np.int64))]
        limit = left = self.over - sum(self.least)
        for done, which in enumerate(side):
            sets, overs = levels[-1]
            many = max(1, self.looks // len(self.ways[which]))
            if len(sets) > many:
                self.thinned = True
                usual = int(np.searchsorted(overs, limit - left + left * done // len(self.ways)))
                low = min(max(usual - many // 2, 0), len(sets) - many)
                sets, overs = sets[low : low + many], overs[low : low + many]
            limit += self.least[which]
            parts = [self._with(sets, overs, way, limit) for way in self.ways[which]]
            codes, first = np.unique(np.concatenate([p[0] for p in parts]), return_index=True)
            more = np.concatenate([p[1] for p in parts])[first]
            order = np.argsort(more, kind="stable")
            levels.append((codes[order], more[order]))
        return levels

    def _traced(self, side: list[int], levels: list[tuple[Any, Any]], code: int) -> dict[int, Way]:
        """The ways that led to a set."""
        import numpy as np

        found = {}
        for which, (sets, _) in zip(reversed(side), levels[-2::-1], strict=True):
            ways = [w for w in self.ways[which] if not ((code - w.code) ^ w.code ^ code) & self.shelf.edges]
            before = np.isin(np.array([max(code - w.code, 0) for w in ways], dtype=np.uint64), sets)
            found[which] = ways[int(before.argmax())]
            code -= found[which].code
        return found
