"""Pieces laid out on what they are cut from: both halves on a plank, layers on sheets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from scarfwright.models.flat.loop import Loop, Point, polygon, rectangle
from scarfwright.models.flat.overlap import inside
from scarfwright.models.job.tables import Job
from scarfwright.models.part.part import Mark, Part
from scarfwright.models.sheets.nesting import Bundle, bundles_of, nest
from scarfwright.models.sheets.pieces import (
    FlatPart,
    Tab,
    as_cut,
    fits_sheet,
    sheet_of,
    spacing_of,
    tabs_of,
    too_tight,
)


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
    def used(self) -> tuple[float, float]:
        """Length and width of the least sheet that would do, from the origin, edges as clear as here [mm]."""
        bounds = [part.outline.bounds for part in self.placed]
        return (
            max(b[2] for b in bounds) + min(b[0] for b in bounds),
            max(b[3] for b in bounds) + min(b[1] for b in bounds),
        )

    @property
    def outline(self) -> Loop:
        return rectangle(0, 0, self.length, self.width)


def turned(part: Part, angle: float, about: tuple[float, float]) -> Part:
    """A part turned counter-clockwise [rad] about a point, its marks left out but for scored lines."""
    whole = part.turned(angle, about)
    return replace(whole, marks=tuple(m for m in whole.marks if m.scored))


def sheet_plans(pieces: Sequence[FlatPart], job: Job) -> list[SheetPlan]:
    """The sheets a router cuts: the flat parts as its cutter leaves them, one thickness a sheet, thickest first.

    Parts with a finding of their own (too large, too tight for the cutter) are left out.
    """
    spacing, (length, width), cutter = spacing_of(job), sheet_of(job), float(job.router.cutter)
    by_thickness: dict[float, list[Bundle]] = {}
    for piece in pieces:
        if fits_sheet(piece, job) and not too_tight(piece.part, cutter):
            ready = replace(piece, part=as_cut(piece.part, cutter))
            found = bundles_of(ready, spacing, job.router.grain)
            by_thickness.setdefault(round(piece.part.thickness, 3), []).extend(found)
    plans: list[SheetPlan] = []
    for thickness in sorted(by_thickness, reverse=True):
        for parts in nest(by_thickness[thickness], length, width, spacing):
            name = f"sheet-{len(plans) + 1}"
            marks = tuple(_name_mark(part) for part in parts)
            marks += tuple(tab_mark(tab) for part in parts for tab in tabs_of(part, job.router.tabs, cutter))
            plans.append(SheetPlan(name, "Sheet for the router", length, width, thickness, parts, marks))
    return plans


def _name_mark(part: Part) -> Mark:
    """The part's name on it along its longer side, as large as it can well be, clear of its edges and openings."""
    left, low, right, high = part.outline.bounds
    long, short = max(right - left, high - low), min(right - left, high - low)
    size = max(min(12.0, short / 5, long / (len(part.name) + 2)), 1.0)
    flat = right - left >= high - low
    half = (len(part.name) * size / 2, size / 2) if flat else (size / 2, len(part.name) * size / 2)
    places = [(left + a * (right - left), low + b * (high - low)) for a, b in product(_SHARES, _SHARES)]
    x, y = next((p for p in places if _is_free(part, p, half)), places[0])
    at = (x - half[0], y - half[1]) if flat else (x + half[0], y - half[1])
    return Mark((at,), part.name, size, 0.0 if flat else math.pi / 2, "part name")


_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)  # of the part's length and width, where its name is tried


def _is_free(part: Part, middle: Point, half: Point) -> bool:
    """Whether a box lies on the part's plain wood."""
    (x, y), (w, h) = middle, half
    corners = [(x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h), (x, y - h), (x, y + h)]
    if not all(inside(part.outline, p) for p in corners):
        return False
    taken = [f.loop.bounds for f in part.features]
    taken += [polygon(m.points).bounds for m in part.marks if len(m.points) > 1]
    return all(a > x + w or c < x - w or b > y + h or d < y - h for a, b, c, d in taken)


def tab_mark(tab: Tab) -> Mark:
    """A stroke across the outline where a tab holds the part."""
    (x, y), (ux, uy) = tab.at, tab.along
    half = tab.width / 2
    return Mark(((x + uy * half, y - ux * half), (x - uy * half, y + ux * half)), name="tab")
