"""The glue-up, upright: the joint's face with its clamps, the whole stick with its risers."""

from __future__ import annotations

from scarfwright.models.flat.loop import rectangle
from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.gluing.stations import clamp_order
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import CENTRE, EDGE, THIN, Item, line, shape
from scarfwright.outputs.narrow.colours import METAL, OTHER_WOOD, STEEL, STRIP, WOOD
from scarfwright.outputs.narrow.scene import ROW, WIDTH, Scene, Thing, scene, things_beside, upright

WIDE = 24.0  # page mm that the clamped joint takes at most across
LEAST_TALL, STICK_TALL = 90.0, 110.0
LEAST_STICK, JAW = 3.0, 5.0  # page mm: the whole stick is drawn no thinner; how far risers stick out


def glue_scenes(work: Workup) -> list[Scene]:
    """The face with every clamp, then the stick on its risers, where it lies on any."""
    if work.craft is None:
        return []
    plan, units = work.craft.gluing, work.job.units
    found = [_face(plan, units)]
    return [*found, _stick(plan, units)] if plan.lay.way == "flat" and plan.places.supports else found


def _face(plan: GluePlan, units: Unit) -> Scene:
    say, joint, clamps = drawn_in(units), plan.joint, plan.places.clamps
    flat = plan.lay.way == "flat"
    beside = max(45.0, 1.5 * plan.places.pad)
    over = float(plan.clamp.pad_height if not flat else plan.clamp.jaw_outer)
    long = joint.overlap + 2 * beside
    tall = max(LEAST_TALL, (len(clamps) + 2) * ROW * long / max(joint.overlap, 1.0))
    scale = max(long / tall, (joint.height + 2 * over) / WIDE)
    view = upright(scale, (WIDTH / 2 + joint.height / scale / 2, 3.0 + beside / scale))

    def box(x: float, y: float, along: float, across: float, fill: str) -> Item:
        return shape(view.loop(rectangle(x, y, along, across)), EDGE, fill)

    deep = min(float(plan.clamp.pad_height), joint.height / 2)
    items: list[Item] = [
        box(-beside, 0, long, joint.height, WOOD),
        box(0, 0, joint.overlap + beside, joint.height, OTHER_WOOD),
    ]
    if flat:
        items += [box(0, y, joint.overlap, deep, STRIP) for y in (0.0, joint.height - deep)]
    for station in clamps:
        left, inside = station - plan.places.pad / 2, deep if flat else 0.0
        if not flat:
            items.append(box(left, -over, plan.places.pad, joint.height + 2 * over, STRIP))
        items += [
            box(left, -over, plan.places.pad, over + inside, METAL),
            box(left, joint.height - inside, plan.places.pad, over + inside, METAL),
        ]
    for s in (0.0, joint.overlap):
        ends = [view.point((s, -over)), view.point((s, joint.height + over))]
        items.append(line(ends, CENTRE, "tip"))
    turns = clamp_order(len(clamps))
    right = [Thing((s, -over), f"no. {turn}: {say.rule(s)}", turn == 1) for s, turn in zip(clamps, turns, strict=True)]
    left_names = [
        Thing((0.0, joint.height + over), "first tip"),
        Thing((joint.overlap, joint.height + over), "second tip"),
        Thing((-0.6 * beside, joint.height), f"board {say(joint.height)} high"),
    ]
    low, top = 3.0, 3.0 + long / scale
    names, end = things_beside({1.0: right, -1.0: left_names}, view, low, top)
    how = "from above" if flat else "standing on edge"
    caption = (
        f"The joint's face {how}: clamps on both long edges, each at its place from the first tip. The numbers are "
        "the order in which they are set."
    )
    return scene("clamps", caption, max(top, end) + 3.0, [*items, *names])


def _stick(plan: GluePlan, units: Unit) -> Scene:
    """The whole stick from above, drawn too wide where it would be a hair."""
    say, joint, places = drawn_in(units), plan.joint, plan.places
    low, high = joint.overlap - places.board_length, places.board_length
    tall = max(STICK_TALL, (len(places.supports) + 1) * ROW)
    scale = (high - low) / tall
    wide = max(joint.height / scale, LEAST_STICK)
    view = upright(scale, (WIDTH / 2 + wide / 2, 3.0 - low / scale))

    def box(x: float, y: float, along: float, across: float, fill: str) -> Item:
        return shape(view.loop(rectangle(x, y * scale, along, across * scale)), THIN, fill)

    items: list[Item] = [
        box(r.place - r.width / 2, -JAW, r.width, wide + 2 * JAW, STEEL if r.lip else STRIP) for r in places.supports
    ]
    items += [
        box(low, 0, joint.overlap - low, wide, WOOD),
        box(0, 0, high, wide, OTHER_WOOD),
        box(0, 0, joint.overlap, wide, METAL),
    ]
    risers = [
        Thing((r.place, -JAW * scale), f"{say.rule(abs(r.place))}{' lip' if r.lip else ''}") for r in places.supports
    ]
    other = [
        Thing((joint.overlap, wide * scale), "joint"),
        Thing((0.0, wide * scale), "first tip: count from here", True),
    ]
    names, end = things_beside({1.0: risers, -1.0: other}, view, 3.0, 3.0 + tall)
    caption = "The whole stick on its risers: places from the first tip, up and down. Those with a lip make the line."
    return scene("risers", caption, max(end, 3.0 + tall) + 3.0, [*items, *names])
