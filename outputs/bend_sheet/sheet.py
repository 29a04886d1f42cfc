"""One page for a bent member: to scale with the stretches for joints, the use along it, figures, what to do, cautions.

A pure function of its data.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from scarfwright.models.bending.members import Member
from scarfwright.models.bending.use import Bend
from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.words.the_joint.bending import BEND_CAUTION, bend_advice, bend_rows
from scarfwright.models.words.the_joint.strength import NOT_DESIGN
from scarfwright.outputs.bend_sheet.graph import Axes, round_ticks
from scarfwright.outputs.bend_sheet.ribbon import beside, length_ticks, ribbon
from scarfwright.outputs.drawing.dimension import scale_bar
from scarfwright.outputs.drawing.display import Item, Path, Pen, Sheet, Text, View, fitting_scale, scale_text
from scarfwright.outputs.drawing.panels import Cell, Row, inner, panel, title_block

Area = tuple[float, float, float, float]
GOOD, WOOD = "#cfe3c4", "#f3e3c3"
PLAIN, JOINED, CURVED = Pen(0.35, "#1f4e79"), Pen(0.35, "#8a2b06", (2.0, 1.0)), Pen(0.35, "#444444")
LIMIT = Pen(0.25, "#b00000")
LOWER = 47.0
CROWDED = 18.0  # page mm: figures along the curve stand no nearer
LEAST_DEPTH = 2.2  # page mm: a slender member is drawn no thinner


def bend_sheet(
    member: Member, units: Unit, size: tuple[float, float], title: str, cells: Callable[[str], Sequence[Cell]]
) -> Sheet:
    """The page for a member whose wood has figures, on paper of `size` [mm]. `cells`: the title block for a text of the
    scale. Raises ValueError without figures."""
    bend = member.bend
    if bend is None:
        raise ValueError(f"no figures for the wood of {member.name}")
    say = drawn_in(units)
    sheet = Sheet(title, *size)
    x, y, width, height = inner(sheet)
    upper = height - LOWER
    top = 0.42 * upper
    view, items = _member(bend, member.name, (x, y + height - top, width, top), say)
    sheet.add(items)
    graphs = (x, y + LOWER, width, upper - top)
    sheet.add(_graphs(bend, graphs, say))
    half = 0.5 * width
    rows = [Row(text, label) for label, text in bend_rows(bend, units)]
    sheet.add(panel((x, y, half, LOWER), "Figures", rows, 3.1))
    told = [*(Row(text) for text in bend_advice(member, units)), Row(BEND_CAUTION), Row(NOT_DESIGN, bold=True)]
    sheet.add(panel((x + half, y, width - half, LOWER), "What to do", told, 3.1, fill="#fdf1ee"))
    sheet.add(title_block(sheet, cells(scale_text(view.scale))))
    return sheet


def _member(bend: Bend, name: str, area: Area, say: Drawn) -> tuple[View, list[Item]]:
    """The member along its curve to scale, stretches where a joint may stand in green."""
    x, y, width, height = area
    curve = bend.curve
    low, high = min(curve.offset), max(curve.offset)
    first, last = curve.station[0], curve.station[-1]
    scale = fitting_scale(last - first, high - low + bend.depth, width - 24.0, height - 22.0, 1.0)
    view = View(scale, (x + width / 2, y + height / 2 - 4.0), ((first + last) / 2, (low + high) / 2))
    label = f"{name}: the curve, scale {scale_text(scale)}; green: a whole joint may stand here"
    items: list[Item] = [Text(x + 2, y + height - 4.8, label, 3.0, bold=True)]
    half = max(bend.depth, LEAST_DEPTH * scale) / 2
    items.append(ribbon(bend, view, 0.0, curve.length, half, WOOD, "member"))
    for a, b in bend.allowed:
        items.append(ribbon(bend, view, a, b, half, GOOD, "joint may stand"))
    items += [*_marks(bend, view, half, say), *scale_bar((x + width - 72, y + height - 6.0), view, say.units)]
    return view, items


def _marks(bend: Bend, view: View, half: float, say: Drawn) -> list[Item]:
    """Figures along the curve, so that a place in the graph is found on the member; none where they would crowd."""
    items: list[Item] = []
    taken: list[Point] = []
    for s, text in length_ticks(bend.curve.length, say):
        spot = view.point(beside(bend, s, -half - 4.6 * view.scale))
        if any(abs(spot[0] - x) < CROWDED and abs(spot[1] - y) < CROWDED for x, y in taken):
            continue
        taken.append(spot)
        inner_end, outer = view.point(beside(bend, s, -half)), view.point(beside(bend, s, -half - 1.5 * view.scale))
        items.append(Path((Vertex(*inner_end), Vertex(*outer)), name="tick"))
        items.append(Text(spot[0], spot[1] - 0.8, text, 2.8, "middle"))
    return items


def _graphs(bend: Bend, area: Area, say: Drawn) -> list[Item]:
    """Curvature, and use with and without a joint, along the curve."""
    x, y, width, height = area
    curve = bend.curve
    room = (width - 50.0) / 2
    ticks = length_ticks(curve.length, say)
    values = [abs(k) for k in curve.curvature]
    most = max(max(values) * 1.15, 1e-9)
    left = Axes((x + 18.0, y + 9.0, room, height - 18.0), curve.length, most)
    per = 1000.0 if say.units == "mm" else 12 * 25.4
    name = "Curvature, 1/m, along the curve" if say.units == "mm" else "Curvature, 1/ft, along the curve"
    shown = [(t / per, f"{t:.4g}") for t in round_ticks(most * per, 3)]
    items: list[Item] = [Text(x + 2, y + height - 4.6, name, 3.0, bold=True)]
    items += [left.band(a, b, GOOD, "joint may stand") for a, b in bend.allowed]
    items += [*left.frame(ticks, shown), left.curve(curve.arc, values, CURVED, "curvature")]
    most_use = max(1.25, 1.1 * min(bend.most_joint or bend.most, 3.0))
    right = Axes((x + 18.0 + room + 22.0, y + 9.0, room, height - 18.0), curve.length, most_use)
    start = x + 18.0 + room + 6.0
    title = f"Strength used, with a factor of {bend.factor:g}; dashed: in a joint; red: all of it"
    items.append(Text(start, y + height - 4.6, title, 3.0, bold=True))
    items += [right.band(a, b, GOOD, "joint may stand") for a, b in bend.allowed]
    items += right.frame(ticks, [(t, f"{100 * t:.0f} %") for t in round_ticks(most_use)])
    items.append(right.level(1.0, LIMIT))
    items.append(right.curve(curve.arc, bend.use, PLAIN, "use"))
    if bend.use_joint:
        items.append(right.curve(curve.arc, bend.use_joint, JOINED, "use in a joint"))
    return items
