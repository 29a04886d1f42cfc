"""Sheets of the printed gauges and aids: each in its place, what it is made for, how to use it, how well it reads."""

from __future__ import annotations

from scarfwright.models.job.paper import drawing_size
from scarfwright.models.part.values import Values
from scarfwright.models.wanted.wanted import Wanted
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import EDGE, Item, Sheet, Text, box, scale_text
from scarfwright.outputs.drawing.job_cells import DEFER, job_cells
from scarfwright.outputs.drawing.lettering import fit, width, wrap
from scarfwright.outputs.drawing.panels import inner, title_block
from scarfwright.outputs.gauges.picture import Area, picture_items
from scarfwright.outputs.gauges.pictures import picture_of

COLUMNS, ROWS = 2, 2
PAD, LEADING = 2.5, 1.34
HEADING, BODY = 3.4, 2.6


def gauge_sheets(work: Workup) -> list[Sheet]:
    """Four printed parts a sheet; no sheet where nothing is printed."""
    shown = [one for one in work.wanted if not one.left_out and (one.printed or one.kind.goes_to >= {"print", "flat"})]
    pages = [shown[i : i + COLUMNS * ROWS] for i in range(0, len(shown), COLUMNS * ROWS)]
    return [_sheet(work, page, number, len(pages)) for number, page in enumerate(pages, 1)]


def _sheet(work: Workup, page: list[Wanted], number: int, count: int) -> Sheet:
    long, wide = drawing_size(work.job.files)
    sheet = Sheet(f"{work.job.title or 'Sled'}: gauges", long, wide)
    x, y, across, high = inner(sheet)
    cell = (across / COLUMNS, high / ROWS)
    for i, one in enumerate(page):
        column, row = i % COLUMNS, i // COLUMNS
        sheet.add(_cell(work, one, (x + column * cell[0], y + (ROWS - 1 - row) * cell[1], *cell)))
    sheet.add(
        title_block(
            sheet, job_cells(work.job, f"Gauges and aids. {DEFER}", "each at its own scale", number, count), 2.2
        )
    )
    return sheet


def _cell(work: Workup, one: Wanted, area: Area) -> list[Item]:
    x, y, across, high = area
    part = one.part
    assert part is not None  # only parts that are made get a cell
    items: list[Item] = [box(x, y, across, high, EDGE)]
    top = y + high - PAD - HEADING
    number = f", {one.count} of them" if one.count != 1 else ""
    size, lines = fit(f"{part.title}{number}", HEADING, across - 2 * PAD, 1, True)
    items.append(Text(x + PAD, top, lines[0], size, bold=True))
    words = [line for text in _words(one, part.use) for line in wrap(text, BODY, across - 2 * PAD)]
    foot = len(words) * BODY * LEADING
    for i, text in enumerate(words):
        items.append(Text(x + PAD, y + PAD + foot - (i + 1) * BODY * LEADING + 0.3 * BODY, text, BODY))
    scene = picture_of(one, part, work)
    room = (x + PAD, y + PAD + foot + 1.5, across - 2 * PAD, top - y - PAD - foot - 4.5)
    drawn, scale = picture_items(scene, room)
    note = f"{scene.note}, {scale_text(scale)}"
    if width(note, 2.2) + width(lines[0], size, True) + 4 * PAD < across:
        items.append(Text(x + across - PAD, top, note, 2.2, "end", colour="#555555"))
    return [*items, *drawn]


def _words(one: Wanted, use: str) -> list[str]:
    return [use, *_reads(one.reads)]


_WORDS = {"ratio": ("the slope ", ""), "deg": ("", " degrees"), "mm": ("", " mm")}


def _reads(numbers: Values) -> list[str]:
    """How well it reads beside what is wanted, in the unit both are given in."""
    for unit, (what, words) in _WORDS.items():
        if f"resolution_{unit}" in numbers:
            wanted = f"; ±{numbers[f'needed_{unit}']:.2f} is wanted" if f"needed_{unit}" in numbers else ""
            return [f"Reads {what}to ±{numbers[f'resolution_{unit}']:.2f}{words}{wanted}."]
    return []
