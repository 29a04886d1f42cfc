"""DXF for machines: R2010 or R12, units set, every outline one closed polyline with bulges, one layer an operation.

Texts, marks and the plank or sheet itself are on layers of their own (NOTES, SHEET) that a machine is told to ignore.
The origin is the lower left corner of the plank, sheet or part. What is inside is written before any outline.
"""

from __future__ import annotations

import logging
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

from scarfwright.models.flat.chains import tidied
from scarfwright.models.flat.loop import Loop, Vertex
from scarfwright.models.lengths.length import Unit
from scarfwright.models.part.part import Mark, Operation, Part
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sheets.pieces import in_order, run_round
from scarfwright.models.sheets.tool_path import PathPlan

Version = Literal["r2010", "r12"]
Direction = Literal["clockwise", "counter_clockwise"]

# layer -> colour index of the standard palette; pockets are added as they come
LAYERS = {
    "CUT_OUTSIDE": 7,
    "CUT_INSIDE": 5,
    "DRILL": 3,
    "SCORE": 6,
    "NOTES": 8,
    "SHEET": 9,
}
POCKET_COLOUR = 4
LETTER = 0.9  # width of a letter by its height, for the drawing's extent: the reader's font is not known
NOTE_HEIGHT = 12.0  # of the operator's lines beside a sheet [mm]; less where there are many
NOTE_ROOM = 30.0  # between the sheet's edge and those lines [mm]


def write_dxf(
    thing: Part | SheetPlan | PathPlan,
    path: Path,
    units: Unit = "mm",
    version: Version = "r2010",
    direction: Direction = "clockwise",
    notes: Sequence[str] = (),
    to_mark: bool = False,
) -> None:
    """Write a part, a plank or sheet with all that is placed on it, or the tracks of a sheet.

    `direction` is that of outside cuts; inside cuts run the other way. `notes` are lines beside it; without any it
    says that it is drawn at its finished size. `to_mark`: a drawing to mark out by, nothing of it for a machine, so
    every line of its parts is on NOTES.
    """
    document = _document(units, version)
    pen = _Pen(document, units, version, direction, to_mark)
    if isinstance(thing, Part):
        left, low, right, high = thing.outline.bounds
        pen.parts((thing.moved(-left, -low),))
        pen.notes(notes or (thing.title, *_plain_notes(units)), right - left, high - low)
    else:
        pen.loop(thing.outline.vertices, "SHEET")
        if isinstance(thing, PathPlan):
            for track in thing.tracks:
                pen.loop(track.vertices, track.layer, closed=track.closed)
        else:
            pen.parts(thing.placed)
        for mark in thing.marks:
            pen.mark(mark)
        pen.notes(notes or thing.notes or (thing.title, *_plain_notes(units)), thing.length, thing.width)
    least, most = (*pen.low, 0.0), (*pen.high, 0.0)
    document.modelspace().reset_extents(least, most)
    # the library takes a corner at the origin for none and would leave the header as it is
    document.header["$EXTMIN"], document.header["$EXTMAX"] = least, most
    # the library would enter these in the order of a set, which differs from run to run
    for name in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(name)
    document.saveas(path, encoding="utf-8" if version != "r12" else "cp1252", fmt="asc")


def _document(units: Unit, version: Version) -> Any:
    """An empty drawing with its layers and its unit."""
    from ezdxf import units as dxf_units
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    # pins time stamps and ids; the name of the setting is the library's
    options.write_fixed_meta_data_for_testing = True
    logging.getLogger("ezdxf").setLevel(logging.ERROR)  # it warns that R12 has no units; the notes see to that
    document = new(version.upper(), setup=False)
    for layer, colour in LAYERS.items():
        document.layers.add(layer, color=colour)
    if version != "r12":  # R12 knows neither units nor layers that do not plot: the notes say what is what
        document.units = dxf_units.MM if units == "mm" else dxf_units.IN
        document.header["$MEASUREMENT"] = 1 if units == "mm" else 0
        document.layers.get("NOTES").dxf.plot = 0
        document.layers.get("SHEET").dxf.plot = 0
    return document


def _plain_notes(units: Unit) -> tuple[str, str]:
    name = "millimetres" if units == "mm" else "inches"
    return (f"UNIT: {name}", "Finished size: no cutter and no kerf allowed for.")


class _Pen:
    """Draws loops and marks into a document at a scale."""

    def __init__(self, document: Any, units: Unit, version: Version, direction: Direction, to_mark: bool) -> None:
        self.document = document
        self.space = document.modelspace()
        self.units = units
        self.scale = 1.0 if units == "mm" else 1 / 25.4
        self.old = version == "r12"
        self.clockwise = direction == "clockwise"
        self.to_mark = to_mark
        self.low, self.high = (math.inf, math.inf), (-math.inf, -math.inf)  # of all that is drawn [drawing units]

    def parts(self, parts: tuple[Part, ...]) -> None:
        """Marks first, then the cuts in the order they are to be made."""
        for part in parts:
            for mark in part.marks:
                self.mark(mark)
        for cut in in_order(parts):
            outside = cut.operation is Operation.CUT_OUTSIDE
            loop = run_round(tidied(cut.loop), clockwise=self.clockwise == outside)
            layer = cut.layer(self.units)
            self.loop(loop.vertices, layer)
            for island in cut.islands:
                self.loop(run_round(tidied(island), clockwise=self.clockwise != outside).vertices, layer)

    def loop(self, vertices: Sequence[Vertex], layer: str, *, closed: bool = True) -> None:
        if self.to_mark and layer != "SHEET":
            layer = "NOTES"
        layer = layer.replace(".", "_") if self.old else layer  # R12 allows no point in a name
        if layer not in self.document.layers:
            self.document.layers.add(layer, color=POCKET_COLOUR)
        k = self.scale
        x0, y0, x1, y1 = Loop(tuple(vertices)).bounds
        self.reached((k * x0, k * y0), (k * x1, k * y1))
        round_one = Loop(tuple(vertices)).circle if closed and layer == "DRILL" else None
        if round_one is not None:
            (x, y), radius = round_one
            self.space.add_circle((k * x, k * y), k * radius, dxfattribs={"layer": layer})
            return
        points = [(k * v.x, k * v.y, v.bulge) for v in vertices]
        add = self.space.add_polyline2d if self.old else self.space.add_lwpolyline
        add(points, format="xyb", close=closed, dxfattribs={"layer": layer})

    def mark(self, mark: Mark) -> None:
        if len(mark.points) > 1:
            layer = "SCORE" if mark.scored else "NOTES"
            closed = mark.points[0] == mark.points[-1]
            points = mark.points[:-1] if closed else mark.points
            self.loop([Vertex(x, y) for x, y in points], layer, closed=closed)
        if mark.text:
            self.text(mark.text, mark.points[0], mark.height, mark.angle)

    def text(self, text: str, at: tuple[float, float], height: float, angle: float = 0.0) -> None:
        k = self.scale
        long, c, s = LETTER * height * len(text), math.cos(angle), math.sin(angle)
        for dx, dy in ((0.0, 0.0), (long, 0.0), (0.0, height), (long, height)):
            self.reached((k * (at[0] + c * dx - s * dy), k * (at[1] + s * dx + c * dy)))
        self.space.add_text(
            text,
            height=k * height,
            rotation=math.degrees(angle),
            dxfattribs={"layer": "NOTES", "insert": (k * at[0], k * at[1])},
        )

    def reached(self, *points: tuple[float, float]) -> None:
        """Take points into the drawing's extent."""
        xs, ys = zip(*points, self.low, self.high, strict=True) if self.low[0] < math.inf else zip(*points, strict=True)
        self.low, self.high = (min(xs), min(ys)), (max(xs), max(ys))

    def notes(self, lines: Sequence[str], length: float, width: float) -> None:
        """Lines for the operator to the right of the sheet, from its upper edge down, so that the origin stays."""
        if not lines:
            return
        height = min(NOTE_HEIGHT, width / (1.6 * len(lines)))
        for i, line in enumerate(lines):
            if line:
                self.text(line, (length + NOTE_ROOM, width - height - 1.6 * height * i), height)
