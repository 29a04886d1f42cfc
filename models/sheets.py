"""Pieces laid out on what they are cut from: both halves on a plank, layers on sheets."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scarfwright.models.nesting import Block, blocks_of, nest
from scarfwright.models.outline import Loop, rectangle
from scarfwright.models.part import Mark, Part
from scarfwright.models.parts.sled import sizes, sled
from scarfwright.models.routing import Tab, as_cut, fits_sheet, flat_pieces, sheet_of, spacing_of, tabs_of, too_tight
from scarfwright.models.workup import Workup


@dataclass(frozen=True)
class SheetPlan:
    """A plank or sheet with placed parts; its own lower left corner is the origin [mm]."""

    name: str
    title: str
    length: float
    width: float
    thickness: float
    placed: tuple[Part, ...]
    marks: tuple[Mark, ...] = ()
    notes: tuple[str, ...] = ()  # lines for the operator, written beside the sheet

    @property
    def filled(self) -> float:
        """Share of the sheet's area that is parts."""
        return sum(part.area for part in self.placed) / (self.length * self.width)

    @property
    def outline(self) -> Loop:
        return rectangle(0, 0, self.length, self.width)


def plank_plan(work: Workup) -> SheetPlan:
    """The plank with both halves and the kerf between: the second half is the first turned half round."""
    nominal = work.nominal
    if nominal.plank_width is None or nominal.mark is None:
        raise ValueError("the sled is not made from a plank")
    width, mark, length = nominal.plank_width, nominal.mark, nominal.length
    first = sled(**{**sizes(work, nominal), "label": "", "name": "half_1", "title": "First half"})
    centre = (length / 2, width / 2)
    second = turned(replace(first, name="half_2", title="Second half"), math.pi, centre)
    line = Mark(((0.0, width - mark), (length, mark)), name="dividing line")
    if work.job.saw.fence_side == "left":
        first, second = (half.mirrored_y().moved(0.0, width) for half in (first, second))
        line = replace(line, points=tuple((x, width - y) for x, y in line.points))
    return SheetPlan("plank", "Plank with both halves", length, width, nominal.thickness, (first, second), (line,))


def turned(part: Part, angle: float, about: tuple[float, float]) -> Part:
    """A part turned counter-clockwise [rad] about a point, its marks left out but for scored lines."""
    whole = part.turned(angle, about)
    return replace(whole, marks=tuple(m for m in whole.marks if m.scored))


def sheet_plans(work: Workup) -> list[SheetPlan]:
    """The sheets a router cuts: the flat parts as its cutter leaves them, one thickness a sheet, thickest first.

    Parts with a finding of their own (too large, too tight for the cutter) are left out.
    """
    job = work.job
    spacing, (length, width), cutter = spacing_of(job), sheet_of(job), float(job.router.cutter)
    by_thickness: dict[float, list[Block]] = {}
    for piece in flat_pieces(work):
        if fits_sheet(piece, job) and not too_tight(piece.part, cutter):
            ready = replace(piece, part=as_cut(piece.part, cutter))
            found = blocks_of(ready, spacing, job.router.grain)
            by_thickness.setdefault(round(piece.part.thickness, 3), []).extend(found)
    plans: list[SheetPlan] = []
    for thickness in sorted(by_thickness, reverse=True):
        for parts in nest(by_thickness[thickness], length, width, spacing):
            name = f"sheet-{len(plans) + 1}"
            marks = tuple(_name_mark(part) for part in parts)
            marks += tuple(tab_mark(tab) for part in parts for tab in tabs_of(part.outline, job.router.tabs, cutter))
            plans.append(SheetPlan(name, "Sheet for the router", length, width, thickness, parts, marks))
    return plans


def _name_mark(part: Part) -> Mark:
    """The part's name on it, at the height of its middle and along its longer side, as large as it can well be."""
    left, low, right, high = part.outline.bounds
    long, short = max(right - left, high - low), min(right - left, high - low)
    size = max(min(12.0, short / 6, long / (len(part.name) + 2)), 1.0)
    if right - left >= high - low:
        at, angle = (left + long * 0.4, (low + high - size) / 2), 0.0
    else:
        at, angle = ((left + right + size) / 2, low + long * 0.4), math.pi / 2
    return Mark((at,), part.name, size, angle, "part name")


def tab_mark(tab: Tab) -> Mark:
    """A stroke across the outline where a tab holds the part."""
    (x, y), (ux, uy) = tab.at, tab.along
    half = tab.width / 2
    return Mark(((x + uy * half, y - ux * half), (x - uy * half, y + ux * half)), name="tab")
