"""The plank from above: both halves, and the one mark from both edges."""

from __future__ import annotations

from typing import Literal

from scarfwright.models.flat.loop import Point
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import linear, pointed
from scarfwright.outputs.drawing.display import GREY, OUTLINE, THIN, Item, Pen, Text, View, line, shape
from scarfwright.outputs.drawing.placing import Place, along
from scarfwright.outputs.shop_drawings.sled_details import LABEL, WOOD

BLADE_PEN = Pen(0.45, "#b00000", (5.0, 1.0, 0.8, 1.0))
KERF_FILL = "#d9c7a6"
MARK_SIZE = 3.6


def on_page(plan: SheetPlan, view: View) -> View:
    """The view for what a plan holds: a plan comes laid out for the job's fence side, already mirrored."""
    if not view.mirrored:
        return view
    return View(
        view.scale, (view.at[0], view.at[1] - (plan.width - view.origin[1]) / view.scale), (view.origin[0], 0.0)
    )


def halves(plan: SheetPlan, view: View) -> list[Item]:
    """Outline, both halves with their openings, and the dividing line."""
    page = on_page(plan, view)
    items: list[Item] = [shape(page.loop(plan.outline), OUTLINE, KERF_FILL, "plank")]
    for half in plan.placed:
        items.append(shape(page.loop(half.outline), THIN, WOOD, half.name))
        items += [shape(page.loop(f.loop), GREY, None, f.name) for f in half.features]
    items += [line([page.point(p) for p in m.points], BLADE_PEN, m.name) for m in plan.marks]
    return items


def marks(work: Workup, plan: SheetPlan, view: View) -> list[Item]:
    """M at both ends, each from its own edge, and the length."""
    say = drawn_in(work.job.units)
    out = -1.0 if view.mirrored else 1.0
    mark = float(work.way.nominal.mark or 0.0)
    low, high = view.point((plan.length, 0.0)), view.point((plan.length, mark))
    items = _mark(low, high, (low[0] + 6.0, low[1]), f"M {say(mark)}", "right")
    low, high = view.point((0.0, plan.width)), view.point((0.0, plan.width - mark))
    items += _mark(low, high, (low[0] - 6.0, low[1]), f"M {say(mark)}", "left")
    nose, heel = view.point((0.0, 0.0)), view.point((plan.length, 0.0))
    through = (heel[0], heel[1] - out * 6.0)
    return items + linear(nose, heel, through, f"length {say(plan.length)}", "horizontal")


def _mark(p: Point, q: Point, through: Point, text: str, side: Literal["left", "right"]) -> list[Item]:
    """The mark's dimension, its figure bold: the number that matters most on this sheet."""
    found = linear(p, q, through, text, "vertical", beside=side, size=MARK_SIZE)
    return [
        Text(item.x, item.y, item.text, item.size, item.anchor, item.angle, True) if isinstance(item, Text) else item
        for item in found
    ]


def labels(work: Workup, plan: SheetPlan, view: View) -> list[list[Place]]:
    """Labels with the places each may take, best first."""
    mark = float(work.way.nominal.mark or 0.0)
    near_heel, near_nose = (0.75, 0.7, 0.8, 0.65, 0.6, 0.85, 0.9), (0.25, 0.3, 0.2, 0.35, 0.4, 0.15, 0.1)

    def inside(text: str, level: float, shares: tuple[float, ...]) -> list[Place]:
        """Places inside the plank; `level` 0 at the first half's edge, 1 at the other half's."""
        found: list[Place] = []
        for share in shares:
            for lift in (level, level + 0.06, level - 0.06, level + 0.12, level - 0.12):
                px, py = view.point((share * plan.length, lift * plan.width))
                found.append([Text(px, py - 0.27 * LABEL, text, LABEL, "middle", 0.0, True)])
        return found

    def led(text: str, level: float, shares: tuple[float, ...]) -> list[Place]:
        tips = [view.point((share * plan.length, level * plan.width)) for share in shares]
        return list(pointed(tips, text, size=LABEL, bold=True))

    first = inside("first half", 0.25, near_heel) + led("first half", 0.25, (0.7, 0.9, 0.5, 0.6, 0.4, 0.3, 0.8))
    second = inside("second half, the same turned round", 0.75, near_nose)
    second += inside("second half", 0.75, near_nose) + led("second half", 0.75, (0.3, 0.1, 0.5, 0.4, 0.6, 0.7, 0.2))
    ends = [_end_places(view, plan, mark, True), _end_places(view, plan, mark, False)]
    low, high = view.point((0.0, plan.width - mark)), view.point((plan.length, mark))
    return [*ends, _line_places(work, low, high), first, second]


def _line_places(work: Workup, low: Point, high: Point) -> list[Place]:
    say = drawn_in(work.job.units)
    found: list[Place] = []
    for text in (f"dividing line, from mark to mark; kerf {say(work.job.saw.kerf)}", "dividing line"):
        for away in (2.6, -2.6, 3.2, -3.2):
            found += along(low, high, text, away, size=LABEL)
    tips = [(low[0] + s * (high[0] - low[0]), low[1] + s * (high[1] - low[1])) for s in (0.5, 0.35, 0.65, 0.9, 0.1)]
    return found + list(pointed(tips, "dividing line", size=LABEL))


def _end_places(view: View, plan: SheetPlan, mark: float, near: bool) -> list[Place]:
    """HEEL inside the wide end of a half: the first half's or the other's."""
    found: list[Place] = []
    for share in (0.5, 0.25, 0.75, 0.35, 0.65, 0.15, 0.85):
        for inward in (2.0, 12.0, 20.0):
            at = (plan.length, share * mark) if near else (0.0, plan.width - share * mark)
            px, py = view.point(at)
            x = px - inward if near else px + inward
            found.append([Text(x, py - 0.27 * LABEL, "HEEL", LABEL, "end" if near else "start", bold=True)])
    at = (plan.length, 0.5 * mark) if near else (0.0, plan.width - 0.5 * mark)
    return found + list(pointed([view.point(at)], "HEEL", size=LABEL, bold=True))
