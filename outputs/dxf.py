"""DXF for machines: R2010, units set, every outline one closed polyline with bulges, one layer an operation.

Texts, marks and the plank or sheet itself are on layers of their own (NOTES, SHEET) that a machine is told to ignore.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from scarfwright.models.outline import Loop
from scarfwright.models.part import Mark, Part
from scarfwright.models.sheets import SheetPlan
from scarfwright.models.units import Unit

# layer -> colour index of the standard palette; pockets are added as they come
LAYERS = {
    "CUT_OUTSIDE": 7,
    "CUT_INSIDE": 5,
    "DRILL": 3,
    "ENGRAVE": 6,
    "NOTES": 8,
    "SHEET": 9,
}
POCKET_COLOUR = 4
_INSUNITS = {"in": 1, "mm": 4}


def write_dxf(thing: Part | SheetPlan, path: Path, units: Unit = "mm") -> None:
    """Write a part, or a plank or sheet with all that is placed on it, in `units`."""
    from ezdxf import units as dxf_units
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    # pins time stamps and ids; the name of the setting is the library's
    options.write_fixed_meta_data_for_testing = True
    document = new("R2010", setup=False)
    document.units = dxf_units.MM if units == "mm" else dxf_units.IN
    document.header["$MEASUREMENT"] = 1 if units == "mm" else 0
    for layer, colour in LAYERS.items():
        document.layers.add(layer, color=colour)
    document.layers.get("NOTES").dxf.plot = 0
    document.layers.get("SHEET").dxf.plot = 0
    pen = _Pen(document, 1.0 if units == "mm" else 1 / 25.4)
    if isinstance(thing, SheetPlan):
        pen.loop(thing.outline, "SHEET")
        for part in thing.placed:
            pen.part(part)
        for mark in thing.marks:
            pen.mark(mark)
    else:
        pen.part(thing)
    document.saveas(path, encoding="utf-8", fmt="asc")


class _Pen:
    """Draws loops and marks into a document at a scale."""

    def __init__(self, document: Any, scale: float) -> None:
        self.document = document
        self.space = document.modelspace()
        self.scale = scale

    def part(self, part: Part) -> None:
        for feature in part.cuts():
            if feature.layer not in self.document.layers:
                self.document.layers.add(feature.layer, color=POCKET_COLOUR)
            outside = feature.operation == "CUT_OUTSIDE"
            loop = feature.loop.counter_clockwise() if outside else feature.loop.clockwise()
            self.loop(loop, feature.layer)
            for island in feature.islands:
                self.loop(island.counter_clockwise(), feature.layer)
        for mark in part.marks:
            self.mark(mark)

    def loop(self, loop: Loop, layer: str) -> None:
        k = self.scale
        round_one = loop.circle
        if round_one is not None and layer == "DRILL":
            (x, y), radius = round_one
            self.space.add_circle((k * x, k * y), k * radius, dxfattribs={"layer": layer})
            return
        vertices = [(k * v.x, k * v.y, v.bulge) for v in loop.vertices]
        self.space.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs={"layer": layer})

    def mark(self, mark: Mark) -> None:
        k = self.scale
        if len(mark.points) > 1:
            layer = "ENGRAVE" if mark.scored else "NOTES"
            points = [(k * x, k * y) for x, y in mark.points]
            closed = points[0] == points[-1]
            self.space.add_lwpolyline(points[:-1] if closed else points, close=closed, dxfattribs={"layer": layer})
        if mark.text:
            x, y = mark.points[0]
            self.space.add_text(
                mark.text,
                height=k * mark.height,
                rotation=mark.angle * 57.29577951308232,
                dxfattribs={"layer": "NOTES", "insert": (k * x, k * y)},
            )
