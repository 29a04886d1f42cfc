"""The sled from above, upright, as it runs: heel at the top, fence edge on the fence's side."""

from __future__ import annotations

from dataclasses import replace

from scarfwright.models.flat.loop import Point, polygon
from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.sled.shape import shape_of, sled_of
from scarfwright.models.words.at_the_saw.endings import clamp
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import arrow
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, Pen, View, line, shape
from scarfwright.outputs.drawing.hatch import hatch
from scarfwright.outputs.narrow.colours import PAPER, RED, WOOD
from scarfwright.outputs.narrow.scene import HATCH, WIDTH, Scene, Thing, centred, measure, scene, things_beside, upright

TALL, WIDE = 120.0, 24.0  # page mm that sled and board take at most
FOOT, HEAD = 13.0, 15.0  # for nose and heel
HAND = Pen(0.6, RED, (2.0, 1.0))


def sled_scenes(work: Workup) -> list[Scene]:
    """The sled with its measures and the hand line."""
    real = work.way.sled
    out = -1.0 if work.mirrored else 1.0  # +1: the fence edge lies on the right
    across = real.heel + work.joint.thickness
    scale = max(real.length / TALL, across / WIDE)
    view = upright(scale, ((WIDTH + out * across / scale) / 2, FOOT), mirrored=out < 0)
    sides = {out: _along_fence(work), -out: _along_work_edge(work)}
    names, top = things_beside(sides, view, FOOT, FOOT + real.length / scale)
    items = [*_picture(work, view), *_ends(work, view), *names]
    caption = (
        "The sled from above, as it runs, heel first. Lengths count from the heel. Red: no hand belongs there. "
        "Measure nothing off this picture."
    )
    return [scene("sled", caption, top + HEAD, items)]


def _picture(work: Workup, view: View) -> list[Item]:
    """Wood, openings, the board that lies on it, the side of the hand line where no hand may be."""
    real, layout = work.way.sled, work.way.layout
    part = sled_of(shape_of(work.way))
    items: list[Item] = [shape(view.loop(part.outline), OUTLINE, WOOD, "sled")]
    reach = min(float(work.job.stock.length or real.work_edge), real.work_edge)
    t = work.joint.thickness
    board = [real.at_work_edge(*p) for p in ((0, 0), (0, -t), (reach, -t), (reach, 0))]
    x = real.length - layout.hand_line
    if 0 < x < real.length:
        corners = [(x, 0.0), (real.length, 0.0), (real.length, real.heel), (x, real.width_at(x))]
        items.append(hatch(view.loop(polygon(corners)), HATCH, 2.0))
        items.append(line([view.point((x, 0.0)), view.point((x, real.width_at(x)))], HAND, "hand line"))
        items += _hands_go(view.point((x, 0.2 * real.width_at(x))))
    items += [shape(view.loop(feature.loop), EDGE, PAPER, feature.name) for feature in part.features]
    return [*items, line([view.point(p) for p in board], PHANTOM, "board")]


def _hands_go(start: Point) -> list[Item]:
    """An arrow from the hand line to the side where hands belong."""
    tip = (start[0], start[1] - 6.0)
    shaft = line([start, (tip[0], tip[1] + 2.0)], Pen(0.5, RED), "hands go here")
    return [shaft, replace(arrow(tip, (0.0, -1.0), 3.0), fill=RED)]


def _ends(work: Workup, view: View) -> list[Item]:
    """Heel and nose with their widths."""
    real, say = work.way.sled, drawn_in(work.job.units)
    heel, nose = view.point((real.length, 0.0)), view.point((0.0, 0.0))
    far_heel, far_nose = view.point((real.length, real.heel)), view.point((0.0, real.nose))
    items = measure(heel, far_heel, heel[1] + 3.0, f"heel {say(real.heel)}", bold=True)
    items += measure(nose, far_nose, nose[1] - 3.0, f"nose {say(real.nose)}", above=False, bold=True)
    middle = (heel[0] + far_heel[0]) / 2
    items += [line([(middle - 9.0, heel[1] + 8.8), (middle - 9.0, heel[1] + 11.4)], OUTLINE)]
    items.append(arrow((middle - 9.0, heel[1] + 13.4), (0.0, 1.0), 3.4))
    items.append(centred((middle + 1.5, heel[1] + 10.6), "FEED", bold=True))
    return items


def _along_fence(work: Workup) -> list[Thing]:
    """What is measured along the fence edge."""
    real, layout, say = work.way.sled, work.way.layout, drawn_in(work.job.units)
    x = real.length - layout.hand_line
    found = [Thing((0.9 * real.length, 0.0), "fence edge")]
    if 0 < x < real.length:
        found.append(Thing((x, 0.0), f"hand line {say(layout.hand_line)}", True, RED))
        found.append(Thing((x / 2, 0.0), "HANDS below the line", True, RED))
    for hole in layout.handle_holes:
        found.append(Thing(hole, f"handle hole {say(real.from_heel(hole[0]))}"))
    found.append(Thing((0.0, 0.0), f"length {say(real.length)}", True))
    return found


def _along_work_edge(work: Workup) -> list[Thing]:
    """Clamps, slope, and where the board lies."""
    real, layout, say = work.way.sled, work.way.layout, drawn_in(work.job.units)
    found = [
        Thing(_on_edge(work, 0.12 * real.work_edge, -work.joint.thickness), "board"),
        Thing(_on_edge(work, 0.7 * real.work_edge, 0.0), f"slope {slope_mark(real.ratio)}"),
    ]
    notched = {notch.station: notch for notch in layout.notches}
    for place in layout.clamps:
        deep = notched[place.station].web if place.station in notched else 0.0
        found.append(Thing(_on_edge(work, place.station, deep), f"{clamp(place.where)} {say(place.station)}", True))
    return found


def _on_edge(work: Workup, station: float, depth: float) -> Point:
    return work.way.sled.at_work_edge(station, depth)
