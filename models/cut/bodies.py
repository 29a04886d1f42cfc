"""The set-up for a picture that moves: what stands with the saw, what runs with the sled, what falls off it.

What stands is in the saw's frame of scene.py. What runs with the sled, the offcut too, is moved along the feed so that
the heel lies at x = 0: at a travel T it stands at x + T. `fence_side = "left"` is the mirror image. All lengths mm.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace

from scarfwright.models.cut.colours import BLADE, HAND_LINE, NEXT, OFFCUT, SLOT, STOP_BLOCK, WORK
from scarfwright.models.cut.endings import bounds, stop_block
from scarfwright.models.cut.scene import TABLE_THICKNESS, Block, Piece, board_outline, has_offcut, on_board, setup_scene
from scarfwright.models.flat.loop import Loop, Point, Vertex, polygon, rectangle
from scarfwright.models.flat.room import between, inside_by
from scarfwright.models.job.board import board_length
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.sled.way import SledWay
from scarfwright.models.triangles.mesh import Mesh
from scarfwright.models.triangles.prism import prism

BLOCK_LONG = 60.0  # stop block, as drawn [mm]
LINE_WIDE, LINE_PROUD = 3.0, 0.3  # the hand line, as drawn on the sled's top [mm]


@dataclass(frozen=True)
class Moving:
    """A thing of the picture: what it is (`role`), whether it stands with the "saw", runs with the "sled" or is the
    "offcut"; and its shape."""

    role: str
    goes_with: str
    piece: Piece


@dataclass(frozen=True)
class Hinge:
    """The lower outer edge of the offcut, over which it falls to the free side: from the heel end `start` to its thin
    `end` (x, y), the way out from the blade, a unit vector `out`, and how `thick` it is at the heel end [mm]."""

    start: Point
    end: Point
    out: Point
    thick: float


def moving_setup(way: SledWay) -> tuple[Moving, ...]:
    """Table, fence, riving knife, blade, its slot, stop block, sled, hand line, the board in three (what stays, the
    kerf, the offcut) and the clamps; the one that would be the first in the way is "next"."""
    state = setup_scene(way).states[0]
    length = way.sled.length
    clamps = [p for p in state.pieces if "clamp" in p.name]
    standing = [p for p in state.pieces if p.name in ("table", "fence", "riving_knife")]
    found = [Moving(p.name, "saw", p) for p in standing]
    found.append(Moving("blade", "saw", _sided(way, _seen_blade(way))))
    found += [Moving("slot", "saw", _under_slot(p)) for p in standing if p.name == "table"]
    found.append(Moving("stop_block", "saw", _sided(way, Piece("stop_block", STOP_BLOCK, _stop_block(way)))))
    found += [Moving("sled", "sled", replace(p, along=-length)) for p in state.pieces if p.name == "sled"]
    line = hand_line(way)
    if line is not None:
        found.append(Moving("hand_line", "sled", _sided(way, line)))
    found += [Moving(p.name, "offcut" if p.name == "offcut" else "sled", _sided(way, p)) for p in _board(way)]
    first = _first_in_the_way(way)
    for place, piece in zip(way.layout.clamps, clamps, strict=True):
        nearest = first == (place.where, place.station)
        colour = NEXT if nearest else piece.colour
        found.append(Moving("next" if nearest else "clamp", "sled", replace(piece, colour=colour, along=-length)))
    return tuple(found)


def drawable(way: SledWay) -> bool:
    """Whether every thing of the set-up is a body: the openings of the sled lie inside it and apart from each other,
    and the taper ends on the board. Of a job without faults all are."""
    openings = [shape for _, shape in way.layout.capsules(way.sled)]
    corners = way.sled.corners()
    whole = all(inside_by(one, corners) > 0 for one in openings)
    apart = all(between(one, other) > 0 for one, other in itertools.combinations(openings, 2))
    return whole and apart and 0 < way.joint.taper_run < board_length(way.job)


def mesh_of(piece: Piece, sagitta: float) -> Mesh:
    """A piece as triangles where it stands, arcs cut into chords no further than `sagitta` [mm] from them.

    Raises ValueError for a block of which another is taken away, and for shapes that are no closed body.
    """
    shape = piece.shape
    if isinstance(shape, Part):
        through = [f.loop for f in shape.features if f.through and f.operation is not Operation.CUT_OUTSIDE]
        return prism(shape.outline, 0.0, shape.thickness, through, sagitta).moved(piece.along)
    if shape.less is not None:
        raise ValueError("a block that another is taken from is no prism")
    mesh = prism(shape.loop, shape.start, shape.end, shape.holes, sagitta)
    if shape.axis != "z":
        mesh = mesh.laid_along_x() if shape.axis == "x" else mesh.laid_along_y()
    if shape.turn:
        mesh = mesh.turned(shape.turn)
    x, y, z = shape.move
    return mesh.moved(x + piece.along, y, z)


def stop_block_outline(way: SledWay) -> Loop:
    """The stop block from above, two thirds of the heel wide, against the fence on the right [mm]."""
    return rectangle(stop_block(way).from_axis, 0.0, BLOCK_LONG, way.sled.heel * 2 / 3)


def hinge(way: SledWay) -> Hinge | None:
    """Where the offcut falls over, heel at x = 0; None where the kerf leaves no offcut."""
    if not has_offcut(way):
        return None
    side = _side(way)
    inner, start, end = (v.point for v in _beyond_kerf(way).vertices)
    length, sin = way.sled.length, math.sin(way.sled.angle)
    return Hinge(
        start=(start[0] - length, side * start[1]),
        end=(end[0] - length, side * end[1]),
        out=(-sin, side * math.cos(way.sled.angle)),
        thick=math.dist(inner, start),
    )


def hand_line(way: SledWay) -> Piece | None:
    """The hand line on the sled's top, heel at x = 0; None where it lies beyond the nose."""
    x, sled = -way.layout.hand_line, way.sled
    wide = sled.width_at(sled.length + x)
    if not 0 < way.layout.hand_line < sled.length:
        return None
    strip = Block(rectangle(x, 0.0, LINE_WIDE, wide), "z", sled.thickness, sled.thickness + LINE_PROUD)
    return Piece("hand_line", HAND_LINE, strip)


def _board(way: SledWay) -> list[Piece]:
    """What stays of the board, what the kerf takes, and the offcut, heel at x = 0."""
    height, along = way.joint.height, -way.sled.length
    end = on_board(way, 0.0, (way.fence - way.sled.heel) / math.cos(way.sled.angle))
    leaves = board_outline(way, way.fence).vertices[2].point
    if has_offcut(way):
        first, _, last = (v.point for v in _beyond_kerf(way).vertices)
        slab = polygon([end, first, last, leaves])
    else:
        slab = polygon([end, on_board(way, 0.0, way.joint.thickness), leaves])
    found = [
        Piece("work", WORK, Block(board_outline(way, way.fence), "z", 0.0, height), along),
        Piece("kerf", WORK, Block(slab, "z", 0.0, height), along),
    ]
    if has_offcut(way):
        found.append(Piece("offcut", OFFCUT, Block(_beyond_kerf(way), "z", 0.0, height), along))
    return found


def _beyond_kerf(way: SledWay) -> Loop:
    """The offcut from above, in the sled's frame: inner corner at the heel end, outer corner there, thin end."""
    return board_outline(way, way.fence + way.blade.kerf, beyond=True)


def _side(way: SledWay) -> float:
    return -1.0 if way.job.saw.fence_side == "left" else 1.0


def _seen_blade(way: SledWay) -> Piece:
    """What of the blade stands over the table's underside; the rest hangs in the saw, out of sight."""
    blade = way.blade
    low = max(-TABLE_THICKNESS, -blade.axis_depth - 0.9 * blade.radius)
    half = blade.reach(low)
    turn = 2 * math.atan2(half, low + blade.axis_depth)  # of the arc over the chord at that height
    side = Loop((Vertex(-half, low), Vertex(half, low, math.tan(turn / 4))))
    return Piece("blade", BLADE, Block(side, "y", way.fence, way.fence + blade.kerf))


def _under_slot(table: Piece) -> Piece:
    """What is seen through the blade's slot in the table: the dark."""
    shape = table.shape
    assert isinstance(shape, Block)
    return Piece("slot", SLOT, Block(shape.holes[0], "z", shape.start, shape.start + LINE_PROUD))


def _stop_block(way: SledWay) -> Block:
    return Block(stop_block_outline(way), "z", 0.0, way.sled.thickness)


def _first_in_the_way(way: SledWay) -> tuple[str, float | None]:
    every = [b for b in bounds(way) if b.station is not None]
    return (every[0].where, every[0].station) if every else ("", None)


def _sided(way: SledWay, piece: Piece) -> Piece:
    """As the fence stands: mirrored for one on the left."""
    assert isinstance(piece.shape, Block)
    return piece if _side(way) > 0 else replace(piece, shape=piece.shape.mirrored())
