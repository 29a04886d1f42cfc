"""The views of the glue-up sheet: the whole stick with its risers, the joint from above and from the side."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.gluing.stations import clamp_order
from scarfwright.models.lengths.drawn import Drawn
from scarfwright.outputs.drawing.dimension import linear, running, scale_bar
from scarfwright.outputs.drawing.display import (
    CENTRE,
    EDGE,
    OUTLINE,
    PHANTOM,
    THIN,
    Item,
    Path,
    Text,
    View,
    fitting_scale,
    scale_text,
)

Area = tuple[float, float, float, float]
WOOD, OTHER_WOOD, METAL, STRIPS, RISER, LIP = "#f3e3c3", "#e7cf9f", "#c9d3dc", "#d9e6cf", "#b7b0a6", "#5c554c"
NAME, NOTE = 3.2, 3.0
LEAST = 2.1  # a figure smaller than this is left out
CROWDED = 4.4  # page mm between two figures that stand upright
BESIDE = 45.0  # of board shown beyond each tip, at least [model mm]


@dataclass(frozen=True)
class Canvas:
    """Draws model rectangles and polygons through a view."""

    view: View

    def area(self, points: list[Point], fill: str | None, name: str = "") -> Path:
        corners = tuple(Vertex(*self.view.point(p)) for p in points)
        return Path(corners, True, EDGE if fill != METAL else THIN, fill, name)

    def box(self, x: float, y: float, width: float, height: float, fill: str | None, name: str = "") -> Path:
        return self.area([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], fill, name)


def joint_scale(plan: GluePlan, room: Area) -> float:
    """Drawing scale of both joint views."""
    shown = plan.joint.overlap + 2 * _beside(plan)
    across = plan.joint.height + 2 * _over(plan)
    through = plan.joint.thickness + 2 * _stack(plan)
    return fitting_scale(shown, across + through, room[2] - 46.0, room[3] - 58.0, 1.0)


def _beside(plan: GluePlan) -> float:
    return max(BESIDE, 1.5 * plan.places.pad)


def _over(plan: GluePlan) -> float:
    """How far clamps reach beyond the long edges in the drawing."""
    return plan.clamp.pad_height if plan.lay.way == "edge" else plan.clamp.jaw_outer


def _stack(plan: GluePlan) -> float:
    """How far clamps reach beyond the faces in the drawing."""
    return plan.clamp.jaw_outer + plan.lay.between


def whole_view(plan: GluePlan, area: Area, say: Drawn) -> list[Item]:
    """The whole stick from above, risers and their places from the first tip, to either side."""
    x, y, width, height = area
    overlap, joint = plan.joint.overlap, plan.joint
    low, high = overlap - plan.places.board_length, plan.places.board_length
    scale = fitting_scale(high - low, joint.height * 3, width - 30.0, height - 47.0, 1.0)
    middle = y + height / 2 - 3.0
    view = View(scale, (x + width / 2, middle), ((low + high) / 2, joint.height / 2))
    canvas = Canvas(view)
    items: list[Item] = [
        Text(
            x + 2,
            y + height - 4.6,
            f"Risers from the first tip (dark: with a lip), {scale_text(scale)}",
            NAME,
            bold=True,
        )
    ]
    items += [
        canvas.box(
            r.place - r.width / 2, -0.5 * joint.height, r.width, 2 * joint.height, LIP if r.lip else RISER, "riser"
        )
        for r in plan.places.supports
    ]
    items.append(canvas.box(low, 0, overlap - low, joint.height, WOOD, "first board"))
    items.append(canvas.box(0, 0, high, joint.height, OTHER_WOOD, "second board"))
    items.append(canvas.box(0, 0, overlap, joint.height, "#ffffff", "joint"))
    for sign in (-1.0, 1.0):  # the left row below the stick, the right row above
        side = sorted((r for r in plan.places.supports if sign * r.place > 0), key=lambda r: sign * r.place)
        edge = joint.height / 2 + sign * joint.height
        marks = [(view.point((r.place, edge)), say.rule(abs(r.place))) for r in side]
        if marks:
            zero = view.point((0, edge))
            items += running((zero[0], zero[1] + sign * 3.5), (sign, 0.0), (0.0, sign), marks, size=2.6)
    return items


def plan_view(plan: GluePlan, area: Area, scale: float, say: Drawn) -> list[Item]:
    """The joint seen on its face: clamps on both long edges, each with its place and when it is set."""
    x, y, width, height = area
    joint, beside = plan.joint, _beside(plan)
    view = View(scale, (x + width / 2, y + height / 2 + 5.0), (joint.overlap / 2, joint.height / 2))
    canvas, order = Canvas(view), clamp_order(len(plan.places.clamps))
    what = "Face of the joint, seen from above" if plan.lay.way == "flat" else "Face of the joint, standing on edge"
    items: list[Item] = [Text(x + 2, y + height - 4.6, f"{what}, scale {scale_text(scale)}", NAME, bold=True)]
    items.append(canvas.box(-beside, 0, joint.overlap + 2 * beside, joint.height, WOOD, "board"))
    items.append(canvas.box(0, 0, joint.overlap + beside, joint.height, OTHER_WOOD, "upper board"))
    if plan.lay.way == "flat":
        items += _strips(plan, canvas)
    for station, turn in zip(plan.places.clamps, order, strict=True):
        items += _clamp_on_face(plan, canvas, station, turn)
    for s in (0.0, joint.overlap):
        top, low = view.point((s, joint.height + _over(plan))), view.point((s, -_over(plan)))
        items.append(Path((Vertex(top[0], top[1] + 2.5), Vertex(low[0], low[1] - 2.5)), pen=CENTRE, name="tip"))
    head = view.point((0, joint.height + _over(plan)))
    items.append(Text(head[0], head[1] + 4.0, "first tip", NOTE, "end"))
    far = view.point((joint.overlap, joint.height + _over(plan)))
    items.append(Text(far[0], far[1] + 4.0, "second tip", NOTE))
    base = view.point((0, -_over(plan)))
    marks = [(view.point((s, -_over(plan))), say.rule(s)) for s in _labelled(plan, view)]
    items += running((base[0], base[1] - 5.0), (1.0, 0.0), (0.0, -1.0), marks, size=3.0)
    left = view.point((-beside, 0))
    top_left = view.point((-beside, joint.height))
    items += linear(left, top_left, (left[0] - 5.0, 0), say(joint.height), "vertical", beside="left", size=3.0)
    return items


def _labelled(plan: GluePlan, view: View) -> tuple[float, ...]:
    """The stations that have room for a figure: all of them, or evenly few, first and last among them."""
    clamps = plan.places.clamps
    most = max(int(view.length(clamps[-1] - clamps[0]) / CROWDED), 1)
    step = next(k for k in range(1, len(clamps) + 1) if k >= len(clamps) - 1 or (len(clamps) - 1) / k <= most)
    return tuple(dict.fromkeys([*clamps[::step], clamps[-1]])) if step > 1 else clamps


def _strips(plan: GluePlan, canvas: Canvas) -> list[Item]:
    """The strips of scrap under both rows of pads."""
    deep = min(plan.clamp.pad_height, plan.joint.height / 2)
    return [canvas.box(0, low, plan.joint.overlap, deep, STRIPS, "strip") for low in (0.0, plan.joint.height - deep)]


def _clamp_on_face(plan: GluePlan, canvas: Canvas, station: float, turn: int) -> list[Item]:
    height, over, pad = plan.joint.height, _over(plan), plan.places.pad
    left = station - pad / 2
    if plan.lay.way == "flat":
        deep = min(plan.clamp.pad_height, height / 2)
        items: list[Item] = [
            canvas.box(left, -over, pad, over + deep, METAL, "clamp"),
            canvas.box(left, height - deep, pad, over + deep, METAL, "clamp"),
        ]
        deep_in = 0.6 * (over + deep)
        spots = [(station, deep / 2 - over / 2), (station, height - deep / 2 + over / 2)]
    else:
        items = [
            canvas.box(left, -over, pad, height + 2 * over, STRIPS, "batten"),
            canvas.box(left, -over, pad, over, METAL, "clamp"),
            canvas.box(left, height, pad, over, METAL, "clamp"),
        ]
        deep_in = 0.85 * over
        spots = [(station, -over / 2), (station, height + over / 2)]
    size = min(3.0, 1.15 * canvas.view.length(pad) / len(str(turn)), canvas.view.length(deep_in))
    for spot in spots if size >= LEAST else ():
        at = canvas.view.point(spot)
        items.append(Text(at[0], at[1] - 0.27 * size, str(turn), size, "middle", bold=True))
    return items


def side_view(plan: GluePlan, area: Area, scale: float, say: Drawn) -> list[Item]:
    """The joint seen on its long edge: the glue line, pads, strips or battens, and risers if it lies flat."""
    x, y, width, height = area
    joint, beside, flat = plan.joint, _beside(plan), plan.lay.way == "flat"
    t = joint.thickness
    middle = y + height / 2 - (1.0 if flat else 2.0)
    view = View(scale, (x + width / 2, middle), (joint.overlap / 2, t / 2))
    canvas = Canvas(view)
    what = "Long edge, seen from the side" if flat else "Long edge, seen from above"
    items: list[Item] = [Text(x + 2, y + height - 4.6, f"{what}, scale {scale_text(scale)}", NAME, bold=True)]
    low, high = -beside, joint.overlap + beside
    b = joint.tip
    items.append(canvas.area([(low, 0), (joint.overlap, 0), (joint.overlap, b), (0, t - b), (0, t), (low, t)], WOOD))
    items.append(
        canvas.area([(0, t - b), (joint.overlap, b), (joint.overlap, 0), (high, 0), (high, t), (0, t)], OTHER_WOOD)
    )
    glue = (view.point((0, t - b)), view.point((joint.overlap, b)))
    items.append(Path(tuple(Vertex(*p) for p in glue), pen=OUTLINE, name="glue line"))
    thick = plan.lay.between
    if flat:
        items += [canvas.box(0, at, joint.overlap, thick, STRIPS, "strip") for at in (-thick, t)]
    for station in plan.places.clamps:
        left = station - plan.places.pad / 2
        if not flat:
            items += [canvas.box(left, at, plan.places.pad, thick, STRIPS, "batten") for at in (-thick, t)]
        items += [
            canvas.box(left, at, plan.places.pad, plan.clamp.jaw_outer, METAL, "pad")
            for at in (-thick - plan.clamp.jaw_outer, t + thick)
        ]
    if flat:
        items += _rests_beside(plan, canvas, low, high)
    right = view.point((high, 0)), view.point((high, t))
    items += linear(right[0], right[1], (right[0][0] + 5.0, 0), say(t), "vertical", beside="right", size=3.0)
    items += scale_bar((x + width - 66.0, y + height - 5.6), view, say.units, 56.0, 2.1)
    return items


def _rests_beside(plan: GluePlan, canvas: Canvas, low: float, high: float) -> list[Item]:
    """Risers in the window: their tops, cut off below."""
    shown = 1.6 * plan.clamp.jaw_outer + plan.lay.between
    items: list[Item] = []
    for rest in plan.places.supports:
        left, right = max(rest.place - rest.width / 2, low), min(rest.place + rest.width / 2, high)
        if right > left:
            items.append(canvas.box(left, -shown, right - left, shown, RISER, "riser"))
    bench = (canvas.view.point((low, -shown)), canvas.view.point((high, -shown)))
    items.append(Path(tuple(Vertex(*p) for p in bench), pen=PHANTOM, name="cut off"))
    return items
