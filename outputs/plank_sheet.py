"""The plank drawing: the one mark from both edges, both halves, and the two ways of making the dividing cut."""

from __future__ import annotations

import math

from scarfwright.models.dividing import Dividing
from scarfwright.models.joint import degrees
from scarfwright.models.outline import Point, circle, rectangle
from scarfwright.models.paper import drawing_size
from scarfwright.models.part import Part
from scarfwright.models.say import say_in, slope
from scarfwright.models.sheets import SheetPlan, plank_plan, turned
from scarfwright.models.workup import Workup
from scarfwright.outputs.dimension import arrow, linear, running, scale_bar
from scarfwright.outputs.drawing import (
    EDGE,
    GREY,
    OUTLINE,
    PHANTOM,
    THIN,
    Item,
    Pen,
    Sheet,
    Text,
    View,
    box,
    fitting_scale,
    line,
    readable,
    scale_text,
    shape,
)
from scarfwright.outputs.job_cells import DEFER, job_cells
from scarfwright.outputs.panels import Row, inner, panel, table, title_block
from scarfwright.outputs.placing import Room
from scarfwright.outputs.sled_details import WOOD

LOWER = 70.0
SIDE_ROOM = 34.0
LABEL = 2.6
BLADE_PEN = Pen(0.35, "#b00000", (5.0, 1.0, 0.8, 1.0))
WARN = "#fdf1ee"
SHARES = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1, 0.55, 0.45, 0.65, 0.35)


def plank_sheet(work: Workup, number: int, count: int) -> Sheet:
    """Plank and carrier to one scale, with the numbers and the cautions of the dividing cut below."""
    cut = work.dividing
    if cut is None:
        raise ValueError("the sled is not made from a plank")
    plan = plank_plan(work)
    sheet = Sheet(f"{work.job.title or 'Sled'}: plank", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    area = (x, y + LOWER, width, height - LOWER)
    fixed = 7.0 + 19.0 + 8.0 + 15.0
    long = max(plan.length, cut.carrier_length)
    scale = fitting_scale(long, plan.width + cut.fence, width - 2 * SIDE_ROOM, area[3] - fixed, 1.0)
    mirrored = work.job.saw.fence_side == "left"
    left = x + (width - long / scale) / 2
    spare = max(area[3] - fixed - (plan.width + cut.fence) / scale, 0.0)
    low = area[1] + 12.0 + spare / 4
    carrier = View(scale, (left, low + (cut.fence / scale if mirrored else 0)), mirrored=mirrored)
    low += cut.fence / scale + 12.0 + spare / 2 + (0.0 if mirrored else 17.0)
    plank = View(scale, (left, low + (plan.width / scale if mirrored else 0)), mirrored=mirrored)
    items = _plank(work, plan, cut, plank) + _carrier(work, plan, cut, carrier)
    items.append(Text(x + 2, y + height - 5.5, f"The plank, both halves, scale {scale_text(scale)}", 3.4, bold=True))
    items += scale_bar((x + width - 72, y + height - 6.5), plank, work.job.units)
    top = carrier.at[1] if mirrored else carrier.at[1] + cut.fence / scale
    items.append(Text(x + 2, top + 5.0, "Its carrier for the dividing cut, same scale", 3.4, bold=True))
    room = Room(area)
    room.take(items)
    on_plank = tuple((plan.length - s, depth) for s, depth in cut.screws_on_plank)
    labels = _screw_numbers(plank, on_plank) + _screw_numbers(carrier, cut.screws)
    for choices in labels + _plank_labels(work, plan, plank) + _carrier_labels(work, cut, carrier):
        items += room.put(choices)
    sheet.add(items)
    _lower(sheet, work, cut, (x, y, width, LOWER))
    sheet.add(title_block(sheet, job_cells(work, "The plank", scale_text(scale), number, count)))
    return sheet


def _plank(work: Workup, plan: SheetPlan, cut: Dividing, view: View) -> list[Item]:
    say, nominal = say_in(work.job.units), work.nominal
    out = -1.0 if view.mirrored else 1.0
    mark = float(nominal.mark or 0.0)
    items: list[Item] = [shape(view.loop(plan.outline), OUTLINE, "#d9c7a6", "plank")]
    for half in plan.placed:
        items.append(shape(view.loop(half.outline), THIN, WOOD, half.name))
        items += [shape(view.loop(f.loop), GREY, None, f.name) for f in half.features]
    for mark_line in plan.marks:
        items.append(line([view.point(p) for p in mark_line.points], BLADE_PEN, mark_line.name))
    right, left = plan.length, 0.0
    low, high = view.point((right, 0.0)), view.point((right, mark))
    items += _mark(low, high, (low[0] + 6.0, low[1]), f"M {say(mark)}", "right")
    low, high = view.point((left, plan.width)), view.point((left, plan.width - mark))
    items += _mark(low, high, (low[0] - 6.0, low[1]), f"M {say(mark)}", "left")
    heel = view.point((right, 0.0))
    y = heel[1] - out * 5.5
    marks = [(view.point((right - s, 0.0)), say(s)) for s, _ in cut.screws_on_plank]
    items += running((heel[0], y), (-1.0, 0.0), (0.0, -out), marks)
    items += linear(view.point((0, 0)), heel, (heel[0], y - out * 10.5), f"length {say(plan.length)}", "horizontal")
    items.append(line([heel, (heel[0], y)], THIN))
    for s, depth in cut.screws_on_plank:
        items += _screw(view, (right - s, depth))
    return items


def _mark(p: Point, q: Point, through: Point, text: str, side: str) -> list[Item]:
    """The mark's dimension, its figure bold: the number that matters most on this sheet."""
    out: list[Item] = []
    for item in linear(p, q, through, text, "vertical", beside="right" if side == "right" else "left", size=3.6):
        out.append(
            Text(item.x, item.y, item.text, item.size, item.anchor, item.angle, True)
            if isinstance(item, Text)
            else item
        )
    return out


def _screw(view: View, at: Point) -> list[Item]:
    """A small cross in a circle; its size is for the eye, not to scale."""
    x, y = view.point(at)
    r = 0.9
    return [
        shape(circle(x, y, r), EDGE, "#ffffff", "screw"),
        line([(x - r, y), (x + r, y)], THIN),
        line([(x, y - r), (x, y + r)], THIN),
    ]


def _plank_labels(work: Workup, plan: SheetPlan, view: View) -> list[list[list[Item]]]:
    say, nominal = say_in(work.job.units), work.nominal
    mark = float(nominal.mark or 0.0)
    rise = view.direction(plan.length, 2 * mark - plan.width)
    tilt = math.atan2(rise[1], rise[0])

    def inside(
        text: str, level: float, shares: tuple[float, ...], size: float = LABEL, bold: bool = False
    ) -> list[list[Item]]:
        """Places inside the plank; `level` 0 at the first half's edge, 1 at the other half's."""
        found: list[list[Item]] = []
        for share in shares:
            for lift in (level, level + 0.06, level - 0.06, level + 0.12, level - 0.12):
                px, py = view.point((share * plan.length, lift * plan.width))
                found.append([Text(px, py - 0.27 * size, text, size, "middle", 0.0, bold)])
        return found

    near_heel, near_nose = (0.75, 0.7, 0.8, 0.65, 0.6, 0.85, 0.9), (0.25, 0.3, 0.2, 0.35, 0.4, 0.15, 0.1)
    first = inside("first half", 0.25, near_heel, bold=True)
    second = inside("second half, the same turned round", 0.75, near_nose, bold=True)
    second += inside("second half", 0.75, near_nose, bold=True)
    ends = [_end_places(view, plan, mark, True), _end_places(view, plan, mark, False)]
    along: list[list[Item]] = []
    for share in SHARES:
        for away in (2.2, -2.2):
            px, py = view.point((share * plan.length, plan.width - mark + share * (2 * mark - plan.width)))
            at = (px - math.sin(tilt) * away, py + math.cos(tilt) * away - 0.27 * LABEL)
            text = f"dividing line, from mark to mark; kerf {say(work.job.kerf)}"
            along.append([Text(*at, text, LABEL, "middle", readable(tilt))])
    return [*ends, along, first, second]


def _end_places(view: View, plan: SheetPlan, mark: float, near: bool) -> list[list[Item]]:
    """HEEL inside the wide end of a half: the first half's or the other's."""
    found: list[list[Item]] = []
    for share in (0.5, 0.25, 0.75, 0.35, 0.65, 0.15, 0.85):
        for inward in (2.0, 12.0, 20.0):
            at = (plan.length, share * mark) if near else (0.0, plan.width - share * mark)
            px, py = view.point(at)
            x = px - inward if near else px + inward
            found.append([Text(x, py - 0.27 * LABEL, "HEEL", LABEL, "end" if near else "start", bold=True)])
    return found


def _screw_numbers(view: View, places: tuple[Point, ...]) -> list[list[list[Item]]]:
    """The number of each screw beside it."""
    found: list[list[list[Item]]] = []
    for number, at in enumerate(places, 1):
        px, py = view.point(at)
        sides = ((1.5, -0.8), (-1.5, -0.8), (1.5, 0.6), (-1.5, 0.6), (1.5, -2.4), (-1.5, -2.4))
        found.append([[Text(px + dx, py + dy, str(number), 2.2, "start" if dx > 0 else "end")] for dx, dy in sides])
    return found


def _carrier(work: Workup, plan: SheetPlan, cut: Dividing, view: View) -> list[Item]:
    """The carrier from above with its batten, the first half as it lies, and the blade's line."""
    say = say_in(work.job.units)
    out = -1.0 if view.mirrored else 1.0
    board = rectangle(0, 0, cut.carrier_length, cut.carrier_width)
    items: list[Item] = [shape(view.loop(board), OUTLINE, "#eef1ec", "carrier")]
    items.append(shape(view.loop(cut.batten), EDGE, "#c3cfc2", "batten"))
    half = _on_carrier(work, plan, cut)
    items.append(shape(view.loop(half.outline), PHANTOM, None, "half on the carrier"))
    ends = [view.point((-12 * view.scale / 2, cut.fence)), view.point((cut.carrier_length + 6 * view.scale, cut.fence))]
    items.append(line(ends, BLADE_PEN, "blade line"))
    for at in cut.screws:
        items += _screw(view, at)
    for at in cut.batten_screws:
        items.append(shape(circle(*view.point(at), 0.6), THIN, "#ffffff", "batten screw"))
    heel_end, nose_end = cut.batten.vertices[2].point, cut.batten.vertices[3].point
    base = view.point((0.0, 0.0))
    tip = view.point((cut.carrier_length, 0.0))
    items += linear(base, view.point(nose_end), (base[0] - 5.5, 0), say(nose_end[1]), "vertical")
    items += linear(base, view.point((0.0, cut.carrier_width)), (base[0] - 12.0, 0), say(cut.carrier_width), "vertical")
    items += linear(tip, view.point(heel_end), (tip[0] + 6.5, 0), say(heel_end[1]), "vertical")
    blade = view.point((cut.carrier_length + 6 * view.scale, cut.fence))
    items += linear(tip, blade, (tip[0] + 13.0, 0), f"fence {say(cut.fence)}", "vertical")
    items += linear(base, tip, (base[0], base[1] - out * 6.5), f"carrier {say(cut.carrier_length)}", "horizontal")
    y = base[1] - out * 3.0
    items += [line([(tip[0] + 16, y), (tip[0] + 28, y)], OUTLINE), arrow((tip[0] + 30, y), (1, 0), 4)]
    items.append(Text(tip[0] + 16, y + 1.5, "FEED", 2.4))
    return items


def _on_carrier(work: Workup, plan: SheetPlan, cut: Dividing) -> Part:
    """The first half turned by the slope's angle, its nose corner at the batten's end."""
    half = plan.placed[0]
    corner = cut.batten.vertices[3].point
    placed = turned(half, -work.nominal.angle, (0.0, 0.0))
    return placed.moved(*corner)


def _carrier_labels(work: Workup, cut: Dividing, view: View) -> list[list[list[Item]]]:
    out = -1.0 if view.mirrored else 1.0
    a, b = (view.point(cut.batten.vertices[i].point) for i in (0, 1))
    c = view.point(cut.batten.vertices[2].point)
    tilt = readable(math.atan2(b[1] - a[1], b[0] - a[0]))
    across = ((c[0] - b[0]) / 2, (c[1] - b[1]) / 2)

    def on_batten(text: str) -> list[list[Item]]:
        found: list[list[Item]] = []
        for share in (0.36, 0.64, 0.3, 0.7, 0.25, 0.75, 0.2):
            px, py = a[0] + share * (b[0] - a[0]) + across[0], a[1] + share * (b[1] - a[1]) + across[1]
            at = (px + 0.27 * LABEL * math.sin(tilt), py - 0.27 * LABEL * math.cos(tilt))
            found.append([Text(*at, text, LABEL, "middle", tilt)])
        return found

    def along(y: float, away: float, text: str, bold: bool = False) -> list[list[Item]]:
        found: list[list[Item]] = []
        for share in SHARES:
            px, py = view.point((share * cut.carrier_length, y))
            found.append([Text(px, py + out * away - 0.27 * LABEL, text, LABEL, "middle", 0.0, bold)])
        return found

    degree = f"{degrees(work.nominal.ratio):.2f} degrees"
    return [
        on_batten(f"batten, {slope(work.nominal.ratio)}") + on_batten(f"batten, {degree}") + on_batten("batten"),
        along(cut.fence, 2.2, "BLADE beyond this edge, the second half overhangs", True)
        + along(cut.fence, 2.2, "BLADE", True),
        along(0, -2.6, "THIS EDGE ALONG THE FENCE", True) + along(0, -2.6, "FENCE", True),
    ]


def _lower(sheet: Sheet, work: Workup, cut: Dividing, area: tuple[float, float, float, float]) -> None:
    x, y, width, height = area
    wides = (58.0, 80.0, 58.0)
    sheet.add(panel((x, y, wides[0], height), "Marking the plank", _marking(work)))
    left = x + wides[0]
    sheet.add([box(left, y, wides[1], height, EDGE)], _carrier_numbers(work, cut, (left, y, wides[1], height)))
    left += wides[1]
    sheet.add(panel((left, y, wides[2], height), "Instead: guide rail", _rail(work, cut)))
    left += wides[2]
    sheet.add(panel((left, y, x + width - left, height), "Cautions: the riskiest cut of all", _cautions(), fill=WARN))


def _marking(work: Workup) -> list[Row]:
    say, nominal = say_in(work.job.units), work.nominal
    return [
        Row(f"The mark M = {say(float(nominal.mark or 0))}, one number for both ends.", bold=True),
        Row("1. Joint both edges of the plank straight and parallel; cut both ends square."),
        Row("2. At one end mark M from one edge; at the other end mark M from the opposite edge."),
        Row("3. Join the marks. The middle of the cut runs along this line; the halves come out equal."),
        Row(f"Slope {slope(nominal.ratio)}.", bold=True),
        Row(f"Each half: heel {say(nominal.heel)}, nose {say(nominal.nose)}, with a kerf of {say(work.job.kerf)}."),
        Row("Measure heel and nose once it is cut, and enter them in the job as heel_as_made and nose_as_made."),
    ]


def _carrier_numbers(work: Workup, cut: Dividing, area: tuple[float, float, float, float]) -> list[Item]:
    say = say_in(work.job.units)
    x, y, width, height = area
    rows = [
        Row(f"carrier as measured + {say(work.joint.gap)}", "Rip fence", True),
        Row(f"({say(cut.fence)} by the nominal carrier)", " "),
        Row(f"{say(cut.blade_height)} above the table", "Blade height", True),
        Row(f"{say(cut.carrier_length)} x {say(cut.carrier_width)} x {say(cut.carrier_thickness)}", "Carrier"),
        Row(f"{slope(work.nominal.ratio)} to the fence edge", "Batten"),
        Row(f"{say(cut.screw_to_kerf)} or more, axis to blade", "Screws"),
    ]
    split = 0.46 * height
    items = panel((x, y + split, width, height - split), "On the carrier at the table saw", rows)[1:]
    heading = "Screws, up through the carrier into the plank"
    names = ("Screw", "Plank: heel", "its edge", "Carrier: left end", "fence edge")
    lines = [
        (str(i), say(s), say(d), say(px), say(py))
        for i, ((s, d), (px, py)) in enumerate(zip(cut.screws_on_plank, cut.screws, strict=True), 1)
    ]
    items += table((x + 2, y + split), width - 4, heading, names, lines, split * 0.6)
    note = (
        f"Plank edge against the batten; the dividing line {say(cut.line_beyond)} beyond the carrier's blade edge, at "
        "both ends alike. Screws must not come through the plank."
    )
    items += panel((x, y, width, split * 0.36), "", [Row(note)], 2.6)[1:]
    return items


def _rail(work: Workup, cut: Dividing) -> list[Row]:
    say = say_in(work.job.units)
    return [
        Row(f"Rail's edge {say(cut.rail_offset)} from the line", bold=True),
        Row(
            f"That is the saw's base edge to the near side of its blade ({say(work.job.saw.base_to_blade)}: measure "
            "yours) and half the kerf."
        ),
        Row("Set it off square to the line at both ends. Clamp the rail at both ends, clear of the saw."),
        Row(
            "Support the plank on both sides of the cut along its whole length, so that it can neither drop nor pinch."
        ),
        Row("Set the blade just deeper than the plank; try it on waste first. Stop, wait, then lift the saw."),
    ]


def _cautions() -> list[Row]:
    texts = (
        "Never freehand, and never the bare plank along the fence: on the carrier or along a rail, or not at all.",
        "Eyes and ears protected; no gloves, no loose sleeves.",
        "Screws outside the kerf and the blade clear of every one; check before the saw is switched on.",
        "Hands clear of the line, never behind or over the blade. A narrowing piece that closes on the blade is thrown "
        "back: riving knife fitted, stand out of its line.",
        "Support the work in front and behind: carrier and plank are long and heavy.",
        "Wait until the blade stands before anything is moved. Unplug the saw for every blade change.",
        DEFER,
    )
    last = len(texts) - 1
    return [Row(text, bold=i in (0, last)) for i, text in enumerate(texts)]
