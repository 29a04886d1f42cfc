"""Parts as solids: the one room of the models that imports the CAD kernel, and only inside functions."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from scarfwright.models.flat.loop import Loop
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.printing.bed import height
from scarfwright.models.printing.laying import FilledBed, Laid
from scarfwright.models.sheets.layout import SheetPlan


def load_kernel() -> None:
    """Load the CAD kernel now: it takes seconds, and must not be cut short."""
    import cadquery  # noqa: F401


@dataclass(frozen=True)
class Body:
    """A named, coloured solid (`shape` is a cadquery Shape, mm)."""

    name: str
    shape: Any
    colour: str


@dataclass(frozen=True)
class Placed:
    """A body moved by `at` [mm]; bodies that share a shape share it in the file."""

    body: Body
    at: tuple[float, float, float]


@dataclass(frozen=True)
class Group:
    """Placed bodies under one name, moved together by `at` [mm]; `numbers` are told where the format has room."""

    name: str
    at: tuple[float, float, float]
    placed: tuple[Placed, ...]
    numbers: dict[str, float]


@dataclass(frozen=True)
class Assembly:
    """Groups of bodies under one name."""

    name: str
    groups: tuple[Group, ...]


def solid(part: Part) -> Any:
    """The part's solid: plate with holes, pockets cut from the top, raised material fused on.

    Returns a cadquery Solid (one body). Raises ValueError if the result is not one valid solid.
    """
    count, shape = _shape(replace(part, name="", title="", marks=(), use="", colour=""))
    if shape is None:
        raise ValueError(f"{part.name}: the shapes give {count} bodies, expected one valid solid")
    return shape


@lru_cache(maxsize=64)
def _shape(part: Part) -> tuple[int, Any]:
    """Number of bodies, and the solid if it is one and valid; the same shape under another name is not built again."""
    import cadquery as cq

    through = [f.loop for f in part.features if f.through]
    body: Any = prism(part.outline, 0.0, part.thickness, through)
    top = part.thickness
    pockets = [
        prism(f.loop, top - f.depth, top + 1.0, list(f.islands))
        for f in part.features
        if f.depth is not None and f.operation is not Operation.SCORE
    ]
    if pockets:
        # all at once: one after the other each letter of a label would have the kernel look at the whole body again
        body = body.cut(*pockets)
    if part.raised:
        # parts that meet over a whole face fuse into one; cleaned so that no seam is left on the sides
        body = body.fuse(*[prism(r.loop, r.bottom, r.top) for r in part.raised]).clean()
    solids = body.Solids()
    if len(solids) != 1 or not solids[0].isValid():
        return len(solids), None
    assert isinstance(solids[0], cq.Solid)
    return 1, solids[0]


def laid_body(laid: Laid) -> Body:
    """A part as it lies on the bed."""
    import cadquery as cq

    shape = solid(laid.part)
    flat, upright = cq.Vector(0, 0, 0), cq.Vector(0, 0, 1)
    if laid.turned_over:
        over = cq.Location(flat, cq.Vector(1, 0, 0), 180)
        shape = shape.moved(cq.Location(cq.Vector(0, 0, height(laid.part))) * over)
    shape = shape.moved(cq.Location(flat, upright, math.degrees(laid.angle)))
    return Body(laid.name, shape.moved(cq.Location(cq.Vector(*laid.shift, 0))), laid.part.colour)


def prism(loop: Loop, bottom: float, top: float, holes: list[Loop] | None = None) -> Any:
    """A loop drawn up from height `bottom` to `top` [mm], with holes right through."""
    import cadquery as cq

    face = cq.Face.makeFromWires(wire(loop), [wire(hole) for hole in holes or []])
    return cq.Solid.extrudeLinear(face, cq.Vector(0, 0, top - bottom)).moved(cq.Location(cq.Vector(0, 0, bottom)))


def wire(loop: Loop) -> Any:
    """A closed wire of exact lines and arcs at z = 0."""
    import cadquery as cq

    round_one = loop.circle
    if round_one is not None:
        (x, y), radius = round_one
        return cq.Wire.makeCircle(radius, cq.Vector(x, y, 0), cq.Vector(0, 0, 1))
    edges = []
    for edge in loop.edges():
        start, end = cq.Vector(*edge.start, 0), cq.Vector(*edge.end, 0)
        if edge.bulge == 0:
            edges.append(cq.Edge.makeLine(start, end))
        else:
            edges.append(cq.Edge.makeThreePointArc(start, cq.Vector(*edge.middle, 0), end))
    return cq.Wire.assembleEdges(edges)


def bodies(thing: Part | SheetPlan | Laid | FilledBed) -> list[Body]:
    """The named solids of a part, of everything placed on a plank or sheet, or of what lies on a printer's bed."""
    if isinstance(thing, Laid):
        return [laid_body(thing)]
    if isinstance(thing, FilledBed):
        return [laid_body(laid) for laid in thing.laid]
    parts = thing.placed if isinstance(thing, SheetPlan) else (thing,)
    return [Body(part.name, solid(part), part.colour) for part in parts]
