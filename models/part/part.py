"""A part: flat shapes with a thickness, each marked with what is to be done with it.

One description feeds DXF, drawings and solids alike. The part lies on z = 0; `thickness` is its height. Material
that stands above that plate is added with `Raised`, material taken from its top with POCKET features.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple

from scarfwright.models.flat.loop import Loop, Point, polygon
from scarfwright.models.lengths.length import Unit


class Operation(StrEnum):
    """What a machine does along or inside a loop; SCORE: a line scored lightly, not cut."""

    CUT_OUTSIDE = "CUT_OUTSIDE"
    CUT_INSIDE = "CUT_INSIDE"
    DRILL = "DRILL"
    POCKET = "POCKET"
    SCORE = "SCORE"


class Writing(NamedTuple):
    """Middle [mm] and direction [rad] of the writing a letter belongs to: mirrored, it must stay readable."""

    x: float
    y: float
    angle: float = 0.0


@dataclass(frozen=True)
class Feature:
    """A closed loop and its operation; `depth` [mm] from the top, None for all the way through.

    `islands` are loops inside it that are left standing (the counter of an 0); only where there is a depth.
    """

    operation: Operation
    loop: Loop
    name: str
    depth: float | None = None
    islands: tuple[Loop, ...] = ()
    writing: Writing | None = None
    strokes: tuple[tuple[Point, ...], ...] = ()  # the same as single lines to score, for tools that cut no pocket

    @property
    def area(self) -> float:
        """Inside the loop, less the islands [mm2]."""
        return abs(self.loop.area) - sum(abs(island.area) for island in self.islands)

    @property
    def through(self) -> bool:
        """Cut right through the plate."""
        return self.depth is None and self.operation is not Operation.SCORE

    def layer(self, units: Unit = "mm") -> str:
        """DXF layer: the operation; a pocket's with its depth and the unit of that, such as POCKET_0.4_MM."""
        if self.operation is Operation.POCKET and self.depth is not None:
            depth = f"{self.depth:.3f}" if units == "mm" else f"{self.depth / 25.4:.4f}"
            return f"POCKET_{depth.rstrip('0').rstrip('.')}_{units.upper()}"
        return self.operation.value


@dataclass(frozen=True)
class Raised:
    """Material standing on the part, or beside it and joined at an edge: a loop from `bottom` to `top` [mm].

    What does not reach over the plate's thickness stands beside it.
    """

    loop: Loop
    bottom: float
    top: float
    name: str = ""

    @property
    def area(self) -> float:
        """Inside the loop [mm2]."""
        return abs(self.loop.area)


@dataclass(frozen=True)
class Mark:
    """Something drawn but not cut: an open line of points, and/or a text at its first point."""

    points: tuple[Point, ...]
    text: str = ""
    height: float = 5.0
    angle: float = 0.0
    name: str = ""
    scored: bool = False  # a line worth scoring into the wood (SCORE); else only a note for people


@dataclass(frozen=True)
class Part:
    """One thing to make. Loops and marks in mm, outline counter-clockwise.

    `sharp` lists the inside corners that a mating part fills: a round cutter is run into them instead of rounding them.
    `guides` are the stretches of its edge that run along a fence, bear or measure: nothing may be left standing there.
    """

    name: str
    title: str
    outline: Loop
    thickness: float
    features: tuple[Feature, ...] = ()
    raised: tuple[Raised, ...] = ()
    marks: tuple[Mark, ...] = ()
    colour: str = "#c8a878"
    use: str = ""
    sharp: tuple[Point, ...] = ()
    guides: tuple[tuple[Point, Point], ...] = ()

    @property
    def area(self) -> float:
        """Area of the plate, less what is cut right through it [mm2]."""
        return abs(self.outline.area) - sum(f.area for f in self.features if f.through)

    @property
    def volume(self) -> float:
        """Closed form [mm3], for loops that do not overlap."""
        pockets = sum(
            f.area * f.depth for f in self.features if f.depth is not None and f.operation is not Operation.SCORE
        )
        stands = sum(r.area * (r.top - self._foot(r)) for r in self.raised)
        return self.area * self.thickness - pockets + stands

    def _foot(self, raised: Raised) -> float:
        """Height from which a raised loop adds material."""
        return raised.bottom if raised.top <= self.thickness else max(raised.bottom, self.thickness)

    def cuts(self) -> Iterator[Feature]:
        """The outline and every feature, inside before outside, as a machine should go."""
        yield from self.features
        yield Feature(Operation.CUT_OUTSIDE, self.outline, self.name)

    def moved(self, dx: float, dy: float) -> Part:
        return self._each(
            lambda loop: loop.moved(dx, dy),
            lambda p: (p[0] + dx, p[1] + dy),
            lambda w: Writing(w.x + dx, w.y + dy, w.angle),
        )

    def turned(self, angle: float, about: Point = (0.0, 0.0)) -> Part:
        """Turned counter-clockwise by `angle` [rad] about a point, marks and their texts with it."""
        c, s = math.cos(angle), math.sin(angle)

        def point(p: Point) -> Point:
            dx, dy = p[0] - about[0], p[1] - about[1]
            return (about[0] + c * dx - s * dy, about[1] + s * dx + c * dy)

        whole = self._each(
            lambda loop: loop.turned(angle, about),
            point,
            lambda w: Writing(*point((w.x, w.y)), w.angle + angle),
        )
        return replace(whole, marks=tuple(replace(m, angle=m.angle + angle) for m in whole.marks))

    def mirrored_y(self) -> Part:
        """For a fence on the other side: y -> -y; marks' texts and lettering stay readable."""
        flipped = self._each(
            lambda loop: loop.mirrored_y(),
            lambda p: (p[0], -p[1]),
            lambda w: Writing(w.x, -w.y, -w.angle),
            lambda loop, w: loop.turned(-2 * w.angle, (w.x, w.y)).moved(0.0, -2 * w.y),
        )
        return replace(flipped, marks=tuple(replace(m, angle=-m.angle) for m in flipped.marks))

    def _each(
        self,
        loops: Callable[[Loop], Loop],
        points: Callable[[Point], Point],
        writings: Callable[[Writing], Writing],
        letters: Callable[[Loop, Writing], Loop] | None = None,
    ) -> Part:
        """Every loop and point put through a function; `letters` for the loops of writing, else as other loops."""

        def feature(thing: Feature) -> Feature:
            writing = thing.writing

            def loop(old: Loop) -> Loop:
                return loops(old) if writing is None or letters is None else letters(old, writing)

            return replace(
                thing,
                loop=loop(thing.loop),
                islands=tuple(loop(island) for island in thing.islands),
                writing=None if writing is None else writings(writing),
                strokes=tuple(stroke(run, writing) for run in thing.strokes),
            )

        def stroke(run: tuple[Point, ...], writing: Writing | None) -> tuple[Point, ...]:
            if writing is None or letters is None:
                return tuple(points(p) for p in run)
            return tuple(v.point for v in letters(polygon(run), writing).vertices)

        return replace(
            self,
            outline=loops(self.outline),
            features=tuple(feature(f) for f in self.features),
            raised=tuple(replace(r, loop=loops(r.loop)) for r in self.raised),
            marks=tuple(replace(m, points=tuple(points(p) for p in m.points)) for m in self.marks),
            sharp=tuple(points(p) for p in self.sharp),
            guides=tuple((points(a), points(b)) for a, b in self.guides),
        )


class Place(NamedTuple):
    """An upright rectangle on a part's top from its lower left corner [mm]."""

    x: float
    y: float
    width: float
    height: float
