"""Dimensions and names on the set-up card's views."""

from __future__ import annotations

import math
from dataclasses import replace

from scarfwright.models.cut.scene import FENCE_THICKNESS, TABLE_THICKNESS
from scarfwright.models.flat.loop import Point
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import arrow, linear, pointed, running
from scarfwright.outputs.drawing.display import CENTRE, OUTLINE, Item, Pen, Text, line
from scarfwright.outputs.drawing.placing import Place, Room, along
from scarfwright.outputs.setup_card.frame import FREE_STRIP, Frame

LABEL = 3.0
STEP = 5.0  # from one dimension line to the next
ARROW_ROOM = 4.0  # for a head inside a dimension [page mm]
TO_FIGURE = 5.6  # from the side view to the figure right of it [page mm]
LIMIT = "LIMIT"
HAND = Pen(0.4, "#b00000")
STRONG = (LIMIT, "stop block")


def marks(work: Workup, frame: Frame) -> list[Item]:
    """Every dimension of both views."""
    return [
        *_from_front_edge(work, frame),
        *_fence_setting(work, frame),
        *_stations(work, frame),
        *_blade_height(work, frame),
        *_travels(work, frame),
    ]


def stops(work: Workup) -> list[tuple[float, str]]:
    """Stations of the cut past the axis that concern the ending asked for, in order."""
    travel, limit = work.way.travel, work.way.travel_limit
    found = [(travel.offcut_free, "offcut drops"), (travel.done, "taper complete")]
    if work.job.saw.end_of_cut == "run_on":
        found.append((travel.clear, "blade clear"))
    if limit is not None:
        found.append((limit, LIMIT))
    return [(at, name) for at, name in found if at > 0]


def from_front_edge(work: Workup) -> list[tuple[float, str]]:
    """What is measured from the table's front edge, nearest first."""
    say, advice = drawn_in(work.job.units), work.cut.advice
    front = float(work.job.saw.table_front)
    return [
        (advice.start.from_front, f"heel at the start {say(advice.start.from_front)}"),
        (front, f"blade's centre {say(front)}"),
        (advice.stop.from_front, f"stop block {say(advice.stop.from_front)}"),
    ]


def _from_front_edge(work: Workup, frame: Frame) -> list[Item]:
    """On the fence's side, all from the table's front edge."""
    view = frame.plan
    front = -float(work.job.saw.table_front)
    zero = view.point((front, -frame.out * FENCE_THICKNESS))
    lengths = [(view.length(at), text) for at, text in from_front_edge(work)]
    return _ladder(zero, -frame.out, lengths)


def _ladder(zero: Point, up: float, lengths: list[tuple[float, str]]) -> list[Item]:
    """Lengths from one zero, each on its own level, the longest nearest the view, `up` +1 or -1 up the page.

    The figures stand left of the zero line, where no line crosses them.
    """
    x, base = zero
    items: list[Item] = [line([(x, base + up * 0.8), (x, base + up * (STEP * len(lengths) + 0.8))])]
    for level, (length, text) in enumerate(reversed(lengths), 1):
        y, tip = base + up * STEP * level, x + length
        if length > ARROW_ROOM:
            items += [line([(x, y), (tip, y)]), arrow((tip, y), (1.0, 0.0))]
        else:  # no room for a head between: it points in from beyond, away from the figure
            items += [line([(x, y), (tip + ARROW_ROOM, y)]), arrow((tip, y), (-1.0, 0.0))]
        items.append(line([(tip, base + up * 0.8), (tip, y + up * 0.8)]))
        items.append(Text(x - 1.5, y - 0.27 * LABEL, text, LABEL, "end", bold=text.startswith(STRONG)))
    return items


def _fence_setting(work: Workup, frame: Frame) -> list[Item]:
    """Fence to the blade's near face, beside the plan."""
    say, view = drawn_in(work.job.units), frame.plan
    x = view.point((frame.high, 0.0))[0]
    low, high = sorted(view.point((0.0, frame.out * y))[1] for y in (0.0, work.way.fence))
    *items, _ = linear((x, low), (x, high), (x + 3.5, low), "", "vertical", beside="right")
    at = (x + 4.7 + LABEL, (low + high) / 2)
    return [*items, Text(*at, f"fence {say(work.way.fence)}", LABEL, "middle", math.pi / 2, bold=True)]


def _stations(work: Workup, frame: Frame) -> list[Item]:
    """Clamps from the heel along the work edge, on the free side; those out of the picture are left to the list."""
    say, view, sled = drawn_in(work.job.units), frame.plan, work.way.sled
    travel = frame.state.travel

    def on_page(station: float, beyond: float) -> Point:
        px, py = sled.at_work_edge(station, -beyond)
        return view.point((px + travel - sled.length, frame.out * py))

    shown = [c for c in work.way.layout.clamps if travel - c.station * math.cos(sled.angle) > frame.low]
    corner, further = on_page(0.0, 0.0), on_page(100.0, 0.0)
    length = math.dist(corner, further)
    u = ((further[0] - corner[0]) / length, (further[1] - corner[1]) / length)
    n = (u[1] * frame.out, -u[0] * frame.out)
    feet = [(on_page(c.station, work.joint.thickness + work.job.clamp.jaw_outer), say(c.station)) for c in shown]
    if not feet:
        return []
    rail = (work.joint.thickness + 45.0) / view.scale + 3.0
    room = Room(frame.area)
    room.take(_table_edges(work, frame))
    places: list[Place] = []
    for more in (
        0.0,
        1.0,
        -1.0,
        2.0,
        -2.0,
        3.0,
        -3.0,
        4.0,
        5.0,
        6.0,
        8.0,
        10.0,
        12.0,
    ):  # until no figure lies on an edge of the table
        zero = (corner[0] + n[0] * (rail + more), corner[1] + n[1] * (rail + more))
        places.append([line([corner, zero]), *running(zero, u, n, feet, size=LABEL)])
    return list(room.put(places))


def _table_edges(work: Workup, frame: Frame) -> list[Item]:
    """The table's edges in the plan."""
    saw, view = work.job.saw, frame.plan
    free = frame.out * (work.way.fence + work.joint.thickness + FREE_STRIP)
    low, high = -float(saw.table_front), float(saw.table_back)
    corners = [(low, 0.0), (low, free), (high, free), (high, 0.0)]
    return [line([view.point(p) for p in corners])]


def beside(work: Workup) -> float:
    """The room that the figure of the blade's height takes right of the side view [page mm]."""
    return TO_FIGURE + max(Text(0, 0, text, LABEL, bold=True).width for text in _height_told(work)) + 1.0


def _height_told(work: Workup) -> tuple[str, str]:
    return "blade", drawn_in(work.job.units)(work.way.blade.height)


def _blade_height(work: Workup, frame: Frame) -> list[Item]:
    """Beside the side view."""
    view = frame.side
    x, base = view.point((frame.high, 0.0))
    top = view.point((0.0, work.way.blade.height))
    *items, _ = linear((x, base), (x, top[1]), (x + 3.5, base), "", "vertical", beside="right")
    items.append(line([top, (x, top[1])], CENTRE))
    for row, text in enumerate(_height_told(work)):
        items.append(Text(x + TO_FIGURE, (base + top[1]) / 2 + 0.4 - row * LABEL * 1.2, text, LABEL, bold=True))
    return items


def _travels(work: Workup, frame: Frame) -> list[Item]:
    """Under the side view: the heel's travel past the blade's axis at each station."""
    say, view = drawn_in(work.job.units), frame.side
    axis, base = view.point((0.0, -TABLE_THICKNESS))
    lengths = [
        (view.length(at), f"{name} {say.down(at) if name == LIMIT else say(at)}")
        for at, name in stops(work)
        if at <= frame.high
    ]
    name = Text(axis + 1.5, base - STEP * (len(lengths) + 0.85), "travel of the heel past the blade's centre", LABEL)
    right = frame.area[0] + frame.area[2] - 1.5  # under every line of the ladder: it may begin further left
    return [
        line([view.point((0.0, work.way.blade.height)), (axis, base)], CENTRE),
        *_ladder((axis, base), -1.0, lengths),
        replace(name, x=min(name.x, right - name.width)),
    ]


def labels(work: Workup, frame: Frame) -> list[list[Place]]:
    """Names of things with the places each may take, best first."""
    view, out, saw = frame.plan, frame.out, work.job.saw
    travel, offcut = frame.state.travel, work.cut.advice.offcut
    front, back = -float(saw.table_front), float(saw.table_back)
    outer = work.way.fence + work.joint.thickness

    def at(x: float, y: float) -> Point:
        return view.point((x, out * y))

    def level(x0: float, x1: float, y: float, text: str, *, bold: bool = False) -> list[Place]:
        """Places along the feed at which the text stays between two x, if there is room for it."""
        half = Text(0, 0, text, LABEL, bold=bold).width / 2 * view.scale
        if x1 - x0 <= 2 * half:
            return []
        return along(at(x0 + half, y), at(x1 - half + 1e-3, y), text, 0.0, size=LABEL, bold=bold)

    # along the free edge, the table before the blade first
    reach = frame.high - 18.0 * view.scale - front
    xs = [front + share * reach for share in (0.05, *(i / 15 for i in range(-3, 16)))]
    ys = [*(outer + 45.0 - step * view.scale for step in (2.2, 3.6, 5.0)), outer + 12.0, 0.5 * work.way.sled.nose]
    hand = travel - work.way.layout.hand_line
    wide = max(work.way.sled.width_at(work.way.sled.length - work.way.layout.hand_line), 0.0)
    led = list(pointed([at(hand, wide), at(hand, 0.5 * wide)], "HANDS on your side of this line", size=LABEL))
    ways = [_from_the_line(at(hand, share * wide)) for share in (0.3, 0.7, 0.5, 0.15)]
    blade = [
        at(share * work.way.blade.reach(0.0), work.way.fence + work.way.blade.kerf) for share in (-0.6, -0.3, -0.9)
    ]
    wedge = [at(work.way.travel.offcut_free - offcut.length * along_it, outer - 3.0) for along_it in (0.1, 0.25)]
    side = f"FREE SIDE, {offcut.side}"
    falls = [
        place
        for text in (f"{side}: the offcut falls here", side)
        for place in pointed(wedge, text, size=LABEL, bold=True)
    ]
    return [
        level(-float(saw.fence_front), back, -FENCE_THICKNESS / 2, "FENCE", bold=True),
        level(travel, travel + 60.0, work.way.sled.heel / 3, "STOP")
        or list(pointed([at(travel + 55.0, work.way.sled.heel / 3)], "stop", size=LABEL)),
        _outward(falls, at(0.0, outer), out),
        list(pointed(blade, "blade", size=LABEL)),
        _outward(led, at(hand, wide), out),
        ways if hand - ARROW_OUT * view.scale > frame.low else [],
        _feed([at(x, y) for y in ys for x in xs]),
    ]


ARROW_OUT = 7.0  # from the hand line towards the hands [page mm]


def _from_the_line(start: Point) -> Place:
    """An arrow from the hand line to where the hands go."""
    tip = (start[0] - ARROW_OUT, start[1])
    head = arrow(tip, (-1.0, 0.0), 3.0)
    return [line([start, (tip[0] + 2.0, tip[1])], HAND, "hands go here"), replace(head, fill=HAND.colour)]


def _outward(places: list[Place], edge: Point, out: float) -> list[Place]:
    """Places whose text stands beyond the work edge, on the free side, before the others."""

    def inward(place: Place) -> bool:
        return any(isinstance(item, Text) and (item.y - edge[1]) * out < 2.0 for item in place)

    return sorted(places, key=inward)


def _feed(places: list[Point]) -> list[Place]:
    """An arrow along the feed with its name over it."""
    found: list[Place] = []
    for x, y in places:
        name = Text(x, y + 1.2, "FEED", LABEL, bold=True)
        found.append([line([(x, y), (x + 10.0, y)], OUTLINE), arrow((x + 12.5, y), (1, 0), 3.5), name])
    return found
