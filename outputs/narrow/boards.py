"""Which piece comes from which board, and how the pieces make the blanks: bars, a few to a picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.plan.data import BlankPlan
from scarfwright.models.planning.planned import Planned
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, Text, box, line
from scarfwright.outputs.narrow.colours import GROUND, OTHER_WOOD, PAPER, STEEL, WOOD
from scarfwright.outputs.narrow.scene import MARGIN, SIZE, WIDTH, Scene, centred, scene, shortened
from scarfwright.outputs.plan_sheet.codes import Piece, blank_code, by_board, pieces, strip_name

BAR, LINE = 6.5, 15.5  # page mm: height of a bar, and of a bar with its heading
A_SCENE = 10  # bars to a picture
MOST = 60  # bars drawn; the sheets have them all
LENGTH = WIDTH - 2 * MARGIN
Row = TypeVar("Row")


def plan_scenes(work: Workup, planned: Planned) -> list[Scene]:
    """The boards that are cut, then the blanks."""
    cut = pieces(planned.request, planned.plan)
    return [*_boards(work, planned, cut), *_blanks(work, planned, cut)]


def _boards(work: Workup, planned: Planned, cut: list[Piece]) -> Iterator[Scene]:
    request, say = planned.request, drawn_in(work.job.units)
    rows = list(by_board(cut))[:MOST]
    longest = max((float(request.boards[key[0]].length) for key, _ in rows), default=1.0)
    for number, chunk in enumerate(_chunks(rows), 1):
        items: list[Item] = []
        y = LINE * len(chunk)
        for key, here in chunk:
            y -= LINE
            board = request.boards[key[0]]
            told = f"{strip_name(request, here[0].cut)}: {say(float(board.length))}"
            items += _heading(told, y)
            items.append(box(MARGIN, y, _x(float(board.length), longest) - MARGIN, BAR, EDGE, GROUND))
            for low, high in board.defects:
                left = _x(float(low), longest)
                items.append(box(left, y, max(_x(float(high), longest) - left, 0.4), BAR, EDGE, STEEL))
            for piece in here:
                left, right = _x(float(piece.cut.start), longest), _x(float(piece.cut.end), longest)
                items.append(box(left, y, right - left, BAR, OUTLINE, WOOD))
                items += _code(piece.code, left, right, y)
            for kept in planned.plan.leftovers:
                if (kept.board, kept.copy, kept.strip) == key:
                    left, right = _x(float(kept.start), longest), _x(float(kept.end), longest)
                    items.append(box(left, y + 0.8, right - left, BAR - 1.6, PHANTOM, PAPER))
                    items += _code("keep", left, right, y)
            for spare in planned.plan.spare:
                if (spare.board, spare.copy, spare.strip) == key:
                    left, right = _x(float(spare.start), longest), _x(float(spare.end), longest)
                    items.append(box(left, y, right - left, BAR, EDGE, PAPER))
                    items += _code("test joint", left, right, y)
        caption = "Boards from their start, each with its pieces. Dark: a defect. Pale: what is lost. Dashed: keep it."
        yield scene(f"boards-{number}", caption, LINE * len(chunk) + 1.0, items)


def _blanks(work: Workup, planned: Planned, cut: list[Piece]) -> Iterator[Scene]:
    request, say = planned.request, drawn_in(work.job.units)
    blanks = planned.plan.blanks[:MOST]
    longest = max((float(b.length) for b in blanks), default=1.0)
    for number, chunk in enumerate(_chunks(blanks), 1):
        items: list[Item] = []
        y = LINE * len(chunk)
        for blank in chunk:
            y -= LINE
            one = request.blanks[blank.blank]
            code = blank_code(request, blank.blank, blank.copy)
            items += _heading(f"{code} {one.name}: {say(float(one.length))}", y)
            items += _blank(
                blank, [p for p in cut if (p.blank, p.copy) == (blank.blank, blank.copy)], planned, longest, y
            )
        caption = "Blanks from the bow, to the left: each slanting line is a glue line."
        yield scene(f"blanks-{number}", caption, LINE * len(chunk) + 1.0, items)


def _blank(blank: BlankPlan, cut: list[Piece], planned: Planned, longest: float, y: float) -> list[Item]:
    one, overlap = planned.request.blanks[blank.blank], float(planned.request.rules.overlap)
    items: list[Item] = [box(MARGIN, y, _x(float(blank.length), longest) - MARGIN, BAR, OUTLINE, OTHER_WOOD)]
    begins = [float(j.station) - overlap / 2 + float(one.allowance) for j in blank.joints]
    for begin in begins:
        items.append(line([(_x(begin, longest), y + BAR), (_x(begin + overlap, longest), y)], EDGE, "glue line"))
    lows, highs = [0.0, *(b + overlap for b in begins)], [*begins, float(blank.length)]
    for piece, low, high in zip(sorted(cut, key=lambda p: p.place), lows, highs, strict=False):
        items += _code(piece.code, _x(low, longest), _x(high, longest), y)
    return items


def _chunks(rows: Sequence[Row]) -> Iterator[Sequence[Row]]:
    for begin in range(0, len(rows), A_SCENE):
        yield rows[begin : begin + A_SCENE]


def _x(value: float, longest: float) -> float:
    return MARGIN + LENGTH * value / longest


def _heading(text: str, y: float) -> list[Item]:
    return [Text(MARGIN + 0.3, y + BAR + 1.6, shortened(text, LENGTH - 1.0, True), SIZE, bold=True)]


def _code(code: str, left: float, right: float, y: float) -> list[Item]:
    """The code in the middle of a stretch, where it has room; the list has them all."""
    if lettering.width(code, SIZE) + 1.0 > right - left:
        return []
    return [centred(((left + right) / 2, y + BAR / 2), code)]
