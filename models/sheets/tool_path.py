"""The second set for a router: where the middle of the cutter runs, the outlines already offset by its radius.

All lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from scarfwright.models.flat.chains import cut_at
from scarfwright.models.flat.loop import Edge, Loop, Vertex, rectangle
from scarfwright.models.flat.offset import offset
from scarfwright.models.lengths.length import Unit
from scarfwright.models.part.part import Feature, Mark, Operation
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sheets.pieces import Tab, in_order, run_round, tabs_of

POCKET_STEP = 0.8  # from one round of a pocket to the next, in cutter radii: none is left standing between them


@dataclass(frozen=True)
class Track:
    """One run of the cutter's middle on a layer; the last vertex joins the first if `closed`."""

    layer: str
    vertices: tuple[Vertex, ...]
    closed: bool


@dataclass(frozen=True)
class PathPlan:
    """A sheet as tracks for the cutter's middle; the sheet's lower left corner is the origin [mm]."""

    name: str
    title: str
    length: float
    width: float
    tracks: tuple[Track, ...]
    marks: tuple[Mark, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def outline(self) -> Loop:
        return rectangle(0, 0, self.length, self.width)


def tool_path(
    plan: SheetPlan, cutter: float, tabs: int, *, clockwise: bool, notes: tuple[str, ...], units: Unit = "mm"
) -> PathPlan:
    """The tracks of a sheet for a cutter of this diameter, in the order they are run.

    Outside cuts run outside their outline, inside cuts inside, pockets from their middle outwards; drilled and
    scored features are followed as they are. Where a tab holds a part its track is open.
    """
    radius = cutter / 2
    bridges = {part.name: tabs_of(part, tabs, cutter) for part in plan.placed}
    scored = [m for part in plan.placed for m in part.marks if m.scored]
    tracks = [Track("SCORE", tuple(Vertex(*p) for p in mark.points), False) for mark in scored]
    for cut in in_order(plan.placed):
        tracks += _tracks(cut, cut.layer(units), radius, bridges.get(cut.name, []), clockwise)
    return PathPlan(
        f"{plan.name}-path",
        f"{plan.title}, middle of the cutter",
        plan.length,
        plan.width,
        tuple(tracks),
        tuple(m for m in plan.marks if m.text),
        notes,
    )


def _tracks(cut: Feature, layer: str, radius: float, tabs: list[Tab], clockwise: bool) -> Iterator[Track]:
    if cut.operation is Operation.CUT_OUTSIDE:
        path = run_round(offset(cut.loop, radius)[0], clockwise=clockwise)
        yield from _with_gaps(path, layer, radius, tabs)
    elif cut.operation is Operation.CUT_INSIDE:
        yield Track(layer, run_round(offset(cut.loop, -radius)[0], clockwise=not clockwise).vertices, True)
    elif cut.operation is Operation.POCKET:
        for ring in reversed(list(_rings(cut.loop, radius))):
            yield Track(layer, run_round(ring, clockwise=not clockwise).vertices, True)
    else:
        yield Track(layer, run_round(cut.loop, clockwise=not clockwise).vertices, True)


def _rings(loop: Loop, radius: float) -> Iterator[Loop]:
    """Rounds of a pocket from its wall inwards."""
    inward = radius
    while found := offset(loop, -inward):
        yield from found
        inward += POCKET_STEP * radius


def _with_gaps(path: Loop, layer: str, radius: float, tabs: list[Tab]) -> Iterator[Track]:
    """The path, open where a tab is: as wide as the tab and a cutter, since the cutter's edge reaches ahead of it."""
    if not tabs:
        yield Track(layer, path.vertices, True)
        return
    gaps = [_gap(tab, radius) for tab in tabs]
    edges = [piece for edge in path.edges() for piece in cut_at(edge, [p for g in gaps for p in (g.start, g.end)])]
    kept = [not any(_within(edge, gap) for gap in gaps) for edge in edges]
    first = kept.index(False)
    run: list[Edge] = []
    for i in range(first, first + len(edges) + 1):
        edge = edges[i % len(edges)]
        if kept[i % len(edges)] and i < first + len(edges):
            run.append(edge)
        elif run:
            yield Track(layer, (*(Vertex(*e.start, e.bulge) for e in run), Vertex(*run[-1].end)), False)
            run = []


def _gap(tab: Tab, radius: float) -> Edge:
    """The stretch of the path that a tab leaves out."""
    (x, y), (ux, uy) = tab.at, tab.along
    x, y, half = x + uy * radius, y - ux * radius, tab.width / 2 + radius
    return Edge((x - half * ux, y - half * uy), (x + half * ux, y + half * uy), 0.0)


def _within(edge: Edge, gap: Edge) -> bool:
    return edge.bulge == 0 and math.dist(edge.middle, gap.middle) < gap.length / 2 and edge.length <= gap.length + 1e-3
