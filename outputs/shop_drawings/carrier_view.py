"""The carrier from above: batten, strip, both halves as they lie, screws, handle, and the blade's line."""

from __future__ import annotations

from typing import Literal

from scarfwright.models.flat.loop import Point, circle, rectangle
from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.lengths.slopes import degrees
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.layout import SheetPlan, turned
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import SIZE, arrow, linear, pointed, running
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, THIN, Item, Text, View, line, shape
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.placing import Place, along
from scarfwright.outputs.shop_drawings.plank_view import BLADE_PEN
from scarfwright.outputs.shop_drawings.sled_details import LABEL
from scarfwright.outputs.shop_drawings.stand import Block

CARRIER_FILL, STRIP_FILL, BATTEN_FILL, HANDLE_FILL = "#eef1ec", "#dfe6ee", "#c3cfc2", "#e3d3b5"
BOTH_SIDES = 27.0  # from the carrier's ends to the outer of two dimensions [page mm]


def carrier_block(cut: Dividing, work: Workup) -> Block:
    """What the view shows, from the fence edge to the far edge of the free half."""
    nominal = work.way.nominal
    far = max(cut.fence + work.job.saw.kerf + nominal.heel, max(v.y for v in cut.free.loop.vertices))
    right = max(cut.carrier_length, max(v.x for v in cut.free.loop.vertices))
    return Block((0.0, 0.0), (right, far), 36.0, 44.0, 21.0, 3.0)


def carrier_items(work: Workup, plan: SheetPlan, cut: Dividing, view: View) -> list[Item]:
    """Everything but the names."""
    board = rectangle(0, 0, cut.carrier_length, cut.carrier_width)
    items: list[Item] = [shape(view.loop(board), OUTLINE, CARRIER_FILL, "carrier")]
    items.append(shape(view.loop(cut.free.loop), EDGE, STRIP_FILL, "strip"))
    items.append(shape(view.loop(cut.batten), EDGE, BATTEN_FILL, "batten"))
    if cut.handle_loop is not None:
        items.append(shape(view.loop(cut.handle_loop), EDGE, HANDLE_FILL, "handle"))
    first, second = (_on_carrier(work, plan, cut, half) for half in plan.placed)
    items.append(shape(view.loop(first.outline), PHANTOM, None, "half on the carrier"))
    items.append(shape(view.loop(second.outline), PHANTOM, None, "free half"))
    ends = [view.point((-3 * view.scale, cut.fence)), view.point((cut.carrier_length + 6 * view.scale, cut.fence))]
    items.append(line(ends, BLADE_PEN, "blade line"))
    for at in (*cut.screws, *cut.free.screws):
        items += _screw(view, at)
    items += [shape(circle(*view.point(at), 0.6), THIN, "#ffffff", "batten screw") for at in cut.batten_screws]
    return items + _dimensions(work, cut, view)


def _on_carrier(work: Workup, plan: SheetPlan, cut: Dividing, half: Part) -> Part:
    """A half turned by the slope's angle, the first one's nose corner at the batten's end."""
    if work.job.saw.fence_side == "left":  # back to its own frame: fence edge y = 0, work edge above
        half = half.mirrored_y().moved(0.0, plan.width)
    return turned(half, -work.way.nominal.angle, (0.0, 0.0)).moved(*cut.batten_ends[0])


def _screw(view: View, at: Point) -> list[Item]:
    """A small cross in a circle; its size is for the eye, not to scale."""
    x, y = view.point(at)
    r = 0.9
    return [
        shape(circle(x, y, r), EDGE, "#ffffff", "screw"),
        line([(x - r, y), (x + r, y)], THIN, "screw"),
        line([(x, y - r), (x, y + r)], THIN, "screw"),
    ]


def _dimensions(work: Workup, cut: Dividing, view: View) -> list[Item]:
    """Where the batten's edge lies at both its ends, along and across; carrier and fence; the feed."""
    say = drawn_in(work.job.units)
    out = -1.0 if view.mirrored else 1.0
    nose_end, heel_end = cut.batten_ends
    base, tip = view.point((0.0, 0.0)), view.point((cut.carrier_length, 0.0))
    top, blade = view.point((0.0, cut.carrier_width)), view.point((cut.carrier_length + 6 * view.scale, cut.fence))
    items = linear(base, view.point(nose_end), (base[0] - 5.5, 0.0), say(nose_end[1]), "vertical", beside="left")
    items += linear(tip, view.point(heel_end), (tip[0] + 6.5, 0.0), say(heel_end[1]), "vertical", beside="right")
    items += _outer(base, top, base[0] - BOTH_SIDES, "width", say(cut.carrier_width), "left")
    items += _outer(tip, blade, tip[0] + BOTH_SIDES + 3.0, "fence", say(cut.fence), "right")
    items += _batten_stations(work, cut, view, base, out)
    y = base[1] - out * 17.0
    items += linear(base, tip, (base[0], y), f"carrier {say(cut.carrier_length)}", "horizontal")
    items += [line([(tip[0] + 16, y), (tip[0] + 27, y)], OUTLINE), arrow((tip[0] + 29, y), (1, 0), 4)]
    items.append(Text(tip[0] + 4, y - 0.9, "FEED", LABEL, bold=True))
    return items


def _batten_stations(work: Workup, cut: Dividing, view: View, base: Point, out: float) -> list[Item]:
    """Where the batten's two corners lie along the carrier, from its trailing end; each figure inside its arrow."""
    say, level = drawn_in(work.job.units), base[1] - out * 5.0
    ends = [view.point((x, 0.0)) for x, _ in cut.batten_ends]
    bare = running((base[0], level), (1.0, 0.0), (0.0, -out), [(end, "") for end in ends])
    items: list[Item] = [line([base, (base[0], level)], THIN), *(i for i in bare if not isinstance(i, Text))]
    base_line = level - 2.0 - 0.76 * SIZE if out > 0 else level + 2.0 + 0.22 * SIZE
    items.append(Text(ends[0][0] + 1.0, base_line, say(cut.batten_ends[0][0]), SIZE))
    items.append(Text(ends[1][0] - 1.0, base_line, say(cut.batten_ends[1][0]), SIZE, "end"))
    return items


def _outer(p: Point, q: Point, x: float, name: str, figure: str, side: Literal["left", "right"]) -> list[Item]:
    """The outer upright dimension at one end: the figure with its name if that fits along it, else beside it."""
    room = abs(q[1] - p[1]) - 1.5
    for text in (f"{name} {figure}", figure):
        if width_of(text, SIZE) < room:
            return linear(p, q, (x, 0.0), text, "vertical")
    return linear(p, q, (x, 0.0), figure, "vertical", beside=side)


def carrier_labels(work: Workup, cut: Dividing, view: View) -> list[list[Place]]:
    """Names and screw numbers with the places each may take, best first."""
    out = -1.0 if view.mirrored else 1.0
    level = view.point((0.0, cut.fence))[1]
    found = [*_screw_numbers(view, cut.screws, level, -out), *_screw_numbers(view, cut.free.screws, level, out)]
    corners = [view.point(v.point) for v in cut.batten.vertices]
    low, high = _halfway(corners[0], corners[3]), _halfway(corners[1], corners[2])
    ratio = work.way.nominal.ratio
    batten: list[Place] = []
    for text in (f"batten, slope {slope_mark(ratio)}", f"batten, {degrees(ratio):.2f}°", "batten"):
        batten += along(low, high, text, 0.0, size=LABEL, shares=(0.36, 0.64, 0.3, 0.7, 0.25, 0.75, 0.2))
    tips = [(low[0] + s * (high[0] - low[0]), low[1] + s * (high[1] - low[1])) for s in (0.25, 0.75, 0.5, 0.9)]
    batten += pointed(tips, f"batten, slope {slope_mark(ratio)}", size=LABEL)
    fence: list[Place] = []
    base, tip = view.point((0.0, 0.0)), view.point((cut.carrier_length, 0.0))
    for text in ("THIS EDGE ALONG THE FENCE", "FENCE"):
        fence += along(base, tip, text, out * 2.8, size=LABEL, bold=True)
    edge = [view.point((share * cut.carrier_length, 0.0)) for share in (0.2, 0.8, 0.04, 0.96)]
    fence += pointed(edge, "FENCE", size=LABEL, bold=True)
    return [*found, batten, fence, _blade(cut, view, out), *_pieces(cut, view, out)]


def _blade(cut: Dividing, view: View, out: float) -> list[Place]:
    near, far = view.point((0.0, cut.fence)), view.point((cut.carrier_length, cut.fence))
    found: list[Place] = []
    for text in ("BLADE runs along this line", "BLADE"):
        for away in (-out * 2.8, out * 3.2):
            found += along(near, far, text, away, size=LABEL, bold=True)
    tips = [view.point((cut.carrier_length + 4 * view.scale, cut.fence)), view.point((-2 * view.scale, cut.fence))]
    return found + list(pointed(tips, "BLADE", size=LABEL, bold=True))


def _pieces(cut: Dividing, view: View, out: float) -> list[list[Place]]:
    """The strip, the halves and the handle by name."""
    corners = [view.point(v.point) for v in cut.free.loop.vertices]
    strip: list[Place] = []
    low, high = _halfway(corners[0], corners[3]), _halfway(corners[1], corners[2])
    for text in ("STRIP as thick as the carrier, under the free half", "STRIP under the free half", "STRIP"):
        for away in (0.0, out * 1.5, -out * 1.5):
            strip += along(low, high, text, away, size=LABEL, bold=True)
    strip += pointed([_halfway(low, high), low], "STRIP under the free half", size=LABEL, bold=True)
    found = [strip]
    if cut.handle is not None:
        x, y = view.point(cut.handle)
        words: list[Place] = [[Text(x + 7.5 + more, y - 0.27 * LABEL, "handle: push here", LABEL)] for more in (0, 5)]
        found.append(words + list(pointed([(x, y)], "handle: push here", size=LABEL)))
    return found


def _screw_numbers(view: View, places: tuple[Point, ...], level: float, side: float) -> list[list[Place]]:
    """The number of each screw beside it, on its own side (up the page: +1) of the blade's line at `level`."""
    found: list[list[Place]] = []
    for number, at in enumerate(places, 1):
        px, py = view.point(at)
        heights = (-1.1, 1.1, -2.7, 2.3, -4.1, 3.3, -5.5, 4.7)
        sides = [(dx, dy) for dy in heights for dx in (1.5, -1.5)]
        beside = [Text(px + dx, py + dy, str(number), LABEL, "start" if dx > 0 else "end") for dx, dy in sides]
        own: list[Place] = [[text] for text in beside if all((y - level) * side > 0 for _, y in text.box())]
        found.append([*own, *pointed([(px, py)], str(number), size=LABEL)])
    return found


def _halfway(p: Point, q: Point) -> Point:
    return ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
