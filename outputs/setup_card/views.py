"""Plan and side view of the set-up card, one scale, in line: the saw's set-up at the end of the cut."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.cut.bodies import BLOCK_LONG, stop_block_outline
from scarfwright.models.cut.scene import FENCE_THICKNESS, TABLE_THICKNESS, Piece, State, setup_scene
from scarfwright.models.flat.loop import Loop, polygon, rectangle
from scarfwright.models.part.part import Part
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import scale_bar
from scarfwright.outputs.drawing.display import (
    EDGE,
    PHANTOM,
    THIN,
    Clip,
    Item,
    Pen,
    Text,
    View,
    fitting_scale,
    flat,
    line,
    scale_text,
    shape,
)
from scarfwright.outputs.drawing.hatch import hatch
from scarfwright.outputs.drawing.placing import Room
from scarfwright.outputs.setup_card.frame import FREE_STRIP, Area, Frame
from scarfwright.outputs.setup_card.marks import LABEL, STEP, beside, from_front_edge, labels, marks, stops
from scarfwright.outputs.setup_card.projection import from_above, from_the_side
from scarfwright.outputs.shop_drawings.sled_details import HAND_PEN, WOOD, part_items

MOST_BEFORE = 400.0  # of sled and board shown before table and fence [mm]
HEAD, FOOT, BETWEEN = 8.0, 8.6, 3.0  # page room over, under and between the views, without dimensions
STATIONS = 8.0  # page room for the stations
BESIDE = 24.0  # page room right and left of the views together
FILLS = {
    "table": ("#eef0f1", EDGE),
    "fence": ("#c9d6e6", EDGE),
    "work": ("#e2bd92", EDGE),
    "offcut": ("#f3dfbf", EDGE),
    "blade": ("#404448", THIN),
    "riving_knife": ("#8a9096", THIN),
    "clamp": ("#bfe0c8", EDGE),
    "sled": (WOOD, EDGE),
}
HATCHED = "no hands"
NO_HANDS = Pen(0.12, "#d98880")
BLOCK_FILL, BLADE_BEHIND = "#f2b8a0", "#d9dde0"


def card_frame(work: Workup, area: Area) -> Frame:
    """The largest usual scale at which both views and their dimensions fit, the plan above the side view."""
    saw = work.job.saw
    scene = {state.name: state for state in setup_scene(work.way).states}
    state = scene["clear" if saw.end_of_cut == "run_on" else "done"]
    out = 1.0 if saw.fence_side == "right" else -1.0
    before = min(-saw.table_front, -saw.fence_front)
    low = max(min(before, state.travel - work.way.sled.length), before - MOST_BEFORE) - 30.0
    high = max(float(saw.table_back), state.travel + BLOCK_LONG) + 15.0
    free = free_edge(work)
    across, tall = FENCE_THICKNESS + free, _top(state) + TABLE_THICKNESS
    ladder = STEP * len(stops(work)) + FOOT
    x, y, width, height = area
    edges = STEP * len(from_front_edge(work)) + 2.0
    fixed = HEAD + BETWEEN + STATIONS + edges + ladder
    # the figures from the front edge stand left of it
    figures = max(Text(0, 0, text, LABEL, bold=True).width for _, text in from_front_edge(work)) + 4.0
    room_x, room_y = width - BESIDE, height - fixed
    scale = fitting_scale(high - low, across + tall, room_x, room_y, 1.0)
    scale = max(scale, fitting_scale(high + saw.table_front, 0.0, room_x - figures + 4.0, room_y, 1.0))
    spare = height - fixed - (across + tall) / scale
    at_x = x + 5.0 + max((room_x - (high - low) / scale) / 2, 0.0) - low / scale
    at_x = min(max(at_x, x + figures + saw.table_front / scale), x + width - beside(work) - high / scale)
    side_y = y + ladder + spare * 0.2 + TABLE_THICKNESS / scale
    plan_low = side_y + _top(state) / scale + BETWEEN + (edges if out > 0 else STATIONS) + spare * 0.4
    plan_y = plan_low + (FENCE_THICKNESS if out > 0 else free) / scale
    plan, side = View(scale, (at_x, plan_y)), View(scale, (at_x, side_y))
    return Frame(area, state, scene["start"], low, high, plan, side, out)


def free_edge(work: Workup) -> float:
    """How far from the fence the plan shows the table [mm]."""
    return work.way.fence + work.joint.thickness + FREE_STRIP


def _top(state: State) -> float:
    """Greatest height in the side view [mm]."""
    return max(from_the_side(piece).bounds[3] for piece in state.pieces)


def views(work: Workup, frame: Frame) -> list[Item]:
    """Both views with their dimensions and names."""
    x, y, _, height = frame.area
    items: list[Item] = [*_plan(work, frame), *_side(work, frame)]
    how = {"hold": "held against the stop block", "run_on": "blade clear", "draw_back": "before drawing back"}
    heading = f"At the end of the cut, {how[work.job.saw.end_of_cut]}: plan and side view, scale "
    items.append(Text(x + 2, y + height - 5.0, heading + scale_text(frame.plan.scale), 3.2, bold=True))
    items += scale_bar((x + 6.0, y + 2.5), frame.plan, work.job.units, 50.0, LABEL)
    items += marks(work, frame)
    room = Room(frame.area)
    room.take(item for item in flat(items) if item.name != HATCHED)  # names may stand on hatching
    for choices in labels(work, frame):
        label = room.put(choices)
        items += [*_unhatched(work, frame, label), *label]
    return items


def _unhatched(work: Workup, frame: Frame, label: Sequence[Item]) -> list[Item]:
    """Bare wood under a label's letters, where hatching would run through them."""
    patches = tuple(shape(polygon(item.box(0.3)), None, WOOD, "bare wood") for item in label if isinstance(item, Text))
    window, hatched = _no_hands_area(work, frame)
    return [Clip(_picture(work, frame), (Clip(window, (Clip(hatched, patches),)),))]


def _plan(work: Workup, frame: Frame) -> list[Item]:
    """Table, fence and what runs along it, seen from above; a long board runs out of the picture."""
    view, sled = frame.plan, _piece(frame.state, "sled")
    assert isinstance(sled.shape, Part)
    items = [_above(_piece(frame.state, name), view) for name in ("table", "fence")]
    items.append(shape(view.loop(_block_above(work, frame)), EDGE, BLOCK_FILL, "stop block"))
    items.append(_above(_piece(frame.state, "work"), view))
    items += part_items(sled.shape, View(view.scale, view.point((sled.along, 0.0))), "sled", EDGE, WOOD)
    over = ("offcut", "blade", "riving_knife")
    items += [_above(p, view) for p in frame.state.pieces if p.name in over or _kind(p) == "clamp"]
    x = frame.state.travel - work.way.layout.hand_line
    wide = max(work.way.sled.width_at(work.way.sled.length - work.way.layout.hand_line), 0.0)
    window, beyond = _no_hands_area(work, frame)
    items.append(Clip(window, (hatch(beyond, NO_HANDS, 2.5, HATCHED),)))
    items.append(line([view.point((x, 0.0)), view.point((x, frame.out * wide))], HAND_PEN, "hand line"))
    heel = from_above(_piece(frame.start, "sled")).bounds
    items.append(line([view.point((heel[2], y)) for y in (heel[1], heel[3])], PHANTOM, "heel at the start"))
    return [Clip(_picture(work, frame), tuple(items))]


def _picture(work: Workup, frame: Frame) -> Loop:
    """What is shown of the plan, on the page."""
    low, high = sorted((-frame.out * FENCE_THICKNESS, frame.out * free_edge(work)))
    return frame.plan.loop(rectangle(frame.low, low, frame.high - frame.low, high - low))


def _no_hands_area(work: Workup, frame: Frame) -> tuple[Loop, Loop]:
    """The sled's outline, and round what of it lies on the blade's side of the hand line, on the page."""
    sled, line_at = _piece(frame.state, "sled"), frame.state.travel - work.way.layout.hand_line
    assert isinstance(sled.shape, Part)
    outline = sled.shape.outline.moved(sled.along, 0.0)
    _, low, high, top = outline.bounds
    beyond = rectangle(line_at, low, max(high - line_at, 1e-3), top - low)
    return frame.plan.loop(outline), frame.plan.loop(beyond)


def _side(work: Workup, frame: Frame) -> list[Item]:
    """The same from the side: the fence transparent, blade and knife dashed where sled and work hide them."""
    view, state = frame.side, frame.state
    blade = _piece(state, "blade")
    hidden = [blade, *(p for p in state.pieces if p.name == "riving_knife")]
    items: list[Item] = [shape(view.loop(from_the_side(p)), THIN, BLADE_BEHIND, p.name) for p in hidden]
    items += [_beside(_piece(state, name), view) for name in ("work", "sled")]
    items += [_beside(p, view) for p in state.pieces if _kind(p) == "clamp"]
    x = work.cut.advice.stop.from_axis
    items.append(
        shape(view.loop(rectangle(x, 0.0, BLOCK_LONG, work.way.sled.thickness)), EDGE, BLOCK_FILL, "stop block")
    )
    items += [shape(view.loop(from_the_side(p)), PHANTOM, None, f"{p.name} hidden") for p in hidden]
    items.append(_beside(_piece(state, "table"), view))
    items.append(shape(view.loop(from_the_side(_piece(state, "fence"))), PHANTOM, None, "fence"))
    window = rectangle(frame.low, -TABLE_THICKNESS, frame.high - frame.low, _top(state) + TABLE_THICKNESS + 1.0)
    return [Clip(view.loop(window), tuple(items))]


def _piece(state: State, name: str) -> Piece:
    return next(piece for piece in state.pieces if _kind(piece) == name)


def _kind(piece: Piece) -> str:
    """What it is, whatever the state has made of it."""
    if "clamp" in piece.name:
        return "clamp"
    return "work" if piece.name.startswith("work") else piece.name


def _above(piece: Piece, view: View) -> Item:
    fill, pen = FILLS[_kind(piece)]
    return shape(view.loop(from_above(piece)), pen, fill, piece.name)


def _beside(piece: Piece, view: View) -> Item:
    fill, pen = FILLS[_kind(piece)]
    return shape(view.loop(from_the_side(piece)), pen, fill, piece.name)


def _block_above(work: Workup, frame: Frame) -> Loop:
    """The stop block, two thirds of the heel wide, against the fence."""
    loop = stop_block_outline(work.way)
    return loop if frame.out > 0 else loop.mirrored_y()
