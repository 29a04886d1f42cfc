"""Loops and parts as shapely polygons: the other reader of flat shapes."""

from __future__ import annotations

from scarfwright.models.flat.loop import Loop, rectangle
from scarfwright.models.part.part import Part
from shapely.geometry import Polygon

FINE = 1e-5  # chords this close to arcs [mm]


def polygon(loop: Loop, holes: tuple[Loop, ...] = (), sagitta: float = FINE) -> Polygon:
    return Polygon(loop.points(sagitta), [hole.points(sagitta) for hole in holes])


def plate(part: Part) -> Polygon:
    """The part seen from above, with what is cut right through."""
    shape = polygon(part.outline)
    for feature in part.features:
        if feature.through:
            shape = shape.difference(polygon(feature.loop))
    return shape


def blank(length: float = 60.0, width: float = 20.0, thickness: float = 3.0) -> Part:
    return Part("blank", "Blank", rectangle(0, 0, length, width), thickness)
