"""The sheets of a plan: boards to cut, blanks to glue, the cutting list with cautions."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.say import Say
from scarfwright.models.plan.data import Plan, Request
from scarfwright.models.planning.numbers import face, tapered
from scarfwright.models.words import plan as words
from scarfwright.outputs.drawing.display import Item, Sheet, Text, fitting_scale, scale_text
from scarfwright.outputs.drawing.panels import Cell, Row, inner, panel, table, title_block
from scarfwright.outputs.plan_sheet.bars import BAR, blank_bar, board_bar
from scarfwright.outputs.plan_sheet.codes import Look, Piece, blank_code, by_board, pieces, strip_name

PITCH_BOARD = BAR + 6.5
PITCH_BLANK = BAR + 13.5
TOP = 12.0
LIST_ROWS = 30  # rows of the cutting list on one sheet

Drawer = Callable[[tuple[float, float], float], list[Item]]


def plan_sheets(request: Request, plan: Plan, look: Look) -> list[Sheet]:
    """Blanks, then boards, then lists; as many sheets as it takes."""
    say = drawn_in(look.units)
    found = pieces(request, plan)
    of_blank: dict[tuple[int, int], list[Piece]] = {}
    for piece in sorted(found, key=lambda p: p.place):
        of_blank.setdefault((piece.blank, piece.copy), []).append(piece)
    blanks: list[Drawer] = [
        lambda at, scale, b=b: blank_bar(request, b, of_blank[b.blank, b.copy], at, scale, say)  # type: ignore[misc]
        for b in plan.blanks
    ]
    boards: list[Drawer] = [
        lambda at, scale, key=key, cut=cut: board_bar(request, key, cut, plan, at, scale, say)  # type: ignore[misc]
        for key, cut in by_board(found)
    ]
    longest_blank = max((float(b.length) for b in plan.blanks), default=1.0)
    longest_board = max((float(request.boards[p.cut.board].length) for p in found), default=1.0)
    sheets = _summary(request, plan, look, say)
    bends = any(j.use is not None for b in plan.blanks for j in b.joints)
    glue_note = (
        "The arrow points to the bow. Figures below the bars: middle of each joint from the finished bow end"
        + (", and how much of its strength the bend uses." if bends else ".")
    )
    cut_note = "Mark every cut from the left end and write on every piece. Then cut as listed, the longest first."
    sheets += _bars(look, "Blanks to glue up", blanks, longest_blank, PITCH_BLANK, glue_note)
    sheets += _bars(look, "Boards to cut", boards, longest_board, PITCH_BOARD, cut_note)
    sheets += _lists(request, found, look, say)
    for number, (sheet, what, scale) in enumerate(sheets, 1):
        sheet.add(title_block(sheet, _cells(look, what, scale, number, len(sheets))))
    return [sheet for sheet, _, _ in sheets]


Named = tuple[Sheet, str, str]


def _new(look: Look, what: str) -> Sheet:
    return Sheet(f"{look.title or 'Plan'}: {what}", *look.paper)


def _cells(look: Look, what: str, scale: str, number: int, count: int) -> list[Cell]:
    units = "Millimetres, to the nearest 0.1" if look.units == "mm" else "Inches, to the nearest 1/64"
    return [
        Cell("Job", (look.title or "(no title)", what), 86, bold=True),
        Cell("Wood", (look.wood,), 76),
        Cell("Units and scale", (units, scale), 51),
        Cell("On paper", ("Do not scale", f"Print at 100 %, {look.paper_name}"), 45, bold=True),
        Cell("Sheet", (f"{number} of {count}", "scarfwright"), 19),
    ]


def _bars(look: Look, what: str, drawers: Sequence[Drawer], longest: float, pitch: float, note: str) -> list[Named]:
    """Bars one under the other, all at one scale."""
    sheets: list[Named] = []
    x, y, width, height = inner(_new(look, what))
    scale = fitting_scale(longest, 1.0, width - 18.0, height, 1.0)
    most = max(1, int((height - TOP - 4.0) // pitch))
    for begin in range(0, len(drawers), most):
        sheet = _new(look, what)
        sheet.add(Text(x + 2, y + height - 5.5, what, 3.6, bold=True), Text(x + 60, y + height - 5.5, note, 2.6))
        top = y + height - TOP
        for number, drawer in enumerate(drawers[begin : begin + most]):
            sheet.add(drawer((x + 10.0, top - (number + 1) * pitch + 5.0), scale))
        sheets.append((sheet, what, scale_text(scale)))
    return sheets


def _summary(request: Request, plan: Plan, look: Look, say: Say) -> list[Named]:
    """What has come out, how sure it is, what is left, cautions."""
    sheet = _new(look, "Plan")
    x, y, width, height = inner(sheet)
    rows = [Row(words.verdict(plan), bold=True), Row(words.joints_line(plan)), Row(words.wood_line(say, plan))]
    if plan.verdict == "impossible" or plan.joints_proved == "count" or plan.bound_row is not None:
        rows.append(Row(words.row_line(say, request, plan), "The count"))
    for one in plan.missing:
        name = f"{blank_code(request, one.blank, one.copy)} {request.blanks[one.blank].name}"
        rows.append(Row(f"{name}: {words.why_missing(one.why)}", "Not made"))
    rows += [Row(words.remedy_line(say, request, r), "Way out") for r in plan.remedies]
    rows += [Row(text, "Caution", bold=True) for text in look.care]
    if not plan.repeatable:
        rows.append(Row("Stopped by the clock or by hand: another run may find another plan."))
    half = width * 0.55
    sheet.add(panel((x, y + 40, half, height - 40), "The plan", rows, 3.0))
    sheet.add(panel((x + half, y + 40, width - half, height - 40), "What is left", _left(request, plan, say), 2.8))
    sheet.add(panel((x, y, half, 40), "How to read the sheets", _reading(request), 2.6))
    cautions = [Row(text, bold=True) for text in words.CAUTIONS]
    sheet.add(panel((x + half, y, width - half, 40), "Cautions", cautions, fill="#fdf1ee"))
    return [(sheet, "Plan", "Not to scale")]


def _left(request: Request, plan: Plan, say: Say) -> list[Row]:
    rows = []
    for cut in plan.spare:
        rows.append(Row(words.spare_line(say, strip_name(request, cut), cut), "Test joint"))
    if plan.spare_short:
        rows.append(Row(f"No offcut is {say(float(request.rules.spare))} long for the test joint: set a board aside."))
    for cut in sorted(plan.leftovers, key=lambda c: (c.start - c.end, c.board, c.copy))[:24]:
        rows.append(Row(f"{say.down(float(cut.length))} of {strip_name(request, cut)}", "Keep"))
    if len(plan.leftovers) > 24:
        rows.append(Row(f"and {len(plan.leftovers) - 24} shorter ones"))
    idle: dict[int, int] = {}
    for board, _ in plan.unused:
        idle[board] = idle.get(board, 0) + 1
    told = ", ".join(
        f"{many} x {request.boards[b].name}" if many > 1 else request.boards[b].name for b, many in idle.items()
    )
    if told:
        rows.append(Row(told if len(told) < 400 else f"{len(plan.unused)} boards", "Not needed"))
    return rows or [Row("Nothing worth keeping.")]


def _reading(request: Request) -> list[Row]:
    keys = ", ".join(
        f"{blank_code(request, k, 1).rstrip('1') if b.count > 1 else blank_code(request, k, 1)} {b.name}"
        for k, b in enumerate(request.blanks)
    )
    return [
        Row("Blank, copy, piece from the bow: A2-3 is the third piece of the second A.", "Codes"),
        Row(keys if len(keys) < 300 else "as on the sheets of the blanks", "Blanks"),
        Row(
            "Cross-hatched: defect. Hatched: scrap. Dashed: offcut to keep. Hatched strip over a blank: no joint there."
        ),
        Row(
            "Face A is the front of sheet joint, its arrow points to the bow. Mark A on the same side all along a "
            "blank: then all glue lines lean one way."
        ),
        Row("Where grain and colour matter more than a board saved, rip one wide board and turn one half end for end."),
    ]


def _lists(request: Request, found: Sequence[Piece], look: Look, say: Say) -> list[Named]:
    """The cutting list, in columns of a table."""
    columns = ("", "Write", "Board", "From", "To", "Length", "Taper", "Face on the sled")
    rows = []
    for number, piece in enumerate(found, 1):
        ends = tapered(piece.place, piece.of)
        cut = piece.cut
        taper = {None: "none", "bow": "bow end", "far": "far end", "both": "both ends"}[ends]
        rows.append(
            (
                str(number), piece.code, strip_name(request, cut),
                say(float(cut.start)), say(float(cut.end)), say(float(cut.length)), taper, face(ends) or "",
            )
        )  # fmt: skip
    sheets: list[Named] = []
    for begin in range(0, len(rows), LIST_ROWS):
        sheet = _new(look, "Cutting list")
        x, y, width, height = inner(sheet)
        part = rows[begin : begin + LIST_ROWS]
        sheet.add(table((x + 3, y + height - 2), width - 6, "Cutting list", columns, part, height - 6, 3.2))
        sheets.append((sheet, "Cutting list", "Not to scale"))
    return sheets
