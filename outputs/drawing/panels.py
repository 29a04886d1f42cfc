"""Panels of a sheet: the frame, the title block, and boxes of text and tables."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import EDGE, THIN, Item, Sheet, Text, box, line

FRAME = 2.0  # the frame stands this far inside the margin
TITLE_HEIGHT = 17.0
CAPTION = 3.0  # type of the title block's captions, and the least of what stands under them
CELL_TYPE = 3.6
CELL_LEADING = 1.27  # three rows of the least type fit under a caption
LEADING = 1.34  # of the text size, from base line to base line
PAD = 2.0
LEAST_TYPE = 0.8  # panels shrink their type no further [mm]


@dataclass(frozen=True)
class Cell:
    """A cell of the title block: a small caption, lines of text, and its share of the width."""

    caption: str
    lines: tuple[str, ...]
    share: float
    bold: bool = False


def inner(sheet: Sheet) -> tuple[float, float, float, float]:
    """x, y, width, height of the room above the title block."""
    left = sheet.margin + FRAME
    bottom = left + TITLE_HEIGHT
    return (left, bottom, sheet.width - 2 * left, sheet.height - left - bottom)


def title_block(sheet: Sheet, cells: Sequence[Cell], least: float = CAPTION) -> list[Item]:
    """The frame and, along its foot, the title block. No type in it is smaller than `least` [page mm]: what is still
    too long loses the end of its cell's first line, and that alone."""
    left = sheet.margin + FRAME
    width, height = sheet.width - 2 * left, sheet.height - 2 * left
    items: list[Item] = [
        box(left, left, width, height, EDGE),
        line([(left, left + TITLE_HEIGHT), (left + width, left + TITLE_HEIGHT)], EDGE),
    ]
    total = sum(cell.share for cell in cells)
    x = left
    for number, cell in enumerate(cells):
        span = width * cell.share / total
        if number:
            items.append(line([(x, left), (x, left + TITLE_HEIGHT)]))
        items += _cell(cell, x + 1.5, left, span - 3.0, least)
        x += span
    return items


def _cell(cell: Cell, x: float, bottom: float, room: float, least: float) -> list[Item]:
    caption = bottom + TITLE_HEIGHT - 1.1 - CAPTION
    items: list[Item] = [Text(x, caption, cell.caption, CAPTION, colour="#555555")]
    y = caption - 1.2
    height = y - bottom
    size, rows = _cell_rows(cell, room, height, least)
    pitch = min(height / 2, max(size * CELL_LEADING, height / max(len(rows), 1)))
    for text, bold in rows:
        y -= pitch
        items.append(Text(x, y + 0.3 * size + (pitch - size * CELL_LEADING) / 2, text, size, bold=bold))
    return items


CellRows = list[tuple[str, bool]]


def _cell_rows(cell: Cell, room: float, height: float, least: float) -> tuple[float, CellRows]:
    """The size of a cell's type and its rows, each with whether it is bold: a long first line goes without bold before
    it goes without its end."""
    first, *others = cell.lines

    def rows_at(size: float, text: str, bold: bool) -> tuple[bool, CellRows]:
        rows = [(row, bold) for row in lettering.wrap(text, size, room, bold)]
        rows += [(row, False) for other in others for row in lettering.wrap(other, size, room)]
        return len(rows) * size * CELL_LEADING <= height + 1e-6, rows

    bold = cell.bold and rows_at(least, first, True)[0]
    text = lettering.shortened(first, lambda trial: rows_at(least, trial, bold)[0])
    return lettering.largest_size(lambda size: rows_at(size, text, bold), lettering.by_steps(CELL_TYPE, 0.1, least))


@dataclass(frozen=True)
class Row:
    """One row of a panel: a paragraph, or a label with a value to its right (`label` empty: a paragraph)."""

    text: str
    label: str = ""
    bold: bool = False


def panel(
    area: tuple[float, float, float, float],
    heading: str,
    rows: Sequence[Row],
    size: float = 2.8,
    *,
    fill: str | None = None,
) -> list[Item]:
    """A box with a heading and rows of text, as large as `size` and no larger than fits the area (x, y, w, h)."""
    x, y, width, height = area

    def rows_at(trial: float) -> tuple[bool, list[Item]]:
        items, used = _panel_rows(x + PAD, y + height - PAD, width - 2 * PAD, heading, rows, trial)
        return used <= height - 2 * PAD, items

    _, items = lettering.largest_size(rows_at, lettering.by_shares(size, 0.97, LEAST_TYPE))
    return [box(x, y, width, height, EDGE, fill), *items]


def _panel_rows(
    x: float, top: float, room: float, heading: str, rows: Sequence[Row], size: float
) -> tuple[list[Item], float]:
    items: list[Item] = []
    y = top
    if heading:
        big, lines = lettering.fit(heading, size * 1.15, room, 1, True)
        y -= big * 0.9
        items.append(Text(x, y, lines[0], big, bold=True))
        y -= big * 0.55
    column = max((lettering.width(row.label, size) for row in rows), default=0.0) + 2.5
    for row in rows:
        left = x + column if row.label else x
        lines = lettering.wrap(row.text, size, room - (left - x), row.bold) or [""]
        for number, text in enumerate(lines):
            y -= size * (LEADING if number else LEADING + 0.25)
            if number == 0 and row.label:
                items.append(Text(x, y, row.label, size))
            items.append(Text(left, y, text, size, bold=row.bold))
    return items, top - y + 0.25 * size


def table(
    at: tuple[float, float],
    room: float,
    heading: str,
    columns: Sequence[str],
    rows: Sequence[Sequence[str]],
    height: float,
    size: float = 2.6,
) -> list[Item]:
    """A table hung from its upper left corner, at most `room` wide and `height` high; the type shrinks to fit."""

    def widths_at(trial: float) -> tuple[bool, list[float]]:
        widths = [
            max(lettering.width(cell, trial, bold=number < 0) for number, cell in enumerate((names, *cells), -1)) + 2.4
            for names, *cells in zip(columns, *rows, strict=True)
        ]
        used = (len(rows) + (2 if heading else 1)) * trial * LEADING + 2.2
        return sum(widths) <= room and used <= height, widths

    size, widths = lettering.largest_size(widths_at, lettering.by_shares(size, 0.97, LEAST_TYPE))
    x, y = at
    items: list[Item] = []
    if heading:
        big, lines = lettering.fit(heading, size * 1.1, room, 1, True)
        y -= size * LEADING
        items.append(Text(x, y + 0.25 * size, lines[0], big, bold=True))
    for number, row in enumerate((columns, *rows)):
        y -= size * LEADING
        left = x
        for cell, wide in zip(row, widths, strict=True):
            items.append(Text(left, y, cell, size, bold=number == 0))
            left += wide
        if number == 0:
            y -= 0.45 * size
            items.append(line([(x, y), (x + sum(widths) - 2.4, y)], THIN))
    return items
