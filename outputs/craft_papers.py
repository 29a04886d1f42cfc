"""The papers about what comes after the saw, from a worked-out job: glue-up, wood, bent members."""

from __future__ import annotations

from collections.abc import Callable

from scarfwright.models.craft import Craft
from scarfwright.models.job.paper import drawing_size
from scarfwright.models.workup import Workup
from scarfwright.outputs.bend_sheet.sheet import bend_sheet
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.drawing.job_cells import job_cells
from scarfwright.outputs.drawing.panels import Cell
from scarfwright.outputs.glue_sheet.sheet import glue_sheets
from scarfwright.outputs.wood_sheets.bend_test import bend_test_sheet
from scarfwright.outputs.wood_sheets.boards import boards_sheet
from scarfwright.outputs.wood_sheets.planing import planing_sheet


def glue_papers(work: Workup, craft: Craft) -> list[Sheet]:
    """The glue-up: a sheet of places and figures, one of steps and cautions."""

    def cells(scale: str, number: int, count: int) -> list[Cell]:
        return job_cells(work.job, "Glue-up", scale, number, count)

    return glue_sheets(craft.gluing, work.job.units, drawing_size(work.job.files), _title(work, "glue-up"), cells)


def wood_papers(work: Workup, craft: Craft) -> list[Sheet]:
    """Choosing boards; planing, where there is a finished thickness; the bend test, where the wood has figures."""
    units, size = work.job.units, drawing_size(work.job.files)
    plane, test, wood = craft.planing, craft.strength.test, craft.strength.wood
    count = 1 + (plane is not None) + (test is not None)
    title = _title(work, "wood")
    pages = [boards_sheet(work.joint, craft.boards, units, size, title, _cells(work, "Choosing boards", 1, count))]
    if plane is not None:
        pages.append(planing_sheet(work.joint, plane, units, size, title, _cells(work, "Planing", 2, count)))
    if test is not None and wood is not None:
        pages.append(bend_test_sheet(test, wood, units, size, title, _cells(work, "Bend test", count, count)))
    return pages


def bend_papers(work: Workup, craft: Craft) -> list[Sheet]:
    """One page for each bent member whose wood has figures."""
    units, size = work.job.units, drawing_size(work.job.files)
    shown = [one for one in craft.members if one.bend is not None]
    return [
        bend_sheet(one, units, size, _title(work, "bent members"), _cells(work, "Bent member", number, len(shown)))
        for number, one in enumerate(shown, 1)
    ]


def _title(work: Workup, what: str) -> str:
    return f"{work.job.title or 'Sled'}: {what}"


def _cells(work: Workup, what: str, number: int, count: int) -> Callable[[str], list[Cell]]:
    return lambda scale: job_cells(work.job, what, scale, number, count)
