"""What is written on the wood: a letter for the blank, a number for its copy, a number for the piece from the bow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_uppercase

from scarfwright.models.lengths.length import Unit
from scarfwright.models.plan.clear import strips
from scarfwright.models.plan.data import Board, Cut, Plan, Request


@dataclass(frozen=True)
class Look:
    """How a plan is shown: the job's title and unit, a line about the wood, paper width and height [mm], its name, and
    what needs care about boards and blanks."""

    title: str
    units: Unit
    wood: str
    paper: tuple[float, float]
    paper_name: str
    care: tuple[str, ...] = ()


@dataclass(frozen=True)
class Piece:
    """A piece to cut: its code, its cut, the blank it belongs to, its place from the bow (from 0) of so many."""

    code: str
    cut: Cut
    blank: int
    copy: int
    place: int
    of: int


def letter(number: int) -> str:
    """A, B ... Z, AA, AB ... for a blank's place in the job."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = ascii_uppercase[rest] + text
    return text


def blank_code(request: Request, blank: int, copy: int) -> str:
    """ "A", or "A2" for the second of several alike."""
    return letter(blank) + (str(copy) if request.blanks[blank].count > 1 else "")


def pieces(request: Request, plan: Plan) -> list[Piece]:
    """All pieces in cutting order: board by board, strip by strip, the longest first, so that what comes out short of
    its place can still be had from what is left."""
    found = [
        Piece(f"{blank_code(request, b.blank, b.copy)}-{place + 1}", cut, b.blank, b.copy, place, len(b.pieces))
        for b in plan.blanks
        for place, cut in enumerate(b.pieces)
    ]
    return sorted(found, key=lambda p: (p.cut.board, p.cut.copy, p.cut.strip, -p.cut.length, p.cut.start))


def board_name(board: Board, copy: int, strip: int = 0) -> str:
    """The board's name, which of several alike, and its strip; strip 0: not told."""
    name = board.name + (f" no. {copy}" if board.count > 1 else "")
    return f"{name}, strip {strip}" if strip else name


def strip_name(request: Request, cut: Cut) -> str:
    """Board, copy, and which strip where there is more than one."""
    board = request.boards[cut.board]
    return board_name(board, cut.copy, cut.strip if strips(board, request.rules) > 1 else 0)


def by_board(found: list[Piece]) -> Iterator[tuple[tuple[int, int, int], list[Piece]]]:
    """Pieces of each strip that is cut, in order."""
    rows: dict[tuple[int, int, int], list[Piece]] = {}
    for piece in found:
        rows.setdefault((piece.cut.board, piece.cut.copy, piece.cut.strip), []).append(piece)
    yield from rows.items()
