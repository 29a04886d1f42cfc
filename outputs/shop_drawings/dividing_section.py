"""The dividing cut seen from where you stand: table, fence, carrier, both halves, strip and blade, cut across."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.flat.loop import Loop, Point, rectangle
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.sled.dividing import BATTEN_WIDTH, FROM_KERF, Dividing
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import SIZE, arrow, linear, spread
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, THIN, Item, Pen, Text, fitting_scale, line, scale_text
from scarfwright.outputs.drawing.display import shape as drawn
from scarfwright.outputs.drawing.hatch import hatch
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.shop_drawings.carrier_view import BATTEN_FILL, CARRIER_FILL, STRIP_FILL
from scarfwright.outputs.shop_drawings.sled_details import LABEL, WOOD
from scarfwright.outputs.shop_drawings.stand import HEADING_SIZE, Area

FENCE_THICK = 30.0
BELOW = 12.0  # blade shown below the table
BLADE = Pen(0.3, "#b00000")
WOOD_HATCH = Pen(0.13, "#b59a6a")


@dataclass(frozen=True)
class _Across:
    """Model y (from the fence) and z (up from the table) to the page; `way` is -1 where the fence stands right."""

    scale: float
    at: Point
    way: float

    def point(self, y: float, z: float) -> Point:
        return (self.at[0] + self.way * y / self.scale, self.at[1] + z / self.scale)

    def box(self, y: float, z: float, wide: float, high: float) -> Loop:
        (ax, ay), (bx, by) = self.point(y, z), self.point(y + wide, z + high)
        return rectangle(min(ax, bx), ay, abs(bx - ax), by - ay)


def section(work: Workup, cut: Dividing, area: Area) -> list[Item]:
    """The cross-section at the plank's middle, with its names, in the area."""
    x, y, width, height = area
    half, kerf = _half(work), work.job.saw.kerf
    far = cut.fence + kerf + max(half, FROM_KERF + cut.free.width)
    fence_high = float(work.job.saw.fence_height)
    top = max(cut.blade_height, fence_high)
    say = drawn_in(work.job.units)
    room_right = width_of(say(cut.blade_height), SIZE) + 8.0
    scale = fitting_scale(far + FENCE_THICK, top + BELOW, width - room_right - 6.0, height - 28.0, 1.0)
    way = 1.0 if work.job.saw.fence_side == "left" else -1.0
    left = x + 3.0 + (width - 6.0 - room_right - (far + FENCE_THICK) / scale) / 2
    zero = left + (FENCE_THICK if way > 0 else far) / scale
    base = y + 9.0 + (height - 28.0 - (top + BELOW) / scale) / 2 + BELOW / scale
    across = _Across(scale, (zero, base), way)
    items = _bodies(work, cut, across, far, fence_high)
    items.append(Text(x + 2, y + height - 5.0, f"Cut across, from your place, {scale_text(scale)}",
                      HEADING_SIZE - 0.2, bold=True))  # fmt: skip
    edge = max(across.point(far, 0.0)[0], across.point(-FENCE_THICK, 0.0)[0])
    p, q = across.point(cut.fence, 0.0), across.point(cut.fence, cut.blade_height)
    items += linear(
        (edge, p[1]), (edge, q[1]), (edge + 4.0, 0.0), say.rule_up(cut.blade_height), "vertical", beside="right"
    )
    items += _names(work, cut, across, area, fence_high)
    return items


def _half(work: Workup) -> float:
    """Width of either half at the plank's middle, square to the cut (near enough for a picture)."""
    return (work.way.nominal.heel + work.way.nominal.nose) / 2


def _bodies(work: Workup, cut: Dividing, across: _Across, far: float, fence_high: float) -> list[Item]:
    thick, kerf = cut.carrier_thickness, work.job.saw.kerf
    half, plank = _half(work), work.way.nominal.thickness
    items: list[Item] = [
        drawn(across.box(-FENCE_THICK, 0.0, FENCE_THICK, fence_high), EDGE, "#d5d8dc", "fence"),
        drawn(across.box(0.0, 0.0, cut.carrier_width, thick), EDGE, CARRIER_FILL, "carrier across"),
        drawn(across.box(cut.fence + kerf + FROM_KERF, 0.0, cut.free.width, thick), EDGE, STRIP_FILL, "strip across"),
        drawn(across.box(cut.fence - half - BATTEN_WIDTH, thick, BATTEN_WIDTH, cut.batten_height), EDGE, BATTEN_FILL,
              "batten across"),
    ]  # fmt: skip
    for low in (cut.fence - half, cut.fence + kerf):
        loop = across.box(low, thick, half, plank)
        items += [drawn(loop, EDGE, WOOD, "half across"), hatch(loop, WOOD_HATCH, 1.6)]
    items.append(drawn(across.box(cut.fence, -BELOW, kerf, cut.blade_height + BELOW), BLADE, "#f3c9c9", "blade across"))
    ends = [across.point(-FENCE_THICK, 0.0), across.point(cut.fence - 1.0, 0.0)]
    beyond = [across.point(cut.fence + kerf + 1.0, 0.0), across.point(far, 0.0)]
    items += [line(ends, OUTLINE, "table"), line(beyond, OUTLINE, "table")]
    for axis in (cut.fence - half / 2, cut.fence + kerf + half / 2):
        items.append(line([across.point(axis, 0.0), across.point(axis, thick + 0.6 * plank)], THIN, "screw across"))
    return items


def _names(work: Workup, cut: Dividing, across: _Across, area: Area, fence_high: float) -> list[Item]:
    """What stands on the carrier by name above the picture, what lies on the table below it, each on a leader."""
    half, kerf, thick = _half(work), work.job.saw.kerf, cut.carrier_thickness
    top = thick + work.way.nominal.thickness
    above = [
        ("fence", (-FENCE_THICK / 2, fence_high)),
        ("batten", (cut.fence - half - BATTEN_WIDTH / 2, thick + cut.batten_height)),
        ("first half", (cut.fence - half * 0.5, top)),
        ("blade", (cut.fence + kerf / 2, cut.blade_height)),
        ("free half", (cut.fence + kerf + half * 0.6, top)),
    ]
    below = [
        ("carrier", (cut.carrier_width * 0.3, thick / 2)),
        ("strip", (cut.fence + kerf + FROM_KERF + cut.free.width * 0.6, thick / 2)),
    ]
    x, y, width, height = area
    low, high = x + 2.0, x + width - 2.0
    return [
        *_row(across, above, y + height - 11.5, -0.3 * LABEL - 0.6, low, high),
        *_row(across, below, y + 2.5, 0.76 * LABEL + 0.5, low, high),
    ]


def _row(
    across: _Across, names: list[tuple[str, Point]], base: float, foot: float, low: float, high: float
) -> list[Item]:
    """Names side by side on one base line, moved as little as need be, and leaders from `foot` over the line."""
    tips = sorted(((across.point(*tip), text) for text, tip in names))
    widths = [width_of(text, LABEL) + 2.5 for _, text in tips]
    items: list[Item] = []
    for place, (tip, text) in zip(spread([tip[0] for tip, _ in tips], widths, low, high), tips, strict=True):
        knee = (place, base + foot)
        gap = math.dist(knee, tip)
        items += [Text(place, base, text, LABEL, "middle"), line([knee, tip])]
        items.append(arrow(tip, ((tip[0] - knee[0]) / gap, (tip[1] - knee[1]) / gap), 1.9))
    return items
