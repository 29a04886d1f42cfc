"""The moving set-up in plan and from the side as SVG, seen from the free side: the operator's end to the right for a
fence on the right. The feed runs across; what runs with the sled is one group that is moved along.

In the page: x across the feed's direction, y down, both mm; presentation attributes only.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scarfwright.models.cut.bodies import BLOCK_LONG, Hinge, Moving, hinge, moving_setup
from scarfwright.models.cut.colours import BLADE, OFFCUT, WORK
from scarfwright.models.cut.moments import Passage
from scarfwright.models.cut.scene import FENCE_THICKNESS, TABLE_THICKNESS
from scarfwright.models.flat.loop import Loop, Point, polygon, rectangle
from scarfwright.models.part.part import Part
from scarfwright.models.sled.way import SledWay
from scarfwright.outputs.setup_card.projection import from_above, from_the_side

SAGITTA = 0.4  # chords this close to arcs [mm]
INK, CUT_FACE = "#2b2f33", "#f0d7ae"
SAWN = "#8a5527"  # edge of wood: where the kerf will be it must not look like one
BEFORE, AFTER = 130.0, 25.0  # shown before the table's front edge and beyond the last thing on it [mm]
FALLS_OUT = 8.0  # the offcut comes away by so much before it falls over [mm], as drawn
STEPS = 12  # chords of the blade's front


@dataclass(frozen=True)
class Flat:
    """Plan and side view: shapes to be used by name (`defs`), the windows (x, y, width, height) [mm], and how the
    page's x grows with the travel (1 or -1)."""

    defs: str
    plan: tuple[float, float, float, float]
    side: tuple[float, float, float, float]
    sense: float


def flat_views(way: SledWay, cut: Passage) -> Flat:
    """Both views of the job's set-up."""
    sense = 1.0 if way.job.saw.fence_side == "left" else -1.0
    things, fall = moving_setup(way), hinge(way)
    page = _Page(sense)
    defs = "".join([*_plan_groups(way, things, fall, page), *_side_groups(way, things, fall, page)])
    low = -float(way.job.saw.table_front) - BEFORE
    high = max(float(way.job.saw.table_back), cut.last, cut.block + BLOCK_LONG) + AFTER
    left = min(sense * low, sense * high)
    deep = way.fence + way.joint.thickness + way.joint.height + FALLS_OUT + 3 * AFTER
    tall = max(from_the_side(t.piece).bounds[3] for t in things) + 6.0
    plan = (left, -FENCE_THICKNESS, high - low, FENCE_THICKNESS + deep)
    return Flat(defs, plan, (left, -tall, high - low, tall + TABLE_THICKNESS), sense)


@dataclass(frozen=True)
class _Page:
    """Model mm to the page: the free side below, or the table's top level at 0."""

    sense: float

    def above(self, loop: Loop) -> str:
        return _path((self.sense * x, -self.sense * y) for x, y in loop.points(SAGITTA))

    def beside(self, loop: Loop) -> str:
        return _path((self.sense * x, -z) for x, z in loop.points(SAGITTA))


def _path(points: Iterable[Point]) -> str:
    return "M" + " ".join(f"{_short(x)},{_short(y)}" for x, y in points) + "Z"


def _short(value: float) -> str:
    text = f"{value:.1f}"
    return "0" if text in ("0.0", "-0.0") else text.removesuffix(".0")


def _group(name: str, inside: Iterable[str]) -> str:
    return f'<g id="moving_cut-{name}">{"".join(inside)}</g>'


def _shape(path: str, fill: str) -> str:
    pen = SAWN if fill == WORK else INK
    return (
        f'<path d="{path}" fill="{fill}" fill-rule="evenodd" stroke="{pen}" stroke-width="0.8" '
        'vector-effect="non-scaling-stroke"/>'
    )


def _clip(name: str, path: str) -> str:
    return f'<clipPath id="moving_cut-{name}"><path d="{path}"/></clipPath>'


# -- plan ----------------------------------------------------------------------------------------------------


def _plan_groups(way: SledWay, things: tuple[Moving, ...], fall: Hinge | None, page: _Page) -> list[str]:
    def of(*roles: str, colour: str = "") -> list[str]:
        found = [t for role in roles for t in things if t.role == role]
        return [_shape(_plan_path(t, page), colour or t.piece.colour) for t in found]

    top, table = way.blade.reach(way.joint.height), way.blade.reach(0.0)
    near, far = sorted(-page.sense * y for y in (way.fence, way.fence + way.blade.kerf))
    disc = page.above(rectangle(-table, near, 2 * table, far - near))
    saw = [*of("table", "fence", "slot"), _shape(disc, BLADE), *of("riving_knife")]
    far_off = way.sled.length + 10_000.0
    uncut = page.above(rectangle(-top - far_off, -far_off, far_off, 2 * far_off))
    groups = [
        _group("plan-saw", saw),
        _group("plan-block", of("stop_block")),
        _group("plan-sled", of("sled", "hand_line", "work", "clamp", "next")),
        _group("plan-kerf", of("kerf")),
        _group("plan-offcut", of("offcut", colour=WORK)),
        _clip("plan-uncut", uncut),
    ]
    if fall is not None:
        flat = [fall.start, fall.end]
        lying = [(x + fall.out[0] * FALLS_OUT, y + fall.out[1] * FALLS_OUT) for x, y in flat]
        high = FALLS_OUT + way.joint.height
        lying += [(x + fall.out[0] * high, y + fall.out[1] * high) for x, y in reversed(flat)]
        groups.append(_group("plan-fallen", [_shape(page.above(polygon(lying)), CUT_FACE)]))
    return groups


def _plan_path(thing: Moving, page: _Page) -> str:
    return "".join(page.above(loop) for loop in (from_above(thing.piece), *_openings(thing)))


def _openings(thing: Moving) -> list[Loop]:
    """What one looks through from above."""
    shape = thing.piece.shape
    if isinstance(shape, Part):
        return [f.loop.moved(thing.piece.along, 0.0) for f in shape.features if f.through]
    return list(shape.holes) if shape.axis == "z" else []


# -- side ----------------------------------------------------------------------------------------------------


def _side_groups(way: SledWay, things: tuple[Moving, ...], fall: Hinge | None, page: _Page) -> list[str]:
    def of(*roles: str, colour: str = "") -> list[str]:
        found = [t for role in roles for t in things if t.role == role]
        return [_shape(page.beside(from_the_side(t.piece)), colour or t.piece.colour) for t in found]

    blade, height = way.blade, way.joint.height
    (disc,) = (t for t in things if t.role == "blade")
    outline = page.beside(from_the_side(disc.piece))
    (work,) = (t for t in things if t.role == "work")
    taper = rectangle(-way.travel.exit_x, 0.0, from_above(work.piece).bounds[2] + way.travel.exit_x, height)
    top = min(height, blade.height)
    front = [(-blade.reach(top * i / STEPS), top * i / STEPS) for i in range(STEPS + 1)]
    swept = page.beside(polygon([*front, (10_000.0, top), (10_000.0, 0.0)]))
    dashed = (
        f'<path d="{outline}" fill="none" stroke="{INK}" stroke-width="0.8" stroke-dasharray="4 3" '
        'vector-effect="non-scaling-stroke"/>'
    )
    groups = [
        _group("side-fence", of("fence")),
        _group("side-block", of("stop_block")),
        _group("side-sled", of("sled", "work", "clamp", "next")),
        _group("side-taper", [_shape(page.beside(taper), CUT_FACE)]),
        _group("side-saw", [*of("blade", "riving_knife"), *of("table")]),
        _group("side-offcut", of("offcut", colour=WORK)),
        _group("side-blade", [dashed]),
        _clip("side-swept", swept),
    ]
    if fall is not None:
        out, thick = fall.out[0] * FALLS_OUT, fall.thick
        lying = polygon([(fall.start[0] + out, 0.0), (fall.end[0] + out, 0.0), (fall.start[0] + out, thick)])
        groups.append(_group("side-fallen", [_shape(page.beside(lying), OFFCUT)]))
    return groups
