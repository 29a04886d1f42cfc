"""Both halves of the sled as they lie on the plank."""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.part.part import Mark
from scarfwright.models.sheets.layout import SheetPlan, turned
from scarfwright.models.sled.shape import sizes, sled_of
from scarfwright.models.sled.way import SledWay


def plank_plan(way: SledWay) -> SheetPlan:
    """The plank with both halves and the kerf between: the second half is the first turned half round."""
    nominal = way.nominal
    if nominal.plank_width is None or nominal.mark is None:
        raise ValueError("the sled is not made from a plank")
    width, mark, length = nominal.plank_width, nominal.mark, nominal.length
    first = replace(sled_of({**sizes(way, nominal), "label": ""}), name="half_1", title="First half")
    centre = (length / 2, width / 2)
    second = turned(replace(first, name="half_2", title="Second half"), math.pi, centre)
    line = Mark(((0.0, width - mark), (length, mark)), name="dividing line")
    if way.job.saw.fence_side == "left":
        first, second = (half.mirrored_y().moved(0.0, width) for half in (first, second))
        line = replace(line, points=tuple((x, width - y) for x, y in line.points))
    return SheetPlan("plank", "Plank with both halves", length, width, nominal.thickness, (first, second), (line,))
