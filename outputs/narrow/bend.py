"""Planing over the joint, and the bend test of a sample: both from the side, drawn too thick."""

from __future__ import annotations

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import arrow
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, Path, Pen, box, line
from scarfwright.outputs.narrow.colours import BLUE, GROUND, INK, LOSS, METAL, OTHER_WOOD, PAPER, RED, WOOD
from scarfwright.outputs.narrow.scene import WIDTH, Scene, centred, filled, measure, scene

WAY, LOAD = Pen(0.7, BLUE), Pen(0.9, RED)
THICK, BAR = 12.0, 2.0  # page mm: stick, radius of a bar
PLAIN_SIDE = 9.0


def planing_scenes(work: Workup) -> list[Scene]:
    """Which way the plane runs on each face; nothing where there is no finished thickness."""
    craft = work.craft
    if craft is None or craft.planing is None:
        return []
    plane, joint, say = craft.planing, work.joint, drawn_in(work.job.units)
    along = (WIDTH - 2 * PLAIN_SIDE) / joint.overlap
    up, low = THICK / joint.thickness, 26.0

    def at(s: float, z: float) -> Point:
        return (PLAIN_SIDE + s * along, low + z * up)

    t, b, run, off = joint.thickness, joint.tip, joint.overlap, plane.each
    first, last = -(PLAIN_SIDE - 1.0) / along, run + (PLAIN_SIDE - 1.0) / along
    items: list[Item] = [
        filled([at(first, 0), at(run, 0), at(run, b), at(0, t - b), at(0, t), at(first, t)], WOOD),
        filled([at(0, t - b), at(run, b), at(run, 0), at(last, 0), at(last, t), at(0, t)], OTHER_WOOD),
        *(filled([at(first, z), at(last, z), at(last, z + off), at(first, z + off)], LOSS) for z in (0.0, t - off)),
        Path((Vertex(*at(0, t - b)), Vertex(*at(run, b))), pen=OUTLINE, name="glue line"),
    ]
    top = low + THICK
    for y, start, end, words, away in (
        (top + 3.5, 0.8, 0.2, "upper face: plane this way", 4.2),
        (low - 3.5, 0.2, 0.8, "lower face: plane this way", -4.2),
    ):
        (ax, _), (bx, _) = at(start * run, 0), at(end * run, 0)
        sign = 1.0 if bx > ax else -1.0
        items += [line([(ax, y), (bx - sign * 3.0, y)], WAY), _head((bx, y), (sign, 0.0), BLUE)]
        items.append(centred((WIDTH / 2, y + away), words))
    items.append(centred((WIDTH / 2, top + 14.0), f"{say(off)} off each face, {say(plane.thickness)} left", bold=True))
    upper, lower = at(plane.upper_feather, 0)[0], at(plane.lower_feather, 0)[0]
    items += measure((upper, 6.0), (lower, 6.0), 6.0, f"glue line then {say(plane.run)} long", above=False)
    caption = "The joint from the side, drawn too thick; grey comes off. Off the feather, never against it."
    return [scene("planing", caption, top + 18.0, items)]


def bend_scenes(work: Workup) -> list[Scene]:
    """Sample, supports, load and scale; nothing where the wood has no figures."""
    test = None if work.craft is None else work.craft.strength.test
    if test is None:
        return []
    say, beam = drawn_in(work.job.units), test.beam
    scale = test.length / (WIDTH - 6.0)
    middle, bench = WIDTH / 2, 12.0
    low = bench + 8.0 + 2 * BAR

    def at(s: float, z: float) -> Point:
        return (middle + s / scale, low + z * THICK / beam.depth)

    end, t, half = test.length / 2, beam.depth, beam.span / 2
    items: list[Item] = [box(1.0, bench - 2.5, WIDTH - 2.0, 2.5, EDGE, GROUND)]
    for s, name, fill in ((-half, "scale", METAL), (half, "block", GROUND)):
        x = at(s, 0)[0]
        left = min(max(x - 9.0, 1.0), WIDTH - 19.0)
        items += [box(left, bench, 18.0, 8.0, EDGE, fill), centred((left + 9.0, bench + 3.6), name)]
        items.append(Path((Vertex(x + BAR, low - BAR, 1.0), Vertex(x - BAR, low - BAR, 1.0)), True, EDGE, PAPER, "bar"))
    items += [
        filled([at(-end, 0), at(0, 0), at(-test.reach, t), at(-end, t)], WOOD),
        filled([at(0, 0), at(end, 0), at(end, t), at(-test.reach, t)], OTHER_WOOD),
        Path((Vertex(*at(0, 0)), Vertex(*at(-test.reach, t))), pen=OUTLINE, name="glue line"),
    ]
    top = low + THICK
    items += [line([(middle, top + 19.0), (middle, top + 4.0)], LOAD), _head((middle, top + 0.8), (0.0, -1.0), RED)]
    items.append(centred((middle, top + 21.8), "pull the middle down, slowly", bold=True, colour=RED))
    items += measure(at(-test.reach, t), at(0, t), top + 5.0, f"joint {say(test.reach)}", right_end=middle - 1.5)
    items.append(line([at(0, 0), (middle, bench + 1.0)], PHANTOM))
    items += measure(
        (at(-half, 0)[0], bench - 2.5), (at(half, 0)[0], bench - 2.5), 5.6, f"span {say(beam.span)}", above=False
    )
    caption = (
        f"The sample from the side, drawn too thick, {say(beam.width)} wide. The tip on the lower face lies under the "
        "load."
    )
    return [scene("bend-test", caption, top + 25.0, items)]


def _head(tip: Point, u: Point, colour: str) -> Path:
    head = arrow(tip, u, 4.0)
    return Path(head.vertices, True, None, colour if colour != INK else head.fill)
