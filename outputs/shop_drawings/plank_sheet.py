"""The plank sheet: the one mark from both edges, both halves, what to measure, and the guide rail."""

from __future__ import annotations

from scarfwright.models.job.paper import drawing_size
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.words.the_joint.entry import Entry
from scarfwright.models.words.the_sled.dividing import marking, measuring, rail_cautions, rail_way
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import scale_bar
from scarfwright.outputs.drawing.display import Item, Sheet, scale_text
from scarfwright.outputs.drawing.job_cells import DEFER, job_cells
from scarfwright.outputs.drawing.panels import inner, panel, title_block
from scarfwright.outputs.drawing.placing import Room
from scarfwright.outputs.shop_drawings.plank_view import halves, labels, marks
from scarfwright.outputs.shop_drawings.rail_view import rail_block, rail_items, rail_labels
from scarfwright.outputs.shop_drawings.sled_details import PANEL_SIZE, WARN
from scarfwright.outputs.shop_drawings.stand import Area, Block, heading, rows, stand

LOWER = 93.0  # of the panels: cautions in letters of 3 mm
SIDE_ROOM = 37.0  # for M, left and right


def plank_sheet(work: Workup, number: int, count: int) -> Sheet:
    """Plank and guide rail to one scale. Raises ValueError for a sled that is not made from a plank."""
    cut = work.way.dividing
    if cut is None:
        raise ValueError("the sled is not made from a plank")
    plan = plank_plan(work.way)
    sheet = Sheet(f"{work.job.title or 'Sled'}: plank", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    area = (x, y + LOWER, width, height - LOWER)
    block = Block((0.0, 0.0), (plan.length, plan.width), SIDE_ROOM, SIDE_ROOM, 9.0, 4.0)
    places = stand(area, [block, rail_block(plan, cut.rail)], work.job.saw.fence_side == "left")
    (plank, rail) = (place.view for place in places)
    items = halves(plan, plank) + marks(work, plan, plank) + rail_items(work, plan, cut.rail, rail)
    items.append(heading(places[0], f"The plank, both halves, scale {scale_text(plank.scale)}"))
    items.append(heading(places[1], "Or along a guide rail"))
    items += scale_bar((x + width - 72, y + height - 6.5), plank, work.job.units)
    room = Room(area)
    room.take(items)
    for choices in labels(work, plan, plank) + rail_labels(work, plan, cut.rail, rail):
        items += room.put(choices)
    sheet.add(items)
    sheet.add(_notes(work, cut, (x, y, width, LOWER)))
    sheet.add(title_block(sheet, job_cells(work.job, "The plank", scale_text(plank.scale), number, count)))
    return sheet


def _notes(work: Workup, cut: Dividing, area: Area) -> list[Item]:
    """The row of panels below: marking, measuring, the rail, cautions."""
    x, y, width, height = area
    shares = (71.0, 54.0, 84.0, 68.0)
    wides = [share * width / sum(shares) for share in shares]
    cautions = (*rail_cautions(), Entry(DEFER, strong=True))
    panels = (
        ("Marking the plank", marking(work), None),
        ("Each half, as drawn", measuring(work), None),
        ("Along a guide rail", rail_way(work, cut), None),
        ("CAUTIONS", cautions, WARN),
    )
    items: list[Item] = []
    for wide, (title, entries, fill) in zip(wides, panels, strict=True):
        items += panel((x, y, wide, height), title, rows(entries), PANEL_SIZE, fill=fill)
        x += wide
    return items
