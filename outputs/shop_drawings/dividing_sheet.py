"""The sheets of the dividing cut on a carrier: carrier, strip and setting; then how it is run, and its cautions."""

from __future__ import annotations

from scarfwright.models.job.paper import drawing_size
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.words.the_joint.entry import Entry
from scarfwright.models.words.the_sled.dividing import carrier_cautions, material, order, screwing, settings
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import scale_bar
from scarfwright.outputs.drawing.display import EDGE, Item, Sheet, box, scale_text
from scarfwright.outputs.drawing.job_cells import DEFER, job_cells
from scarfwright.outputs.drawing.panels import Row, inner, panel, table, title_block
from scarfwright.outputs.drawing.placing import Room
from scarfwright.outputs.shop_drawings.carrier_view import carrier_block, carrier_items, carrier_labels
from scarfwright.outputs.shop_drawings.dividing_section import section
from scarfwright.outputs.shop_drawings.sled_details import PANEL_SIZE, WARN
from scarfwright.outputs.shop_drawings.stand import Area, heading, rows, stand

RISKIEST = "CAUTIONS: the riskiest cut"
NEXT = "Read the next sheet before anything is set: all cautions of this cut, and its steps in order."
BIG = 4.2  # letters of what is read standing at the saw
LOWER = 100.0
SETTINGS = 56.0  # height of the panel of settings; the screws stand below it
SECTION = 45.0


def dividing_sheet(work: Workup, number: int, count: int) -> Sheet:
    """The dividing cut at the table saw. Raises ValueError for a sled that is not made from a plank."""
    cut = work.way.dividing
    if cut is None:
        raise ValueError("the sled is not made from a plank")
    sheet = Sheet(f"{work.job.title or 'Sled'}: dividing the plank", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    area = (x, y + LOWER, width, height - LOWER)
    (place,) = stand(area, [carrier_block(cut, work)], work.job.saw.fence_side == "left")
    view = place.view
    items = carrier_items(work, plank_plan(work.way), cut, view)
    items.append(heading(place, f"Dividing the plank on a carrier, seen from above, scale {scale_text(view.scale)}"))
    items += scale_bar((x + width - 72, y + height - 6.5), view, work.job.units)
    room = Room(area)
    room.take(items)
    for choices in carrier_labels(work, cut, view):
        items += room.put(choices)
    sheet.add(items)
    sheet.add(_lower(work, cut, (x, y, width, LOWER)))
    sheet.add(title_block(sheet, job_cells(work.job, "Dividing the plank", scale_text(view.scale), number, count)))
    return sheet


def _lower(work: Workup, cut: Dividing, area: Area) -> list[Item]:
    """Three columns: the cut across and the material; settings and screws; what to read before the cut."""
    x, y, width, height = area
    shares = (96.0, 112.0, 69.0)
    wides = [share * width / sum(shares) for share in shares]
    items: list[Item] = [box(x, y, wides[0], height, EDGE)]
    items += section(work, cut, (x, y + height - SECTION, wides[0], SECTION))
    items += panel((x, y, wides[0], height - SECTION), "Material", rows(material(work, cut)), PANEL_SIZE)
    x += wides[0]
    items += panel((x, y + height - SETTINGS, wides[1], SETTINGS), "Set the saw", rows(settings(work, cut)), PANEL_SIZE)
    items += _screws(work, cut, (x, y, wides[1], height - SETTINGS))
    x += wides[1]
    never, kickback, *_ = carrier_cautions(work, cut)
    first = (never, kickback, Entry(NEXT), Entry(DEFER, strong=True))
    return items + panel((x, y, wides[2], height), RISKIEST, rows(first), BIG, fill=WARN)


def dividing_cut_sheet(work: Workup, number: int, count: int) -> Sheet:
    """How the cut is run, step by step, beside all its cautions. Raises ValueError for a sled of sheet."""
    cut = work.way.dividing
    if cut is None:
        raise ValueError("the sled is not made from a plank")
    sheet = Sheet(f"{work.job.title or 'Sled'}: the dividing cut", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    cautions = (*carrier_cautions(work, cut), Entry(DEFER, strong=True))
    half = width / 2
    sheet.add(panel((x, y, half, height), RISKIEST, rows(cautions), BIG, fill=WARN))
    sheet.add(panel((x + half, y, width - half, height), "The cut", rows(order(work, cut)), BIG))
    sheet.add(title_block(sheet, job_cells(work.job, "The dividing cut", "no drawing", number, count)))
    return sheet


def _screws(work: Workup, cut: Dividing, area: Area) -> list[Item]:
    """Where every screw goes, on the plank and on the carrier."""
    x, y, width, height = area
    say = drawn_in(work.job.units)
    note = [Row(f"{screwing(work)} Axis to kerf {_room(cut, say)}.")]
    foot = 20.0
    items: list[Item] = panel((x, y, width, height), "", [])
    items += panel((x, y, width, foot), "", note, PANEL_SIZE)[1:]
    lines = [
        (str(i), say(s), say(d), say.rule(px), say.rule(py))
        for i, ((s, d), (px, py)) in enumerate(zip(cut.screws_on_plank, cut.screws, strict=True), 1)
    ]
    names = ("No.", "Half: heel", "edge", "Carrier: end", "edge")
    items += table((x + 2, y + height - 0.5), width - 4, "Screws, on each half and on the carrier", names, lines,
                   height - foot, 3.0)  # fmt: skip
    return items


def _room(cut: Dividing, say: Drawn) -> str:
    return f"{say.down(cut.screw_to_kerf)} or more"
