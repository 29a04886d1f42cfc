"""The plank drawing: the one mark from both edges, both halves, and the two ways of making the dividing cut."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from scarfwright.models.flat.loop import Point, circle, rectangle
from scarfwright.models.job.paper import drawing_size
from scarfwright.models.lengths.say import say_in, slope
from scarfwright.models.lengths.slopes import degrees
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.layout import SheetPlan, turned
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import SIZE, arrow, linear, pointed, running, scale_bar
from scarfwright.outputs.drawing.display import (
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
    fitting_scale,
    line,
    scale_text,
    shape,
)
from scarfwright.outputs.drawing.job_cells import job_cells
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.panels import inner, title_block
from scarfwright.outputs.drawing.placing import Room, along
from scarfwright.outputs.shop_drawings.plank_notes import dividing_notes
from scarfwright.outputs.shop_drawings.sled_details import WOOD

LOWER = 68.0
Area = tuple[float, float, float, float]
SIDE_ROOM = 37.0
HEADING = 8.0
STATION_LINE = 5.5  # from the plank to the line of its screw stations
LEVEL_FIGURES = 4.9  # from that line to the far side of figures that stand along it
CARRIER_DIMENSIONS = 12.0
BLADE_LABEL = 5.0
BOTH_SIDES = 27.0  # from the carrier's ends to the outer of two dimensions
LABEL = 2.6
BLADE_PEN = Pen(0.45, "#b00000", (5.0, 1.0, 0.8, 1.0))


def plank_sheet(work: Workup, number: int, count: int) -> Sheet:
    """Plank and carrier to one scale, with the numbers and the cautions of the dividing cut below."""
    cut = work.way.dividing
    if cut is None:
        raise ValueError("the sled is not made from a plank")
    plan = plank_plan(work.way)
    sheet = Sheet(f"{work.job.title or 'Sled'}: plank", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    area = (x, y + LOWER, width, height - LOWER)
    stand = _stand(work, plan, cut, area)
    plank, carrier, scale = stand.plank, stand.carrier, stand.plank.scale
    items = _plank(work, plan, cut, stand) + _carrier(work, plan, cut, carrier)
    items.append(Text(x + 2, y + height - 5.5, f"The plank, both halves, scale {scale_text(scale)}", 3.4, bold=True))
    items += scale_bar((x + width - 72, y + height - 6.5), plank, work.job.units)
    items.append(Text(*stand.second_heading, "Carrier for dividing it", 3.4, bold=True))
    room = Room(area)
    room.take(items)
    on_plank = tuple((plan.length - s, depth) for s, depth in cut.screws_on_plank)
    labels = _screw_numbers(plank, on_plank) + _screw_numbers(carrier, cut.screws)
    for choices in labels + _plank_labels(work, plan, plank) + _carrier_labels(work, cut, carrier):
        items += room.put(choices)
    sheet.add(items)
    sheet.add(dividing_notes(work, cut, (x, y, width, LOWER)))
    sheet.add(title_block(sheet, job_cells(work, "The plank", scale_text(scale), number, count)))
    return sheet


@dataclass(frozen=True)
class _Stand:
    """Where plank and carrier stand; `figures` is how far the screw stations reach from their line [page mm].

    A plan comes laid out for the job's fence side and is drawn by `plan`. `plank` and `carrier` place what counts
    from the first half's own fence edge, and mirror it for a fence on the left.
    """

    plan: View
    plank: View
    carrier: View
    second_heading: Point
    figures: float


def _stand(work: Workup, plan: SheetPlan, cut: Dividing, area: Area) -> _Stand:
    """Plank over carrier, or side by side where that allows a larger scale, as with a short plank.

    On a short plank the screw stations stand square to their line and need more room, so the scale is found again.
    """
    figures = LEVEL_FIGURES
    while True:
        over, beside = _over(work, plan, cut, area, figures), _side_by_side(work, plan, cut, area, figures)
        stand = beside if beside.plank.scale < over.plank.scale else over
        needed = _reach(_screw_stations(work, plan, cut, stand.plank), _station_line(plan, stand.plank))
        if needed <= figures + 1e-6:
            return replace(stand, figures=needed)
        figures = needed


def _over(work: Workup, plan: SheetPlan, cut: Dividing, area: Area, figures: float) -> _Stand:
    """From the top: heading, plank, heading, carrier, each with its dimensions on the side of the fence."""
    x, y, width, height = area
    mirrored = work.job.saw.fence_side == "left"
    below = STATION_LINE + figures + 9.0
    long, tall = max(plan.length, cut.carrier_length), plan.width + cut.fence
    fixed = 2 * HEADING + below + CARRIER_DIMENSIONS + BLADE_LABEL
    scale = fitting_scale(long, tall, width - 2 * SIDE_ROOM, height - fixed, 1.0)
    left = x + (width - long / scale) / 2
    spare = max(height - fixed - tall / scale, 0.0) / 3
    plank_top = y + height - HEADING - spare - (below if mirrored else 0.0)
    second = plank_top - plan.width / scale - spare - (0.0 if mirrored else below)
    top = second - HEADING - (CARRIER_DIMENSIONS if mirrored else BLADE_LABEL)
    heading = (x + 2, second - 5.5)
    return _stand_at(work, plan, cut, scale, (left, plank_top), (left, top), heading, figures)


def _side_by_side(work: Workup, plan: SheetPlan, cut: Dividing, area: Area, figures: float) -> _Stand:
    """Plank left, carrier right, their middles level."""
    x, y, width, height = area
    mirrored = work.job.saw.fence_side == "left"
    below = STATION_LINE + figures + 9.0
    long, tall = max(plan.length, cut.carrier_length), max(plan.width, cut.fence)
    fence_side = max(below, CARRIER_DIMENSIONS)
    fixed = HEADING + BLADE_LABEL + fence_side + 2.0
    scale = fitting_scale(long, tall, width / 2 - 2 * SIDE_ROOM, height - fixed, 1.0)
    spare = max(height - fixed - tall / scale, 0.0) / 2
    middle = y + height - HEADING - spare - (fence_side if mirrored else BLADE_LABEL) - tall / scale / 2
    lefts = [x + (half + 0.5) * width / 2 - long / scale / 2 for half in (0, 1)]
    plank, carrier = ((lefts[i], middle + size / scale / 2) for i, size in enumerate((plan.width, cut.fence)))
    heading = (x + width / 2 + 2, y + height - 5.5)
    return _stand_at(work, plan, cut, scale, plank, carrier, heading, figures)


def _stand_at(
    work: Workup,
    plan: SheetPlan,
    cut: Dividing,
    scale: float,
    plank: Point,
    carrier: Point,
    heading: Point,
    figures: float,
) -> _Stand:
    """Views whose upper left corners are at the given points of the page."""
    mirrored = work.job.saw.fence_side == "left"
    low = (plank[0], plank[1] - plan.width / scale)
    carrier_low = (carrier[0], carrier[1] - cut.fence / scale)
    return _Stand(
        plan=View(scale, low),
        plank=View(scale, plank if mirrored else low, mirrored=mirrored),
        carrier=View(scale, carrier if mirrored else carrier_low, mirrored=mirrored),
        second_heading=heading,
        figures=figures,
    )


def _station_line(plan: SheetPlan, view: View) -> float:
    """The height on the page of the line that carries the screw stations."""
    return view.point((plan.length, 0.0))[1] + (STATION_LINE if view.mirrored else -STATION_LINE)


def _screw_stations(work: Workup, plan: SheetPlan, cut: Dividing, view: View) -> list[Item]:
    say = say_in(work.job.units)
    heel = view.point((plan.length, 0.0))
    marks = [(view.point((plan.length - s, 0.0)), say(s)) for s, _ in cut.screws_on_plank]
    away = (0.0, 1.0 if view.mirrored else -1.0)
    zero = (heel[0], _station_line(plan, view))
    return running(zero, (-1.0, 0.0), away, marks, far=view.length(plan.length))


def _reach(items: list[Item], level: float) -> float:
    """How far texts reach from a level line [page mm]."""
    return max(abs(y - level) for item in items if isinstance(item, Text) for _, y in item.box())


def _plank(work: Workup, plan: SheetPlan, cut: Dividing, stand: _Stand) -> list[Item]:
    say, nominal, view = say_in(work.job.units), work.way.nominal, stand.plank
    out = -1.0 if view.mirrored else 1.0
    mark = float(nominal.mark or 0.0)
    items: list[Item] = [shape(stand.plan.loop(plan.outline), OUTLINE, "#d9c7a6", "plank")]
    for half in plan.placed:
        items.append(shape(stand.plan.loop(half.outline), THIN, WOOD, half.name))
        items += [shape(stand.plan.loop(f.loop), GREY, None, f.name) for f in half.features]
    for mark_line in plan.marks:
        items.append(line([stand.plan.point(p) for p in mark_line.points], BLADE_PEN, mark_line.name))
    right, left = plan.length, 0.0
    low, high = view.point((right, 0.0)), view.point((right, mark))
    items += _mark(low, high, (low[0] + 6.0, low[1]), f"M {say(mark)}", "right")
    low, high = view.point((left, plan.width)), view.point((left, plan.width - mark))
    items += _mark(low, high, (low[0] - 6.0, low[1]), f"M {say(mark)}", "left")
    heel = view.point((right, 0.0))
    y = _station_line(plan, view)
    items += _screw_stations(work, plan, cut, view)
    through = (heel[0], y - out * (stand.figures + 5.0))
    items += linear(view.point((0, 0)), heel, through, f"length {say(plan.length)}", "horizontal")
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
    say, nominal = say_in(work.job.units), work.way.nominal
    mark = float(nominal.mark or 0.0)

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
    low, high = view.point((0.0, plan.width - mark)), view.point((plan.length, mark))
    dividing_line: list[list[Item]] = []
    for text in (f"dividing line, from mark to mark; kerf {say(work.job.saw.kerf)}", "dividing line"):
        for away in (2.2, -2.2):
            dividing_line += along(low, high, text, away, size=LABEL)
    tips = [(low[0] + s * (high[0] - low[0]), low[1] + s * (high[1] - low[1])) for s in (0.5, 0.35, 0.65, 0.9, 0.1)]
    dividing_line += pointed(tips, "dividing line", size=LABEL)
    first += pointed(
        [view.point((s * plan.length, 0.25 * plan.width)) for s in (0.7, 0.9, 0.5)], "first half", size=LABEL, bold=True
    )
    second += pointed(
        [view.point((s * plan.length, 0.75 * plan.width)) for s in (0.3, 0.1, 0.5)],
        "second half",
        size=LABEL,
        bold=True,
    )
    return [*ends, dividing_line, first, second]


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
        heights = (-0.8, 0.8, -2.4, 2.0, -3.8, 3.0, -5.2, 4.4)
        sides = [(dx, dy) for dy in heights for dx in (1.5, -1.5)]
        beside: list[list[Item]] = [
            [Text(px + dx, py + dy, str(number), 2.2, "start" if dx > 0 else "end")] for dx, dy in sides
        ]
        found.append(beside + pointed([(px, py)], str(number), size=2.2))
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
    ends = [view.point((-3 * view.scale, cut.fence)), view.point((cut.carrier_length + 6 * view.scale, cut.fence))]
    items.append(line(ends, BLADE_PEN, "blade line"))
    for at in cut.screws:
        items += _screw(view, at)
    for at in cut.batten_screws:
        items.append(shape(circle(*view.point(at), 0.6), THIN, "#ffffff", "batten screw"))
    heel_end, nose_end = cut.batten.vertices[2].point, cut.batten.vertices[3].point
    base = view.point((0.0, 0.0))
    tip = view.point((cut.carrier_length, 0.0))
    blade = view.point((cut.carrier_length + 6 * view.scale, cut.fence))
    low, high = (base[0] - 5.5, 0.0), (tip[0] + 6.5, 0.0)
    items += linear(base, view.point(nose_end), low, say(nose_end[1]), "vertical", beside="left")
    items += linear(tip, view.point(heel_end), high, say(heel_end[1]), "vertical", beside="right")
    top = view.point((0.0, cut.carrier_width))
    items += _outer(base, top, base[0] - BOTH_SIDES, "width", say(cut.carrier_width), "left")
    items += _outer(tip, blade, tip[0] + BOTH_SIDES + 3.0, "fence", say(cut.fence), "right")
    items += linear(base, tip, (base[0], base[1] - out * 7.0), f"carrier {say(cut.carrier_length)}", "horizontal")
    y = base[1] - out * 7.0
    items += [line([(tip[0] + 13, y), (tip[0] + 24, y)], OUTLINE), arrow((tip[0] + 26, y), (1, 0), 4)]
    items.append(Text(tip[0] + 4, y - 0.9, "FEED", 2.6, bold=True))
    return items


def _outer(p: Point, q: Point, x: float, name: str, figure: str, side: Literal["left", "right"]) -> list[Item]:
    """The outer upright dimension at one end: the figure with its name if that fits along it, else beside it."""
    room = abs(q[1] - p[1]) - 1.5
    for text in (f"{name} {figure}", figure):
        if width_of(text, SIZE) < room:
            return linear(p, q, (x, 0.0), text, "vertical")
    return linear(p, q, (x, 0.0), figure, "vertical", beside=side)


def _on_carrier(work: Workup, plan: SheetPlan, cut: Dividing) -> Part:
    """The first half turned by the slope's angle, its nose corner at the batten's end."""
    half = plan.placed[0]
    if work.job.saw.fence_side == "left":  # back to its own frame: fence edge y = 0, work edge above
        half = half.mirrored_y().moved(0.0, plan.width)
    corner = cut.batten.vertices[3].point
    placed = turned(half, -work.way.nominal.angle, (0.0, 0.0))
    return placed.moved(*corner)


def _carrier_labels(work: Workup, cut: Dividing, view: View) -> list[list[list[Item]]]:
    out = -1.0 if view.mirrored else 1.0
    corners = [view.point(v.point) for v in cut.batten.vertices]
    low, high = _halfway(corners[0], corners[3]), _halfway(corners[1], corners[2])
    quarters = (0.36, 0.64, 0.3, 0.7, 0.25, 0.75, 0.2)
    batten: list[list[Item]] = []
    for text in (f"batten, {slope(work.way.nominal.ratio)}", f"batten, {degrees(work.way.nominal.ratio):.2f} degrees"):
        batten += along(low, high, text, 0.0, size=LABEL, shares=quarters)
    tips = [(low[0] + s * (high[0] - low[0]), low[1] + s * (high[1] - low[1])) for s in (0.25, 0.75, 0.5)]
    batten += pointed(tips, f"batten, {slope(work.way.nominal.ratio)}", size=LABEL)
    base, tip = view.point((0.0, 0.0)), view.point((cut.carrier_length, 0.0))
    near, far = view.point((0.0, cut.fence)), view.point((cut.carrier_length, cut.fence))
    blade: list[list[Item]] = []
    for text in ("BLADE beyond this edge, the second half overhangs", "BLADE beyond this edge", "BLADE"):
        blade += along(near, far, text, out * 2.4, size=LABEL, bold=True)
    fence: list[list[Item]] = []
    for away in (-out * 2.6, out * 2.6):
        for text in ("THIS EDGE ALONG THE FENCE", "FENCE"):
            fence += along(base, tip, text, away, size=LABEL, bold=True)
    edge = [view.point((share * cut.carrier_length, 0.0)) for share in (0.2, 0.8, 0.04, 0.96)]
    fence += pointed(edge, "FENCE", size=LABEL, bold=True)
    return [batten, blade, fence]


def _halfway(p: Point, q: Point) -> Point:
    return ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
