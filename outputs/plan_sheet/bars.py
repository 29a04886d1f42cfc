"""Bars to scale: a strip of a board with its pieces, defects and offcuts; a blank with its joints. Patterns and letters
tell them apart, so that a print in black does."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.lengths.say import Say
from scarfwright.models.plan.clear import clear_stretches
from scarfwright.models.plan.data import BlankPlan, Board, Cut, Plan, Request, exact
from scarfwright.models.words.plan import joint_line
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.dimension import arrow
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, THIN, Item, Pen, Text, box, line
from scarfwright.outputs.plan_sheet.codes import Piece, blank_code, strip_name

BAR = 6.0  # height of a bar [page mm]
HATCH = Pen(0.13, "#333333")
KNOT = "#9a9a9a"


def hatch(x: float, y: float, wide: float, high: float, step: float, *, back: bool = False) -> list[Item]:
    """Slanting lines over a box [page mm], rising to the right, or to the left with `back`."""
    items: list[Item] = []
    at = -high
    while at < wide:
        low, top = max(at, 0.0), min(at + high, wide)
        if top > low:
            ends = [(low, low - at), (top, top - at)]
            if back:
                ends = [(wide - a, b) for a, b in ends]
            items.append(line([(x + a, y + b) for a, b in ends], HATCH))
        at += step
    return items


def board_bar(
    request: Request,
    key: tuple[int, int, int],
    cut: Sequence[Piece],
    plan: Plan,
    at: tuple[float, float],
    scale: float,
    say: Say,
) -> list[Item]:
    """One strip of a board: its name over it, pieces with code and length, defects black and grey, offcuts hatched."""
    board = request.boards[key[0]]
    x, y = at
    length = float(board.length)
    size = "" if not board.price else f", price {float(board.price):.2f}"
    head = f"{strip_name(request, cut[0].cut)}: {say(length)}{size}"
    items: list[Item] = [Text(x, y + BAR + 1.0, head, 2.5, bold=True), box(x, y, length / scale, BAR, EDGE)]
    items += _defects(board, x, y, scale)
    for piece in cut:
        left, right = x + float(piece.cut.start) / scale, x + float(piece.cut.end) / scale
        items.append(box(left, y, right - left, BAR, OUTLINE, "#ffffff"))
        items += _label(piece.code, say(float(piece.cut.length)), left, right, y)
    here = [c for c in plan.leftovers if (c.board, c.copy, c.strip) == key]
    for c in here:
        left, right = x + float(c.start) / scale, x + float(c.end) / scale
        items.append(box(left, y + 0.8, right - left, BAR - 1.6, PHANTOM, "#ffffff"))
        items += _label("keep", say.down(float(c.length)), left, right, y, bold=False)
    spare = [c for c in plan.spare if (c.board, c.copy, c.strip) == key]
    for c in spare:
        left, right = x + float(c.start) / scale, x + float(c.end) / scale
        items.append(box(left, y, right - left, BAR, THIN, "#ffffff"))
        items += _label("test joint", say(float(c.length)), left, right, y, bold=False)
    taken = [*(p.cut for p in cut), *here, *spare]
    return [*items, *_scraps(request, board, taken, x, y, scale)]


def _defects(board: Board, x: float, y: float, scale: float) -> list[Item]:
    items: list[Item] = []
    for a, b in board.defects:
        left, wide = x + float(a) / scale, max((float(b) - float(a)) / scale, 0.4)
        items.append(box(left, y, wide, BAR, THIN, KNOT))
        items += hatch(left, y, wide, BAR, 0.9)
        items += hatch(left, y, wide, BAR, 0.9, back=True)
    return items


def _scraps(request: Request, board: Board, taken: Sequence[Cut], x: float, y: float, scale: float) -> list[Item]:
    """Hatch what is lost of a clear stretch that was cut: what is neither piece nor kept, and wider than a saw cut."""
    items: list[Item] = []
    kerf = exact(request.rules.kerf)
    for low, high in clear_stretches(board, request.rules):
        inside = sorted((c.start, c.end) for c in taken if low <= c.start and c.end <= high)
        at = low
        for begin, end in [*inside, (high, high)] if inside else []:
            if begin - at > kerf:
                items += hatch(x + float(at) / scale, y, float(begin - at) / scale, BAR, 1.6)
            at = end + kerf
    return items


def _label(code: str, length: str, left: float, right: float, y: float, *, bold: bool = True) -> list[Item]:
    """Code and length in the middle of a box, smaller or without the length where it is narrow."""
    room = right - left - 0.8
    for text, size in ((f"{code}  {length}", 2.7), (f"{code}  {length}", 2.1), (code, 2.4), (code, 1.6)):
        if lettering.width(text, size, bold) <= room:
            return [Text((left + right) / 2, y + BAR / 2 - 0.35 * size, text, size, "middle", bold=bold)]
    return [Text((left + right) / 2, y - 2.3, code, 1.8, "middle", bold=bold)]


def blank_bar(
    request: Request, blank: BlankPlan, cut: Sequence[Piece], at: tuple[float, float], scale: float, say: Say
) -> list[Item]:
    """A glued-up blank, the bow to the left: pieces with their codes, glue lines, stations, stretches kept clear."""
    one = request.blanks[blank.blank]
    x, y = at
    allowance, overlap = float(one.allowance), float(request.rules.overlap)
    whole, start = float(blank.length), x
    code = blank_code(request, blank.blank, blank.copy)
    head = f"{code}  {one.name}: {say(float(one.length))} finished"
    if allowance:
        head += f", {say(allowance)} more at each end to trim off"
    if one.members > 1:
        head += f", ripped into {one.members}"
    items: list[Item] = [Text(x, y + BAR + 4.0, head, 2.5, bold=True)]
    items += [arrow((x - 7.0, y + BAR / 2), (-1.0, 0.0), 3.0), line([(x - 7.0, y + BAR / 2), (x - 1.0, y + BAR / 2)])]
    items.append(box(start, y, whole / scale, BAR, OUTLINE))
    for a, b in one.keep_clear:
        left, right = (max(0.0, min(whole, float(v) + allowance)) for v in (a, b))
        items += [box(start + left / scale, y + BAR, (right - left) / scale, 1.4, THIN)]
        items += hatch(start + left / scale, y + BAR, (right - left) / scale, 1.4, 0.7, back=True)
    begins = [float(j.station) - overlap / 2 + allowance for j in blank.joints]
    edges = [0.0, *(b + overlap / 2 for b in begins), whole]
    for number, begin in enumerate(begins):
        left, right = start + begin / scale, start + (begin + overlap) / scale
        items.append(line([(left, y + BAR), (right, y)], EDGE, "glue line"))
        items.append(line([((left + right) / 2, y), ((left + right) / 2, y - 1.2)]))
        joint = blank.joints[number]
        items.append(Text((left + right) / 2, y - 3.4, joint_line(say, joint), 2.1, "middle"))
    for piece, left, right in zip(cut, edges, edges[1:], strict=False):
        inset = overlap / 2 / scale
        items += _label(piece.code, "", start + left / scale + inset * 0.6, start + right / scale - inset * 0.6, y)
    return items
