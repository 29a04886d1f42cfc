"""Least squares: the set-up that explains the measurements best, how surely, and which of them do not fit.

Gauss-Newton on readings weighed by their standard deviations. What the readings do not settle is told from the matrix
of the fit itself (does it lie in the space its rows span?), and stays as it was planned, so nothing is ever guessed.
numpy is imported inside the functions. outputs/joint_form/tuning.js does the same, function by function.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from scarfwright.models.tuning.model import Row, Setup

STEPS = 60
SETTLED = 1e-9
WITHIN = 1e-4  # share of an unknown that may lie outside what the rows settle: 1 percent of its usual change
SURE_TO = 2.0  # usual changes: a direction that the readings tell no better is not settled
ALIKE = 1e-6  # misfits by which neither hand is the better
STEP = (1e-6, 1e-4, 1e-6, 1e-4)  # of slope, tip, lean and any board, for derivatives
SCALE = (0.01, 1.0, 0.01, 1.0)  # sizes of their usual changes, to weigh unknowns alike


@dataclass(frozen=True)
class Value:
    """An estimate with its standard deviation."""

    value: float
    sigma: float


@dataclass(frozen=True)
class Residual:
    """A reading beside what the fit gives, and how many of its own standard deviations (as fitted) it is out."""

    row: Row
    expected: float
    out: float


@dataclass(frozen=True)
class Fit:
    """Slope m = 1/N, tip [mm] in the middle of the height, lean [rad]: None where the readings do not settle it.

    signed: the lean's hand was read. setup: the one that fits best, as planned where nothing is told.
    """

    slope: Value | None
    tip: Value | None
    lean: Value | None
    signed: bool
    residuals: tuple[Residual, ...]
    setup: Setup


def fit(rows: Sequence[Row], start: Setup) -> Fit:
    """Fit a set-up to the rows; `start` is the set-up as planned, its boards as thick as they were read."""
    hands = (1, -1) if any(row.unsigned for row in rows) else (1,)
    tries = [[row.turned(hand) for row in rows] for hand in hands]
    solved = [(_solve(turned, start, hand), turned, hand) for turned, hand in zip(tries, hands, strict=True)]
    setup, turned, _ = min(solved, key=lambda one: _misfit(one[1], one[0]) - ALIKE * one[2])
    sigma = settled_by(turned, setup)
    hand_read = any(not row.unsigned and _hangs_on_lean(row, setup) for row in rows)
    lean = setup.lean if hand_read else abs(setup.lean)
    slope, tip, leaning = (
        Value(value, spread) if math.isfinite(spread) else None
        for value, spread in zip((setup.slope, setup.tip, lean), sigma, strict=True)
    )
    signed = hand_read and leaning is not None
    return Fit(slope, tip, leaning, signed, _residuals(turned, setup), setup)


def settled_by(rows: Sequence[Row], setup: Setup) -> list[float]:
    """How surely readings like these settle slope, tip and lean of a set-up: standard deviations, inf: not."""
    _, sizes, ways = _settled(_matrix(rows, setup))
    sigma = []
    for i in range(3):
        told = 1 - float((ways[:, i] ** 2).sum()) < WITHIN
        spread = SCALE[i] * math.sqrt(float(((ways[:, i] / sizes) ** 2).sum()))
        sigma.append(spread if told else math.inf)
    return sigma


def _solve(rows: Sequence[Row], start: Setup, hand: int) -> Setup:
    """Gauss-Newton with steps halved until the misfit falls; where readings are too few, the nearest to the start."""
    setup = Setup(start.slope, start.tip, start.lean or hand * 1e-3, start.boards)
    best = _misfit(rows, setup)
    for _ in range(STEPS):
        out = _out(rows, setup)
        columns, sizes, ways = _settled(_matrix(rows, setup))
        step = ((out @ columns) / sizes) @ ways
        share = 1.0
        while (misfit := _misfit(rows, _moved(setup, share * step))) > best and share > 1e-4:
            share /= 2
        if misfit > best:
            break
        setup, gained, best = _moved(setup, share * step), best - misfit, misfit
        if abs(step).max() < SETTLED or gained < SETTLED * (1 + best) * 1e-3:
            break
    return setup


def _misfit(rows: Sequence[Row], setup: Setup) -> float:
    total = float((_out(rows, setup) ** 2).sum())
    return total if math.isfinite(total) else math.inf


def _out(rows: Sequence[Row], setup: Setup) -> Any:
    """What each reading is out by, in its standard deviations."""
    import numpy as np

    return np.array([(row.read - row.model(setup)) / row.sigma for row in rows])


def _matrix(rows: Sequence[Row], setup: Setup) -> Any:
    """Rows by scaled unknowns: by how many standard deviations each reading changes with each."""
    import numpy as np

    a = np.empty((len(rows), 3 + len(setup.boards)))
    for j in range(a.shape[1]):
        small = STEP[min(j, 3)] / SCALE[min(j, 3)]
        change = [small if i == j else 0.0 for i in range(a.shape[1])]
        up, down = _moved(setup, change), _moved(setup, [-part for part in change])
        a[:, j] = [(row.model(up) - row.model(down)) / (2 * small * row.sigma) for row in rows]
    return a


def _settled(matrix: Any) -> tuple[Any, Any, Any]:
    """The matrix as columns, sizes and ways (its singular values), without the ways in which nothing is settled."""
    import numpy as np

    columns, sizes, ways = np.linalg.svd(matrix, full_matrices=False)
    keep = sizes > 1 / SURE_TO
    return columns[:, keep], sizes[keep], ways[keep]


def _moved(setup: Setup, step: Sequence[float]) -> Setup:
    """The set-up changed by a step in scaled unknowns; the slope stays a slope, the lean under half a right angle."""
    slope, tip, lean, *boards = (float(part) * SCALE[min(i, 3)] for i, part in enumerate(step))
    return Setup(
        max(setup.slope + slope, 1e-3),
        setup.tip + tip,
        min(max(setup.lean + lean, -0.7), 0.7),
        tuple(board + change for board, change in zip(setup.boards, boards, strict=True)),
    )


def _hangs_on_lean(row: Row, setup: Setup) -> bool:
    one, other = (Setup(setup.slope, setup.tip, lean, setup.boards) for lean in (0.0, 0.01))
    return row.model(one) != row.model(other)


def _residuals(rows: Sequence[Row], setup: Setup) -> tuple[Residual, ...]:
    """Each reading's miss in standard deviations of that miss: a reading that alone settles something can't miss."""
    columns, _, _ = _settled(_matrix(rows, setup))
    shares = (columns**2).sum(axis=1)
    found = []
    for row, miss, share in zip(rows, _out(rows, setup), shares, strict=True):
        spare = 1.0 - float(share)
        size = float(miss) / math.sqrt(spare) if spare > 1e-6 else 0.0
        found.append(Residual(row, row.model(setup), size))
    return tuple(found)
