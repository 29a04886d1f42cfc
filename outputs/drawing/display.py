"""A drawing as a display list: sheets of paper that hold paths, texts and clipped groups, ready for any writer.

Everything on a sheet is in page mm, the origin at its lower left corner, y up, angles in radians counter-clockwise.
A `View` carries model mm to page mm at a drawing scale. Arcs stay exact: a path is made of vertices with bulges, as
models.outline has them. One sheet is one page; a document is a list of sheets. Nothing here knows what is drawn, so
a full-size template, clipped tile by tile at 1:1, is a sheet like any other.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from scarfwright.models.flat.loop import Edge, Loop, Point, Vertex
from scarfwright.outputs.drawing import lettering

Anchor = Literal["start", "middle", "end"]
ASCENT, DESCENT = 0.76, 0.22  # of the text size: what capitals and tails reach in the font the PDF embeds
A4 = (297.0, 210.0)  # landscape; ISO 216


@dataclass(frozen=True)
class Pen:
    """How a line is drawn: width and dashes in page mm."""

    width: float = 0.18
    colour: str = "#000000"
    dash: tuple[float, ...] = ()


OUTLINE = Pen(0.5)
EDGE = Pen(0.3)
THIN = Pen(0.18)
CENTRE = Pen(0.18, dash=(5.0, 1.0, 0.8, 1.0))
PHANTOM = Pen(0.18, "#555555", (2.0, 1.0))
GREY = Pen(0.18, "#777777")


@dataclass(frozen=True)
class Path:
    """One run of lines and arcs [page mm]; the last vertex joins the first if `closed`."""

    vertices: tuple[Vertex, ...]
    closed: bool = False
    pen: Pen | None = THIN
    fill: str | None = None
    name: str = ""

    def edges(self) -> Iterator[Edge]:
        onward = (*self.vertices[1:], self.vertices[0]) if self.closed else self.vertices[1:]
        for here, there in zip(self.vertices, onward, strict=False):
            yield Edge(here.point, there.point, here.bulge)

    def points(self, sagitta: float = 0.05) -> list[Point]:
        """Points along the path, arcs cut into chords no further than `sagitta` [mm] from them."""
        if self.closed:
            return [*Loop(self.vertices).points(sagitta), self.vertices[0].point]
        out: list[Point] = []
        for edge in self.edges():
            steps = 16 if edge.bulge else 1
            out += [edge.point_at(i / steps) for i in range(steps)]
        return [*out, self.vertices[-1].point]


@dataclass(frozen=True)
class Text:
    """One line of text; `size` is the font size [page mm], (x, y) the end of its base line named by `anchor`."""

    x: float
    y: float
    text: str
    size: float = 3.0
    anchor: Anchor = "start"
    angle: float = 0.0
    bold: bool = False
    colour: str = "#000000"
    name: str = ""

    @property
    def width(self) -> float:
        return lettering.width(self.text, self.size, self.bold)

    def box(self, room: float = 0.0) -> list[Point]:
        """The four corners round the text [page mm], counter-clockwise, `room` wider on every side."""
        left = {"start": 0.0, "middle": -0.5, "end": -1.0}[self.anchor] * self.width - room
        right = left + self.width + 2 * room
        bottom, top = -DESCENT * self.size - room, ASCENT * self.size + room
        c, s = math.cos(self.angle), math.sin(self.angle)
        corners = ((left, bottom), (right, bottom), (right, top), (left, top))
        return [(self.x + c * dx - s * dy, self.y + s * dx + c * dy) for dx, dy in corners]


@dataclass(frozen=True)
class Clip:
    """Items of which only what lies inside `window` shows."""

    window: Loop
    items: tuple[Path | Text | Clip, ...]


Item = Path | Text | Clip


@dataclass
class Sheet:
    """One page: its size and margin [mm], a title for the document's properties, and what is drawn on it."""

    title: str
    width: float = A4[0]
    height: float = A4[1]
    margin: float = 8.0
    items: list[Item] = field(default_factory=list)

    def add(self, *items: Item | Iterable[Item]) -> None:
        """Draw items on top of what is there."""
        for item in items:
            if isinstance(item, Path | Text | Clip):
                self.items.append(item)
            else:
                self.items.extend(item)

    def texts(self) -> list[Text]:
        """All texts, those in clipped groups too."""
        return [item for item in flat(self.items) if isinstance(item, Text)]

    def paths(self) -> list[Path]:
        """All paths, those in clipped groups too."""
        return [item for item in flat(self.items) if isinstance(item, Path)]


def flat(items: Iterable[Item]) -> Iterator[Path | Text]:
    """Items with clipped groups opened."""
    for item in items:
        if isinstance(item, Clip):
            yield from flat(item.items)
        else:
            yield item


# -- makers --------------------------------------------------------------------------------------------


def line(points: Iterable[Point], pen: Pen = THIN, name: str = "") -> Path:
    """An open run of straight lines."""
    return Path(tuple(Vertex(x, y) for x, y in points), pen=pen, name=name)


def shape(loop: Loop, pen: Pen | None = THIN, fill: str | None = None, name: str = "") -> Path:
    """A closed loop, arcs kept exact."""
    return Path(loop.vertices, True, pen, fill, name)


def box(x: float, y: float, width: float, height: float, pen: Pen | None = THIN, fill: str | None = None) -> Path:
    """An upright rectangle from its lower left corner."""
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Path(tuple(Vertex(*c) for c in corners), True, pen, fill)


def readable(angle: float) -> float:
    """The angle of text along a line so that it reads from below or from the right: in (-90, 90] degrees."""
    turned = math.remainder(angle, math.tau)
    if turned > math.pi / 2 + 1e-9:
        return turned - math.pi
    if turned <= -math.pi / 2 + 1e-9:
        return turned + math.pi
    return turned


# -- views ---------------------------------------------------------------------------------------------

# Denominators of usual drawing scales (ISO 5455, and some that suit inches).
SCALES = (0.5, 1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 100.0)


@dataclass(frozen=True)
class View:
    """Model mm to page mm: 1:`scale`, the model point `origin` at the page point `at`, turned by `angle` [rad].

    `mirrored` flips y before turning: the same view for a fence on the other side.
    """

    scale: float
    at: Point
    origin: Point = (0.0, 0.0)
    angle: float = 0.0
    mirrored: bool = False

    def length(self, model: float) -> float:
        """A length on the page [mm]."""
        return model / self.scale

    def point(self, p: Point) -> Point:
        dx, dy = (p[0] - self.origin[0]) / self.scale, (p[1] - self.origin[1]) / self.scale
        if self.mirrored:
            dy = -dy
        c, s = math.cos(self.angle), math.sin(self.angle)
        return (self.at[0] + c * dx - s * dy, self.at[1] + s * dx + c * dy)

    def loop(self, loop: Loop) -> Loop:
        sign = -1.0 if self.mirrored else 1.0
        return Loop(tuple(Vertex(*self.point(v.point), sign * v.bulge) for v in loop.vertices))

    def direction(self, dx: float, dy: float) -> Point:
        """A model direction as a unit vector on the page."""
        length = math.hypot(dx, dy)
        x0, y0 = self.point(self.origin)
        x1, y1 = self.point((self.origin[0] + dx / length * self.scale, self.origin[1] + dy / length * self.scale))
        return (x1 - x0, y1 - y0)


def scale_text(scale: float) -> str:
    """ "1:8", or "2:1" for an enlarged detail."""
    return f"1:{scale:g}" if scale >= 1 else f"{1 / scale:g}:1"


def fitting_scale(width: float, height: float, room_x: float, room_y: float, least: float = 0.5) -> float:
    """The largest usual scale at which width x height [model mm] fits room_x x room_y [page mm]; its denominator.

    Beyond the usual scales the next multiple of 100 serves.
    """
    needed = max(width / max(room_x, 1e-6), height / max(room_y, 1e-6), least)
    for scale in SCALES:
        if scale >= needed - 1e-9:
            return scale
    return math.ceil(needed / 100) * 100.0
