"""The page about planing: the joint from the side, drawn too steep, what comes off, which way the plane goes."""

from __future__ import annotations

from collections.abc import Callable

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.planing.planing import Planing
from scarfwright.models.words.the_joint.planing import PLANER_CAUTION, planing_rows, planing_steps
from scarfwright.outputs.drawing.dimension import arrow, linear, running
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, Path, Pen, Sheet, Text
from scarfwright.outputs.wood_sheets.page import Area, Cells, Page, wood_page

WOOD, OTHER_WOOD, OFF = "#f3e3c3", "#e7cf9f", "#f4f4f4"
WAY = Pen(0.6, "#1f4e79")
THICK = 20.0  # page mm the stock is drawn thick


def planing_sheet(
    joint: Joint, plane: Planing, units: Unit, size: tuple[float, float], title: str, cells: Cells
) -> Sheet:
    """The page, on paper of `size` [mm]."""
    words = Page(
        planing_rows(joint, plane, units),
        planing_steps(plane, units),
        [PLANER_CAUTION, "Your machine's manual, local rules and competent instruction come first."],
        "After planing",
        "How to plane",
    )
    return wood_page(words, lambda area: _picture(joint, plane, area, drawn_in(units)), size, title, cells)


def _picture(joint: Joint, plane: Planing, area: Area, say: Drawn) -> list[Item]:
    x, y, width, height = area
    beside = 0.14 * joint.overlap
    along = (width - 60.0) / (joint.overlap + 2 * beside)
    up = THICK / joint.thickness
    left, low = x + 30.0, y + height / 2 - THICK / 2 - 1.0

    def at(s: float, z: float) -> Point:
        return left + (s + beside) * along, low + z * up

    def shape(points: list[Point], fill: str, name: str) -> Path:
        return Path(tuple(Vertex(*at(*p)) for p in points), True, EDGE, fill, name)

    t, b, run = joint.thickness, joint.tip, joint.overlap
    first, last = -beside, run + beside
    items: list[Item] = [
        Text(x + 2, y + height - 4.8, "The joint from the side, drawn too thick; grey comes off", 3.0, bold=True),
        shape([(first, 0), (run, 0), (run, b), (0, t - b), (0, t), (first, t)], WOOD, "first board"),
        shape([(0, t - b), (run, b), (run, 0), (last, 0), (last, t), (0, t)], OTHER_WOOD, "second board"),
    ]
    for z in (0.0, t - plane.each):
        items.append(shape([(first, z), (last, z), (last, z + plane.each), (first, z + plane.each)], OFF, "comes off"))
    glue = (at(0, t - b), at(run, b))
    items.append(Path(tuple(Vertex(*p) for p in glue), pen=OUTLINE, name="glue line"))
    items += _ways(at, joint)
    upper, lower = at(plane.upper_feather, t - plane.each), at(plane.lower_feather, plane.each)
    zero = at(0, 0)
    marks = [
        (at(plane.upper_feather, 0), say(plane.upper_feather)),
        (at(plane.lower_feather, 0), say(plane.lower_feather)),
    ]
    items += running((zero[0], zero[1] - 14.0), (1.0, 0.0), (0.0, -1.0), marks, size=3.0)
    for spot in (upper, lower):
        items.append(Path((Vertex(*spot), Vertex(spot[0], zero[1] - 1.0)), pen=PHANTOM, name="feather line"))
    head = at(0, t)
    items += [
        Path((Vertex(head[0], head[1] + 1.0), Vertex(head[0], head[1] + 13.0)), pen=PHANTOM, name="first tip"),
        Text(head[0], head[1] + 14.0, "first tip", 3.0, "middle"),
    ]
    edge = at(last, 0)
    items += linear(
        at(last, plane.each),
        at(last, t - plane.each),
        (edge[0] + 6.0, 0),
        say(plane.thickness),
        "vertical",
        beside="right",
        size=3.0,
    )
    items += linear(at(first, 0), at(first, t), (at(first, 0)[0] - 6.0, 0), say(t), "vertical", beside="left", size=3.0)
    return items


def _ways(at: Callable[[float, float], Point], joint: Joint) -> list[Item]:
    """Arrows over and under the joint: which way the plane runs on each face."""
    run, t = joint.overlap, joint.thickness
    items: list[Item] = []
    for z, off, start, end, text in (
        (t, 5.0, 0.75 * run, 0.25 * run, "upper face: plane this way, off the feather"),
        (0.0, -5.0, 0.25 * run, 0.75 * run, "lower face: plane this way, off the feather"),
    ):
        (ax, ay), (bx, by) = at(start, z), at(end, z)
        sign = 1.0 if bx > ax else -1.0
        items += [
            Path((Vertex(ax, ay + off), Vertex(bx, by + off)), pen=WAY, name="way"),
            arrow((bx, by + off), (sign, 0.0), 3.4),
        ]
        items.append(Text((ax + bx) / 2, ay + off + (1.4 if off > 0 else -3.4), text, 3.0, "middle"))
    return items
