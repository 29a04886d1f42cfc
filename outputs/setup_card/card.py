"""The set-up card: one page to pin up at the saw, with plan and side view to scale at the end of the cut."""

from __future__ import annotations

from scarfwright.models.job.paper import drawing_size
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Sheet, scale_text
from scarfwright.outputs.drawing.job_cells import job_cells
from scarfwright.outputs.drawing.panels import inner, title_block
from scarfwright.outputs.setup_card.texts import caution_band, checks, endings, settings, steps
from scarfwright.outputs.setup_card.views import card_frame, views

BAND = 29.0  # cautions
RIGHT = 100.0  # column of settings and steps
CHECKS = 29.0
ENDINGS = 16.0


def setup_card(work: Workup) -> Sheet:
    """The card. For a job without faults."""
    sheet = Sheet(f"{work.job.title or 'Sled'}: set-up card", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    left, body, lower = width - RIGHT, height - BAND, ENDINGS + CHECKS
    frame = card_frame(work, (x, y + lower, left, body - lower))
    sheet.add(caution_band(work, (x, y + body, width, BAND)))
    sheet.add(views(work, frame))
    sheet.add(checks(work, (x, y + ENDINGS, left, CHECKS)))
    sheet.add(endings(work, (x, y, left, ENDINGS)))
    half = 0.47 * body
    sheet.add(settings(work, (x + left, y + body - half, RIGHT, half)))
    sheet.add(steps(work, (x + left, y, RIGHT, body - half)))
    sheet.add(title_block(sheet, job_cells(work, "Set-up card for the saw", scale_text(frame.plan.scale), 1, 1)))
    return sheet
