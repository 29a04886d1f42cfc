"""What can't be planned as it stands: figures that contradict one another, found before any search."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from scarfwright.models.plan.clear import strips
from scarfwright.models.plan.data import Blank, Board, Request, Rules, exact
from scarfwright.models.plan.problem import MOST_PIECES

MOST_BOARDS = 20_000
MOST_BLANKS = 5_000
MOST_MARKS = 2_000_000  # in one blank


@dataclass(frozen=True)
class Trouble:
    """One thing wrong: a dotted code, whose it is ("board", "blank", "buy", "rules" and its index), the numbers [mm].

    stops: no plan can be made before it is mended; else it only puts boards aside.
    """

    code: str
    owner: str
    index: int
    numbers: dict[str, Fraction] = field(default_factory=dict)
    stops: bool = True


def troubles(request: Request) -> list[Trouble]:
    """All that is wrong with a request, in the order of its tables; empty where it can be planned."""
    found = _rules(request.rules)
    if found:
        return found
    for index, board in enumerate(request.boards):
        found += _board(board, index, request.rules)
    for index, blank in enumerate(request.blanks):
        found += _blank(blank, index, request.rules)
    for index, buy in enumerate(request.buy):
        if exact(buy.length) <= 0 or (buy.price is not None and exact(buy.price) < 0):
            found.append(Trouble("plan.negative", "buy", index))
        elif not strips(Board("", buy.length, buy.width, buy.thickness), request.rules):
            found.append(
                Trouble("plan.does_not_fit", "buy", index, _size(buy.width, buy.thickness, request.rules), False)
            )
    return found + _whole(request)


def _rules(rules: Rules) -> list[Trouble]:
    above = {"thickness": rules.thickness, "height": rules.height, "mark": rules.mark}
    never_below = {
        "overlap": rules.overlap, "least": rules.least, "spacing": rules.spacing, "keep": rules.keep,
        "spare": rules.spare, "end_trim": rules.end_trim, "kerf": rules.kerf, "rip_kerf": rules.rip_kerf,
    }  # fmt: skip
    bad = [k for k, v in above.items() if not _finite(v) or v <= 0]
    bad += [k for k, v in never_below.items() if not _finite(v) or v < 0]
    if not _finite(rules.effort) or rules.effort < 0:
        bad.append("effort")
    return [Trouble(f"plan.negative.{key}", "rules", 0) for key in bad]


def _finite(value: float | Fraction) -> bool:
    return math.isfinite(value)


def _board(board: Board, index: int, rules: Rules) -> list[Trouble]:
    figures = [board.length, board.width or 1, board.thickness or 1, board.price or 0]
    if board.count < 0 or any(not _finite(f) or f < 0 for f in figures) or board.length <= 0:
        return [Trouble("plan.negative", "board", index)]
    found = []
    length = exact(board.length)
    spans = sorted((exact(a), exact(b)) for a, b in board.defects)
    for a, b in spans:
        if a < 0 or b > length or b <= a:
            found.append(
                Trouble("plan.defect_outside", "board", index, {"from_mm": a, "to_mm": b, "length_mm": length})
            )
    for (_, b), (c, d) in pairwise(spans):
        if c < b:
            found.append(Trouble("plan.defects_overlap", "board", index, {"from_mm": c, "to_mm": min(b, d)}))
    if not strips(board, rules):
        found.append(
            Trouble("plan.does_not_fit", "board", index, _size(board.width, board.thickness, rules), stops=False)
        )
    return found


def _size(width: float | Fraction | None, thickness: float | Fraction | None, rules: Rules) -> dict[str, Fraction]:
    return {
        "width_mm": exact(rules.height if width is None else width),
        "thickness_mm": exact(rules.thickness if thickness is None else thickness),
        "height_mm": exact(rules.height),
        "stock_thickness_mm": exact(rules.thickness),
    }


def _blank(blank: Blank, index: int, rules: Rules) -> list[Trouble]:
    figures = [blank.length, blank.allowance, blank.stagger, blank.rip_kerf]
    if blank.count < 0 or blank.members < 1 or any(not _finite(f) or f < 0 for f in figures):
        return [Trouble("plan.negative", "blank", index)]
    found = []
    length, overlap = exact(blank.length), exact(rules.overlap)
    if length <= 0 or length < overlap:
        found.append(Trouble("plan.blank_short", "blank", index, {"length_mm": length, "overlap_mm": overlap}))
    if length / exact(rules.mark) > MOST_MARKS:
        found.append(Trouble("plan.mark_fine", "blank", index, {"length_mm": length, "mark_mm": exact(rules.mark)}))
    longest = length + 2 * exact(blank.allowance)
    for a, b in ((exact(a), exact(b)) for a, b in blank.keep_clear):
        if b <= a or a < -exact(blank.allowance) or b > longest:
            found.append(Trouble("plan.zone_outside", "blank", index, {"from_mm": a, "to_mm": b, "length_mm": length}))
    lost = (blank.members - 1) * exact(blank.rip_kerf)
    if blank.members > 1 and lost >= exact(rules.height):
        found.append(Trouble("plan.members", "blank", index, {"height_mm": exact(rules.height), "lost_mm": lost}))
    if blank.mirrored and blank.count % 2:
        found.append(Trouble("plan.mirrored_odd", "blank", index, {"count": Fraction(blank.count)}, stops=False))
    return found


def _whole(request: Request) -> list[Trouble]:
    """What the tables are together."""
    boards, blanks = sum(b.count for b in request.boards), sum(b.count for b in request.blanks)
    found = []
    if blanks == 0:
        found.append(Trouble("plan.no_blanks", "rules", 0))
    if boards > MOST_BOARDS:
        found.append(
            Trouble("plan.too_many_boards", "rules", 0, {"count": Fraction(boards), "most": Fraction(MOST_BOARDS)})
        )
    if blanks > MOST_BLANKS:
        found.append(
            Trouble("plan.too_many_blanks", "rules", 0, {"count": Fraction(blanks), "most": Fraction(MOST_BLANKS)})
        )
    if any(b.neighbours is not None and b.neighbours < 1 for b in request.blanks):
        found.append(Trouble("plan.negative", "blank", 0))
    if not found and not any(t for t in request.boards if strips(t, request.rules) and t.count):
        found.append(Trouble("plan.no_board", "rules", 0))
    return found


__all__ = ["MOST_BOARDS", "MOST_PIECES", "Trouble", "troubles"]
