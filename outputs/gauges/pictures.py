"""Each gauge and aid in its place on sled, saw, board or bench: one function a part, found by the part's name.

A part without one is shown alone, from above.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from scarfwright.models.flat.loop import Loop, Point, Vertex, polygon, rectangle, slot
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.part.part import Part
from scarfwright.models.part.values import Values
from scarfwright.models.parts.gap_shim import shim_thickness
from scarfwright.models.sled.sled import Notch
from scarfwright.models.wanted.wanted import Wanted
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import CENTRE, EDGE, OUTLINE, PHANTOM, Pen
from scarfwright.outputs.gauges.picture import METAL, OTHER_WOOD, TABLE, WOOD, Picture

LIGHT = Pen(0.35, "#b00000")
OPEN, INK = "#ffffff", "#222222"
TIMES = 10.0  # how much larger a tiny gap or lean is drawn than it is


def picture_of(one: Wanted, part: Part, work: Workup) -> Picture:
    """The part in use."""
    draw = SCENES.get(one.kind.name)
    return _alone(part) if draw is None else draw(work, part, Values({**one.parameters, **one.reads}))


def _alone(part: Part) -> Picture:
    scene = Picture("from above")
    _put(scene, part, lambda p: p)
    return scene


def _put(scene: Picture, part: Part, where: Callable[[Point], Point], mirrored: bool = False) -> None:
    """A part moved by `where`; `mirrored` if that turns it over, so that arcs keep their side."""

    def moved(loop: Loop) -> Loop:
        sign = -1.0 if mirrored else 1.0
        return Loop(tuple(Vertex(*where(v.point), sign * v.bulge) for v in loop.vertices))

    scene.loop(moved(part.outline), part.colour, OUTLINE)
    for raised in part.raised:
        scene.loop(moved(raised.loop), None if mirrored else part.colour, PHANTOM if mirrored else EDGE)
    for feature in part.features:
        if feature.writing is None:
            scene.loop(moved(feature.loop), OPEN, EDGE)
        elif not mirrored:  # letters are on the face that is seen
            scene.loop(moved(feature.loop), INK, None)
            for island in feature.islands:
                scene.loop(moved(island), part.colour, None)


def _slope_gauge(work: Workup, part: Part, n: Values) -> Picture:
    sled = work.way.nominal
    start, length = n["place_from_nose_mm"], n["length"]
    end = min(start + length + 40.0, sled.length)
    scene = Picture("sled from above, nose on the left")
    corners = [p for p in sled.corners() if p[0] < end]
    scene.area([*corners[:-1], (end, 0.0), (end, sled.width_at(end)), corners[-1]], WOOD)
    _put(scene, part, lambda p: (start + length - p[0], p[1]), mirrored=True)
    middle = start + length / 2
    scene.say((middle, -n["hook"]), "fence edge, hook against it", lift=-3.4)
    scene.say((middle, sled.width_at(middle)), "level with the work edge here and there: the slope is right", lift=7.0)
    scene.say((end, sled.width_at(end) / 2), "  to the heel", "start")
    return scene


def _taper_fork(work: Workup, part: Part, n: Values) -> Picture:
    joint, ratio = work.joint, work.joint.ratio
    end = joint.taper_run + 40.0
    scene = Picture("taper from the side, the fork on edge at its three stops")
    scene.area(
        [(0.0, 0.0), (end, 0.0), (end, joint.thickness), (joint.taper_run, joint.thickness), (0, joint.tip)], WOOD
    )
    for u, wide, name in zip(n.many("stops_from_tip_mm"), n.many("slots_mm"), ("1/4", "1/2", "3/4"), strict=True):
        for low in (-n["wall"], wide):
            scene.box(u - n["plate"], low, n["plate"], n["wall"], part.colour)
        scene.say((u, wide + n["wall"]), name, lift=1.2)
    first, last = n.many("stops_from_tip_mm")[0], n.many("stops_from_tip_mm")[2]
    below = -n["wall"] - 12.0
    scene.line((first, below), (last, below), pen=EDGE)
    for u in (first, last):
        scene.line((u, below), (u, -n["wall"]), pen=EDGE)
    apart = drawn_in(work.job.units)(n["stops_apart_mm"])
    scene.say(((first + last) / 2, below), f"{apart} for slope {ratio:.4g}:1", lift=-3.4)
    scene.say((0.0, joint.tip / 2), "tip ", "end", -0.8)
    return scene


def _taper_scale(work: Workup, part: Part, n: Values) -> Picture:
    joint, step = work.joint, n["step"]
    first = (joint.thickness / 4 - joint.tip) * joint.ratio
    end = max(joint.taper_run, first + n["last"] * step) + 30.0
    scene = Picture("taper from above, with the fork's two pencil lines")
    scene.box(0.0, 0.0, end, joint.height, WOOD)
    zero = part.features[0].loop.bounds
    shift = first - (zero[0] + zero[2]) / 2
    high = part.outline.bounds[3]
    _put(scene, part, lambda p: (p[0] + shift, p[1] - high + joint.height / 3))
    for share in (0.25, 0.75):
        u = (share * joint.thickness - joint.tip) * joint.ratio
        scene.line((u, joint.height / 3), (u, joint.height), pen=LIGHT)
        scene.say((u, joint.height), f"stop of {'1/4' if share < 0.5 else '3/4'}", lift=1.2)
    scene.say((0.0, joint.height / 2), "tip ", "end", -0.8)
    return scene


def _square_block(work: Workup, part: Part, n: Values) -> Picture:
    joint = work.joint
    base, high, lean = n["base"], n["height"], math.tan(math.radians(min(TIMES * n["angle"], 20.0)))
    scene = Picture("seen along the feed; the lean is drawn larger than it is")
    wide = 3 * (base + joint.thickness + 60.0)
    scene.box(-10.0, -8.0, wide, 8.0, TABLE)
    shapes = {
        "square face: what is seen": [(0.0, 0.0), (base, 0.0), (base, high), (0.0, high)],
        "on its base: light above": [(0.0, 0.0), (base, 0.0), (base - high * lean, high), (0.0, high)],
        "on its top: light below": [(0.0, 0.0), (base - high * lean, 0.0), (base, high), (0.0, high)],
    }
    for i, (words, points) in enumerate(shapes.items()):
        x = 20.0 + i * wide / 3
        scene.area([(x + px, py) for px, py in points], part.colour, OUTLINE)
        scene.box(x + base, 0.0, joint.thickness, joint.height, WOOD)
        scene.say((x + (base + joint.thickness) / 2, -8.0), words, lift=-3.4)
    return scene


def _height_step(work: Workup, part: Part, n: Values) -> Picture:
    joint, blade = work.joint, work.way.blade
    scene = Picture("seen along the feed")
    left, right = -n["arm"] - joint.thickness - 20.0, n["column"] + n["arm"] + 30.0
    scene.box(left, -8.0, right - left, 8.0, TABLE)
    scene.box(-n["arm"] / 2 - joint.thickness, 0.0, joint.thickness, joint.height, WOOD)
    scene.box(n["column"] + n["arm"] / 2, -8.0, blade.kerf, blade.height + 8.0, METAL)
    _put(scene, part, lambda p: p)
    say = drawn_in(work.job.units)
    scene.say((-n["arm"] / 2 - joint.thickness, joint.height / 2), f"work {say(joint.height)} ", "end")
    scene.say((n["column"] + n["arm"] / 2 + blade.kerf, blade.height / 2), f" blade {say(blade.height)}", "start")
    scene.say(((left + right) / 2, -8.0), "table", lift=-3.4)
    return scene


def _gap_shim(work: Workup, part: Part, n: Values) -> Picture:
    sled = work.way.sled
    thick = TIMES * shim_thickness(n["gap"], n["layer"])
    reach, sin, cos = 140.0, math.sin(sled.angle), math.cos(sled.angle)
    scene = Picture(f"heel from above, the gap drawn {TIMES:g} times")
    scene.area([(-reach, 40.0), (0.0, 40.0), (0.0, 100.0), (-reach, 100.0 - reach * sin / cos)], WOOD)
    start, end = 2.0, n["length"]
    corners = [(start, 0.0), (end, 0.0), (end, thick), (start, thick)]
    scene.area([(-u * cos - v * sin, 100.0 - u * sin + v * cos) for u, v in corners], part.colour, OUTLINE)
    grip = [(end, 0.0), (end + 25.0, 0.0), (end + 25.0, thick + 6.0), (end, thick + 6.0)]
    scene.area([(-u * cos - v * sin, 100.0 - u * sin + v * cos) for u, v in grip], part.colour, OUTLINE)
    scene.box(-12.0, 100.0 + thick, 60.0, 8.0, METAL)
    scene.say((48.0, 100.0 + thick + 2.0), " blade, a tooth just touching", "start")
    scene.say((0.0, 70.0), " heel of the sled", "start")
    fence = drawn_in(work.job.units)(n["fence_mm"])
    scene.line((-reach, 40.0), (48.0, 40.0), pen=CENTRE)
    scene.say((48.0, 40.0), f" fence, then {fence} from the tooth", "start", -0.8)
    return scene


def _thickness_fork(work: Workup, part: Part, n: Values) -> Picture:
    joint = work.joint
    scene = Picture("glued joint from its end, the fork over its edge")
    wall, slots = n["wall"], n.many("slots_drawn_mm")
    scene.box(wall + (slots[0] - joint.thickness) / 2, n["depth"] - joint.height, joint.thickness, joint.height, WOOD)
    _put(scene, part, lambda p: p)
    scene.say((wall + slots[0] / 2, n["depth"] - joint.height), "joint", lift=-3.4)
    return scene


def _riser(work: Workup, part: Part, _n: Values) -> Picture:
    glue, joint = work.glue, work.joint
    mine = [s.place for s in glue.supports if _mine(part, s.lip)]
    left = min(-120.0, max((p for p in mine if p < 0), default=0.0) - 60.0)
    right = joint.overlap + 120.0  # one side is enough where they stand far off
    near = [s for s in glue.supports if left < s.place < right]
    high, t = glue.riser_height, joint.thickness
    scene = Picture("joint from the side, risers with a lip in outline")
    scene.box(left, -8.0, right - left, 8.0, TABLE)
    top = high + t
    scene.area([(left, high), (joint.overlap, high), (0.0, top), (left, top)], WOOD)
    scene.area([(joint.overlap, high), (right, high), (right, top), (0.0, top)], OTHER_WOOD)
    for s in near:
        dx = s.place - s.width / 2
        scene.loop(rectangle(dx, 0.0, s.width, high), None, EDGE)
        if _mine(part, s.lip):
            scene.loop(part.outline.moved(dx, 0.0), part.colour, OUTLINE)
    for c in glue.clamps:
        for low in (high - work.job.clamp.jaw_inner, top):
            scene.box(c - glue.pad / 2, low, glue.pad, float(work.job.clamp.jaw_inner), METAL)
    words = "bench; every place from the first tip is in numbers.json, gluing"
    scene.say(((left + right) / 2, -8.0), words, lift=-3.4)
    return scene


def _mine(part: Part, lip: bool) -> bool:
    return lip == bool(part.raised)


def _riser_lip(work: Workup, part: Part, n: Values) -> Picture:
    scene = Picture("seen along the boards")
    lip, long, high = n["lip_thickness"], n["length"], n["height"]
    scene.box(-30.0, -8.0, lip + long + 60.0, 8.0, TABLE)
    scene.box(0.0, 0.0, lip, high + n["lip"], part.colour, OUTLINE)
    scene.box(lip, 0.0, long, high, part.colour, OUTLINE)
    scene.box(lip, high, work.joint.height, work.joint.thickness, WOOD)
    scene.say((0.0, high + n["lip"]), "lip ", "end", -2.0)
    scene.say((lip + work.joint.height, high + work.joint.thickness / 2), " boards, pushed against it", "start")
    return scene


def _notch_guide(_work: Workup, part: Part, n: Values) -> Picture:
    """The work edge lies level and the wood below it, so the part's y runs down."""
    middle = n["notch_length"] / 2 + 10.0
    low, high = part.outline.bounds[1], part.outline.bounds[3]
    half = max(n["notch_length"] - n["notch_width"], 0.0) / 2
    depth = Notch("", 0.0, n["web"], n["notch_length"], n["notch_width"]).web + n["notch_width"] / 2
    scene = Picture("sled from above at a notch's station")
    scene.area([(-60.0, -high - 25.0), (2 * middle + 60.0, -high - 25.0), (2 * middle + 60.0, 0.0), (-60.0, 0.0)], WOOD)
    _put(scene, part, lambda p: (p[0], -p[1]), mirrored=True)
    scene.loop(slot((middle - half, -depth), (middle + half, -depth), n["notch_width"]), None, PHANTOM)
    scene.line((middle, -high - 18.0), (middle, -low + 4.0), pen=LIGHT)
    scene.say((middle, -low + 4.0), "station line", lift=1.2)
    scene.say((-60.0, 0.0), "work edge ", "end", -0.8)
    return scene


def _nose_wedge(work: Workup, part: Part, n: Values) -> Picture:
    """At the uncut nose: wedge against the fence edge, thick end to the nose, pads parallel to the work edge."""
    sled, joint, jaw = work.way.nominal, work.joint, float(work.job.clamp.jaw_inner)
    reach, length, slope = 2.4 * n["length"], n["length"], 1 / sled.ratio
    scene = Picture("nose from above, nose on the left")
    scene.area([(0.0, 0.0), (reach, 0.0), (reach, sled.width_at(reach)), (0.0, sled.nose)], WOOD)
    low, high = sled.width_at(0.0), sled.width_at(reach)
    board = joint.thickness / math.cos(sled.angle)
    scene.area([(0.0, low), (reach, high), (reach, high + board), (0.0, low + board)], OTHER_WOOD)
    start = (reach - length) / 2 - 10.0
    _put(scene, part, lambda p: (start + length - p[0], -p[1]))
    for bottom in (-n["thin"] - length * slope - jaw, low + start * slope + board):
        corners: list[Point] = [(start, bottom), (start + length, bottom + length * slope)]
        up = [(x, y + jaw) for x, y in reversed(corners)]
        scene.loop(polygon([*corners, *up]), METAL)
    scene.say((reach, high + board / 2), " board", "start", -0.8)
    scene.say((reach, high / 2), " sled", "start", -0.8)
    scene.say((start + length, -n["thin"] - jaw), "  jaw", "start", -0.8)
    return scene


SCENES: dict[str, Callable[[Workup, Part, Values], Picture]] = {
    "slope_gauge": _slope_gauge,
    "taper_fork": _taper_fork,
    "taper_scale": _taper_scale,
    "square_block": _square_block,
    "height_step": _height_step,
    "gap_shim": _gap_shim,
    "thickness_fork": _thickness_fork,
    "riser": _riser,
    "riser_lip": _riser_lip,
    "notch_guide": _notch_guide,
    "nose_wedge": _nose_wedge,
}
