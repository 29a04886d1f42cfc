"""The plank with a guide rail for the hand-held saw on it, and what carries the rail beside it."""

from __future__ import annotations

import math
from typing import Literal

from scarfwright.models.flat.loop import Point, rectangle
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sled.rail import PAST_END, RAIL_WIDTH, Rail
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import SIZE, linear, pointed
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, Item, View, line, shape
from scarfwright.outputs.drawing.lettering import width as width_of
from scarfwright.outputs.drawing.placing import Place, along
from scarfwright.outputs.shop_drawings.plank_view import BLADE_PEN, KERF_FILL
from scarfwright.outputs.shop_drawings.sled_details import LABEL
from scarfwright.outputs.shop_drawings.stand import Block

PIECE_FILL = "#c3cfc2"
LEAST_SPAN = 8.0  # page mm, for the figure beside its dimension
CLEAR_OF_RAIL = 0.5  # page mm, between a figure and the rail's edge


def rail_block(plan: SheetPlan, rail: Rail) -> Block:
    """What the view shows: plank, rail and the pieces beside it."""
    lowest = min([v.y for v in rail.outline.vertices] + [-piece.width for piece in rail.pieces])
    return Block((-PAST_END, min(lowest, 0.0)), (plan.length + PAST_END, plan.width), 4.0, 4.0, 6.0, 3.0)


def rail_items(work: Workup, plan: SheetPlan, rail: Rail, view: View) -> list[Item]:
    """Plank, line, pieces, rail; the rail's distance from the line at both ends, the pieces' places."""
    items: list[Item] = [shape(view.loop(plan.outline), EDGE, KERF_FILL, "plank under the rail")]
    for piece in rail.pieces:
        x = plan.length - piece.end
        loop = view.loop(rectangle(x, -piece.width, piece.end - piece.start, piece.width))
        items.append(shape(loop, EDGE, PIECE_FILL, "piece under the rail"))
    ends = _line_ends(work, plan)
    items.append(line([view.point(p) for p in ends], BLADE_PEN, "line to saw"))
    items.append(shape(view.loop(rail.outline), PHANTOM, None, "rail"))
    edge = [view.point(rail.outline.vertices[i].point) for i in (0, 3)]
    items.append(line(edge, OUTLINE, "rail's edge"))
    return items + _dimensions(work, rail, view, ends)


def _line_ends(work: Workup, plan: SheetPlan) -> tuple[Point, Point]:
    mark = float(work.way.nominal.mark or 0.0)
    return (0.0, plan.width - mark), (plan.length, mark)


def _dimensions(work: Workup, rail: Rail, view: View, ends: tuple[Point, Point]) -> list[Item]:
    """From the line to the rail's edge, square to the line, past both ends of the plank."""
    say, angle = drawn_in(work.job.units), work.way.nominal.angle
    items: list[Item] = []
    if view.length(rail.offset) < LEAST_SPAN:
        return items  # the panel tells it; there is no room for a figure between the two lines
    sides: tuple[tuple[Point, Literal["left", "right"], float], ...] = (
        (ends[0], "left", -5.0),
        (ends[1], "right", 5.0),
    )
    for (x, y), beside, past in sides:
        # the rail goes on past the plank and rises to the figure: where it would meet it, one end's tells both
        rise = (5.0 + width_of(say(rail.offset), SIZE)) * math.tan(angle) + SIZE / 2
        if beside == "right" and view.length(rail.offset) / 2 - rise < CLEAR_OF_RAIL:
            continue
        foot = (x - rail.offset * math.sin(angle), y - rail.offset * math.cos(angle))
        p, q = view.point((x, y)), view.point(foot)
        items += linear(p, q, (p[0] + past, p[1]), say(rail.offset), beside=beside)
    return items


def rail_labels(work: Workup, plan: SheetPlan, rail: Rail, view: View) -> list[list[Place]]:
    """Names with the places each may take."""
    say = drawn_in(work.job.units)
    out = -1.0 if view.mirrored else 1.0
    ends = [view.point(p) for p in _line_ends(work, plan)]
    line_places: list[Place] = []
    for away in (out * 2.6, -out * 2.6):
        line_places += along(ends[0], ends[1], "saw along this line", away, size=LABEL)
    corners = [view.point(v.point) for v in rail.outline.vertices]
    middle = [((corners[i][0] + corners[j][0]) / 2, (corners[i][1] + corners[j][1]) / 2) for i, j in ((0, 1), (3, 2))]
    names: list[Place] = []
    for text in (f"guide rail, {say.rule(RAIL_WIDTH)} wide", "guide rail"):
        for away in (0.0, 1.2, -1.2):
            names += along(middle[0], middle[1], text, away, size=LABEL)
    names += pointed([_between(middle[0], middle[1], s) for s in (0.5, 0.4, 0.6)], "guide rail", size=LABEL)
    found = [line_places, names]
    for piece in rail.pieces:
        size = f"piece {say.rule(piece.end - piece.start)} x {say.rule(piece.width)}"
        tips = [
            view.point((plan.length - piece.start - a * (piece.end - piece.start), -b * piece.width))
            for a in (0.5, 0.2, 0.8)
            for b in (0.9, 0.6)
        ]
        found.append(list(pointed(tips, size, size=LABEL)))
    return found


def _between(p: Point, q: Point, share: float) -> Point:
    return (p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1]))
