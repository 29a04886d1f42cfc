"""Bounds of wood and price at a known number of joints: no plan with that many can have less."""

from __future__ import annotations

import math
from fractions import Fraction

from scarfwright.models.plan.counting.rows import FAR, least_need, rack
from scarfwright.models.plan.problem import Problem

ROWS = 16


def least_consumed(problem: Problem, joints: int) -> Fraction:
    """Least wood that any plan with `joints` joints uses up [mm].

    The pieces of a blank add up to at least its length and an overlap a joint; every run that is cut loses a kerf
    between its pieces, and there are no more runs than are on the rack.
    """
    wanted = sum((item.length for item in problem.items), Fraction(0)) + joints * problem.overlap
    pieces = joints + len(problem.items)
    return math.ceil(wanted) * problem.mark + max(0, pieces - len(problem.room)) * problem.kerf * problem.unit_mm


def least_price(problem: Problem, joints: int, effort: float = 0.5) -> int:
    """Least price of boards for any plan with `joints` joints, in the problem's coin.

    The boards chosen must meet the rows of count.py: for each tau, what they have beyond it is at least what the blanks
    need beyond it at this number of pieces.
    """
    import numpy as np
    from ortools.sat.python import cp_model

    shelf = rack(problem)
    lengths = [x for x in shelf.lengths if x < shelf.longest]
    taus = sorted({-shelf.kerf, 0, *lengths[:: max(1, len(lengths) // ROWS)]})
    thresholds = np.array(taus, dtype=np.int64)
    extra = joints + len(problem.items) - sum(i.counts[0] for i in problem.items)
    if extra < 0:
        return 0
    needs = least_need(problem, shelf, "length", thresholds, extra)[:, extra]
    gives: dict[int, list[int]] = {}
    for r, room in enumerate(problem.room):
        row = gives.setdefault(problem.board_of[r], [0] * len(taus))
        for k, tau in enumerate(taus):
            length = room - shelf.kerf
            row[k] += max((length // shelf.unit * shelf.unit if tau >= 0 else length) - tau, 0)
    kinds: dict[tuple[int, ...], int] = {}
    for board, row in gives.items():
        key = (problem.prices[board], *row)
        kinds[key] = kinds.get(key, 0) + 1
    model = cp_model.CpModel()
    taken = {key: model.new_int_var(0, many, "") for key, many in kinds.items()}
    for k, need in enumerate(needs):
        if need < FAR:
            model.add(sum(key[k + 1] * v for key, v in taken.items()) >= int(need))
    model.minimize(sum(key[0] * v for key, v in taken.items()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.catch_sigint_signal = False
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return 0
    return max(0, math.ceil(solver.best_objective_bound - 1e-6))
