"""Least squares: the set-up that explains the measurements best, how surely, and which of them do not fit.

Gauss-Newton on readings weighed by their standard deviations. An unknown that the readings do not settle is told from
the matrix of the fit itself (does it lie in the space its rows span?), so nothing is ever guessed. numpy is imported
inside the functions.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from scarfwright.models.tuning.model import Row, Setup

STEPS = 60
SETTLED = 1e-9
WITHIN = 1e-6  # share of an unknown that may lie outside the rows' space
STEP = {"slope": 1e-6, "tip": 1e-4, "lean": 1e-6, "board": 1e-4}
SCALE = {"slope": 0.01, "tip": 1.0, "lean": 0.01, "board": 1.0}  # sizes of usual changes, to weigh unknowns alike


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

    signed: the lean's hand was read. covariance of (slope, tip, lean) for those that are told, 0 elsewhere.
    """

    slope: Value | None
    tip: Value | None
    lean: Value | None
    signed: bool
    residuals: tuple[Residual, ...]
    tip_lean_covariance: float = 0.0


def fit(rows: Sequence[Row], boards: int, start: Setup) -> Fit:
    """Fit a set-up to the rows; `start` is the set-up as planned, `boards` how many board thicknesses there are."""
    begin = Setup(start.slope, start.tip, start.lean, (start.boards or (0.0,)) * boards)
    read = _boards_read(rows, begin)
    hands = [1.0, -1.0] if any(row.unsigned for row in rows) else [1.0]
    tries = [_solve(rows, read, hand) for hand in hands]
    setup, hand = min(((s, h) for s, h in zip(tries, hands, strict=True)), key=lambda t: _misfit(rows, *t))
    signed = any(not row.unsigned and _hangs_on_lean(row, setup) for row in rows)
    told, covariance = _told(rows, setup, hand)
    sigma = [math.sqrt(max(covariance[i][i], 0.0)) for i in range(3)]
    lean = setup.lean if signed else abs(setup.lean)
    return Fit(
        slope=Value(setup.slope, sigma[0]) if told[0] else None,
        tip=Value(setup.tip, sigma[1]) if told[1] else None,
        lean=Value(lean, sigma[2]) if told[2] else None,
        signed=signed and told[2],
        residuals=_residuals(rows, setup, hand),
        tip_lean_covariance=covariance[1][2] if told[1] and told[2] else 0.0,
    )


def settled_by(rows: Sequence[Row], boards: int, setup: Setup) -> tuple[float, float, float]:
    """How surely readings like these settle slope, tip and lean of a set-up: standard deviations, inf: not."""
    full = Setup(setup.slope, setup.tip, setup.lean or 1e-3, (setup.boards or (0.0,)) * boards)
    told, covariance = _told(rows, full, 1.0)
    sigma = [math.sqrt(max(covariance[i][i], 0.0)) if told[i] else math.inf for i in range(3)]
    return sigma[0], sigma[1], sigma[2]


def _boards_read(rows: Sequence[Row], start: Setup) -> Setup:
    """Start from the thicknesses as read."""
    boards = list(start.boards)
    for i in range(len(boards)):
        for row in rows:
            marked = Setup(start.slope, start.tip, start.lean, (*boards[:i], math.nan, *boards[i + 1 :]))
            if row.what == "board_thickness" and math.isnan(row.model(marked)):
                boards[i] = row.read
    return Setup(start.slope, start.tip, start.lean, tuple(boards))


def _solve(rows: Sequence[Row], start: Setup, hand: float) -> Setup:
    """Gauss-Newton with steps halved until the misfit falls; where readings are too few, the nearest to the start."""
    import numpy as np

    setup = Setup(start.slope, start.tip, start.lean or hand * 1e-3, start.boards)
    best = _misfit(rows, setup, hand)
    for _ in range(STEPS):
        a, out = _matrix(rows, setup, hand)
        step, *_ = np.linalg.lstsq(a, out, rcond=1e-10)
        share = 1.0
        while share > 1e-4:
            trial = _moved(setup, share * step)
            misfit = _misfit(rows, trial, hand)
            if misfit <= best:
                break
            share /= 2
        else:
            break
        setup, gained, best = trial, best - misfit, misfit
        if float(np.abs(step).max()) < SETTLED or gained < SETTLED * (1 + best) * 1e-3:
            break
    return setup


def _predicted(row: Row, setup: Setup, hand: float) -> float:
    return row.model(setup) * (hand if row.unsigned else 1.0)


def _misfit(rows: Sequence[Row], setup: Setup, hand: float) -> float:
    total = sum(((row.read - _predicted(row, setup, hand)) / row.sigma) ** 2 for row in rows)
    return total if math.isfinite(total) else math.inf


def _matrix(rows: Sequence[Row], setup: Setup, hand: float) -> tuple[Any, Any]:
    """Rows by scaled unknowns, and what each reading is out by, both in standard deviations."""
    import numpy as np

    kinds = ["slope", "tip", "lean", *["board"] * len(setup.boards)]
    a = np.empty((len(rows), len(kinds)))
    out = np.empty(len(rows))
    for i, row in enumerate(rows):
        out[i] = (row.read - _predicted(row, setup, hand)) / row.sigma
        for j, kind in enumerate(kinds):
            change = np.zeros(len(kinds))
            change[j] = STEP[kind] / SCALE[kind]
            up, down = _predicted(row, _moved(setup, change), hand), _predicted(row, _moved(setup, -change), hand)
            a[i, j] = (up - down) / (2 * STEP[kind]) * SCALE[kind] / row.sigma
    return a, out


def _moved(setup: Setup, step: Any) -> Setup:
    """The set-up changed by a step in scaled unknowns; the slope stays a slope, the lean under half a right angle."""
    slope = max(setup.slope + SCALE["slope"] * float(step[0]), 1e-3)
    lean = min(max(setup.lean + SCALE["lean"] * float(step[2]), -0.7), 0.7)
    boards = tuple(b + SCALE["board"] * float(d) for b, d in zip(setup.boards, step[3:], strict=True))
    return Setup(slope, setup.tip + SCALE["tip"] * float(step[1]), lean, boards)


def _hangs_on_lean(row: Row, setup: Setup) -> bool:
    one = Setup(setup.slope, setup.tip, 0.0, setup.boards)
    other = Setup(setup.slope, setup.tip, 0.01, setup.boards)
    return row.model(one) != row.model(other)


def _told(rows: Sequence[Row], setup: Setup, hand: float) -> tuple[list[bool], Any]:
    """Which of slope, tip and lean the rows settle, and the covariance of all unknowns [their own units]."""
    import numpy as np

    a, _ = _matrix(rows, setup, hand)
    _, values, vt = np.linalg.svd(a, full_matrices=True)
    keep = values > 1e-7 * (values.max() if len(values) else 1.0)
    kept = vt[: len(values)][keep]
    told = [bool(1.0 - float(np.sum(kept[:, i] ** 2)) < WITHIN) for i in range(3)]
    scale = np.array([SCALE["slope"], SCALE["tip"], SCALE["lean"], *[SCALE["board"]] * len(setup.boards)])
    spread = (kept.T / values[keep] ** 2) @ kept
    return told, spread * np.outer(scale, scale)


def _residuals(rows: Sequence[Row], setup: Setup, hand: float) -> tuple[Residual, ...]:
    """Each reading's miss in standard deviations of that miss: a reading that alone settles something can't miss."""
    import numpy as np

    a, out = _matrix(rows, setup, hand)
    hat = np.einsum("ij,ji->i", a, np.linalg.pinv(a, rcond=1e-7))
    found = []
    for row, miss, share in zip(rows, out, hat, strict=True):
        spare = 1.0 - float(share)
        size = float(miss) / math.sqrt(spare) if spare > 1e-6 else 0.0
        found.append(Residual(row, _predicted(row, setup, hand), size))
    return tuple(found)
