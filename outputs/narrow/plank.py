"""The plank with both halves and its mark, and the same plank on its carrier."""

from __future__ import annotations

import math

from scarfwright.models.flat.loop import Loop, rectangle
from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.layout import turned
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, Pen, View, line, shape
from scarfwright.outputs.narrow.colours import GROUND, LOSS, OTHER_WOOD, PAPER, RED, STRIP, WOOD
from scarfwright.outputs.narrow.scene import WIDTH, Scene, Thing, measure, scene, things_beside, upright

TALL, WIDE = 112.0, 27.0  # page mm that the plank or the carrier takes at most
END = 10.0  # over and under it, for the mark
BLADE = Pen(0.6, RED, (4.0, 1.0, 1.0, 1.0))


def plank_scenes(work: Workup) -> list[Scene]:
    """Where the plank is marked and what comes of it; nothing for a sled from sheet."""
    nominal, say = work.way.nominal, drawn_in(work.job.units)
    if nominal.mark is None or nominal.plank_width is None:
        return []
    plan, mark, width = plank_plan(work.way), nominal.mark, nominal.plank_width
    scale = max(plan.length / TALL, width / WIDE)
    # the plan is on the user's side of the blade already; upright its fence edge lies on the fence's side
    view = upright(scale, (WIDTH / 2 + width / scale / 2, END))
    items: list[Item] = [shape(view.loop(rectangle(0, 0, plan.length, width)), OUTLINE, LOSS, "plank")]
    for half, fill in zip(plan.placed, (WOOD, OTHER_WOOD), strict=True):
        items.append(shape(view.loop(half.outline), EDGE, fill, half.name))
        items += [shape(view.loop(feature.loop), EDGE, PAPER, feature.name) for feature in half.features]
    ends = plan.marks[0].points
    items.append(line([view.point(p) for p in ends], BLADE, "dividing line"))
    near, far = min(ends), max(ends)
    text = f"M {say(mark)}"
    items += measure(view.point(_edge(near, width, mark)), view.point(near), END - 3.0, text, above=False, bold=True)
    top = END + plan.length / scale
    items += measure(view.point(_edge(far, width, mark)), view.point(far), top + 3.0, text, bold=True)
    out = -1.0 if work.mirrored else 1.0
    on_line = (plan.length / 2, width / 2)
    sides = {
        -1.0: [
            Thing((0.72 * plan.length, width), f"plank {say(width)} wide"),
            Thing((0.25 * plan.length, width), f"{say(plan.length)} long"),
        ],
        1.0: [
            Thing((0.85 * plan.length, 0.3 * width), "one half" if out > 0 else "other half"),
            Thing(on_line, "the saw cut's middle runs on this line", True, RED),
        ],
    }
    names, high = things_beside(sides, view, END, top)
    caption = "The plank from above: one mark, from opposite edges at the two ends, gives two equal halves."
    return [scene("plank", caption, high + END, [*items, *names])]


def _edge(mark: tuple[float, float], width: float, far: float) -> tuple[float, float]:
    """The point on the plank's edge that the mark is measured from: M away from it."""
    return (mark[0], 0.0 if math.isclose(mark[1], far, abs_tol=1e-6) else width)


def dividing_scenes(work: Workup) -> list[Scene]:
    """The plank on its carrier, the blade's line between the halves; nothing where it can't be screwed to one."""
    cut = work.way.dividing
    if cut is None or cut.screw is None:
        return []
    nominal = work.way.nominal
    out = -1.0 if work.mirrored else 1.0
    long = max(cut.carrier_length, max(v.x for v in cut.free.loop.vertices))
    wide = max(cut.fence + work.job.saw.kerf + nominal.heel, max(v.y for v in cut.free.loop.vertices))
    scale = max(long / TALL, wide / WIDE)
    view = upright(scale, (WIDTH / 2 + out * wide / scale / 2, 3.0), mirrored=out < 0)
    items = _carrier(work, cut, view, long)
    sides = {out: _on_fence_side(work, cut), -out: _on_free_side(work, cut)}
    names, high = things_beside(sides, view, 3.0, 3.0 + long / scale)
    caption = "The plank screwed on its carrier, from above, heel of the first half leading. Red: where the blade runs."
    return [scene("carrier", caption, high + 3.0, [*items, *names])]


def _carrier(work: Workup, cut: Dividing, view: View, long: float) -> list[Item]:
    board = rectangle(0, 0, cut.carrier_length, cut.carrier_width)
    items: list[Item] = [
        shape(view.loop(board), OUTLINE, GROUND, "carrier"),
        shape(view.loop(cut.free.loop), EDGE, STRIP, "strip"),
        shape(view.loop(cut.batten), EDGE, OTHER_WOOD, "batten"),
    ]
    if cut.handle_loop is not None:
        items.append(shape(view.loop(cut.handle_loop), EDGE, WOOD, "handle"))
    items += [
        shape(view.loop(_lying(work, cut, half)), PHANTOM, None, half.name) for half in plank_plan(work.way).placed
    ]
    items.append(line([view.point((0.0, cut.fence)), view.point((long, cut.fence))], BLADE, "blade line"))
    return items


def _lying(work: Workup, cut: Dividing, half: Part) -> Loop:
    """A half's outline as it lies on the carrier, its nose corner at the batten's end."""
    if work.job.saw.fence_side == "left":  # back to its own frame: fence edge y = 0, work edge above
        half = half.mirrored_y().moved(0.0, float(work.way.nominal.plank_width or 0.0))
    return turned(half, -work.way.nominal.angle, (0.0, 0.0)).moved(*cut.batten_ends[0]).outline


def _on_fence_side(work: Workup, cut: Dividing) -> list[Thing]:
    say = drawn_in(work.job.units)
    low, high = cut.batten_ends
    found = [
        Thing((0.5 * cut.carrier_length, 0.0), "this edge along the fence", True),
        Thing((0.75 * cut.carrier_length, 0.2 * cut.carrier_width), f"carrier {say(cut.carrier_width)} wide"),
        Thing(
            ((low[0] + 3 * high[0]) / 4, (low[1] + 3 * high[1]) / 4),
            f"batten, slope {slope_mark(work.way.nominal.ratio)}",
        ),
    ]
    return found if cut.handle is None else [*found, Thing(cut.handle, "handle: push here")]


def _on_free_side(work: Workup, cut: Dividing) -> list[Thing]:
    say = drawn_in(work.job.units)
    strip = [v.point for v in cut.free.loop.vertices]
    middle = (sum(p[0] for p in strip) / len(strip), sum(p[1] for p in strip) / len(strip))
    return [
        Thing((0.9 * cut.carrier_length, cut.fence), f"blade, fence at {say(cut.fence)}", True, RED),
        Thing(middle, "strip under the free half"),
    ]
