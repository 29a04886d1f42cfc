"""The set-up at the saw as data: table, fence, blade, riving knife, sled, work, clamps and offcut, state by state.

Saw frame: the blade's axis at x = 0 with x along the feed (away from the operator), the fence's face at y = 0 with y
towards the blade, the table's top at z = 0. `fence_side = "left"` is the mirror image y -> -y. In a state the heel
stands at x = T, the travel; everything that runs with the sled is described in the sled's own frame (nose at x = 0)
and moved by T - L. All lengths mm.

What the job says nothing about (width of the table, thickness of fence, bar and knife's body) is drawn at a usual size
and is never used in a number.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scarfwright.models.cut.colours import BLADE, CLAMP, FENCE, IN_THE_WAY, KNIFE, OFFCUT, SLED, TABLE, WORK
from scarfwright.models.flat.loop import Loop, Point, Vertex, circle, polygon, rectangle
from scarfwright.models.job.board import board_length
from scarfwright.models.lengths.length import round_up
from scarfwright.models.part.part import Part
from scarfwright.models.sled.layout import ClampPlace, pad_lower_edge
from scarfwright.models.sled.shape import shape_of, sled
from scarfwright.models.sled.way import SledWay

Place = tuple[float, float, float]

TABLE_THICKNESS = 30.0
TABLE_BESIDE = 260.0  # table shown on the free side of the blade
FENCE_THICKNESS = 60.0
BAR_THICKNESS = 12.0
KNIFE_GAP = 5.0  # blade to riving knife, within 3 to 8: EN 1870 series
KNIFE_BELOW = 5.0  # top of the knife below the blade's top, at least 2: EN 1870 series
KNIFE_BODY = 35.0
KNIFE_FOOT = 15.0  # knife and blade slot seen below the table's top
SLOT_ROOM = 6.0
LEAST_SEEN = 0.01  # thinner than this an offcut is no body
ARBOR = 30.0  # bore of the blade, as drawn
BETWEEN_STATES = 150.0


@dataclass(frozen=True)
class Block:
    """A loop drawn along an axis from `start` to `end`, turned about z [rad], then moved [mm].

    axis "z": the loop is (x, y); "y": it is (x, z); "x": it is (y, z). `less` is taken away.
    """

    loop: Loop
    axis: str
    start: float
    end: float
    holes: tuple[Loop, ...] = ()
    turn: float = 0.0
    move: Place = (0.0, 0.0, 0.0)
    less: Block | None = None

    def mirrored(self) -> Block:
        """The mirror image y -> -y."""
        flip = {"x": _mirrored_first, "y": lambda loop: loop, "z": Loop.mirrored_y}[self.axis]
        across = self.axis == "y"
        x, y, z = self.move
        return replace(
            self,
            loop=flip(self.loop),
            holes=tuple(flip(hole) for hole in self.holes),
            start=-self.end if across else self.start,
            end=-self.start if across else self.end,
            turn=-self.turn,
            move=(x, -y, z),
            less=None if self.less is None else self.less.mirrored(),
        )


@dataclass(frozen=True)
class Piece:
    """A named, coloured thing of a state, moved along the feed by `along` [mm].

    `form` tells apart what has one name and not one shape: some readers take parts of one name for one part.
    """

    name: str
    colour: str
    shape: Block | Part
    along: float = 0.0
    form: str = ""

    @property
    def full_name(self) -> str:
        return f"{self.name}_{self.form}" if self.form else self.name


@dataclass(frozen=True)
class State:
    """The set-up at one travel [mm]; `reached` is False where a clamp or the board stops the sled before it."""

    name: str
    travel: float
    reached: bool
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class Scene:
    """The states in the order the cut passes them, drawn side by side `pitch` apart [mm]."""

    states: tuple[State, ...]
    pitch: float


def setup_scene(way: SledWay) -> Scene:
    """The set-up at start, offcut free, done, clear and limit.

    Where a clamp meets the blade before the blade is clear (the usual case when the cut ends against a stop), the
    state is called clear_not_reached and that clamp shows in another colour. Without anything that limits the
    travel there is no state limit, and none called offcut_free where the kerf takes all of a thin board.
    """
    limit, travel = way.travel_limit, way.travel
    stations = [("clear", travel.clear)] + ([] if limit is None else [("limit", limit)])
    stations.sort(key=lambda s: s[1])
    states = [
        _state(way, name, at)
        for name, at in [
            ("start", travel.start),
            *([("offcut_free", travel.offcut_free)] if has_offcut(way) else []),
            ("done", travel.done),
            *stations,
        ]
    ]
    if way.job.saw.fence_side == "left":
        states = [_mirrored(state) for state in states]
    return Scene(tuple(states), _pitch(way))


def _state(way: SledWay, name: str, travel: float) -> State:
    limit = way.travel_limit
    reached = limit is None or travel <= limit + 1e-9
    along = travel - way.sled.length
    pieces = [*_saw(way), Piece("sled", SLED, sled(**shape_of(way)), along)]
    pieces.append(_work_at(way, travel, along))
    if travel >= way.travel.offcut_free and has_offcut(way):
        # it stays where it fell until the blade stands
        pieces.append(Piece("offcut", OFFCUT, _offcut(way), way.travel.offcut_free - way.sled.length))
    pieces += [_clamp_piece(way, place, travel, along) for place in way.layout.clamps]
    return State(name if reached else f"{name}_not_reached", travel, reached, tuple(_unique(pieces)))


def _unique(pieces: list[Piece]) -> list[Piece]:
    """Extra clamps get a number each."""
    names = [piece.name for piece in pieces]
    counts: dict[str, int] = {}
    found = []
    for piece in pieces:
        if names.count(piece.name) > 1:
            counts[piece.name] = counts.get(piece.name, 0) + 1
            piece = replace(piece, name=f"{piece.name}_{counts[piece.name]}")
        found.append(piece)
    return found


def _mirrored(state: State) -> State:
    pieces = tuple(
        replace(p, shape=p.shape.mirrored_y() if isinstance(p.shape, Part) else p.shape.mirrored())
        for p in state.pieces
    )
    return replace(state, pieces=pieces)


def _pitch(way: SledWay) -> float:
    """States stand far enough apart that neither tables nor a long board's tail meet."""
    tail = way.sled.at_work_edge(board_length(way.job), 0.0)[1]
    low = min(_table_edge(), tail)
    high = way.fence + way.blade.kerf + TABLE_BESIDE
    return round_up(high - low + BETWEEN_STATES, 50.0)


# -- the saw -------------------------------------------------------------------------------------------------


def _table_edge() -> float:
    return -2 * FENCE_THICKNESS


def _saw(way: SledWay) -> list[Piece]:
    saw, blade = way.job.saw, way.blade
    front, back = -float(saw.table_front), float(saw.table_back)
    fence = rectangle(-saw.fence_front, -FENCE_THICKNESS, saw.fence_front + back, FENCE_THICKNESS)
    disc = circle(0.0, -blade.axis_depth, blade.radius)
    bore = circle(0.0, -blade.axis_depth, ARBOR / 2)
    near, far = way.fence, way.fence + blade.kerf
    middle, half = (near + far) / 2, saw.riving_knife / 2
    table = rectangle(front, _table_edge(), back - front, far + TABLE_BESIDE - _table_edge())
    knife = _knife(way)
    below = blade.reach(-min(TABLE_THICKNESS, blade.axis_depth))  # the blade is longer at the table's underside
    slot_front = max(-below - SLOT_ROOM, front + SLOT_ROOM)
    slot_back = min(max(knife.bounds[2], below) + SLOT_ROOM, back - SLOT_ROOM)
    slot = rectangle(slot_front, near - SLOT_ROOM, slot_back - slot_front, far - near + 2 * SLOT_ROOM)
    return [
        Piece("table", TABLE, Block(table, "z", -TABLE_THICKNESS, 0.0, holes=(slot,))),
        Piece("fence", FENCE, Block(fence, "z", 0.0, float(saw.fence_height))),
        Piece("blade", BLADE, Block(disc, "y", near, far, holes=(bore,))),
        *([Piece("riving_knife", KNIFE, Block(knife, "y", middle - half, middle + half))] if half > 0 else []),
    ]


def _knife(way: SledWay) -> Loop:
    """The riving knife from the side (x, z): a band concentric with the blade behind it, cut off below its top."""
    blade = way.blade
    depth, inner = blade.axis_depth, blade.radius + KNIFE_GAP
    outer = inner + KNIFE_BODY
    top, foot = max(blade.height - KNIFE_BELOW, 1.0), -min(KNIFE_FOOT, TABLE_THICKNESS)

    def on(radius: float, z: float) -> Point:
        return math.sqrt(max(radius**2 - (z + depth) ** 2, 0.0)), z

    def turn(radius: float) -> float:
        return _rise(top + depth, radius) - _rise(foot + depth, radius)

    return Loop(
        (
            Vertex(*on(inner, foot)),
            Vertex(*on(outer, foot), math.tan(turn(outer) / 4)),
            Vertex(*on(outer, top)),
            Vertex(*on(inner, top), -math.tan(turn(inner) / 4)),
        )
    )


def _rise(height: float, radius: float) -> float:
    """Angle above the level through the axis [rad] of a point of a circle at a height over its axis."""
    return math.asin(max(-1.0, min(height / radius, 1.0)))


# -- what lies on the sled, in the sled's frame -----------------------------------------------------------------


def on_board(way: SledWay, u: float, v: float) -> Point:
    """Work frame to the sled's: u from the heel end along the board, v from the face that lies on the sled."""
    return way.sled.at_work_edge(u, -v)


def board_outline(way: SledWay, beside: float | None = None, beyond: bool = False) -> Loop:
    """Outline of the board from above: whole, or up to the plane y = `beside`, or what lies beyond that plane."""
    length, thickness = board_length(way.job), way.joint.thickness
    heel_in, heel_out = on_board(way, 0.0, 0.0), on_board(way, 0.0, thickness)
    tail_out, tail_in = on_board(way, length, thickness), on_board(way, length, 0.0)
    if beside is None:
        return polygon([heel_in, heel_out, tail_out, tail_in])
    sin, cos = math.sin(way.sled.angle), math.cos(way.sled.angle)
    at_end = on_board(way, 0.0, (beside - way.sled.heel) / cos)
    leaves = on_board(way, (way.sled.heel + thickness * cos - beside) / sin, thickness)
    if beyond:
        return polygon([at_end, heel_out, leaves])
    return polygon([heel_in, at_end, leaves, tail_out, tail_in])


def _work_at(way: SledWay, travel: float, along: float) -> Piece:
    """The board as far as it is cut: whole, with the lip that still stands when the offcut drops, or finished."""
    height, near, far = way.joint.height, way.fence, way.fence + way.blade.kerf
    if travel < way.travel.offcut_free:
        return Piece("work", WORK, Block(board_outline(way), "z", 0.0, height), along)
    if travel >= way.travel.done - 1e-9:
        return Piece("work", WORK, Block(board_outline(way, near), "z", 0.0, height), along, "tapered")
    with_lip = Block(board_outline(way, far), "z", 0.0, height, less=_swept(way, travel))
    return Piece("work", WORK, with_lip, along, "with_lip")


def _swept(way: SledWay, travel: float) -> Block:
    """What the blade has been through from the heel to its front at this travel, seen from the side (x, z)."""
    blade, height = way.blade, way.joint.height
    axis = way.sled.length - travel
    low, high = -1.0, min(height + 1.0, (height + blade.height) / 2)
    past_heel = way.sled.length + way.joint.thickness
    turn = _rise(high + blade.axis_depth, blade.radius) - _rise(low + blade.axis_depth, blade.radius)
    side = Loop(
        (
            Vertex(axis - blade.reach(low), low),
            Vertex(past_heel, low),
            Vertex(past_heel, high + 1.0),
            Vertex(axis - blade.reach(high), high + 1.0),  # straight up, where the blade ends level with the work
            Vertex(axis - blade.reach(high), high, math.tan(turn / 4)),  # down the blade's front
        )
    )
    return Block(side, "y", way.fence, way.fence + blade.kerf + 1.0)


def has_offcut(way: SledWay) -> bool:
    """Whether anything is left beyond the kerf at the board's heel end."""
    joint = way.joint
    return (joint.thickness - joint.tip) * math.cos(joint.angle) - way.blade.kerf > LEAST_SEEN


def _offcut(way: SledWay) -> Block:
    return Block(board_outline(way, way.fence + way.blade.kerf, beyond=True), "z", 0.0, way.joint.height)


def _clamp_piece(way: SledWay, place: ClampPlace, travel: float, along: float) -> Piece:
    stopped = place.limit is not None and travel > place.limit + 1e-9
    name = f"{place.where}_clamp"
    return Piece(
        f"{name}_meets_{place.meets}" if stopped else name,
        IN_THE_WAY if stopped else CLAMP,
        _clamp(way, place),
        along,
    )


def _clamp(way: SledWay, place: ClampPlace) -> Block:
    """A clamp from above: two jaws and the bar between them, slid as far towards the heel as its seat lets it."""
    clamp, thickness = way.job.clamp, way.joint.thickness
    low = pad_lower_edge(way.job, way.sled)
    under = low + clamp.throat
    inner = -(place.opening - thickness)
    profile: list[Point] = [
        (inner - clamp.jaw_inner, low),
        (inner, low),
        (inner, under),
        (thickness, under),
        (thickness, low),
        (thickness + clamp.jaw_outer, low),
        (thickness + clamp.jaw_outer, under + BAR_THICKNESS),
        (inner - clamp.jaw_inner, under + BAR_THICKNESS),
    ]
    centre = _heelmost(way, place)
    x, y = way.sled.at_work_edge(centre, 0.0)
    half = clamp.pad_width / 2
    return Block(polygon(profile), "x", -half, half, turn=way.sled.angle, move=(x, y, 0.0))


def _heelmost(way: SledWay, place: ClampPlace) -> float:
    """Station of a clamp's middle when it is slid as far towards the heel as its seat lets it.

    In a slot with round ends a jaw's square corners stop where the straight part ends. On the nose flat the jaw,
    square to the flat, stops with its side at the foot of the step, which is square to the fence edge.
    """
    asked, sled, pad = way.job.sled, way.sled, way.job.clamp.pad_width
    if place.where != "nose_flat":
        return place.station - max(asked.notch_length - asked.notch_width - pad, 0.0) / 2
    foot = sled.flat_step * math.tan(sled.angle)
    return sled.station_of_x(sled.nose_flat - foot, sled.across_nose) + pad / 2


def _mirrored_first(loop: Loop) -> Loop:
    """Mirror image in the first coordinate, running the same way round again."""
    return Loop(tuple(Vertex(-v.x, v.y, -v.bulge) for v in loop.vertices)).reversed()
