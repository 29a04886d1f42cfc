"""The glue-up sheet put together: views to scale, figures, order of work, cautions. A pure function of its data."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.the_joint.gluing import amount_rows, gluing_cautions, lay_words, order_of_gluing
from scarfwright.outputs.drawing.display import Sheet, scale_text
from scarfwright.outputs.drawing.panels import Cell, Row, inner, panel, title_block
from scarfwright.outputs.glue_sheet.views import joint_scale, plan_view, side_view, whole_view

RIGHT = 104.0  # column of figures and steps
BAND = 25.0  # cautions
WHOLE = 50.0  # the whole stick


def glue_sheet(
    plan: GluePlan, units: Unit, size: tuple[float, float], title: str, cells: Callable[[str], Sequence[Cell]]
) -> Sheet:
    """The sheet on paper of `size` [mm]. `cells`: the title block for a text of the drawing's scale."""
    say = say_in(units)
    sheet = Sheet(title, *size)
    x, y, width, height = inner(sheet)
    left, body = width - RIGHT, height - BAND
    joint_room = (x, y, left, body - WHOLE)
    scale = joint_scale(plan, joint_room)
    across, through = plan.joint.height / scale, plan.joint.thickness / scale
    split = joint_room[3] * (through + 34.0) / (across + through + 92.0)
    sheet.add(whole_view(plan, (x, y + joint_room[3], left, WHOLE), say))
    sheet.add(plan_view(plan, (x, y + split, left, joint_room[3] - split), scale, say))
    sheet.add(side_view(plan, (x, y, left, split), scale, say))
    cautions = [Row(text, bold=i == 0) for i, text in enumerate(gluing_cautions(plan.asked.kind))]
    sheet.add(panel((x, y + body, width, BAND), "Cautions", cautions, 2.7, fill="#fdf1ee"))
    rows = [Row(text, label) for label, text in amount_rows(plan, units)]
    figures = 0.4 * body
    sheet.add(panel((x + left, y + body - figures, RIGHT, figures), "Figures", rows, 2.7))
    steps = [Row(lay_words(plan, units)), *(Row(s, str(n)) for n, s in enumerate(order_of_gluing(plan, units), 1))]
    sheet.add(panel((x + left, y, RIGHT, body - figures), "Order of work", steps, 2.7))
    sheet.add(title_block(sheet, cells(scale_text(scale))))
    return sheet
