"""What a router cuts from sheet: the job's flat parts, their inside corners as the cutter leaves them, holding tabs.

All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from scarfwright.models.flat.chains import tangents, turn
from scarfwright.models.flat.loop import Edge, Loop, Point
from scarfwright.models.flat.room import segment_distance
from scarfwright.models.flat.round_cutter import reached, relieved, unreached
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit
from scarfwright.models.part.part import Feature, Operation, Part

CUT_AWAY = (Operation.CUT_INSIDE, Operation.POCKET)  # what the cutter has to get into


@dataclass(frozen=True)
class FlatPart:
    """A flat part and how many of it; `along_grain` keeps its length along the sheet's face grain.

    `needed` is told of the sled's own layers: without them there is no sled.
    """

    part: Part
    count: int
    along_grain: bool
    needed: bool


def file_units(job: Job) -> Unit:
    """The unit of the cut files."""
    return job.units if job.files.dxf_units == "auto" else job.files.dxf_units


def kind_of(name: str, counts: dict[str, int]) -> str:
    """The part a numbered piece is of."""
    return name if name in counts else name.rpartition("_")[0]


def spacing_of(job: Job) -> float:
    """Clear distance between pieces, and from the sheet's edge [mm]."""
    return 2.0 * job.router.cutter if job.router.spacing == "auto" else float(job.router.spacing)


def sheet_of(job: Job) -> tuple[float, float]:
    """Length and width of a sheet [mm]."""
    length, width = job.router.sheet
    return float(length), float(width)


def fits_sheet(piece: FlatPart, job: Job) -> bool:
    """Whether a piece fits a sheet with a spacing all round, lying as its grain allows."""
    across, up = needed_sheet(piece, job)
    length, width = sheet_of(job)
    fits = across <= length + 1e-6 and up <= width + 1e-6
    turned = up <= length + 1e-6 and across <= width + 1e-6
    return fits or (turned and not piece.along_grain)


def needed_sheet(piece: FlatPart, job: Job) -> tuple[float, float]:
    """Length and width of the least sheet for one piece [mm], the spacing all round it; grain along x or y as asked."""
    left, low, right, high = piece.part.outline.bounds
    long, short = max(right - left, high - low), min(right - left, high - low)
    room = 2 * spacing_of(job)
    along_x = job.router.grain == "x" or not piece.along_grain
    return (long + room, short + room) if along_x else (short + room, long + room)


# -- the shape a round cutter leaves -------------------------------------------------------------------


def as_cut(part: Part, cutter: float) -> Part:
    """The part as a cutter of this diameter leaves it: sharp corners relieved, other inside corners filleted."""
    return replace(
        part,
        outline=_loop_as_cut(part.outline, part.sharp, cutter / 2, void=False),
        features=tuple(
            replace(f, loop=_loop_as_cut(f.loop, part.sharp, cutter / 2, void=True)) if f.operation in CUT_AWAY else f
            for f in part.features
        ),
    )


def _loop_as_cut(loop: Loop, sharp: tuple[Point, ...], radius: float, *, void: bool) -> Loop:
    if not _turns_in(loop, radius, void=void):
        return loop
    return reached(relieved(loop, sharp, radius, void=void), radius, void=void) or loop


def _turns_in(loop: Loop, radius: float, *, void: bool) -> bool:
    """Whether anything turns round wood's outside more tightly than a radius; all else is cut as it is drawn."""
    edges = list((loop.clockwise() if void else loop.counter_clockwise()).edges())
    return any(
        turn(before, after) < -1e-6 or (after.bulge < 0 and after.radius < radius)
        for before, after in zip(edges, edges[1:] + edges[:1], strict=True)
    )


def too_tight(part: Part, cutter: float) -> list[tuple[str, Loop, bool]]:
    """What a cutter of this diameter can't get into: name, loop, and whether the loop is a hole."""
    loops = [("outline", part.outline, False)]
    loops += [(f.name, f.loop, True) for f in part.features if f.operation in CUT_AWAY]
    return [
        (name, loop, void)
        for name, loop, void in loops
        if _turns_in(loop, math.inf, void=void) and unreached(loop, cutter / 2, void=void)
    ]


# -- direction and order ---------------------------------------------------------------------------------


def run_round(loop: Loop, *, clockwise: bool) -> Loop:
    """The loop run the way asked for, from the corner nearest the sheet's own."""
    ring = loop.clockwise() if clockwise else loop.counter_clockwise()
    first = min(range(len(ring.vertices)), key=lambda i: _from_corner(ring.vertices[i].point))
    return Loop(ring.vertices[first:] + ring.vertices[:first])


def _from_corner(point: Point) -> tuple[float, float]:
    """Rounded, so that a hair of arithmetic does not move the start."""
    return (round(point[0] + point[1], 4), round(point[0], 4))


_ORDER = [Operation.SCORE, Operation.DRILL, Operation.POCKET, Operation.CUT_INSIDE, Operation.CUT_OUTSIDE]


def in_order(parts: tuple[Part, ...]) -> list[Feature]:
    """Every cut of the parts in the order they are made: all that is inside before any outline is freed."""
    cuts = [cut for part in parts for cut in part.cuts()]
    return sorted(cuts, key=lambda cut: _ORDER.index(cut.operation))


# -- holding tabs ----------------------------------------------------------------------------------------

TAB_CUTTERS = 2.0  # width of a tab in cutter diameters; common practice, no source


@dataclass(frozen=True)
class Tab:
    """A place on an outline where a bridge holds the part: a point, and the unit direction the outline runs there."""

    at: Point
    along: Point
    width: float


def tabs_of(part: Part, count: int, cutter: float) -> list[Tab]:
    """Up to `count` tabs spread evenly round a part's outline, on straight runs with room beside them.

    None in a slot or notch, where no saw gets at it, and none on an edge that guides, bears or measures.
    """
    outline, width = part.outline, TAB_CUTTERS * cutter
    room = width / 2 + cutter  # the cutter has to get in and out beside the tab
    edges = [
        e
        for e in outline.edges()
        if e.bulge == 0 and e.length >= 2 * room and _outermost(e, outline) and not _guides(e, part)
    ]
    found: list[Tab] = []
    for want in _spread(outline, count):
        places = [_nearest(e.start, e.end, room, want) for e in edges]
        free = [
            (p, e) for p, e in zip(places, edges, strict=True) if all(math.dist(p, t.at) >= 2 * room for t in found)
        ]
        if free:
            at, edge = min(free, key=lambda pair: (round(math.dist(pair[0], want), 6), pair[0]))
            found.append(Tab(at, tangents(edge)[0], width))
    return found


def _outermost(edge: Edge, outline: Loop) -> bool:
    """Whether all of an outline, run counter-clockwise, lies on the left of an edge's line: no slot, no notch."""
    (x, y), (ux, uy) = edge.start, tangents(edge)[0]
    return all(ux * (py - y) - uy * (px - x) > -1e-3 for px, py in outline.points(0.1))


def _guides(edge: Edge, part: Part) -> bool:
    return any(segment_distance(edge.middle, edge.middle, a, b) < 1e-3 for a, b in part.guides)


def _spread(outline: Loop, count: int) -> Iterator[Point]:
    """Points evenly spread round an outline, none at its start."""
    edges, step = list(outline.edges()), outline.perimeter / max(count, 1)
    for i in range(count):
        left = (i + 0.5) * step
        for edge in edges:
            if left <= edge.length or edge is edges[-1]:
                yield edge.point_at(min(left / edge.length, 1.0))
                break
            left -= edge.length


def _nearest(a: Point, b: Point, room: float, want: Point) -> Point:
    """The point of a straight edge nearest to `want` that keeps `room` from both its ends."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    along = (want[0] - a[0]) * ux + (want[1] - a[1]) * uy
    along = min(max(along, room), length - room)
    return (a[0] + along * ux, a[1] + along * uy)
