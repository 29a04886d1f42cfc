"""The set-up's solids, for the assembly and the 3D model. The kernel is imported only inside functions."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from scarfwright.models.cut.scene import Block, Piece, Scene, State, setup_scene
from scarfwright.models.part.part import Part
from scarfwright.models.solids.solids import Assembly, Body, Group, Placed, prism, solid
from scarfwright.models.workup import Workup


def setup_assembly(work: Workup, name: str) -> Assembly:
    """The set-up as groups of placed bodies, one group a state; what is the same in all of them is one shape."""
    scene = setup_scene(work.way)
    return Assembly(name, tuple(_group(scene, index, state) for index, state in enumerate(scene.states)))


def _group(scene: Scene, index: int, state: State) -> Group:
    placed = tuple(Placed(_body(piece), (piece.along, 0.0, 0.0)) for piece in state.pieces)
    # to the operator's right, so that they read from left to right as seen from the front of the saw
    return Group(f"{index + 1}_{state.name}", (0.0, -index * scene.pitch, 0.0), placed, {"travel_mm": state.travel})


def _body(piece: Piece) -> Body:
    shape = solid(piece.shape) if isinstance(piece.shape, Part) else block_solid(piece.shape)
    return Body(piece.full_name, shape, piece.colour)


@lru_cache(maxsize=64)
def block_solid(block: Block) -> Any:
    """A block as one cadquery Solid. Raises ValueError if it is not one valid solid."""
    import cadquery as cq

    if block.axis == "z":
        shape: Any = prism(block.loop, block.start, block.end, list(block.holes))
    else:
        across = block.axis == "y"
        # local z runs along -y (x, z stay right-handed) or along x
        low, high = (-block.end, -block.start) if across else (block.start, block.end)
        plane = cq.Plane((0, 0, 0), (1, 0, 0), (0, -1, 0)) if across else cq.Plane((0, 0, 0), (0, 1, 0), (1, 0, 0))
        shape = prism(block.loop, low, high, list(block.holes)).moved(cq.Location(plane))
    if block.less is not None:
        shape = shape.cut(block_solid(block.less))
    if block.turn:
        shape = shape.moved(cq.Location(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), math.degrees(block.turn)))
    shape = shape.moved(cq.Location(cq.Vector(*block.move)))
    solids = shape.Solids()
    if len(solids) != 1 or not solids[0].isValid():
        raise ValueError(f"the shapes give {len(solids)} bodies, expected one valid solid")
    return solids[0]
