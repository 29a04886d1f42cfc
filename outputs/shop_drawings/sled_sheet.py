"""The dimensioned sled drawing: the sled as it runs, its details and material, and what it is made from."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from scarfwright.models.flat.loop import Point, polygon, rectangle
from scarfwright.models.job.paper import drawing_size
from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.part.part import Part
from scarfwright.models.sled.shape import shape_of, sled_of
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import SIZE, arrow, linear, pointed, running, scale_bar
from scarfwright.outputs.drawing.display import (
    CENTRE,
    OUTLINE,
    PHANTOM,
    THIN,
    Item,
    Path,
    Pen,
    Sheet,
    Text,
    View,
    fitting_scale,
    line,
    readable,
    scale_text,
    shape,
)
from scarfwright.outputs.drawing.hatch import hatch
from scarfwright.outputs.drawing.job_cells import job_cells
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.panels import inner, title_block
from scarfwright.outputs.drawing.placing import Place, Room, along
from scarfwright.outputs.shop_drawings.dividing_sheet import dividing_cut_sheet, dividing_sheet
from scarfwright.outputs.shop_drawings.layer_sheet import layer_sheet
from scarfwright.outputs.shop_drawings.plank_sheet import plank_sheet
from scarfwright.outputs.shop_drawings.sled_details import HAND_PEN, LABEL, WOOD, openings
from scarfwright.outputs.shop_drawings.sled_panels import details, told

LOWER = 58.0  # height of the row of panels: cautions in letters of 3 mm
HATCH_PEN = Pen(0.15, "#d08a8a")
SIDE_ROOM = 30.0  # left and right of the plan, for the nose and heel dimensions
LEVEL = 6.0  # from one dimension line to the next


def sled_drawings(work: Workup) -> dict[str, Sheet]:
    """All sheets of the sled drawing by the name of their file, in order. For a job without faults."""
    makers: dict[str, Callable[[Workup, int, int], Sheet]] = {"sled": _as_it_runs, "sled-details": _details}
    if work.job.sled.made_from == "sheet":
        makers |= {"layer": layer_sheet}
    else:
        makers |= {"plank": plank_sheet, "dividing": dividing_sheet, "dividing-cut": dividing_cut_sheet}
    return {name: make(work, number, len(makers)) for number, (name, make) in enumerate(makers.items(), 1)}


def _as_it_runs(work: Workup, number: int, count: int) -> Sheet:
    sheet = Sheet(f"{work.job.title or 'Sled'}: sled as it runs", *drawing_size(work.job.files))
    x, y, width, height = inner(sheet)
    part = sled_of(shape_of(work.way))
    plan = _plan_frame(work, (x, y + LOWER, width, height - LOWER))
    sheet.add(_plan(work, part, plan))
    sheet.add(told(work, (x, y, width, LOWER)))
    cells = job_cells(work.job, "Sled, as it runs", scale_text(plan.view.scale), number, count)
    sheet.add(title_block(sheet, cells))
    return sheet


def _details(work: Workup, number: int, count: int) -> Sheet:
    sheet = Sheet(f"{work.job.title or 'Sled'}: details and material", *drawing_size(work.job.files))
    sheet.add(details(work, sled_of(shape_of(work.way)), inner(sheet)))
    cells = job_cells(work.job, "Sled, details and material", "as marked", number, count)
    sheet.add(title_block(sheet, cells))
    return sheet


@dataclass(frozen=True)
class _Frame:
    """Where the plan stands: `out` is +1 if the work edge lies up the page, -1 for a fence on the left."""

    area: tuple[float, float, float, float]
    view: View
    out: float
    rail: float  # from the work edge to its dimension line [page mm]


def _levels(work: Workup) -> int:
    layout = work.way.layout
    return 1 + int(0 < layout.hand_line < work.way.sled.length) + int(bool(layout.handle_holes))


def _plan_frame(work: Workup, area: tuple[float, float, float, float]) -> _Frame:
    """The largest scale at which plan, side view and dimensions fit the area."""
    x, y, width, height = area
    real = work.way.sled
    fixed = 8.0 + 12.5 + 7.0 + _levels(work) * LEVEL + 14.5
    tall = real.heel + work.joint.thickness + real.thickness
    for figures in (6.0, 22.0):  # the stations' figures stand along their line, or where that is too tight square to it
        scale = fitting_scale(real.length, tall, width - 2 * SIDE_ROOM - 4.0, height - fixed - figures, 1.0)
        if _stations_lie_level(work, scale):
            break
    rail = work.joint.thickness / scale + 7.0
    mirrored = work.job.saw.fence_side == "left"
    left = x + (width - real.length / scale) / 2 - 1.0
    spare = height - fixed - figures - tall / scale
    if mirrored:
        at = (left, y + height - 8.0 - (7.0 + _levels(work) * LEVEL) - spare / 3)
    else:
        at = (left, y + 14.5 + real.thickness / scale + 7.0 + _levels(work) * LEVEL + spare / 2)
    return _Frame(area, View(scale, at, mirrored=mirrored), -1.0 if mirrored else 1.0, rail)


def _stations_lie_level(work: Workup, scale: float) -> bool:
    """Whether the notches' figures have room side by side along the work edge."""
    say = drawn_in(work.job.units)
    places = [0.0, *(notch.station / scale for notch in work.way.layout.notches)]
    wide = max((width_of(say(n.station), SIZE) for n in work.way.layout.notches), default=0.0) + 2.0
    return all(b - a >= wide for a, b in itertools.pairwise(places))


def _plan(work: Workup, part: Part, frame: _Frame) -> list[Item]:
    """Plan and side view with every dimension and label."""
    x, y, width, height = frame.area
    items: list[Item] = [shape(frame.view.loop(part.outline), OUTLINE, WOOD, "sled outline")]
    items += _hand_line(work, frame)
    items += openings(part, frame.view, WOOD)
    items += _board(work, frame)
    items += _ends(work, frame)
    items += _stations(work, frame)
    items += _side_view(work, frame)
    heading = "Sled seen from above, as it runs"
    if work.job.sled.heel_as_made is not None or work.job.sled.nose_as_made is not None:
        heading += ", with its measured heel and nose"
    items.append(Text(x + 2, y + height - 5.5, f"{heading}, scale {scale_text(frame.view.scale)}", 3.4, bold=True))
    items += scale_bar((x + width - 72, y + height - 6.5), frame.view, work.job.units)
    room = Room(frame.area)
    room.take(items)
    for choices in [*_along_fence(work, frame), *_labels(work, frame)]:
        items += room.put(choices)
    return items


def _board(work: Workup, frame: _Frame) -> list[Item]:
    """The board to be tapered, as it lies on the work edge."""
    real, view = work.way.sled, frame.view
    t = work.joint.thickness
    reach = min(float(work.job.stock.length or real.work_edge), real.work_edge)
    corners = [
        real.at_work_edge(0, 0),
        real.at_work_edge(0, -t),
        real.at_work_edge(reach, -t),
        real.at_work_edge(reach, 0),
    ]
    return [line([view.point(p) for p in corners], PHANTOM, "board")]


def _hand_line(work: Workup, frame: _Frame) -> list[Item]:
    """The line, and hatching over the side of it that no hand may be on: from the heel up to it."""
    real, station = work.way.sled, work.way.layout.hand_line
    if not 0 < station < real.length:
        return []
    x = real.length - station
    corners = [(x, 0.0), (real.length, 0.0), (real.length, real.heel), (x, real.width_at(x))]
    window = polygon([frame.view.point(p) for p in corners])
    ends = [frame.view.point((x, 0.0)), frame.view.point((x, real.width_at(x)))]
    return [hatch(window, HATCH_PEN, 2.2, "no hands"), line(ends, HAND_PEN, "hand line")]


def _ends(work: Workup, frame: _Frame) -> list[Item]:
    """Heel and nose: their widths, their names, and the feed."""
    real, view = work.way.sled, frame.view
    say = drawn_in(work.job.units)
    low, high = view.point((real.length, 0)), view.point((real.length, real.heel))
    items = linear(low, high, (low[0] + 6.5, low[1]), say(real.heel), "vertical", beside="right")
    middle = (low[1] + high[1]) / 2
    edge = low[0] + 8.5
    items.append(Text(edge, middle + 4.5, "HEEL", 3.2, bold=True))
    items += [
        line([(edge, middle - 6.0), (edge + 15.0, middle - 6.0)], OUTLINE),
        arrow((edge + 17.5, middle - 6.0), (1, 0), 4),
    ]
    items.append(Text(edge, middle - 10.9, "FEED, heel first", LABEL))
    low, high = view.point((0, 0)), view.point((0, real.nose))
    items += linear(low, high, (low[0] - 6.5, low[1]), say(real.nose), "vertical", beside="left")
    items.append(Text(low[0] - 8.5, (low[1] + high[1]) / 2 + 4.5, "NOSE", 3.2, "end", bold=True))
    return items


def _stations(work: Workup, frame: _Frame) -> list[Item]:
    """Notches from the heel along the work edge, all from one zero."""
    real, view, say = work.way.sled, frame.view, drawn_in(work.job.units)
    u = view.direction(-math.cos(real.angle), -math.sin(real.angle))
    n = view.direction(-math.sin(real.angle), math.cos(real.angle))
    corner = view.point(real.at_work_edge(0, 0))
    zero = (corner[0] + n[0] * frame.rail, corner[1] + n[1] * frame.rail)
    marks = [(view.point(real.at_work_edge(s.station, 0)), say(s.station)) for s in work.way.layout.notches]
    items: list[Item] = [line([(corner[0] + 0.8 * n[0], corner[1] + 0.8 * n[1]), zero])]
    items += running(zero, u, n, marks)
    for notch in work.way.layout.notches:
        ends = [view.point(real.at_work_edge(notch.station, d)) for d in (0.0, notch.web + 1.4 * notch.width)]
        items.append(line(ends, CENTRE))
    return items


def _along_fence(work: Workup, frame: _Frame) -> list[list[Place]]:
    """Length, handle holes and hand line, from the heel along the fence edge; the figures past either end."""
    real, view, say, layout = work.way.sled, frame.view, drawn_in(work.job.units), work.way.layout
    heel, nose = view.point((real.length, 0.0)), view.point((0.0, 0.0))
    first_level = 7.0 + LEVEL

    def dimension(p: Point, q: Point, level: int, text: str) -> list[Place]:
        through = (q[0], heel[1] - frame.out * (first_level + level * LEVEL))
        return [linear(p, q, through, text, "horizontal", outside=end) for end in ("q", "p")]

    found: list[list[Place]] = []
    level = 0
    if 0 < layout.hand_line < real.length:
        p = view.point((real.length - layout.hand_line, 0.0))
        found.append(dimension(p, heel, level, f"hand line {say(layout.hand_line)}"))
        level += 1
    if layout.handle_holes:
        first, second = sorted(layout.handle_holes, reverse=True)
        p, q = view.point(first), view.point(second)
        found.append(dimension(p, heel, level, f"handle hole {say(real.from_heel(first[0]))}"))
        found.append(list(reversed(dimension(q, p, level, say(work.job.sled.handle_spacing)))))
        level += 1
    found.append(dimension(nose, heel, level, f"length {say(real.length)}"))
    return list(reversed(found))


def _side_view(work: Workup, frame: _Frame) -> list[Item]:
    """The sled from the side, for its thickness; sheet layers shown."""
    real, view, say, job = work.way.sled, frame.view, drawn_in(work.job.units), work.job
    x, y = view.at[0], frame.area[1] + 6.5
    long, tall = view.length(real.length), view.length(real.thickness)
    items: list[Item] = [shape(rectangle(x, y, long, tall), OUTLINE, WOOD, "side view")]
    if job.sled.made_from == "sheet":
        for i in range(1, job.sled.layers):
            z = y + tall * i / job.sled.layers
            items.append(line([(x, z), (x + long, z)], THIN))
    items += linear(
        (x + long, y), (x + long, y + tall), (x + long + 6.5, y), say(real.thickness), "vertical", beside="right"
    )
    items.append(Text(x - 2.0, y + tall / 2 - 0.3 * LABEL, "Side view", LABEL, "end"))
    return items


def _labels(work: Workup, frame: _Frame) -> list[list[Place]]:
    """Labels with the places each may take, best first."""
    real, view = work.way.sled, frame.view
    heel, nose = view.point((real.length, real.heel)), view.point((0.0, real.nose))
    start, end = view.point((0.0, 0.0)), view.point((real.length, 0.0))
    outward = frame.out * (work.joint.thickness / view.scale + 2.6)
    inward = -frame.out * 2.4
    text = f"slope {slope_mark(real.ratio)}"
    work_edge: list[Place] = []
    for away, words in ((outward, "WORK EDGE, the board lies here"), (outward, "WORK EDGE"), (inward, "WORK EDGE")):
        work_edge += along(nose, heel, words, away, size=LABEL, bold=True)
    fence_edge: list[Place] = []
    for words in ("FENCE EDGE, runs along the fence", "FENCE EDGE"):
        fence_edge += along(start, end, words, -frame.out * 3.2, size=LABEL, bold=True)
    inclined = along(nose, heel, text, inward, size=LABEL) + along(nose, heel, text, outward, size=LABEL)
    tips = [view.point(real.at_work_edge(share * real.work_edge, 0.0)) for share in (0.5, 0.7, 0.3, 0.85)]
    inclined += pointed(tips, text)
    work_edge += pointed(tips, "WORK EDGE", bold=True)
    fence_edge += pointed(
        [view.point((share * real.length, 0.0)) for share in (0.5, 0.3, 0.7)], "FENCE EDGE", bold=True
    )
    tilt = readable(math.atan2(heel[1] - nose[1], heel[0] - nose[0]))
    found = [_hand_label(work, frame, tilt), work_edge, fence_edge, inclined]
    told = (
        "HANDS on the nose side of the hand line",
        "WORK EDGE: the sloping one",
        "FENCE EDGE: the straight one",
        text,
    )
    x, top = frame.area[0] + 2, frame.area[1] + frame.area[3] - 10.5
    for row, (places, words) in enumerate(zip(found, told, strict=True)):
        if places:  # where a small sled has no room for it, in a list below the heading
            colour = HAND_PEN.colour if row == 0 else "#000000"
            places.append([Text(x, top - 4.6 * row, words, LABEL, bold=row < 3, colour=colour)])
    return found


def _hand_label(work: Workup, frame: _Frame, tilt: float) -> list[Place]:
    """On the side of the line where hands may be, with an arrow away from the line; where that is too narrow, beside
    the sled there, or at last on a leader to the middle of the handle."""
    real, view, layout = work.way.sled, frame.view, work.way.layout
    if not 0 < layout.hand_line < real.length:
        return []
    x, colour = real.length - layout.hand_line, HAND_PEN.colour
    found: list[Place] = []
    for text in ("HANDS THIS SIDE", "HANDS"):
        for share in (0.74, 0.7, 0.78, 0.62, 0.5, 0.35, 0.25):
            for angle in (tilt, 0.0):
                px, py = view.point((x, share * real.width_at(x)))
                found.append(_words_and_arrow(px, py, text, angle))
    for text in ("HANDS THIS SIDE", "HANDS"):
        for beside in (4.0, 6.0, 8.5, 11.0, 14.0):
            for edge, way in ((real.width_at(x), frame.out), (0.0, -frame.out)):
                px, py = view.point((x, edge))
                found.append(_words_and_arrow(px, py + way * beside, text, 0.0))
    hold = [view.point(p) for p in layout.handle_holes]
    tips = [((hold[0][0] + hold[1][0]) / 2, (hold[0][1] + hold[1][1]) / 2)] if hold else []
    tips += [view.point((x * share, 0.5 * real.width_at(x * share))) for share in (0.97, 0.9)]
    led = pointed(tips, "HANDS on the nose side of the line", size=LABEL, bold=True)
    return found + [[_coloured(item, colour) for item in items] for items in led]


def _words_and_arrow(x: float, y: float, text: str, angle: float) -> list[Item]:
    """Words that end a little before the hand line at x, y and an arrow that goes on from them to the nose."""
    words = Text(x - 1.5, y - 0.27 * LABEL, text, LABEL, "end", angle, True, HAND_PEN.colour)
    return [words, *_arrow_past(words, HAND_PEN.colour)]


def _arrow_past(words: Text, colour: str) -> list[Item]:
    """An arrow from the end of the words away from the hand line."""
    reach = words.width + 1.2
    c, s = math.cos(words.angle), math.sin(words.angle)
    up = 0.27 * words.size
    start = (words.x - reach * c - up * s, words.y - reach * s + up * c)
    tip = (start[0] - 6.0 * c, start[1] - 6.0 * s)
    shaft = line([start, (start[0] - 4.5 * c, start[1] - 4.5 * s)], Pen(0.4, colour), "hands go here")
    return [shaft, _coloured(arrow(tip, (-c, -s), 3.0), colour)]


def _coloured(item: Item, colour: str) -> Item:
    if isinstance(item, Text):
        return replace(item, colour=colour)
    if isinstance(item, Path):
        return replace(item, pen=item.pen and replace(item.pen, colour=colour), fill=item.fill and colour)
    return item
