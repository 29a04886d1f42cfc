"""The set-up at the saw: from above as one stands at it, and from where one stands."""

from __future__ import annotations

import math

from scarfwright.models.cut.scene import FENCE_THICKNESS, Piece, State, setup_scene
from scarfwright.models.flat.loop import Loop, rectangle
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.part.part import Part
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import EDGE, THIN, Clip, Item, Pen, View, line, shape
from scarfwright.outputs.drawing.hatch import hatch
from scarfwright.outputs.narrow.colours import GROUND, METAL, OTHER_WOOD, PAPER, RED, STEEL, STRIP, WOOD
from scarfwright.outputs.narrow.scene import HATCH, WIDTH, Scene, Thing, measure, scene, things_beside, upright
from scarfwright.outputs.setup_card.projection import from_above

TALL, WIDE = 125.0, 27.0  # page mm that the plan takes at most
BESIDE, BEFORE = 60.0, 160.0  # table shown on the free side; sled and board shown on your side of the table [mm]
SHOWN_BESIDE, NARROWER = 14.0, 26.0  # fence and table shown beside the work [mm]; columns of the second view [page mm]
STOP = 60.0  # length of the stop block as drawn [mm]
FILLS = {
    "table": GROUND,
    "fence": METAL,
    "sled": WOOD,
    "work": OTHER_WOOD,
    "offcut": OTHER_WOOD,
    "blade": STEEL,
    "riving_knife": STEEL,
    "clamp": STRIP,
}
HAND = Pen(0.6, RED, (2.0, 1.0))


def setup_scenes(work: Workup) -> list[Scene]:
    """The plan at the end of the cut, and the view from where one stands."""
    return [_plan(work), _from_behind(work)]


def _plan(work: Workup) -> Scene:
    saw, way = work.job.saw, work.way
    state = _end_state(work)
    out = -1.0 if work.mirrored else 1.0
    low, high = (
        -float(saw.table_front) - BEFORE,
        max(float(saw.table_back), work.cut.advice.stop.from_axis + STOP) + 10.0,
    )
    far = way.fence + work.joint.thickness + BESIDE
    scale = max((high - low) / TALL, (far + FENCE_THICKNESS) / WIDE)
    view = upright(scale, (WIDTH / 2 + out * (far - FENCE_THICKNESS) / 2 / scale, 2.0 - low / scale), mirrored=False)
    near, beyond = sorted((-out * FENCE_THICKNESS, out * far))
    window = view.loop(rectangle(low, near, high - low, beyond - near))
    picture = Clip(window, tuple(_from_above(work, state, view, out)))
    top = 2.0 + (high - low) / scale
    names, end = things_beside({out: _fence_side(work, out), -out: _free_side(work, out)}, view, 2.0, top)
    caption = (
        "From above, as you stand at the saw, at the end of the cut. Your side is at the foot, lengths count from the "
        "table's front edge. Red: no hand belongs there."
    )
    return scene("setup", caption, max(end, top) + 4.0, [picture, *names])


def _end_state(work: Workup) -> State:
    """The set-up nearest to the end that the job asks for."""
    states = setup_scene(work.way).states
    return min(states, key=lambda state: abs(state.travel - work.way.travel_end))


def _from_above(work: Workup, state: State, view: View, out: float) -> list[Item]:
    items: list[Item] = []
    order = ("table", "fence", "stop", "work", "sled", "offcut", "blade", "riving_knife", "clamp")
    pieces = sorted(state.pieces, key=lambda piece: order.index(_kind(piece)))
    for piece in pieces:
        pen = THIN if _kind(piece) in ("blade", "riving_knife") else EDGE
        items.append(shape(view.loop(from_above(piece)), pen, FILLS[_kind(piece)], piece.name))
        if isinstance(piece.shape, Part):
            items += [
                shape(view.loop(feature.loop.moved(piece.along, 0.0)), THIN, PAPER, "opening")
                for feature in piece.shape.features
            ]
            items += _no_hands(work, state, view, out, piece.shape.outline.moved(piece.along, 0.0))
    at, wide = work.cut.advice.stop.from_axis, work.way.sled.heel * 2 / 3
    block = rectangle(at, 0.0 if out > 0 else -wide, STOP, wide)
    return [*items, shape(view.loop(block), EDGE, STRIP, "stop block")]


def _no_hands(work: Workup, state: State, view: View, out: float, sled: Loop) -> list[Item]:
    x = state.travel - work.way.layout.hand_line
    _, low, high, top = sled.bounds
    beyond = rectangle(x, low, max(high - x, 1e-3), top - low)
    ends = [view.point((x, 0.0)), view.point((x, out * work.way.sled.heel))]
    hatched = Clip(view.loop(sled), (hatch(view.loop(beyond), HATCH, 2.0), line(ends, HAND, "hand line")))
    return [hatched]


def _kind(piece: Piece) -> str:
    if "clamp" in piece.name:
        return "clamp"
    return "work" if piece.name.startswith("work") else piece.name


def _fence_side(work: Workup, out: float) -> list[Thing]:
    """Everything that is measured from the table's front edge."""
    say, advice, front = drawn_in(work.job.units), work.cut.advice, float(work.job.saw.table_front)
    edge = -out * FENCE_THICKNESS
    return [
        Thing((-front, edge), "table's front edge"),
        Thing((advice.start.from_front - front, edge), f"heel at the start {say(advice.start.from_front)}", True),
        Thing((0.0, edge), f"blade's centre {say(front)}"),
        Thing((advice.stop.from_axis, 0.0), f"stop block {say(advice.stop.from_front)}", True),
        Thing((-0.35 * front, edge), "fence"),
    ]


def _free_side(work: Workup, out: float) -> list[Thing]:
    """What lies on the blade's side."""
    say, way = drawn_in(work.job.units), work.way
    offcut, travel = work.cut.advice.offcut, _end_state(work).travel
    outer = way.fence + work.joint.thickness
    hand = travel - way.layout.hand_line
    found = [
        Thing((0.0, out * (way.fence + way.blade.kerf)), f"blade; fence at {say(way.fence)}", True),
        Thing((hand, out * 0.5 * way.sled.nose), "HANDS below this line", True, RED),
    ]
    if offcut.thick > 0:
        spot = (way.travel.offcut_free - 0.15 * offcut.length, out * (outer - 0.3 * offcut.thick))
        found.append(Thing(spot, "the offcut falls here: leave it"))
    clamps = [(travel - way.sled.length + way.sled.at_work_edge(c.station, 0.0)[0], c) for c in way.layout.clamps]
    shown = [x for x, _ in clamps if x > -float(work.job.saw.table_front) - 0.8 * BEFORE]
    if shown:
        found.append(Thing((max(shown), out * (outer + 5.0)), "clamp"))
    return found


def _from_behind(work: Workup) -> Scene:
    """Across the feed at the heel, as it comes to the blade: heights, and the fence."""
    say, way, saw = drawn_in(work.job.units), work.way, work.job.saw
    out = -1.0 if work.mirrored else 1.0
    heel, edge = way.sled.heel, way.sled.heel + work.joint.thickness / math.cos(work.joint.angle)
    left, right = -SHOWN_BESIDE, edge + SHOWN_BESIDE
    high = max(way.blade.height, work.joint.height, way.sled.thickness, float(saw.fence_height))
    scale = max((right - left) / (WIDTH - 2 * NARROWER - 8.0), high / 40.0)
    foot = 12.0
    middle = (WIDTH / 2, foot)
    view = View(scale, middle, ((left + right) / 2, 0.0), math.pi if out > 0 else 0.0, mirrored=out > 0)

    def box(y0: float, y1: float, z: float, fill: str, base: float = 0.0) -> Item:
        return shape(view.loop(rectangle(y0, min(base, z), y1 - y0, abs(z - base))), EDGE, fill)

    items: list[Item] = [
        box(left, right, -2.5 * scale, GROUND),
        box(left, 0.0, float(saw.fence_height), METAL),
        box(0.0, heel, way.sled.thickness, WOOD),
        box(heel, edge, work.joint.height, OTHER_WOOD),
        box(way.fence, way.fence + way.blade.kerf, way.blade.height, STEEL),
    ]
    text = f"fence {say(way.fence)}"
    items += measure(view.point((0.0, 0.0)), view.point((way.fence, 0.0)), foot - 5.0, text, above=False, bold=True)
    fence_side = [
        Thing((0.5 * left, 0.8 * float(saw.fence_height)), "fence"),
        Thing((0.3 * heel, 0.5 * way.sled.thickness), f"sled {say(way.sled.thickness)} thick"),
    ]
    free_side = [
        Thing((way.fence + way.blade.kerf / 2, way.blade.height), f"blade {say(way.blade.height)}", True),
        Thing((edge, 0.4 * work.joint.height), f"board {say(work.joint.height)} high"),
    ]
    top = foot + high / scale
    names, end = things_beside({out: fence_side, -out: free_side}, view, foot, top, column=NARROWER)
    caption = "From where you stand, as the heel comes to the blade: heights above the table, and the fence to a tooth."
    return scene("from-behind", caption, max(end, top) + 2.0, [*items, *names])
