"""The sheet to measure a test joint on. A pure function of data and unit."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.outputs.drawing.display import EDGE, GREY, Item, Sheet, Text, box, line
from scarfwright.outputs.drawing.lettering import fit, wrap
from scarfwright.outputs.drawing.panels import inner, title_block
from scarfwright.outputs.test_joint_sheet.data import TestJointData
from scarfwright.outputs.test_joint_sheet.pictures import pictures
from scarfwright.outputs.test_joint_sheet.texts import HAND, ORDER, Figure, figures

PICTURES, NOTES, HEAD = 47.0, 17.0, 6.0
COLUMNS = (0.03, 0.19, 0.37, 0.09)  # letter, name, how, planned; boxes take the rest
SIZE = 2.7
Area = tuple[float, float, float, float]


def test_joint_sheet(data: TestJointData) -> Sheet:
    """One sheet: pictures, a table with boxes, and what to look to."""
    sheet = Sheet(f"{data.title or 'Joint'}: test joint", *data.paper)
    x, y, width, height = inner(sheet)
    sheet.add(pictures((x, y + height - PICTURES, width, PICTURES)))
    rows = figures(data.joint, drawn_in(data.units))
    sheet.add(_table(rows, (x, y + NOTES, width, height - PICTURES - NOTES)))
    sheet.add(_notes((x, y, width, NOTES)))
    sheet.add(title_block(sheet, data.cells("Test joint: what to measure", "not to scale", 1, 1)))
    return sheet


test_joint_sheet.__test__ = False  # type: ignore[attr-defined]


def _notes(area: Area) -> list[Item]:
    x, y, width, height = area
    items: list[Item] = [box(x, y, width, height, EDGE)]
    rows = [row for text in (HAND, ORDER) for row in wrap(text, 2.5, width - 4.0)]
    for i, text in enumerate(rows):
        items.append(Text(x + 2, y + height - 3.6 - 3.5 * i, text, 2.5))
    return items


def _table(rows: list[Figure], area: Area) -> list[Item]:
    x, y, width, height = area
    starts = [x + 2.0]
    for share in COLUMNS:
        starts.append(starts[-1] + share * width)
    boxes = (starts[-1], x + width - 2.0 - starts[-1])
    step = (height - HEAD) / len(rows)
    items: list[Item] = [box(x, y, width, height, EDGE)]
    heads = ("", "What", "How", "As planned")
    top = y + height - 4.2
    items += [Text(at, top, text, 2.4, bold=True) for at, text in zip(starts, heads, strict=False)]
    half = boxes[1] / 2
    items += [Text(boxes[0] + i * half, top, f"Board {i + 1}", 2.4, bold=True) for i in (0, 1)]
    for i, row in enumerate(rows):
        low = y + height - HEAD - (i + 1) * step
        items.append(line([(x, low + step), (x + width, low + step)], GREY))
        middle = low + step / 2 - 1.0
        items.append(Text(starts[0], middle, row.letter, 3.4, bold=True, colour="#1f4e79"))
        for at, text, share in zip(starts[1:], (row.name, row.how, row.planned), COLUMNS[1:], strict=False):
            size, lines = fit(text, SIZE, share * width - 2.0, 1)
            items.append(Text(at, middle, lines[0], size))
        items += _boxes(row, (boxes[0], low + 1.0, boxes[1], step - 2.0))
    return items


def _boxes(row: Figure, area: Area) -> Iterator[Item]:
    """Boxes to write in, each with the word for what goes there."""
    x, y, width, height = area
    words = _WORDS.get(row.letter, ("",))
    count = 2 if row.each else 1
    wide = width / count
    for piece in range(count):
        part = wide / len(words)
        for i, word in enumerate(words):
            left = x + piece * wide + i * part
            yield box(left, y, part - 1.5, height, EDGE, "#ffffff")
            if word:
                yield Text(left + 0.8, y + height - 2.2, word, 1.9, colour="#666666")


_WORDS = {
    "D": ("upper edge", "lower edge"),
    "E": ("upper edge", "lower edge"),
    "F": ("out by", "nearer end"),
    "I": ("out by", "sticks long", "up or down"),
}
