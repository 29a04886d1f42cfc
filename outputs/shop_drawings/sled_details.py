"""Enlarged details of the sled: the nose with its flat, and a clamp notch."""

from __future__ import annotations

from scarfwright.models.flat.loop import Point, polygon, rectangle
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import BEYOND, SIZE, linear
from scarfwright.outputs.drawing.display import (
    CENTRE,
    EDGE,
    OUTLINE,
    PHANTOM,
    Clip,
    Item,
    Pen,
    Text,
    View,
    fitting_scale,
    line,
    scale_text,
    shape,
)
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.lettering import wrap

WARN = "#fdf1ee"
PANEL_SIZE = 3.1
WOOD = "#f7f0e3"
HAND_PEN = Pen(0.35, "#b00000", (2.5, 1.2))
HEADING = 3.2
LABEL = 3.0
NOTE = 3.0
Area = tuple[float, float, float, float]


def part_items(part: Part, view: View, name: str, pen: Pen = OUTLINE, fill: str | None = WOOD) -> list[Item]:
    """A part's outline and openings."""
    return [shape(view.loop(part.outline), pen, fill, name), *openings(part, view, fill)]


def openings(part: Part, view: View, fill: str | None = None) -> list[Item]:
    """Notches and holes; white inside where the part itself is filled."""
    items: list[Item] = []
    for feature in part.features:
        inside = EDGE if feature.operation is not Operation.SCORE else PHANTOM
        items.append(shape(view.loop(feature.loop), inside, "#ffffff" if fill else None, feature.name))
    return items


def window_of(view: View, low: Point, high: Point) -> Area:
    """The page rectangle of a model rectangle: x, y, width, height."""
    corners = [view.point(p) for p in (low, (high[0], low[1]), high, (low[0], high[1]))]
    xs, ys = zip(*corners, strict=True)
    return (min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def nose_detail(work: Workup, part: Part, area: Area) -> list[Item]:
    """The nose end: width, flat and step."""
    say, sled = drawn_in(work.job.units), work.way.sled
    mirrored = work.job.saw.fence_side == "left"
    flat = sled.nose_flat
    reach = min(max(1.6 * flat, 0.6 * sled.nose, 20.0), sled.length)
    tall = sled.width_at(reach)
    notes = _nose_notes(work)
    x, y, width, height = area
    rows = [row for text in notes for row in wrap(text, NOTE, width - 4)]
    foot = len(rows) * NOTE * 1.34 + 2.0
    left, right, below, head = width_of(say(sled.nose), SIZE) + 10.0, 4.0, 10.0, 7.0
    scale = fitting_scale(reach, tall, width - left - right, height - foot - head - below - 5.0)
    middle = y + foot + (2.5 if mirrored else below) + (height - foot - head - below - 2.5 - tall / scale) / 2
    at = (x + left, middle + (tall / scale if mirrored else 0.0))
    view = View(scale, at, mirrored=mirrored)
    wx, wy, ww, wh = window_of(view, (0.0, 0.0), (reach, tall))
    window = rectangle(wx - 1, wy - 1, ww + 1, wh + 2)
    items: list[Item] = [Clip(window, tuple(part_items(part, view, "nose detail")))]
    items += _break(wx + ww, wy - 1, wh + 2)
    items.append(_heading(area, f"Nose, scale {scale_text(scale)}"))
    p, q = view.point((0.0, 0.0)), view.point((0.0, sled.nose))
    items += linear(p, q, (p[0] - 5.0, p[1]), say(sled.nose), "vertical", beside="left")
    if flat > 0:
        far = 5.0 if mirrored else -5.0
        a, b = view.point((0.0, 0.0)), view.point((flat, 0.0))
        items += _under(a, b, a[1] + far, say(flat), upper=mirrored)
    return items + _rows(rows, x + 2, y + foot)


def _nose_notes(work: Workup) -> list[str]:
    say, sled = drawn_in(work.job.units), work.way.sled
    if sled.nose_flat <= 0:
        return ["No nose flat: the fence edge runs straight to the nose."]
    return [
        f"Nose flat {say(sled.nose_flat)} long, step {say(sled.flat_step)}: parallel to the work edge, "
        f"{say(sled.across_nose)} from it. Saw it by hand.",
    ]


def notch_detail(work: Workup, part: Part, area: Area) -> list[Item]:
    """The heel notch, the work edge level."""
    say, sled = drawn_in(work.job.units), work.way.sled
    notch = next(n for n in work.way.layout.notches if n.where == "heel")
    mirrored = work.job.saw.fence_side == "left"
    x, y, width, height = area
    others = " All notches are alike." if len(work.way.layout.notches) > 1 else ""
    text = (
        f"Drill both ends {say(notch.width)}, centres {say(notch.bearing())} apart, and saw between them, "
        f"parallel to the work edge.{others}"
    )
    rows = list(wrap(text, NOTE, width - 4))
    foot = len(rows) * NOTE * 1.34 + 2.0
    left, right, below, head = 23.0, 16.0, 9.0, 14.0
    half = notch.length / 2 * 1.25
    deep = notch.web + notch.width * 1.5
    scale = fitting_scale(2 * half, deep, width - left - right, height - foot - head - below)
    drop = deep / scale
    spare = (height - foot - head - below - drop) / 2
    top = y + height - head - spare if not mirrored else y + foot + head - 4.0 + spare
    angle = sled.angle if mirrored else -sled.angle
    view = View(
        scale, (x + left + (width - left - right) / 2, top), sled.at_work_edge(notch.station, 0), angle, mirrored
    )

    def on(along: float, depth: float) -> Point:
        """Page point `along` towards the nose from the notch's middle, `depth` into the wood."""
        return view.point(sled.at_work_edge(notch.station + along, depth))

    corners = [on(-half, -2 * scale), on(-half, deep), on(half, deep), on(half, -2 * scale)]
    items: list[Item] = [Clip(polygon(corners), tuple(part_items(part, view, "notch detail")))]
    for side in (-half, half):
        (bx, by), (_, ty) = on(side, deep), on(side, 0.0)
        items += _break(bx, min(by, ty), abs(ty - by))
    out = -1.0 if mirrored else 1.0
    near = on(0, 0)
    items.append(line([(near[0], near[1] + 5.4 * out), on(0, deep)], CENTRE))
    above = near[1] + (6.3 if not mirrored else -6.3 - 0.76 * NOTE)
    items.append(Text(near[0], above, f"{say(notch.station)} from the heel", NOTE, "middle"))
    size = 0.5 * notch.length
    a, b = on(size, notch.web + notch.width / 2), on(-size, notch.web + notch.width / 2)
    items += _under(a, b, on(0, deep)[1] - 5.0 * out, say(notch.length), upper=mirrored)
    a, b = on(size * 0.6, 0), on(size * 0.6, notch.web)
    items += linear(a, b, (on(half, 0)[0] - 3.0, a[1]), f"web {say(notch.web)}", "vertical", beside="left")
    straight = notch.bearing() / 2
    a, b = on(-straight, notch.web), on(-straight, notch.web + notch.width)
    items += linear(a, b, (on(-half, 0)[0] + 3.0, a[1]), say(notch.width), "vertical", beside="right")
    items.append(_heading(area, f"Notch, scale {scale_text(scale)}"))
    return items + _rows(rows, x + 2, y + foot)


def _under(p: Point, q: Point, level: float, text: str, *, upper: bool = False) -> list[Item]:
    """A level dimension whose figure, where it does not fit between its ends, stands beyond its line: under it, or
    over it where the part lies below."""
    if width_of(text, SIZE) + 1.0 <= abs(q[0] - p[0]):
        return linear(p, q, (p[0], level), text, "horizontal")
    bare = [item for item in linear(p, q, (p[0], level), "", "horizontal") if not isinstance(item, Text)]
    away = BEYOND + 0.8
    base = level + away + 0.22 * SIZE if upper else level - away - 0.76 * SIZE
    return [*bare, Text((p[0] + q[0]) / 2, base, text, SIZE, "middle")]


def _heading(area: Area, text: str) -> Text:
    return Text(area[0] + 2, area[1] + area[3] - 4.2, text, HEADING, bold=True)


def _rows(rows: list[str], x: float, top: float) -> list[Item]:
    return [Text(x, top - (i + 1) * NOTE * 1.34, row, NOTE) for i, row in enumerate(rows)]


def _break(x: float, y: float, height: float) -> list[Item]:
    """A break line: here the drawing stops, not the wood."""
    middle = y + height / 2
    jog = min(1.2, height / 6)
    points = [(x, y - 1), (x, middle - jog), (x + jog, middle - jog / 3), (x - jog, middle + jog / 3)]
    return [line([*points, (x, middle + jog), (x, y + height + 1)])]
