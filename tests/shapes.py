"""Loops and parts as shapely polygons: the other reader of flat shapes."""

from __future__ import annotations

import math

from scarfwright.models.flat.loop import Loop, rectangle
from scarfwright.models.part.part import Part
from scarfwright.models.sled.sled import Notch, Sled
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

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


def on_sled(shape: BaseGeometry, sled: Sled) -> BaseGeometry:
    """From a drawing along the work edge, the heel at its origin and the wood below, to the sled's own frame: mirrored,
    for stations count from the heel, and turned down to the nose."""
    mirrored = affinity.scale(shape, -1, 1, origin=(0, 0))
    turned = affinity.rotate(mirrored, math.degrees(math.atan(1 / sled.ratio)), origin=(0, 0))
    return affinity.translate(turned, sled.length, sled.heel)


def notch_in(sled: Sled, notch: Notch) -> BaseGeometry:
    """The notch as a thick line below the work edge."""
    half, depth = max(notch.length - notch.width, 0) / 2, notch.web + notch.width / 2
    line = LineString([(notch.station - half, -depth), (notch.station + half + 1e-12, -depth)])
    return on_sled(line.buffer(notch.width / 2, quad_segs=400), sled)
