"""A bent member from the side, where joints may stand in it, and how much of its strength it uses along its curve."""

from __future__ import annotations

from scarfwright.models.bending.members import Member
from scarfwright.models.bending.use import Bend
from scarfwright.models.flat.loop import Vertex
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.workup import Workup
from scarfwright.outputs.bend_sheet.graph import Axes
from scarfwright.outputs.bend_sheet.ribbon import beside, length_ticks, ribbon
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import EDGE, Item, Path, Pen, Text, View, box, line
from scarfwright.outputs.narrow.colours import BLUE, GOOD, INK, RED, WOOD
from scarfwright.outputs.narrow.scene import SIZE, WIDTH, Scene, centred, scene

PLAIN, JOINED, LIMIT, MARK = Pen(0.5, BLUE), Pen(0.5, INK, (2.0, 1.0)), Pen(0.4, RED), Pen(0.9, RED)
SIDE, LEFT = 4.0, 17.0  # page mm: beside the member; for the figures beside the graph
TALLEST, GRAPH, FOOT = 60.0, 30.0, 8.0  # page mm: of the member, of the graph, for the figures below it
LEAST_DEPTH = 2.6  # page mm: a slender member is drawn no thinner
MOST_SHOWN = 2.0  # of the strength: a curve that goes higher is cut off


def bent_scenes(work: Workup) -> list[Scene]:
    """One for every member that is bent and whose wood has figures."""
    members = () if work.craft is None else work.craft.members
    say = drawn_in(work.job.units)
    return [_scene(one, one.bend, say) for one in members if one.bend is not None]


def _scene(member: Member, bend: Bend, say: Drawn) -> Scene:
    graph = _graph(bend, say)
    low = FOOT + GRAPH + 6.0
    height, picture = _member(bend, low, say)
    caption = (
        f"{member.name}: the curve, true to scale along it, ticks every {_step(bend, say)} from the left; red: bent "
        "sharpest; green: a whole joint may stand there. Below, how much of its strength it uses along the curve, with "
        f"a factor of {bend.factor:g}; dashed: in a joint."
    )
    return scene(f"bent-{member.number}", caption, low + height + 4.0, [*graph, *picture])


def _step(bend: Bend, say: Drawn) -> str:
    return say(length_ticks(bend.curve.length, say)[1][0])


def _member(bend: Bend, low: float, say: Drawn) -> tuple[float, list[Item]]:
    """How high the picture is [page mm], and the member with its foot at `low`."""
    curve = bend.curve
    first, last = min(curve.station), max(curve.station)
    bottom, top = min(curve.offset), max(curve.offset)
    scale = max((last - first) / (WIDTH - 2 * SIDE), (top - bottom) / TALLEST)
    half = max(bend.depth, LEAST_DEPTH * scale) / 2
    high = (top - bottom + 2 * half) / scale
    view = View(scale, (WIDTH / 2, low + high / 2), ((first + last) / 2, (bottom + top) / 2))
    items: list[Item] = [ribbon(bend, view, 0.0, curve.length, half, WOOD, "member")]
    items += [ribbon(bend, view, a, b, half, GOOD, "joint may stand") for a, b in bend.allowed]
    for s, _ in length_ticks(curve.length, say):
        ends = (view.point(beside(bend, s, -half)), view.point(beside(bend, s, half)))
        items.append(Path(tuple(Vertex(*end) for end in ends), name="tick"))
    sharpest, at = curve.sharpest
    if sharpest > 0:
        ends = (view.point(beside(bend, at, -half)), view.point(beside(bend, at, half)))
        items.append(Path(tuple(Vertex(*end) for end in ends), pen=MARK, name="bent sharpest"))
    return high, items


def _graph(bend: Bend, say: Drawn) -> list[Item]:
    """Use along the curve, its limit, the figures of a few lengths below it."""
    curve, most = bend.curve, max(1.25, 1.1 * min(bend.most_joint or bend.most, MOST_SHOWN))
    axes = Axes((LEFT, FOOT, WIDTH - LEFT - SIDE, GRAPH), curve.length, most)
    items: list[Item] = [axes.band(a, b, GOOD, "joint may stand") for a, b in bend.allowed]
    items.append(box(*axes.area, EDGE))
    items += [axes.level(1.0, LIMIT), axes.curve(curve.arc, bend.use, PLAIN, "use")]
    if bend.use_joint:
        items.append(axes.curve(curve.arc, bend.use_joint, JOINED, "use in a joint"))
    for value, name in ((0.0, "0 %"), (1.0, "100 %")):
        items.append(Text(LEFT - 1.5, axes.y(value) - 0.27 * SIZE, name, SIZE, "end"))
    end = 0.0
    for s, text in length_ticks(curve.length, say):
        at, wide = axes.x(s), lettering.width(text, SIZE) / 2
        items.append(line([(at, FOOT), (at, FOOT - 1.2)]))
        if at - wide >= end and at + wide <= WIDTH - 0.5:
            items.append(centred((at, FOOT - 4.2), text))
            end = at + wide + 2.0
    return items
