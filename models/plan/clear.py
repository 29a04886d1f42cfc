"""Clear runs: the stretches of a board between trims and defects, once for every strip it can be ripped into."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from scarfwright.models.plan.data import Board, Rules, exact


@dataclass(frozen=True)
class Run:
    """A clear stretch `start` to `end` along one strip of one board [mm]; `opened` counts board copies from 0."""

    board: int
    copy: int
    strip: int
    start: Fraction
    end: Fraction
    opened: int

    @property
    def length(self) -> Fraction:
        return self.end - self.start


def strips(board: Board, rules: Rules) -> int:
    """How many strips of the stock's height the board can be ripped into; 0 where it is too thin or too narrow."""
    height, kerf = exact(rules.height), exact(rules.rip_kerf)
    thickness = exact(rules.thickness if board.thickness is None else board.thickness)
    width = height if board.width is None else exact(board.width)
    if thickness < exact(rules.thickness) or width < height:
        return 0
    return int((width + kerf) // (height + kerf))


def clear_stretches(board: Board, rules: Rules) -> list[tuple[Fraction, Fraction]]:
    """Stretches free of defects, inside the trims [mm], from the board's start.

    A defect narrower than a kerf takes a kerf, about its middle.
    """
    kerf, trim = exact(rules.kerf), exact(rules.end_trim)
    begin, last = trim, exact(board.length) - trim
    found = []
    for low, high in sorted((exact(a), exact(b)) for a, b in board.defects):
        if high - low < kerf:
            middle = (low + high) / 2
            low, high = middle - kerf / 2, middle + kerf / 2
        if low > begin:
            found.append((begin, min(low, last)))
        begin = max(begin, high)
    if last > begin:
        found.append((begin, last))
    return [(a, b) for a, b in found if b > a]


def clear_runs(boards: tuple[Board, ...], rules: Rules) -> list[Run]:
    """All clear runs of all boards that fit the stock, board by board, copy by copy, strip by strip."""
    runs = []
    opened = 0
    for index, board in enumerate(boards):
        many = strips(board, rules)
        stretches = clear_stretches(board, rules) if many else []
        for copy in range(1, board.count + 1):
            runs += [Run(index, copy, strip, a, b, opened) for strip in range(1, many + 1) for a, b in stretches]
            opened += 1
    return runs
