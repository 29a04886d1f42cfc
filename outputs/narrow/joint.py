"""The joint from the side: put together to scale, and a tip much larger."""

from __future__ import annotations

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.slopes import degrees
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import linear
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, Item, Path
from scarfwright.outputs.narrow.colours import OTHER_WOOD, WOOD
from scarfwright.outputs.narrow.scene import SIZE, WIDTH, Label, Scene, centred, rows_beside, scene, tallest

SIDE = 3.0
STUB = 8.0  # of board beyond each tip [page mm]
TIP_HIGH = 26.0  # of the picture of the tip


def joint_scenes(work: Workup) -> list[Scene]:
    """The joint, then its tip."""
    return [_joint(work), _tip(work)]


def _joint(work: Workup) -> Scene:
    """Both boards, overlap and thickness; the thickness drawn larger where it would be too thin to see."""
    joint, say = work.joint, drawn_in(work.job.units)
    along = (WIDTH - 2 * SIDE - 2 * STUB) / joint.overlap
    tall = max(joint.thickness * along, 9.0)
    times = tall / (joint.thickness * along)
    up = tall / joint.thickness
    low = 11.0

    def at(s: float, z: float) -> Point:
        return (SIDE + STUB + s * along, low + z * up)

    t, b, run = joint.thickness, joint.tip, joint.overlap
    first, last = -STUB / along, run + STUB / along
    items: list[Item] = [
        _shape([at(first, 0), at(run, 0), at(run, b), at(0, t - b), at(0, t), at(first, t)], WOOD),
        _shape([at(0, t - b), at(run, b), at(run, 0), at(last, 0), at(last, t), at(0, t)], OTHER_WOOD),
        Path((Vertex(*at(0, t - b)), Vertex(*at(run, b))), pen=OUTLINE, name="glue line"),
    ]
    items += linear(at(0, 0), at(run, 0), (0, 5.0), f"overlap {say(run)}", "horizontal", size=SIZE)
    top = low + tall
    items.append(centred((WIDTH / 2, top + 10.6), f"slope {joint.ratio:.2f}:1, {degrees(joint.ratio):.2f}°", bold=True))
    items.append(centred((WIDTH / 2, top + 5.4), f"board {say(t)} thick, {say(joint.height)} high"))
    wide = "" if times < 1.05 else f" Drawn {times:.1f} times too thick."
    return scene(
        "joint", f"The joint from the side: what each joint takes off the summed length.{wide}", top + 14.5, items
    )


def _tip(work: Workup) -> Scene:
    """The feather end, and the groove beside it: not to scale."""
    joint, say = work.joint, drawn_in(work.job.units)
    low, left, right = 6.0, 4.0, 34.0
    deep = 5.0
    high = low + TIP_HIGH - 8.0
    inner, far = left + 18.0, right + 12.0
    face, bevel = high - deep, high - deep - 3.0
    items: list[Item] = [
        _shape([(left, low), (far, low), (far, bevel), (inner, face), (left, face)], WOOD),
        _shape([(inner, high), (inner, face), (far, bevel), (far, high)], OTHER_WOOD),
    ]
    labels = [
        Label(high - deep / 2, f"tip {say(joint.tip)}", left + 18, bold=True),
        Label(high - deep - 1.0, f"groove {say(joint.tip)} deep: planing takes it away", left + 10),
    ]
    column = 52.0
    need = tallest(labels, column)
    top = max(high, low + need)
    items += rows_beside(labels, column, low, top)
    return scene(
        "tip", "A tip, much larger than it is. It can't be sharp: the blade keeps off the sled.", top + 3.0, items
    )


def _shape(points: list[Point], fill: str) -> Path:
    return Path(tuple(Vertex(*p) for p in points), True, EDGE, fill)
