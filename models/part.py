"""A part: flat shapes with a thickness, each marked with what is to be done with it.

One description feeds DXF, drawings and solids alike. The part lies on z = 0; `thickness` is its height. Material
that stands above that plate is added with `Raised`, material taken from its top with POCKET features.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from scarfwright.models.findings import Finding
from scarfwright.models.outline import Loop, Point


class Operation(StrEnum):
    """What a machine does along or inside a loop."""

    CUT_OUTSIDE = "CUT_OUTSIDE"
    CUT_INSIDE = "CUT_INSIDE"
    DRILL = "DRILL"
    POCKET = "POCKET"
    ENGRAVE = "ENGRAVE"


@dataclass(frozen=True)
class Feature:
    """A closed loop and its operation; `depth` [mm] from the top, None for all the way through."""

    operation: Operation
    loop: Loop
    name: str
    depth: float | None = None

    @property
    def layer(self) -> str:
        """DXF layer: the operation, for pockets with the depth in 0.1 mm."""
        if self.operation is Operation.POCKET and self.depth is not None:
            return f"POCKET_{round(self.depth * 10)}"
        return self.operation.value


@dataclass(frozen=True)
class Raised:
    """Material standing on the part: a loop from height `bottom` to height `top` [mm]."""

    loop: Loop
    bottom: float
    top: float
    name: str = ""


@dataclass(frozen=True)
class Mark:
    """Something drawn but not cut: an open line of points, and/or a text at its first point."""

    points: tuple[Point, ...]
    text: str = ""
    height: float = 5.0
    angle: float = 0.0
    name: str = ""
    scored: bool = False  # a line worth scoring into the wood (ENGRAVE); else only a note for people


@dataclass(frozen=True)
class Part:
    """One thing to make. Loops and marks in mm, outline counter-clockwise.

    `sharp` lists the inside corners that a mating part fills: a round cutter is run into them instead of rounding them.
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

    @property
    def area(self) -> float:
        """Area of the plate, less what is cut right through it [mm2]."""
        return abs(self.outline.area) - sum(abs(f.loop.area) for f in self.features if f.depth is None)

    @property
    def volume(self) -> float:
        """Closed form [mm3], for loops that do not overlap."""
        pockets = sum(
            abs(f.loop.area) * f.depth for f in self.features if f.depth is not None and f.operation is Operation.POCKET
        )
        stands = sum(abs(r.loop.area) * (r.top - max(r.bottom, self.thickness)) for r in self.raised)
        return self.area * self.thickness - pockets + stands

    def cuts(self) -> Iterator[Feature]:
        """The outline and every feature, inside before outside, as a machine should go."""
        yield from self.features
        yield Feature(Operation.CUT_OUTSIDE, self.outline, self.name)

    def moved(self, dx: float, dy: float) -> Part:
        return self._each(lambda loop: loop.moved(dx, dy), lambda p: (p[0] + dx, p[1] + dy))

    def mirrored_y(self) -> Part:
        """For a fence on the other side: y -> -y, marks included (texts stay readable)."""
        flipped = self._each(lambda loop: loop.mirrored_y(), lambda p: (p[0], -p[1]))
        return replace(flipped, marks=tuple(replace(m, angle=-m.angle) for m in flipped.marks))

    def turned(self, angle: float, about: Point = (0.0, 0.0)) -> Part:
        """Turned counter-clockwise [rad] about a point, texts with it."""
        c, s = math.cos(angle), math.sin(angle)

        def point(p: Point) -> Point:
            dx, dy = p[0] - about[0], p[1] - about[1]
            return (about[0] + c * dx - s * dy, about[1] + s * dx + c * dy)

        part = self._each(lambda loop: loop.turned(angle, about), point)
        return replace(part, marks=tuple(replace(m, angle=m.angle + angle) for m in part.marks))

    def _each(self, loops: Callable[[Loop], Loop], points: Callable[[Point], Point]) -> Part:
        return replace(
            self,
            outline=loops(self.outline),
            features=tuple(replace(f, loop=loops(f.loop)) for f in self.features),
            raised=tuple(replace(r, loop=loops(r.loop)) for r in self.raised),
            marks=tuple(replace(m, points=tuple(points(p) for p in m.points)) for m in self.marks),
            sharp=tuple(points(p) for p in self.sharp),
        )


@dataclass(frozen=True)
class PartKind:
    """An entry of the registry.

    `build` makes the part from its parameters (keywords with defaults, the unit in each docstring line); `from_job`
    gives the parameters a job asks for, or None where the job has no use for the part. `goes_to` names the output
    groups it is written to ("cad", "cut", "print", and "flat": cut from sheet by the machine at hand, `count` times);
    `check` finds what would make the part useless.
    """

    name: str
    summary: str
    build: Callable[..., Part]
    from_job: Callable[[Any], dict[str, Any] | None]
    goes_to: frozenset[str] = field(default_factory=frozenset)
    check: Callable[..., list[Finding]] | None = None
    count: Callable[[Any], int] = lambda _work: 1
    handed: bool = False  # mirrored for a fence on the left
    along_grain: bool = False  # its length must lie along the sheet's face grain
