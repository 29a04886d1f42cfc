"""The sled, one half as it runs: nose at x = 0, heel at x = L, fence edge y = 0.

       work edge (the board lies here)                 heel
nose  ________________________________________________
     |                    (  notch  )                  |
     |_   _____________________________________________|
       nose flat         fence edge                x ->
"""

from __future__ import annotations

from collections.abc import Callable

from scarfwright.models.flat.loop import Point, circle, polygon, slot
from scarfwright.models.lengths.drawn import drawn_in, one_to
from scarfwright.models.part.part import Feature, Mark, Operation, Part
from scarfwright.models.part.values import Given, Value
from scarfwright.models.sled.layout import Layout
from scarfwright.models.sled.sled import Notch, Sled
from scarfwright.models.sled.way import SledWay

Hole = tuple[float, float, float]


def sled(
    length: float = 1500.0,
    heel: float = 153.0,
    nose: float = 28.0,
    thickness: float = 38.0,
    nose_flat: float = 30.0,
    web: float = 25.0,
    notch_length: float = 50.0,
    notch_width: float = 16.0,
    stations: tuple[float, ...] = (400.0,),
    holes: tuple[Hole, ...] = (),
    hand_line: float = 0.0,
    label: str = "",
) -> Part:
    """Build the sled.

    length, heel, nose, thickness: outer sizes [mm]
    nose_flat: length of the flat parallel to the work edge [mm], 0 for none
    web, notch_length, notch_width: clamp notches [mm]
    stations: middles of the notches along the work edge from the heel [mm]
    holes: (x from the nose, y from the fence edge, diameter) [mm], drilled through
    hand_line: from the heel along the fence edge [mm], 0 for none
    label: text beside the fence edge
    """
    shape = Sled(length / (heel - nose), length, thickness, heel, nose, nose_flat)
    features = []
    for station in stations:
        capsule = Notch("", station, web, notch_length, notch_width).capsule(shape)
        loop = slot(capsule.start, capsule.end, notch_width)
        features.append(Feature(Operation.CUT_INSIDE, loop, f"notch at {station:g}"))
    features += [Feature(Operation.DRILL, circle(x, y, d / 2), "hole") for x, y, d in holes]
    return Part(
        name="sled",
        title="Sled, as it runs",
        outline=polygon(shape.corners()),
        thickness=thickness,
        features=tuple(features),
        marks=tuple(_marks(shape, hand_line, label)),
        colour="#c8a878",
        use="Straight edge along the fence, board clamped to the sloping edge, heel first.",
        # a clamp's pad may bear on the nose flat right up to its step
        sharp=((nose_flat, shape.flat_step),) if nose_flat > 0 else (),
    )


def _marks(shape: Sled, hand_line: float, label: str) -> list[Mark]:
    marks = []
    if 0 < hand_line < shape.length:
        x = shape.length - hand_line
        line: tuple[Point, ...] = ((x, 0.0), (x, shape.width_at(x)))
        marks.append(Mark(line, name="hand line", scored=True))
        marks.append(Mark(((x - 9, 4.0),), "HANDS THIS SIDE", 6.0, 1.5707963267948966, "hand line text"))
    if label:
        marks.append(Mark(((shape.nose_flat + 40, 6.0),), label, 6.0, 0.0, "label"))
    marks.append(Mark(((shape.length - 40, shape.heel / 2),), "HEEL", 8.0, 0.0, "heel"))
    return marks


def sled_of(shape: Given) -> Part:
    """The sled of a shape as `shape_of` and `sizes` give it."""
    build: Callable[..., Part] = sled
    return build(**shape)


def shape_of(way: SledWay) -> dict[str, Value]:
    """Sizes, notches and holes of the job's sled; the sheet layer is cut to the same ones."""
    return sizes(way, way.sled)


def layout_on(way: SledWay, real: Sled) -> Layout:
    """Where notches and holes are: as planned on the nominal sled, as they came to lie on the real one."""
    return way.layout if real is way.sled else way.planned


def holes(layout: Layout) -> tuple[Hole, ...]:
    """The handle's and the dowels' holes: (x from the nose, y from the fence edge, diameter) [mm]."""
    handle = [(x, y, 2 * layout.handle_radius) for x, y in layout.handle_holes]
    return (*handle, *((x, y, 2 * layout.dowel_radius) for x, y in layout.dowels))


def sizes(way: SledWay, real: Sled) -> dict[str, Value]:
    """Parameters for a sled of the given shape with the job's layout on it."""
    layout, job = layout_on(way, real), way.job
    say = drawn_in(job.units)
    return {
        "length": real.length,
        "heel": real.heel,
        "nose": real.nose,
        "thickness": real.thickness,
        "nose_flat": real.nose_flat,
        "web": float(job.sled.web),
        "notch_length": float(job.sled.notch_length),
        "notch_width": float(job.sled.notch_width),
        "stations": tuple(n.station for n in layout.notches),
        "holes": holes(layout),
        "hand_line": layout.hand_line,
        "label": f"slope {one_to(real.ratio)}, fence {say(way.fence)}, blade {say(way.blade.height)}",
    }
