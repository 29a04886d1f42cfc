"""The drawing of a sheet for the router: where every piece lies, with its name, and how to cut it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from scarfwright.models.flat.loop import rectangle
from scarfwright.models.flat.overlap import inside
from scarfwright.models.job.paper import drawing_size
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sheets.pieces import kind_of, spacing_of
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import SIZE, linear, scale_bar
from scarfwright.outputs.drawing.display import (
    EDGE,
    OUTLINE,
    PHANTOM,
    THIN,
    Item,
    Sheet,
    Text,
    View,
    box,
    fitting_scale,
    line,
    scale_text,
    shape,
)
from scarfwright.outputs.drawing.job_cells import DEFER, job_cells
from scarfwright.outputs.drawing.lettering import fit
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.panels import Row, inner, panel, table, title_block
from scarfwright.outputs.drawing.placing import Room
from scarfwright.outputs.shop_drawings.sled_details import PANEL_SIZE, WARN, part_items

LOWER = 52.0  # height of the panels below the drawing [page mm]
SIDE_ROOM = 12.0  # for the dimensions round it
NAME = 3.0


def cut_sheets(work: Workup, plans: Sequence[SheetPlan]) -> list[Sheet]:
    """One page a sheet."""
    return [_page(work, plan, number, len(plans)) for number, plan in enumerate(plans, 1)]


def _page(work: Workup, plan: SheetPlan, number: int, count: int) -> Sheet:
    job, say = work.job, drawn_in(work.job.units)
    sheet = Sheet(f"{job.title or 'Sled'}: {plan.name}", *drawing_size(job.files))
    x, y, width, height = inner(sheet)
    area = (x, y + LOWER, width, height - LOWER)
    shown = _shown(plan)
    beside = max(SIDE_ROOM, width_of(say.up(shown[1]), SIZE) + 10.0)
    scale = fitting_scale(*shown, width - 2 * beside, area[3] - 2 * SIDE_ROOM, 1.0)
    across, up = shown[0] / scale, shown[1] / scale
    low = (x + (width - across) / 2, area[1] + (area[3] - up) / 2)
    view = View(scale, low)
    whole = shown == (plan.length, plan.width)
    frame = view.loop(rectangle(0, 0, *shown))
    items: list[Item] = [shape(frame, EDGE if whole else PHANTOM, None, plan.name)]
    if not whole:  # the sheet's own edges meet at the origin
        items.append(line([(low[0], low[1] + up), low, (low[0] + across, low[1])], OUTLINE, "sheet corner"))
    for part in plan.placed:
        items += part_items(part, view, part.name)
        items += [line([view.point(p) for p in m.points], THIN, m.name) for m in part.marks if m.scored]
    items += [line([view.point(p) for p in m.points], EDGE, m.name) for m in plan.marks if len(m.points) > 1]
    right, top = low[0] + across, low[1] + up
    items += linear(low, (right, low[1]), (low[0], low[1] - 6.0), say.up(shown[0]), "horizontal")
    items += linear((right, low[1]), (right, top), (right + 6.0, low[1]), say.up(shown[1]), "vertical", beside="right")
    grain = "length" if job.router.grain == "x" else "width"
    what = "" if whole else ", the corner of the sheet that is used"
    heading = f"{plan.name}.dxf{what}, scale {scale_text(scale)}, face grain along the {grain}"
    items.append(Text(x + 2, y + height - 5.5, heading, 3.4, bold=True))
    items += scale_bar((x + width - 72, y + height - 6.5), view, job.units)
    room = Room(area)
    room.take(items)
    for part in plan.placed:
        items += room.put(_names(part, view))
    sheet.add(items)
    _lower(sheet, work, plan, (x, y, width, LOWER))
    sheet.add(title_block(sheet, job_cells(work.job, "Sheet for the router", scale_text(scale), number, count)))
    return sheet


def _shown(plan: SheetPlan) -> tuple[float, float]:
    """The whole sheet, or only the corner that is used where that is less than half of it each way."""
    across, up = plan.used
    small = across < plan.length / 2 and up < plan.width / 2
    return (across, up) if small else (plan.length, plan.width)


def _names(part: Part, view: View) -> list[list[Item]]:
    """The piece's name at several places on it, large first; where none lies on its wood, anywhere about it."""
    left, low, right, high = part.outline.bounds
    shape_on_page = view.loop(part.outline)
    on_it: list[list[Item]] = []
    about: list[list[Item]] = []
    for size in (NAME, 0.75 * NAME, 0.55 * NAME):
        for b in (0.5, 0.35, 0.65, 0.25, 0.75):
            for a in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
                px, py = view.point((left + a * (right - left), low + b * (high - low)))
                text = Text(px, py - 0.3 * size, part.name, size, "middle")
                fits = all(inside(shape_on_page, corner) for corner in text.box(0.3))
                (on_it if fits else about).append([text])
    return on_it or about


def _lower(sheet: Sheet, work: Workup, plan: SheetPlan, area: tuple[float, float, float, float]) -> None:
    x, y, width, height = area
    say, job = drawn_in(work.job.units), work.job
    rows = [
        Row(f"{say(plan.length)} x {say(plan.width)}, {say(plan.thickness)} thick", "Sheet", True),
        Row(f"{len(plan.placed)}, {plan.filled:.1%} of the sheet", "Pieces"),
        Row(f"{say.up(plan.used[0])} x {say.up(plan.used[1])} would do", "Offcut"),
        Row(say(job.router.cutter), "Cutter", True),
        Row(f"{say(spacing_of(job))} between pieces and to the edges", "Spacing"),
        Row(f"{job.router.tabs} per outline" if job.router.tabs else "none", "Tabs"),
        Row("Score, drill, open the insides, outlines last."),
    ]
    sheet.add(panel((x, y, 88.0, height), "Cutting", rows, PANEL_SIZE))
    sheet.add(box(x + 88, y, 108, height, EDGE))
    pieces = {p.part.name: p for p in work.flat_pieces}
    here = Counter(kind_of(part.name, {n: p.count for n, p in pieces.items()}) for part in plan.placed)
    titles = {name: fit(pieces[name].part.title, NAME, 50, 1)[1][0] for name in here}
    cells = [(name, titles[name], f"{n} of {pieces[name].count}") for name, n in here.items()]
    sheet.add(table((x + 90, y + height - 1.0), 104, "Pieces", ("Name", "What it is", "Here"), cells, height - 3, NAME))
    cautions = (
        "Eyes, ears and lungs protected; work held down before the cutter turns; hands off until it has STOPPED.",
        "No screw or clamp where the cutter passes. Run it once in the air. Unplug to change the cutter.",
        DEFER.replace("saw maker's", "machine maker's"),
    )
    sheet.add(panel((x + 196, y, width - 196, height), "CAUTIONS", [Row(t) for t in cautions], PANEL_SIZE, fill=WARN))
