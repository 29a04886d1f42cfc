"""Bounds by count: rows of arithmetic that no plan can get round, each simple enough to check by hand.

For every tau >= -kerf, m pieces cut from a run of length L have sum(l - tau) <= max(L - tau, 0), and a blank of n
pieces has sum(l - tau) = T(n) - n tau. So over all blanks sum T(n) - n tau <= sum over runs max(L - tau, 0) ("length").
For tau >= 0 a blank has at least ceil((T(n) - n tau) / (longest - tau)) pieces longer than tau, and a run gives at most
floor((L + kerf) / (tau + mark + kerf)) of them ("pieces"); and the middle pieces alone, n - 2 a blank, must come out of
the runs ("middles"). For each row the least number of pieces that satisfies it is found exactly, over all ways to
share the pieces out among the blanks, in whole numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from scarfwright.models.plan.counting.blocks import beyond
from scarfwright.models.plan.data import Row
from scarfwright.models.plan.problem import OneBlank, Problem

MOST_ROWS = 700  # more lengths of runs than this are thinned out: any choice of rows is a bound
FAR = 1 << 60
MOST_WORK = 6_000_000  # blanks x pieces x rows in one exact table


@dataclass(frozen=True)
class Bound:
    """pieces: no plan of all blanks has fewer; None: there is no plan. row: why (None: one piece a blank)."""

    pieces: int | None
    row: Row | None
    items: int

    @property
    def joints(self) -> int | None:
        return None if self.pieces is None else self.pieces - self.items


@dataclass(frozen=True)
class Rack:
    """The runs as lengths and how many there are of each, in units (without the kerf), longest first."""

    lengths: tuple[int, ...]
    counts: tuple[int, ...]
    unit: int
    kerf: int
    longest: int


def rack(problem: Problem) -> Rack:
    """The problem's runs by length."""
    many: dict[int, int] = {}
    for room in problem.room:
        many[room - problem.kerf] = many.get(room - problem.kerf, 0) + 1
    lengths = sorted(many, reverse=True)
    return Rack(
        tuple(lengths), tuple(many[x] for x in lengths), problem.unit, problem.kerf, problem.longest * problem.unit
    )


def bound_by_count(problem: Problem) -> Bound:
    """The best single row. Work grows with blanks x pieces x lengths of runs."""
    items = problem.items
    for item in items:
        if not item.counts:
            return Bound(None, Row("alone", None, None, None, None, (item.blank,)), len(items))
    base = sum(item.counts[0] for item in items)
    best = Bound(base, None, len(items))
    if base > len(items):
        best = Bound(base, Row("alone", None, base, None, None), len(items))
    if not items:
        return best
    shelf = rack(problem)
    for kind, taus in _thresholds(problem, shelf):
        best = _better(problem, shelf, kind, taus, best)
        if best.pieces is None:
            return best
    return best


Kind = Literal["length", "pieces", "middles"]


def _thresholds(problem: Problem, shelf: Rack) -> list[tuple[Kind, list[int]]]:
    unit = shelf.unit
    lengths = [x for x in shelf.lengths if x > 0]
    if len(lengths) > MOST_ROWS:
        lengths = [lengths[round(i * (len(lengths) - 1) / (MOST_ROWS - 1))] for i in range(MOST_ROWS)]
    lengths = [x // unit * unit for x in lengths]
    least = {(part - 1) * unit for i in problem.items for part in (i.ends, i.middles)}
    halves = {(x + shelf.kerf) // 2 - shelf.kerf for x in lengths[:200]}
    longer = sorted({x for x in {*lengths, *least, *halves} if 0 <= x < shelf.longest})
    middles = sorted({i.middles * unit for i in problem.items})
    return [("length", sorted({-shelf.kerf, *longer, shelf.longest})), ("pieces", longer), ("middles", middles)]


def demand(item: OneBlank, n: int, kind: Kind, taus: Any, shelf: Rack) -> Any:
    """What a blank of n pieces takes of a row at least, for each tau [units, or pieces]."""
    import numpy as np

    unit = shelf.unit
    over = item.totals[n] * unit - n * taus
    if item.zones and n > 1 and kind != "middles":
        over = np.where(taus < 0, over, beyond(item, n, taus, unit, shelf.longest))
    if kind == "length":
        least = max(n - 2, 0) * np.maximum(item.middles * unit - taus, 0)
        if n > 1:
            least = least + 2 * np.maximum(item.ends * unit - taus, 0)
        return np.where(taus < 0, over, np.maximum(over, least))
    if kind == "pieces":
        return -(-np.maximum(over, 0) // np.maximum(shelf.longest - taus, 1))
    return np.where(taus <= item.middles * unit, max(n - 2, 0), 0)


def supply(kind: Kind, taus: Any, shelf: Rack) -> Any:
    """What the runs give of a row at most, for each tau [units, or pieces]."""
    import numpy as np

    lengths = np.array(shelf.lengths, dtype=np.int64)[:, None]
    counts = np.array(shelf.counts, dtype=np.int64)[:, None]
    unit, kerf = shelf.unit, shelf.kerf
    if kind == "length":
        whole = np.where(taus >= 0, lengths // unit * unit, lengths)
        return (counts * np.maximum(whole - taus, 0)).sum(axis=0)
    # A piece longer than tau is at least the next whole mark; a middle piece is at least tau.
    shortest = (taus // unit + 1) * unit if kind == "pieces" else taus
    return (counts * ((lengths + kerf) // (shortest + kerf))).sum(axis=0)


def _better(problem: Problem, shelf: Rack, kind: Kind, taus: list[int], best: Bound) -> Bound:
    """The bound raised by the best row of a kind."""
    import numpy as np

    if not taus or best.pieces is None:
        return best
    pending = np.array(taus, dtype=np.int64)
    hopeless = _hopeless(problem, shelf, kind, pending)
    if hopeless is not None:
        return Bound(None, hopeless, best.items)
    base = sum(item.counts[0] for item in problem.items)
    most = sum(item.counts[-1] for item in problem.items) - base
    room = best.pieces - base
    while True:
        have = supply(kind, pending, shelf)
        table = least_need(problem, shelf, kind, pending, room)
        fits = table <= have[:, None]
        reached = fits.any(axis=1)
        if room == best.pieces - base:
            if reached.all():
                return best
        elif reached.all():
            first = fits.argmax(axis=1)
            at = int(first.argmax())
            row = _row(problem, kind, pending[at], base + int(first[at]), table[at][: int(first[at])], have[at])
            return Bound(base + int(first[at]), row, best.items)
        if room >= most:
            at = int(np.argmin(reached))
            return Bound(None, _row(problem, kind, pending[at], None, table[at], have[at]), best.items)
        pending = pending[~reached]
        room = min(2 * room + 4, most)
        many = max(8, 4 * MOST_WORK // (len(problem.items) * 20))
        if len(pending) > many:  # any choice of rows is a bound
            pending = pending[:: -(-len(pending) // many)]


def _hopeless(problem: Problem, shelf: Rack, kind: Kind, taus: Any) -> Row | None:
    """A row that no number of pieces satisfies: every blank at what suits the row best still needs too much."""
    import numpy as np

    least: dict[tuple[Any, ...], Any] = {}
    need = np.zeros(len(taus), dtype=np.int64)
    for item in problem.items:
        key = (item.totals, tuple(item.windows.items()) if item.zones else item.counts)
        if key not in least:
            least[key] = np.min([demand(item, n, kind, taus, shelf) for n in item.counts], axis=0)
        need += least[key]
    have = supply(kind, taus, shelf)
    short = need - have
    if not (short > 0).any():
        return None
    at = int(short.argmax())
    return _row(problem, kind, taus[at], None, need[at : at + 1], have[at])


def _row(problem: Problem, kind: Kind, tau: Any, pieces: int | None, needs: Any, have: Any) -> Row:
    size = problem.unit_mm if kind == "length" else Fraction(1)
    fewest = int(needs.min())
    return Row(kind, int(tau) * problem.unit_mm, pieces, fewest * size if fewest < FAR else None, int(have) * size)


def least_need(problem: Problem, shelf: Rack, kind: Kind, taus: Any, room: int) -> Any:
    """table[row, e]: least total demand with e pieces more than the fewest, over all ways to share them out.

    Found exactly where that is quick; else from below, by a convex line under each blank's demand, for which the best
    way is to give the next piece to the blank that gains most.
    """
    import numpy as np

    needs: dict[tuple[Any, ...], list[Any]] = {}
    keys = []
    for item in problem.items:
        keys.append((item.totals, tuple(item.windows.items()) if item.zones else item.counts))
        if keys[-1] not in needs:
            needs[keys[-1]] = [demand(item, n, kind, taus, shelf) for n in item.counts if n - item.counts[0] <= room]
    if len(keys) * (room + 1) * len(taus) > MOST_WORK:
        return _from_below(problem, keys, needs, room)
    table = np.full((len(taus), room + 1), FAR, dtype=np.int64)
    table[:, 0] = 0
    for item, key in zip(problem.items, keys, strict=True):
        fresh = np.full_like(table, FAR)
        for n, need in zip(item.counts, needs[key], strict=False):
            shift = n - item.counts[0]
            part = table[:, : room + 1 - shift] + need[:, None]
            np.minimum(fresh[:, shift:], part, out=fresh[:, shift:])
        table = np.minimum(fresh, FAR)
    return table


def _from_below(
    problem: Problem, keys: list[tuple[Any, ...]], needs: dict[tuple[Any, ...], list[Any]], room: int
) -> Any:
    """The table by convex lines in whole numbers: never more than the exact one."""
    import numpy as np

    many: dict[tuple[Any, ...], int] = {}
    counts: dict[tuple[Any, ...], tuple[int, ...]] = {}
    for item, key in zip(problem.items, keys, strict=True):
        many[key] = many.get(key, 0) + 1
        counts[key] = item.counts
    base, slopes = 0, []
    for key, rows in needs.items():
        base = base + many[key] * rows[0]
        at, here = counts[key][0], rows[0]
        last = counts[key][len(rows) - 1]
        while at < last:  # the steepest whole slope that keeps below all that follow
            ahead = [(g - here) // (n - at) for n, g in zip(counts[key], rows, strict=False) if n > at]
            slope = np.min(ahead, axis=0)
            slopes += [slope] * many[key]
            at, here = at + 1, here + slope
    table = np.atleast_2d(base)
    if slopes:
        table = np.concatenate([table, np.sort(np.array(slopes, dtype=np.int64), axis=0)[:room]])
    table = np.cumsum(table, axis=0).T
    if table.shape[1] < room + 1:
        table = np.pad(table, ((0, 0), (0, room + 1 - table.shape[1])), constant_values=FAR)
    return table
