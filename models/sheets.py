"""Pieces laid out on what they are cut from: both halves on a plank, layers on sheets."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scarfwright.models.outline import Loop, rectangle
from scarfwright.models.part import Mark, Part
from scarfwright.models.parts.sled import sizes, sled
from scarfwright.models.workup import Workup

SPACING = 15.0  # between pieces on a sheet: a cutter and some wood to hold them; common practice, no source


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
    return replace(part, marks=tuple(m for m in part.marks if m.scored)).turned(angle, about)


def sheet_plans(work: Workup) -> list[SheetPlan]:
    """The layers of a sheet sled, one above the other with room for the cutter between."""
    from scarfwright.models.parts import registry

    kind = registry()["sheet_layer"]
    layer = kind.build(**(kind.from_job(work) or {}))
    if work.job.saw.fence_side == "left":
        layer = layer.mirrored_y()
    low_x, low_y, high_x, high_y = layer.outline.bounds
    step = high_y - low_y + SPACING
    placed = tuple(
        replace(layer.moved(SPACING - low_x, SPACING - low_y + i * step), name=f"layer_{i + 1}")
        for i in range(work.job.sled.layers)
    )
    return [
        SheetPlan(
            "sheet-1",
            "Sheet with the sled's layers",
            high_x - low_x + 2 * SPACING,
            work.job.sled.layers * step + SPACING,
            layer.thickness,
            placed,
        )
    ]
