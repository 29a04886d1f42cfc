"""The second sheet: a stick of three boards with every pencil mark, how each end lies at the saw, and the turns."""

from __future__ import annotations

import math

from scarfwright.models.flat.loop import Point, polygon
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.say import Say
from scarfwright.models.pair.marks import Mark, MarkedBoard, marked_stick
from scarfwright.models.pair.turns import Board, Cut, cuts_of, turned
from scarfwright.outputs.drawing.dimension import arrow
from scarfwright.outputs.drawing.display import EDGE, GREY, Anchor, Item, Pen, Sheet, Text, View, box, line, shape
from scarfwright.outputs.drawing.lettering import fit, wrap
from scarfwright.outputs.drawing.panels import inner, panel, title_block
from scarfwright.outputs.joint_sheet.data import JointData
from scarfwright.outputs.joint_sheet.shapes import WOOD, board_from_above
from scarfwright.outputs.joint_sheet.texts import LEAN_NOTE, marking_rows, saw_words, turn_rows

PENCIL = Pen(0.45, "#333333")
BEHIND = Pen(0.3, "#555555", (1.6, 1.0))
METAL, SLED = "#c9ced4", "#dfe8d8"
LEAD, LEAD_BEHIND = "#333333", "#5c5c5c"
Area = tuple[float, float, float, float]

BOARDS_HIGH, TURNS_HIGH, NOTE_HIGH = 58.0, 40.0, 7.0
PICTURE_SLOPE = 4.0  # of the small pictures; they are not to scale


def marks_page(data: JointData, number: int, count: int) -> Sheet:
    """The sheet of marks and turns."""
    sheet = Sheet(f"{data.title or 'Joint'}: marks and turns", *data.paper)
    x, y, width, height = inner(sheet)
    say = drawn_in(data.units)
    stick = marked_stick(data.joint, 3, data.fence_side)
    near = stick[0].board.right
    assert near is not None
    top = y + height
    sheet.add(_boards_row(stick, (x, top - BOARDS_HIGH, width, BOARDS_HIGH), say))
    middle = height - BOARDS_HIGH - TURNS_HIGH - NOTE_HIGH
    low = y + NOTE_HIGH + TURNS_HIGH
    rows = marking_rows(near, say, data.joint.overlap, data.joint.taper_run)
    wide = 0.5 * width
    sheet.add(panel((x, low, wide, middle), "Pencil marks, before the cut", rows, 3.0))
    sheet.add(_saw_row(stick[1], data, (x + wide, low, width - wide, middle)))
    sheet.add(_turns_row(stick, (x, y + NOTE_HIGH, width, TURNS_HIGH)))
    size, lines = fit(LEAN_NOTE, 2.6, width - 4.0, 1)
    sheet.add(box(x, y, width, NOTE_HIGH, EDGE), Text(x + 2, y + 2.4, lines[0], size))
    sheet.add(title_block(sheet, data.cells("Marks and turns", "not to scale", number, count)))
    return sheet


# -- the boards, seen from their fronts --------------------------------------------------------------------


def _boards_row(stick: tuple[MarkedBoard, ...], area: Area, say: Say) -> list[Item]:
    x, y, width, height = area
    items: list[Item] = [
        box(x, y, width, height, EDGE),
        Text(
            x + 2,
            y + height - 4.6,
            "The boards as they will lie, seen from the front, before the cut",
            3.2,
            bold=True,
        ),
        Text(x + 2, y + 1.8, "Full lines: on the front. Dashed: on the back. Not to scale.", 2.3),
    ]
    cell = (width - 8.0) / len(stick)
    for i, board in enumerate(stick):
        items += _board_front(board, (x + 5 + i * cell + 2.0, y + 16.0, cell - 6.0, 24.0), say)
    return items


def _board_front(marked: MarkedBoard, area: Area, say: Say) -> list[Item]:
    x, y, width, high = area
    items: list[Item] = [box(x, y, width, high, EDGE, WOOD)]
    items.append(line([(x, y + 0.7), (x + width, y + 0.7)], Pen(0.9, LEAD), "marked edge"))
    items.append(Text(x + width / 2, y - 3.4, "marked edge, down", 2.3, "middle"))
    middle = x + width / 2
    items.append(Text(middle - 5.0, y + high / 2 - 2.0, str(marked.number), 6.5, "end", bold=True))
    items.append(line([(middle - 3.0, y + high / 2), (middle + 7.0, y + high / 2)], PENCIL))
    items.append(arrow((middle + 8.0, y + high / 2), (1.0, 0.0), 3.0))
    for mark in marked.marks:
        items += _end_mark(mark, area, say)
    return items


def _end_mark(mark: Mark, area: Area, say: Say) -> list[Item]:
    """SLED, overlap and run-out marks of one end; the two lines stand close together, as they do on the wood."""
    x, y, width, high = area
    if mark.end is None:
        return []
    edge, inward = (x, 1.0) if mark.end == "left" else (x + width, -1.0)
    pen = PENCIL if mark.surface == "front" else BEHIND
    anchor: Anchor = "start" if inward > 0 else "end"
    if mark.kind == "to_sled":
        behind = mark.surface == "back"
        at = edge + inward * 1.8
        items: list[Item] = [Text(at, y + high - 4.5, "SLED", 3.2, anchor, 0.0, True, LEAD_BEHIND if behind else LEAD)]
        note = "on the back" if behind else "on the front"
        return [*items, Text(at, y + high - 7.8, note, 2.2, anchor, 0.0, False, "#555555")]
    share = {"overlap": 0.27, "run_out": 0.31}[mark.kind]
    at = edge + inward * share * width
    items = [line([(at, y), (at, y + high)], pen, mark.kind)]
    assert mark.place is not None
    lift = {"overlap": 1.4, "run_out": 5.0}[mark.kind]
    word = {"overlap": "overlap", "run_out": "taper ends"}[mark.kind]
    items.append(line([(at, y + high), (at, y + high + lift - 0.8)], GREY))
    items.append(Text(edge, y + high + lift, f"{word} {say(mark.place)}", 2.4, anchor))
    return items


# -- at the saw --------------------------------------------------------------------------------------------


def _saw_row(marked: MarkedBoard, data: JointData, area: Area) -> list[Item]:
    """How either end lies at the saw, from above: fence, sled, board, blade."""
    x, y, width, height = area
    items: list[Item] = [
        box(x, y, width, height, EDGE),
        Text(x + 2, y + height - 4.6, "At the saw, seen from above, feed up the page", 3.0, bold=True),
    ]
    cuts = cuts_of(marked.board, data.fence_side)
    for i, cut in enumerate(cuts):
        part = (x + i * width / 2, y, width / 2, height - 7.0)
        items += _at_saw(cut, data, part)
    return items


def _at_saw(cut: Cut, data: JointData, area: Area) -> list[Item]:
    x, y, width, height = area
    foot = 9.5
    high = height - foot - 2.0
    out = -1.0 if data.fence_side == "right" else 1.0  # from the fence to the blade on the page
    middle = x + width / 2 - out * 9.0

    def at(across: float, along: float) -> Point:
        """Page point: across from the fence towards the blade, along the feed."""
        return (middle + out * across, y + foot + along)

    heel, nose, thick = 13.0, 4.0, 6.0
    lean = (heel - nose) / high
    board = [at(heel, high), at(heel + thick, high), at(nose + thick + 3 * lean, 0.0), at(nose, 0.0)]
    blade = heel + 1.0
    items: list[Item] = [
        shape(polygon([at(-4.0, -1.0), at(0.0, -1.0), at(0.0, high + 1.0), at(-4.0, high + 1.0)]), EDGE, METAL),
        shape(polygon([at(0.0, 0.0), at(nose, 0.0), at(heel, high), at(0.0, high)]), EDGE, SLED, "sled"),
        shape(polygon(board), EDGE, WOOD, "board"),
        line([at(blade, high * 0.15), at(blade, high + 2.0)], Pen(0.5, "#8a3324", (2.0, 1.2)), "blade"),
        arrow(at(heel + thick + 5.0, high * 0.8), (0.0, 1.0), 3.0),
        line([at(heel + thick + 5.0, high * 0.4), at(heel + thick + 5.0, high * 0.74)], PENCIL),
    ]
    name = at(heel * 0.4, high * 0.75)
    items.append(Text(name[0], name[1], "sled", 2.4, "middle"))
    fence = at(-2.0, high * 0.5)
    items.append(Text(fence[0] + 0.6, fence[1], "fence", 2.4, "middle", math.pi / 2))
    near = at(blade + 1.2, high + 1.2)
    items.append(Text(near[0], near[1], "blade", 2.4, "start" if out > 0 else "end", colour="#8a3324"))
    rows = [row for text in saw_words(cut) for row in wrap(text, 2.4, width - 4.0)]
    for i, text in enumerate(rows[:3]):
        items.append(Text(x + width / 2, y + foot - 3.4 - 3.1 * i, text, 2.4, "middle", bold=i == 0))
    return items


# -- right and wrong turns ---------------------------------------------------------------------------------


def _turns_row(stick: tuple[MarkedBoard, ...], area: Area) -> list[Item]:
    """Three ways the second board could lie against the first."""
    x, y, width, height = area
    first, second = stick[0].board, Board(stick[1].board.left, None)
    placed = (second, turned(second, "length"), turned(second, "upright"))
    items: list[Item] = []
    cell = width / len(placed)
    for i, (mate, (heading, words)) in enumerate(zip(placed, turn_rows(), strict=True)):
        left = x + i * cell
        items.append(box(left, y, cell, height, EDGE))
        size, lines = fit(heading, 2.9, cell - 4.0, 1, True)
        items.append(Text(left + 2, y + height - 4.6, lines[0], size, bold=True))
        for row, text in enumerate(wrap(words, 2.4, cell - 4.0)[:2]):
            items.append(Text(left + 2, y + height - 8.6 - 3.2 * row, text, 2.4))
        items += _meeting_picture(first, mate, (left + 3, y + 3.0, cell - 6, height - 17.0))
    return items


def _meeting_picture(first: Board, mate: Board, area: Area) -> list[Item]:
    """Both boards from above, fronts towards the reader, brought together as far as they go."""
    x, y, width, height = area
    right, left = first.right, mate.left
    joint = Joint(PICTURE_SLOPE, 16.0, 30.0, 0.6)
    length = 110.0
    one = board_from_above(joint, length, None, right)
    other = board_from_above(joint, length, left, mate.right)
    closes = left is not None and left != right
    shift = length - (joint.overlap if closes else 0.0)
    scale = max((length + shift) / width, joint.thickness / (0.6 * height))
    long = (length + shift) / scale
    view = View(scale, (x + (width - long) / 2, y + (height - joint.thickness / scale) / 2))
    moved = [(px + shift, py) for px, py in other]
    items: list[Item] = [
        shape(view.loop(polygon(one)), EDGE, WOOD, "first"),
        shape(view.loop(polygon(moved)), EDGE, "#e2cda3", "second"),
    ]
    full = 0.82 if mate.right is None else 0.18  # of the mate, where it has its whole thickness
    for n, at in ((1, 0.18 * length), (2, shift + full * length)):
        px, py = view.point((at, joint.thickness / 2))
        items.append(Text(px, py - 1.2, str(n), 3.2, "middle", bold=True))
    return items
