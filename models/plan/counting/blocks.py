"""What windows cost: joints that must keep out of a stretch make some pieces longer than an even share.

For windows N_j in [a_j, b_j] (a_0 = b_0 = 0, a_n = b_n = T) any block of neighbouring pieces s..e adds up to at least
a_e - b_(s-1), so the sum of max(l - tau, 0) over the blank is at least the sum of a_e - b_(s-1) - (e - s + 1) tau over
any blocks that do not overlap. The best set of blocks is found for each choice of one interval a window, and the
cheapest choice counts.
"""

from __future__ import annotations

from itertools import product
from math import prod
from typing import Any

from scarfwright.models.plan.problem import OneBlank
from scarfwright.models.plan.windows import Span, Spans

MOST_CHOICES = 120


def beyond(item: OneBlank, n: int, taus: Any, unit: int, longest: int) -> Any:
    """Least sum of max(l - tau, 0) over a blank of n pieces within its windows, for each tau [units]."""
    import numpy as np

    total = item.totals[n] * unit
    windows = _few(item.windows[n])
    least = [item.least(n, j) * unit for j in range(n)]
    found = None
    for choice in product(*windows):
        marks = [(0, 0), *((a * unit, b * unit) for a, b in choice), (total, total)]
        if not _possible(least, marks, longest):
            continue
        value = _best_blocks(marks, taus)
        found = value if found is None else np.minimum(found, value)
    return np.maximum(total - n * taus, 0) if found is None else found


def _few(windows: tuple[Spans, ...]) -> list[Spans]:
    """Windows with so many intervals that the choices run away are taken as wide as they reach."""
    rows = list(windows)
    while prod(len(row) for row in rows) > MOST_CHOICES:
        widest = max(range(len(rows)), key=lambda j: len(rows[j]))
        rows[widest] = ((rows[widest][0][0], rows[widest][-1][1]),)
    return rows


def _possible(least: list[int], marks: list[Span], longest: int) -> bool:
    """Whether neighbouring joints can be so far apart, and no further."""
    return all(
        marks[j + 1][1] - marks[j][0] >= least[j] and marks[j + 1][0] - marks[j][1] <= longest
        for j in range(len(least))
    )


def _best_blocks(marks: list[Span], taus: Any) -> Any:
    """The best set of blocks: best[e] is the most that pieces 1..e are sure to have beyond tau."""
    import numpy as np

    best = [np.zeros(len(taus), dtype=np.int64)]
    for e in range(1, len(marks)):
        here = best[e - 1]
        for s in range(1, e + 1):
            here = np.maximum(here, best[s - 1] + (marks[e][0] - marks[s - 1][1]) - (e - s + 1) * taus)
        best.append(here)
    return best[-1]
