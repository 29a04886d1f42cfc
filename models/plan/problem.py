"""The request in whole numbers: runs, blanks one by one, totals, windows. Everything after this is exact.

Piece lengths are counted in marks. Room on a run is counted in units: the greatest length of which mark, kerf, keep
and all clear runs are multiples. Where that would be finer than 1/3 000 000 mark, it is that, kerf and keep are rounded
up to it and runs down: a plan is then still sound, and a proof holds for figures rounded so.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from scarfwright.models.plan.clear import Run, clear_runs
from scarfwright.models.plan.data import Request, exact
from scarfwright.models.plan.windows import Spans, reach, without, zone_forbids

FINEST = 3_000_000  # parts of a mark
MOST_PIECES = 400  # a blank of more pieces than this is no blank; see troubles.py


@dataclass(frozen=True)
class OneBlank:
    """One blank to be made, in marks. totals[n] is what n pieces add up to; windows[n][j] where N_j may lie.

    ends, middles: least length of a piece with a joint at one end, at both ends. counts: the numbers of pieces that
    this blank allows when taken alone (windows kept, pieces no longer than the longest run). mates: (item, clear
    distance, how much further this blank's raw start lies from the finished start than the mate's).
    """

    blank: int
    copy: int
    length: Fraction
    offset: Fraction
    ends: int
    middles: int
    totals: tuple[int, ...]
    zones: tuple[tuple[Fraction, Fraction], ...]
    windows: dict[int, tuple[Spans, ...]]
    mates: tuple[tuple[int, Fraction, Fraction], ...]

    @property
    def counts(self) -> tuple[int, ...]:
        return tuple(self.windows)

    def least(self, n: int, place: int) -> int:
        """Least length of the piece at `place` (from 0) of n."""
        if n == 1:
            return 1
        return self.ends if place in (0, n - 1) else self.middles


@dataclass(frozen=True)
class Problem:
    """Runs and blanks in whole numbers. room[r]: length of run r and one kerf, in units; a piece of l marks takes
    l * unit + kerf of it. board_of[r]: the opened board's number; price_of, by that number, in the smallest coin."""

    request: Request
    mark: Fraction
    overlap: Fraction
    unit: int
    kerf: int
    unit_mm: Fraction
    runs: tuple[Run, ...]
    room: tuple[int, ...]
    board_of: tuple[int, ...]
    boards: int
    prices: tuple[int, ...]
    coin: Fraction
    keep: int
    items: tuple[OneBlank, ...]

    def reach_of(self, room: int) -> int:
        """Longest piece that fits in `room`, in marks."""
        return (room - self.kerf) // self.unit

    @cached_property
    def longest(self) -> int:
        """Longest piece that any run gives, in marks."""
        return max((self.reach_of(r) for r in self.room), default=0)

    @cached_property
    def priced(self) -> bool:
        return any(self.prices)


def units_in_mark(mark: Fraction, lengths: set[Fraction]) -> int:
    """Units in a mark: all of `lengths` [mm] are whole numbers of them, unless that were too fine."""
    parts = math.lcm(*((length / mark).denominator for length in lengths))
    return parts if parts <= FINEST else FINEST


def smallest_coin(prices: list[Fraction]) -> Fraction:
    """The greatest amount of which every price is a multiple; prices finer than 1/10 000 are rounded."""
    rounded = [round(p * 10_000) for p in prices if p > 0]
    return Fraction(math.gcd(*rounded), 10_000) if rounded and math.gcd(*rounded) else Fraction(1)


def build(request: Request) -> Problem:
    """The request in whole numbers. The request must be sound (troubles.py)."""
    rules = request.rules
    mark, kerf = exact(rules.mark), exact(rules.kerf)
    keep = exact(rules.keep)
    clear = clear_runs(request.boards, rules)
    unit = units_in_mark(mark, {kerf, keep} | {run.length for run in clear})
    unit_mm = mark / unit
    kerf_units = math.ceil(kerf / unit_mm)
    runs, rooms = [], []
    for run in clear:
        room = math.floor(run.length / unit_mm)
        if room > 0:
            runs.append(run)
            rooms.append(room + kerf_units)
    prices = [exact(b.price or 0) for b in request.boards for _ in range(b.count)]
    coin = smallest_coin(prices)
    longest = max(((r - kerf_units) // unit for r in rooms), default=0)
    return Problem(
        request,
        mark,
        exact(rules.overlap) / mark,
        unit,
        kerf_units,
        unit_mm,
        tuple(runs),
        tuple(rooms),
        tuple(run.opened for run in runs),
        len(prices),
        tuple(round(p / coin) for p in prices),
        coin,
        math.ceil(keep / unit_mm),
        _items(request, mark, longest),
    )


def _items(request: Request, mark: Fraction, longest: int) -> tuple[OneBlank, ...]:
    rules = request.rules
    overlap = exact(rules.overlap) / mark
    ends = max(math.ceil(exact(rules.least) / mark), math.ceil(overlap), 1)
    middles = max(ends, math.ceil((exact(rules.spacing) + 2) * overlap))
    mates = _mates(request, mark)
    items: list[OneBlank] = []
    for index, blank in enumerate(request.blanks):
        offset = exact(blank.allowance) / mark
        length = exact(blank.length) / mark + 2 * offset
        totals = _totals(length, overlap, ends, middles)
        zones = tuple((exact(a) / mark + offset, exact(b) / mark + offset) for a, b in blank.keep_clear)
        windows = _windows(totals, zones, overlap, ends, middles, longest)
        for copy in range(1, blank.count + 1):
            items.append(
                OneBlank(
                    index, copy, length, offset, ends, middles, totals, zones, windows,
                    tuple(mates.get(len(items), ())),
                )
            )  # fmt: skip
    return tuple(items)


def _totals(length: Fraction, overlap: Fraction, ends: int, middles: int) -> tuple[int, ...]:
    """What n pieces add up to, by n (from 0), up to the most pieces that their least lengths leave room for."""
    totals = [0]
    n = 1
    while n <= MOST_PIECES:
        total = math.ceil(length + (n - 1) * overlap)
        if n > 1 and (n - 2) * middles + 2 * ends > total:
            break
        totals.append(total)
        n += 1
    return tuple(totals)


def _windows(
    totals: tuple[int, ...],
    zones: tuple[tuple[Fraction, Fraction], ...],
    overlap: Fraction,
    ends: int,
    middles: int,
    longest: int,
) -> dict[int, tuple[Spans, ...]]:
    """For every possible n the windows of N_1 .. N_(n-1), less what can't be reached from either end."""
    free = [without(1, totals[-1], [zone_forbids(j, zone, overlap) for zone in zones]) for j in range(1, len(totals))]
    ahead: list[Spans] = [((0, 0),)]
    for j in range(1, len(totals) - 1):
        ahead.append(reach(ahead[-1], ends if j == 1 else middles, longest, free[j - 1]))
    found: dict[int, tuple[Spans, ...]] = {}
    for n in range(1, len(totals)):
        if n == 1:
            if totals[1] <= longest:
                found[1] = ()
            continue
        back: Spans = ((totals[n], totals[n]),)
        row: list[Spans] = []
        for j in range(n - 1, 0, -1):
            back = reach(back, -longest, -(ends if j == n - 1 else middles), ahead[j])
            row.append(back)
        row.reverse()
        if back and reach(((0, 0),), ends, longest, row[0]):
            found[n] = tuple(row)
    return found


def _mates(request: Request, mark: Fraction) -> dict[int, list[tuple[int, Fraction, Fraction]]]:
    """For every item its mates: the pair of a mirrored blank, and the others of its group."""
    first, starts = 0, []
    for blank in request.blanks:
        starts.append(first)
        first += blank.count
    clear: dict[tuple[int, int], Fraction] = {}
    groups: dict[str, list[tuple[int, int]]] = {}
    for index, blank in enumerate(request.blanks):
        for copy in range(blank.count):
            here = starts[index] + copy
            if blank.mirrored and copy % 2:
                clear[here - 1, here] = Fraction(0)
            if blank.group:
                groups.setdefault(blank.group, []).append((index, here))
    for row in groups.values():
        for at, (mine, here) in enumerate(row):
            for other, (theirs, there) in enumerate(row[at + 1 :], at + 1):
                if other - at <= _near(request, mine, theirs, len(row)):
                    wanted = max(exact(request.blanks[mine].stagger), exact(request.blanks[theirs].stagger)) / mark
                    clear[here, there] = max(wanted, clear.get((here, there), wanted))
    offsets = [exact(b.allowance) / mark for b in request.blanks for _ in range(b.count)]
    found: dict[int, list[tuple[int, Fraction, Fraction]]] = {}
    for (a, b), distance in sorted(clear.items()):
        found.setdefault(a, []).append((b, distance, offsets[a] - offsets[b]))
        found.setdefault(b, []).append((a, distance, offsets[b] - offsets[a]))
    return found


def _near(request: Request, one: int, other: int, everybody: int) -> int:
    near = [n for n in (request.blanks[one].neighbours, request.blanks[other].neighbours) if n is not None]
    return max(near, default=everybody)


def mates_together(problem: Problem) -> list[list[int]]:
    """Items that keep their joints apart, directly or through others, group by group."""
    groups, seen = [], set()
    for first, item in enumerate(problem.items):
        if item.mates and first not in seen:
            group = [first]
            for i in group:  # grows as it goes
                group += [mate for mate, _, _ in problem.items[i].mates if mate not in group]
            seen |= set(group)
            groups.append(sorted(group))
    return groups


def by_themselves(problem: Problem, group: list[int]) -> Problem:
    """The problem of some items alone, on all the runs; their mates must be among them."""
    number = {i: at for at, i in enumerate(group)}
    items = (problem.items[i] for i in group)
    return replace(
        problem,
        items=tuple(replace(i, mates=tuple((number[m], clear, on) for m, clear, on in i.mates)) for i in items),
    )
