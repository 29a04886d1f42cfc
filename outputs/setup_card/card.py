"""The set-up card: sheets to pin up at the saw, readable at arm's length.

First what hurts, the two views at the end of the cut and what to set; then the check list, the order of work and the
ways to end the cut. No letter is smaller than LEAST: what does not fit goes on a further sheet.
"""

from __future__ import annotations

from scarfwright.models.job.paper import LETTER, drawing_size
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Item, Sheet, scale_text
from scarfwright.outputs.drawing.panels import Cell, inner, title_block
from scarfwright.outputs.setup_card.frame import Area, Frame
from scarfwright.outputs.setup_card.texts import (
    caution_band,
    checks,
    columns_of,
    endings,
    settings,
    steps,
)
from scarfwright.outputs.setup_card.views import card_frame, views

RIGHT = 100.0  # column of settings
ENDINGS = 21.0


def setup_card(work: Workup) -> list[Sheet]:
    """The card's sheets. For a job without faults."""
    frame = frame_of(work)
    sheets = [_first(work, frame), *_further(work)]
    for number, sheet in enumerate(sheets, 1):
        scale = scale_text(frame.plan.scale) if number == 1 else None
        sheet.add(title_block(sheet, _cells(work, scale, number, len(sheets))))
    return sheets


def _sheet(work: Workup) -> Sheet:
    return Sheet(f"{work.job.title or 'Sled'}: set-up card", *drawing_size(work.job.files))


def frame_of(work: Workup) -> Frame:
    """Where the views stand on the first sheet, under the cautions and beside the settings."""
    x, y, width, height = inner(_sheet(work))
    _, band = caution_band(work, (x, y, width, height))
    return card_frame(work, (x, y, width - RIGHT, height - band))


def _first(work: Workup, frame: Frame) -> Sheet:
    """Cautions, views and settings."""
    sheet = _sheet(work)
    x, y, width, height = inner(sheet)
    band, high = caution_band(work, (x, y, width, height))
    sheet.add(band)
    sheet.add(views(work, frame))
    sheet.add(settings(work, (x + width - RIGHT, y, RIGHT, height - high)))
    return sheet


def _further(work: Workup) -> list[Sheet]:
    """Check list and order of work in two columns a sheet, and on the last the ways to end the cut."""
    x, y, width, height = inner(_sheet(work))
    area: Area = (x, y + ENDINGS, width, height - ENDINGS)
    pages: list[list[Item]] = columns_of([checks(work), steps(work)], area)
    sheets = []
    for items in pages:
        sheet = _sheet(work)
        sheet.add(items)
        sheets.append(sheet)
    sheets[-1].add(endings(work, (x, y, width, ENDINGS)))
    return sheets


def _cells(work: Workup, scale: str | None, number: int, count: int) -> list[Cell]:
    """Short cells, so that they too can be read at the saw."""
    say, stock = drawn_in(work.job.units), work.job.stock
    paper = "Letter" if drawing_size(work.job.files) == LETTER else "A4"
    wood = f"{say(stock.thickness)} thick, {say(stock.height)} high"
    return [
        Cell("Job", (work.job.title or "(no title)", "Set-up card for the saw"), 100, bold=True),
        Cell("Board", (stock.species or "(any wood)", wood), 72),
        Cell("Scale", (scale or "no drawing", "DO NOT SCALE"), 37),
        Cell("Print", ("at 100 %", paper), 31),
        Cell("Sheet", (f"{number} of {count}", "scarfwright"), 31),
    ]
