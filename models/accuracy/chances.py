"""Chances of sums of errors without an array library: distributions as weights on a grid from 0 to a limit.

A distribution is a list of weights: the chance of lying in a cell round 0, step, 2 step ... up to the limit (the last
cell is half as wide, so that the sum of all weights is the chance of lying inside). What lies beyond is left off: sums
of things that are not negative never come back.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

CELLS = 120  # up to the limit: chances come out right to about 0.1 %
WIDEST = 6.0  # standard deviations beyond which nothing is
_ROOT2 = math.sqrt(2.0)


def folded(sigma: float, limit: float, value: Callable[[float], float] = lambda g: g) -> list[float]:
    """|x| of a normal x, cell by cell. `value(g)`: the x at which the effect is g, if it is not x itself."""
    if sigma <= 0:
        return [1.0] + [0.0] * CELLS
    within = [math.erf(value(bound) / (sigma * _ROOT2)) for bound in _bounds(limit)]
    return [within[0], *(b - a for a, b in pairwise(within))]


def positive_part(sigma: float, limit: float) -> list[float]:
    """max(x, 0) of a normal x: half of it is exactly 0."""
    half = [w / 2 for w in folded(sigma, limit)]
    return [half[0] + 0.5, *half[1:]]


def sloped_bow_range(slope_sigma: float, bow_sigma: float, limit: float, steps: int = 80) -> list[float]:
    """Opening of a line that is out by a slope a (its rise over the joint) and a bow q (its height in the middle).

    Source: plane geometry. The range of a x + 4 q x (1 - x) on 0 <= x <= 1 is |a| where |a| >= 4 |q|, else
    |q| + |a| / 2 + a^2 / (16 |q|).
    """
    if slope_sigma <= 0 or bow_sigma <= 0:
        return folded(max(slope_sigma, bow_sigma), limit)
    weights = [0.0] * (CELLS + 1)
    step = limit / CELLS
    bows = _slices(bow_sigma, steps)
    for a, share in _slices(slope_sigma, steps):
        for q, other in bows:
            opening = a if a >= 4 * q else q + a / 2 + a * a / (16 * q)
            if opening <= limit:
                weights[int(opening / step + 0.5)] += share * other
    return weights


def _slices(sigma: float, count: int) -> list[tuple[float, float]]:
    """Middles and chances of equal slices of |x|."""
    wide = WIDEST * sigma / count
    within = [math.erf(i * wide / (sigma * _ROOT2)) for i in range(count + 1)]
    return [((i + 0.5) * wide, within[i + 1] - within[i]) for i in range(count)]


def _bounds(limit: float) -> list[float]:
    step = limit / CELLS
    return [*((i + 0.5) * step for i in range(CELLS)), limit]


def summed(one: Sequence[float], other: Sequence[float]) -> list[float]:
    """The distribution of the sum of two independent ones, as far as the limit."""
    total = [0.0] * (CELLS + 1)
    for i, weight in enumerate(one):
        if weight > 1e-12:
            for j in range(CELLS + 1 - i):
                total[i + j] += weight * other[j]
    # what lands on the limit is half beyond it, but for what started there already with nothing added
    edge = sum(one[i] * other[CELLS - i] for i in range(1, CELLS))
    total[CELLS] -= edge / 2
    return total
