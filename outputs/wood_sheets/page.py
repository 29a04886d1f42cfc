"""What the pages about the wood share: a picture above, figures and steps below, a caution at the foot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scarfwright.outputs.drawing.display import Item, Sheet
from scarfwright.outputs.drawing.panels import Cell, Row, inner, panel, title_block

Area = tuple[float, float, float, float]
Cells = Callable[[str], Sequence[Cell]]
PICTURE = 0.46  # of the height above the title block
CAUTION = 16.0
FIGURES = 0.42  # of the width


@dataclass(frozen=True)
class Page:
    """The words of a page: labelled figures, steps, cautions, and the headings over the first two."""

    figures: Sequence[tuple[str, str]]
    steps: Sequence[str]
    cautions: Sequence[str]
    heading: str
    steps_heading: str


def wood_page(
    page: Page, picture: Callable[[Area], list[Item]], size: tuple[float, float], title: str, cells: Cells
) -> Sheet:
    """Put a page together on paper of `size` [mm]; `picture` draws into the area it is given."""
    sheet = Sheet(title, *size)
    x, y, width, height = inner(sheet)
    top = PICTURE * height
    low, words = y + CAUTION, height - top - CAUTION
    sheet.add(picture((x, y + height - top, width, top)))
    numbered = len(page.figures) > 0
    left = FIGURES * width if numbered else 0.0
    if numbered:
        rows = [Row(text, label) for label, text in page.figures]
        sheet.add(panel((x, low, left, words), page.heading, rows, 3.3))
    steps = [Row(text, str(i)) for i, text in enumerate(page.steps, 1)]
    sheet.add(panel((x + left, low, width - left, words), page.steps_heading, steps, 3.3))
    sheet.add(panel((x, y, width, CAUTION), "", [Row(text, bold=True) for text in page.cautions], 2.7, fill="#fdf1ee"))
    sheet.add(title_block(sheet, cells("sketch, not to scale")))
    return sheet
