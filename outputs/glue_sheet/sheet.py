"""The glue-up sheets: one of places and figures, one of steps and cautions. A pure function of its data."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.words.the_joint.gluing import amount_rows, gluing_cautions, lay_words, order_of_gluing
from scarfwright.outputs.drawing.display import Sheet, scale_text
from scarfwright.outputs.drawing.panels import Cell, Row, inner, panel, title_block
from scarfwright.outputs.glue_sheet.views import joint_scale, plan_view, side_view, whole_view

RIGHT = 96.0  # column of figures
BAND = 44.0  # cautions, on the page of steps
WHOLE = 57.0  # the whole stick
LETTERS = 3.1

Cells = Callable[[str, int, int], Sequence[Cell]]


def glue_sheets(plan: GluePlan, units: Unit, size: tuple[float, float], title: str, cells: Cells) -> list[Sheet]:
    """Both sheets on paper of `size` [mm]. `cells`: the title block for a scale's text, a number and a count."""
    return [_places(plan, units, size, title, cells), _steps(plan, units, size, title, cells)]


def _places(plan: GluePlan, units: Unit, size: tuple[float, float], title: str, cells: Cells) -> Sheet:
    """Views to scale, figures, how the work lies, the one caution that matters most."""
    say = drawn_in(units)
    sheet = Sheet(title, *size)
    x, y, width, height = inner(sheet)
    left = width - RIGHT
    room = (x, y, left, height - WHOLE)
    scale = joint_scale(plan, room)
    across, through = plan.joint.height / scale, plan.joint.thickness / scale
    split = room[3] * (through + 34.0) / (across + through + 96.0)
    sheet.add(whole_view(plan, (x, y + room[3], left, WHOLE), say))
    sheet.add(plan_view(plan, (x, y + split, left, room[3] - split), scale, say))
    sheet.add(side_view(plan, (x, y, left, split), scale, say))
    lay = 0.32 * height
    rows = [Row(text, label) for label, text in amount_rows(plan, units)]
    sheet.add(panel((x + left, y + lay, RIGHT, height - lay), "Figures", rows, LETTERS))
    told = [Row(lay_words(plan, units)), Row(gluing_cautions(plan.asked.kind)[0], bold=True)]
    sheet.add(panel((x + left, y, RIGHT, lay), "How it lies", told, LETTERS))
    sheet.add(title_block(sheet, cells(scale_text(scale), 1, 2)))
    return sheet


def _steps(plan: GluePlan, units: Unit, size: tuple[float, float], title: str, cells: Cells) -> Sheet:
    """Cautions, then the order of work."""
    sheet = Sheet(title, *size)
    x, y, width, height = inner(sheet)
    cautions = [Row(text, bold=i == 0) for i, text in enumerate(gluing_cautions(plan.asked.kind))]
    sheet.add(panel((x, y + height - BAND, width, BAND), "Cautions", cautions, 3.6, fill="#fdf1ee"))
    steps = [Row(text, str(number)) for number, text in enumerate(order_of_gluing(plan, units), 1)]
    sheet.add(panel((x, y, width, height - BAND), "Order of work", steps, 3.8))
    sheet.add(title_block(sheet, cells("no drawing", 2, 2)))
    return sheet
