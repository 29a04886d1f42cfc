"""The layer drawing of a sled glued up from sheet: one layer with its dowel holes, and how the layers go together."""

from __future__ import annotations

from scarfwright.models.job.paper import drawing_size
from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.parts.sheet_layer import layer_of
from scarfwright.models.sled.shape import shape_of, sled_of
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import linear, running, scale_bar
from scarfwright.outputs.drawing.display import EDGE, Item, Sheet, Text, View, box, fitting_scale, scale_text
from scarfwright.outputs.drawing.job_cells import DEFER, job_cells
from scarfwright.outputs.drawing.panels import Row, inner, panel, table, title_block
from scarfwright.outputs.drawing.placing import Place, Room, along
from scarfwright.outputs.shop_drawings.sled_details import LABEL, PANEL_SIZE, WARN, part_items

LOWER = 66.0
SIDE_ROOM = 36.0


def layer_sheet(work: Workup, number: int, count: int) -> Sheet:
    """One layer to scale, and the notes for cutting and gluing."""
    job, real = work.job, work.way.sled
    part = layer_of(sled_of({**shape_of(work.way), "thickness": float(job.sled.sheet_thickness)}))
    sheet = Sheet(f"{job.title or 'Sled'}: sheet layer", *drawing_size(job.files))
    x, y, width, height = inner(sheet)
    area = (x, y + LOWER, width, height - LOWER)
    mirrored = job.saw.fence_side == "left"
    scale = fitting_scale(real.length, real.heel, width - 2 * SIDE_ROOM, area[3] - 48.0, 1.0)
    left = x + (width - real.length / scale) / 2
    tall = real.heel / scale
    low = area[1] + (area[3] - tall) / 2 + (-10.0 if mirrored else 8.0)
    view = View(scale, (left, low + (tall if mirrored else 0.0)), mirrored=mirrored)
    items = part_items(part, view, "layer outline") + _dimensions(work, view)
    items.append(
        Text(x + 2, y + height - 5.5, f"One layer of {job.sled.layers}, scale {scale_text(scale)}", 3.4, bold=True)
    )
    items += scale_bar((x + width - 72, y + height - 6.5), view, job.units)
    room = Room(area)
    room.take(items)
    for choices in _labels(work, view):
        items += room.put(choices)
    sheet.add(items)
    _lower(sheet, work, (x, y, width, LOWER))
    sheet.add(title_block(sheet, job_cells(work.job, "Sheet layer", scale_text(scale), number, count)))
    return sheet


def _dimensions(work: Workup, view: View) -> list[Item]:
    say, real, layout = drawn_in(work.job.units), work.way.sled, work.way.layout
    out = -1.0 if view.mirrored else 1.0
    low, high = view.point((real.length, 0)), view.point((real.length, real.heel))
    items = linear(low, high, (low[0] + 6.5, low[1]), f"heel {say(real.heel)}", "vertical", beside="right")
    nose = view.point((0.0, 0.0))
    items += linear(
        nose, view.point((0, real.nose)), (nose[0] - 6.5, 0), f"nose {say(real.nose)}", "vertical", beside="left"
    )
    y = low[1] - out * 7.5
    if layout.dowels:
        marks = [(view.point(p), say(real.from_heel(p[0]))) for p in sorted(layout.dowels, reverse=True)]
        items += running((low[0], y), (-1.0, 0.0), (0.0, -out), marks, far=view.length(real.length))
        y -= out * 16.0
    return items + linear(nose, low, (low[0], y), f"length {say(real.length)}", "horizontal")


def _labels(work: Workup, view: View) -> list[list[Place]]:
    real = work.way.sled
    out = -1.0 if view.mirrored else 1.0
    heel, nose = view.point((real.length, real.heel)), view.point((0.0, real.nose))
    start, end = view.point((0.0, 0.0)), view.point((real.length, 0.0))
    words = f"WORK EDGE, slope {slope_mark(real.ratio)}"
    return [
        along(start, end, "FENCE EDGE", -out * 3.0, size=LABEL, bold=True),
        along(nose, heel, words, out * 3.0, size=LABEL, bold=True),
    ]


def _lower(sheet: Sheet, work: Workup, area: tuple[float, float, float, float]) -> None:
    x, y, width, height = area
    say, job, real, layout = drawn_in(work.job.units), work.job, work.way.sled, work.way.layout
    layers = "1 layer" if job.sled.layers == 1 else f"{job.sled.layers} layers, all alike"
    rows = [
        Row(f"{layers}, {say(job.sled.sheet_thickness)} thick each", "Cut", True),
        Row(say(real.thickness), "Glued up", True),
        Row(slope_mark(real.ratio), "Slope", True),
        Row(say(2 * layout.dowel_radius) if layout.dowels else "none", "Dowels"),
        Row(""),
        Row("Cut every layer from the same file, outline last, held down by tabs or screws in the scrap."),
        Row("Try the layers dry on their dowels, then glue face to face on something flat, and wipe the edges clean."),
        Row("Check the work edge with a straightedge: a hollow or hump comes out double in the joint."),
    ]
    sheet.add(panel((x, y, 100.0, height), "Layers", rows, PANEL_SIZE))
    places = [
        (str(i), say(2 * layout.dowel_radius), say(real.from_heel(px)), say(py))
        for i, (px, py) in enumerate(sorted(layout.dowels, reverse=True), 1)
    ]
    sheet.add(box(x + 100, y, 82, height, EDGE))
    if places:
        heading = "Dowel holes, right through"
        sheet.add(
            table(
                (x + 102, y + height - 1.0),
                78,
                heading,
                ("Hole", "Bore", "From heel", "From fence edge"),
                places,
                height - 3,
                LABEL,
            )
        )
    else:
        sheet.add(Text(x + 102, y + height - 5.5, "No dowel holes: the edges register the layers.", LABEL))
    cautions = (
        "Eyes, ears and lungs protected; work held down before the cutter turns; hands off until it has STOPPED.",
        "No screw or clamp where the cutter passes. Unplug to change the cutter.",
        DEFER,
    )
    rows = [Row(text, bold=i == len(cautions) - 1) for i, text in enumerate(cautions)]
    sheet.add(panel((x + 182, y, width - 182, height), "CAUTIONS", rows, PANEL_SIZE, fill=WARN))
