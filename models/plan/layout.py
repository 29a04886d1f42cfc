"""From rows in whole numbers to places on the boards: cuts, joints, leftovers, the spare length."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from scarfwright.models.plan.data import BlankPlan, Cut, JointPlace, exact
from scarfwright.models.plan.goals import Rows
from scarfwright.models.plan.problem import Problem


@dataclass(frozen=True)
class Laid:
    """A plan laid out on the boards [mm]; leftovers: clear stretches worth keeping on boards that were cut into, scraps
    the offcuts too short for that."""

    blanks: tuple[BlankPlan, ...]
    boards_used: int
    consumed: Fraction
    price: Fraction | None
    leftovers: tuple[Cut, ...]
    scraps: tuple[Cut, ...]
    unused: tuple[tuple[int, int], ...]


def lay_out(problem: Problem, rows: Rows) -> Laid:
    """Pieces on their runs, longest first from the run's start; equal ones in the order of the blanks."""
    kerf = exact(problem.request.rules.kerf)
    on_run: dict[int, list[tuple[int, int, int]]] = {}
    for item, row in enumerate(rows):
        for place, (r, length) in enumerate(row or ()):
            on_run.setdefault(r, []).append((-length, item, place))
    cuts: dict[tuple[int, int], Cut] = {}
    leftovers: list[Cut] = []
    scraps: list[Cut] = []
    consumed = Fraction(0)
    for r in sorted(on_run):
        run = problem.runs[r]
        at = run.start
        for minus, item, place in sorted(on_run[r]):
            end = at - minus * problem.mark
            cuts[item, place] = Cut(run.board, run.copy, run.strip, at, end)
            at = end + kerf
        rest = run.end - at
        if rest > 0:
            keep = rest >= exact(problem.request.rules.keep)
            (leftovers if keep else scraps).append(Cut(run.board, run.copy, run.strip, at, run.end))
            consumed += run.length - (rest if keep else 0)
        else:
            consumed += run.length
    opened = {problem.board_of[r] for r in on_run}
    for r, run in enumerate(problem.runs):
        if r not in on_run and problem.board_of[r] in opened and run.length >= exact(problem.request.rules.keep):
            leftovers.append(Cut(run.board, run.copy, run.strip, run.start, run.end))
    leftovers.sort(key=lambda c: (c.board, c.copy, c.strip, c.start))
    priced = any(b.price is not None for b in problem.request.boards)
    copies = [(index, copy) for index, b in enumerate(problem.request.boards) for copy in range(1, b.count + 1)]
    paid = sum((exact(problem.request.boards[copies[b][0]].price or 0) for b in opened), Fraction(0))
    return Laid(
        tuple(_blank(problem, item, row, cuts) for item, row in enumerate(rows) if row is not None),
        len(opened),
        consumed,
        paid if priced else None,
        tuple(leftovers),
        tuple(scraps),
        tuple(c for number, c in enumerate(copies) if number not in opened),
    )


def _blank(problem: Problem, item: int, row: Sequence[tuple[int, int]], cuts: dict[tuple[int, int], Cut]) -> BlankPlan:
    one = problem.items[item]
    blank = problem.request.blanks[one.blank]
    overlap = exact(problem.request.rules.overlap)
    total, joints = Fraction(0), []
    for j, (_, marks) in enumerate(row[:-1], 1):
        total += marks * problem.mark
        begin = total - j * overlap - exact(blank.allowance)
        use = blank.use(float(begin), float(begin + overlap)) if blank.use else None
        joints.append(JointPlace(begin + overlap / 2, use))
    length = sum(marks for _, marks in row) * problem.mark - (len(row) - 1) * overlap
    pieces = tuple(cuts[item, place] for place in range(len(row)))
    return BlankPlan(one.blank, one.copy, length, pieces, tuple(joints))


def spare_from(problem: Problem, laid: Laid) -> tuple[tuple[Cut, ...], bool]:
    """Where the test joint and the bend test come from, and whether there is too little for them.

    Shortest first: a scrap that is long enough, then a leftover, then a clear run of a board that is not needed.
    """
    wanted = exact(problem.request.rules.spare)
    if wanted <= 0:
        return (), False
    idle = set(laid.unused)
    boards = [
        Cut(run.board, run.copy, run.strip, run.start, run.end) for run in problem.runs if (run.board, run.copy) in idle
    ]
    for shelf in (laid.scraps, laid.leftovers, boards):
        enough = [cut for cut in shelf if cut.length >= wanted]
        if enough:
            cut = min(enough, key=lambda c: (c.length, c.board, c.copy, c.strip, c.start))
            return (Cut(cut.board, cut.copy, cut.strip, cut.end - wanted, cut.end),), False
    return (), True


def beside_spare(
    problem: Problem, laid: Laid, spare: tuple[Cut, ...]
) -> tuple[tuple[Cut, ...], tuple[tuple[int, int], ...]]:
    """What is left over, and the boards not needed, once the spare length is cut off as well."""
    kerf, keep = exact(problem.request.rules.kerf), exact(problem.request.rules.keep)
    leftovers = []
    for cut in laid.leftovers:
        taken = [
            s for s in spare if s.end == cut.end and (s.board, s.copy, s.strip) == (cut.board, cut.copy, cut.strip)
        ]
        end = taken[0].start - kerf if taken else cut.end
        if end - cut.start >= keep and end > cut.start:
            leftovers.append(replace(cut, end=end))
    into = {(s.board, s.copy) for s in spare}
    return tuple(leftovers), tuple(board for board in laid.unused if board not in into)
