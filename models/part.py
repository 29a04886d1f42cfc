"""A part: flat shapes with a thickness, each marked with what is to be done with it.

One description feeds DXF, drawings and solids alike. The part lies on z = 0; `thickness` is its height. Material
that stands above that plate is added with `Raised`, material taken from its top with POCKET features.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from inspect import signature
from typing import Any, NamedTuple

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
    """Material standing on the part, or beside it and joined at an edge: a loop from `bottom` to `top` [mm].

    What does not reach over the plate's thickness stands beside it.
    """

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
    """One thing to make. Loops and marks in mm, outline counter-clockwise."""

    name: str
    title: str
    outline: Loop
    thickness: float
    features: tuple[Feature, ...] = ()
    raised: tuple[Raised, ...] = ()
    marks: tuple[Mark, ...] = ()
    colour: str = "#c8a878"
    use: str = ""

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
        stands = sum(abs(r.loop.area) * (r.top - self._foot(r)) for r in self.raised)
        return self.area * self.thickness - pockets + stands

    def _foot(self, raised: Raised) -> float:
        """Height from which a raised loop adds material."""
        return raised.bottom if raised.top <= self.thickness else max(raised.bottom, self.thickness)

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

    def _each(self, loops: Callable[[Loop], Loop], points: Callable[[Point], Point]) -> Part:
        return replace(
            self,
            outline=loops(self.outline),
            features=tuple(replace(f, loop=loops(f.loop)) for f in self.features),
            raised=tuple(replace(r, loop=loops(r.loop)) for r in self.raised),
            marks=tuple(replace(m, points=tuple(points(p) for p in m.points)) for m in self.marks),
        )


@dataclass(frozen=True)
class Range:
    """Least and greatest a parameter may be, and its unit ("mm", "deg", "" for a plain number)."""

    least: float
    most: float
    unit: str = "mm"
    whole: bool = False


class Place(NamedTuple):
    """An upright rectangle on a part's top from its lower left corner [mm]."""

    x: float
    y: float
    width: float
    height: float


Parameters = dict[str, Any]


@dataclass(frozen=True)
class PartKind:
    """An entry of the registry.

    `build` makes the part from its parameters (keywords with defaults, the unit in each docstring line); `from_job`
    gives the parameters a job asks for, or None where the job has no use for the part. `goes_to` names the output
    groups it is written to ("cad", "cut", "print", and "flat" for plain plates a laser or router could cut too).

    `ranges` bounds every parameter that is one number. `check(work, parameters)` finds what would make the part
    useless; `resolution(work, parameters)` gives how well it measures, what the job needs and what follows from the
    part, each key with its unit. `work` is None where a part is built without a job: then only shapes are checked.
    `label_place(parameters)` is where the parameter `label` is engraved. A parameter `compensation` is what printed
    slots and holes come out narrower by.
    """

    name: str
    summary: str
    build: Callable[..., Part]
    from_job: Callable[[Any], Parameters | None]
    goes_to: frozenset[str] = field(default_factory=frozenset)
    check: Callable[[Any, Parameters], list[Finding]] | None = None
    count: Callable[[Any], int] = lambda _work: 1
    handed: bool = False  # mirrored for a fence on the left
    ranges: Mapping[str, Range] = field(default_factory=dict)
    resolution: Callable[[Any, Parameters], dict[str, Any]] | None = None
    label_place: Callable[[Parameters], Place] | None = None

    def filled(self, given: Parameters) -> Parameters:
        """The parameters with the builder's own defaults for those not given."""
        known = signature(self.build).parameters.values()
        own = {p.name: p.default for p in known if p.kind is p.POSITIONAL_OR_KEYWORD and p.default is not p.empty}
        return {**own, **given}
