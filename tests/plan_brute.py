"""The best plan of a tiny request by trying everything; shares no code with the planner. All lengths whole marks."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import Any

from tests.plan_checker import clear_runs, frac, mates_of

Best = tuple[int, Fraction, int, Fraction]
MOST = 20_000
MOST_TRIED = 60_000
MOST_STEPS = 30_000


class TooLargeError(Exception):
    """More ways than are worth trying."""


Use = tuple[tuple[int, int], ...]  # pieces and marks on every run


def brute(request: Any) -> Best | None:
    """(joints, price or wood, boards, minus the longest leftover) of the best plan, or None where there is none.

    Raises TooLargeError where there are too many ways.
    """
    rules = request.rules
    runs = clear_runs(request)
    mark, kerf = frac(rules.mark), frac(rules.kerf)
    mates = mates_of(request)
    items = [(i, c) for i, b in enumerate(request.blanks) for c in range(1, b.count + 1)]
    watched = {item for one, other, _ in mates for item in (one, other)}
    # (use of the runs, joints begun by watched blanks) -> least joints
    states: dict[tuple[Use, tuple[Any, ...]], int] = {(tuple((0, 0) for _ in runs), ()): 0}
    for item in items:
        rows = _rows(request, item[0], runs, item in watched)
        fresh: dict[tuple[Use, tuple[Any, ...]], int] = {}
        if len(states) * len(rows) > MOST_TRIED:
            raise TooLargeError
        for (use, begun), joints in states.items():
            for more, begins, count in rows:
                both = tuple((p + q, x + y) for (p, x), (q, y) in zip(use, more, strict=True))
                if any(p and x * mark + (p - 1) * kerf > r[4] - r[3] for (p, x), r in zip(both, runs, strict=True)):
                    continue
                if not _apart(request, mates, dict(begun), item, begins):
                    continue
                key = (both, (*begun, (item, begins)) if item in watched else begun)
                if joints + count < fresh.get(key, 1 << 30):
                    fresh[key] = joints + count
                if len(fresh) > MOST:
                    raise TooLargeError
        states = fresh
    return min((_score(request, runs, use, joints) for (use, _), joints in states.items()), default=None)


def _rows(request: Any, index: int, runs: list[Any], watched: bool) -> list[tuple[Use, tuple[Fraction, ...], int]]:
    """Every way to make one blank, as what it uses and where its joints begin (from the finished start)."""
    rules, blank = request.rules, request.blanks[index]
    mark, X = frac(rules.mark), frac(rules.overlap)
    allowance = frac(blank.allowance)
    length = frac(blank.length) + 2 * allowance
    least = max(frac(rules.least), X)
    found: dict[tuple[Use, tuple[Fraction, ...]], int] = {}
    steps = 0

    def onward(pieces: list[tuple[int, int]], at: int, begins: tuple[Fraction, ...]) -> None:
        nonlocal steps
        steps += 1
        n = len(pieces)
        if steps > MOST_STEPS:
            raise TooLargeError
        if n and at == ceil((length + (n - 1) * X) / mark) and (n == 1 or pieces[-1][1] * mark >= least):
            use = tuple((sum(r == k for r, _ in pieces), sum(x for r, x in pieces if r == k)) for k in range(len(runs)))
            key = (use, begins if watched else ())
            found[key] = min(found.get(key, n - 1), n - 1)
        if at * mark > length + n * X:
            return
        begin = at * mark - n * X
        if n:
            if pieces[-1][1] * mark < least or begin < 0 or begin + X > length + mark:
                return
            if any(begin < frac(b) + allowance and begin + X > frac(a) + allowance for a, b in blank.keep_clear):
                return
            if begins and begin - allowance - begins[-1] - X < frac(rules.spacing) * X:
                return
        for k, run in enumerate(runs):
            for size in range(1, int((run[4] - run[3]) // mark) + 1):
                onward([*pieces, (k, size)], at + size, (*begins, begin - allowance) if n else ())

    onward([], 0, ())
    return [(use, begins, joints) for (use, begins), joints in found.items()]


def _apart(request: Any, mates: Any, begun: dict[Any, Any], item: Any, begins: tuple[Fraction, ...]) -> bool:
    X = frac(request.rules.overlap)
    for one, other, clear in mates:
        there = begun.get(one if other == item else other if one == item else None, ())
        if any(abs(s - t) < X + clear for s in begins for t in there):
            return False
    return True


def _score(request: Any, runs: list[Any], use: Use, joints: int) -> Best:
    rules = request.rules
    mark, kerf, keep = frac(rules.mark), frac(rules.kerf), frac(rules.keep)
    wood, longest = Fraction(0), Fraction(0)
    for (pieces, marks), run in zip(use, runs, strict=True):
        if pieces:
            rest = run[4] - run[3] - marks * mark - pieces * kerf
            kept = rest if rest > 0 and rest >= keep else Fraction(0)
            wood += run[4] - run[3] - kept
            longest = max(longest, kept)
    opened = {run[:2] for (pieces, _), run in zip(use, runs, strict=True) if pieces}
    for (pieces, _), run in zip(use, runs, strict=True):
        if not pieces and run[:2] in opened and run[4] - run[3] >= keep:
            longest = max(longest, run[4] - run[3])
    price = sum((frac(request.boards[b].price or 0) for b, _ in opened), Fraction(0))
    paid = any(b.price for b in request.boards)
    return joints, price if paid else wood, len(opened), -longest
