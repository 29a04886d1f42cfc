"""A kind of part: an entry of the registry."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache, lru_cache
from inspect import Parameter, signature

from scarfwright.models.findings import Finding
from scarfwright.models.flat.loop import Point
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.values import Given, Value, Values

GROUPS = frozenset({"cad", "cut", "print", "flat"})
LISTS: dict[object, int] = {tuple[float, ...]: 1, tuple[Point, ...]: 2, tuple[tuple[float, float, float], ...]: 3}
SORTS: dict[object, str] = {
    float: "length",
    int: "number",
    str: "text",
    bool: "yes or no",
    **dict.fromkeys(LISTS, "list"),
}


@dataclass(frozen=True)
class Origin:
    """The package a part comes from that is none of this project's."""

    package: str
    version: str

    def __str__(self) -> str:
        return f"{self.package} {self.version}".strip()


@dataclass(frozen=True)
class PartKind:
    """An entry of the registry.

    `build` makes the part from its parameters (keywords with defaults, the unit in each docstring line); `from_job`
    gives the parameters a job asks for, or None where the job has no use for the part. `goes_to` names the output
    groups it is written to ("cad", "cut", "print", and "flat": cut from sheet by the machine at hand, `count` times).

    `ranges` gives, for parameters that are one number, the least and greatest value between which the part can be
    built whatever the others are within theirs; the tests build it all over them. `units` names the unit of those
    that are not lengths. `check(work, parameters)` finds what would make the part useless;
    `resolution(work, parameters)` gives how well it measures, what the job needs and what follows from the part, each
    key with its unit. `work` is None where a part is built without a job: then only shapes are checked.
    `label_place(parameters)` is where the parameter `label` is engraved. A parameter `compensation` is what printed
    slots and holes come out narrower by. A part that is another one but for a little takes that one's `build`, its own
    `defaults` and a `finish`.
    """

    name: str
    summary: str
    build: Callable[..., Part]
    from_job: Callable[[Groundwork], Given | None]
    goes_to: frozenset[str] = field(default_factory=frozenset)
    check: Callable[[Groundwork | None, Values], list[Finding]] | None = None
    count: Callable[[Groundwork], int] = lambda _work: 1
    handed: bool = False  # mirrored for a fence on the left
    any_shop: bool = False  # made of whatever there is: drawn and written as a solid where no machine is at hand too
    way: str = ""  # the way of cutting it belongs to; empty: serves any
    ranges: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    resolution: Callable[[Groundwork, Values], Given] | None = None
    label_place: Callable[[Values], Place] | None = None
    along_grain: bool = False  # its length must lie along the sheet's face grain
    defaults: Mapping[str, Value] = field(default_factory=dict)  # where they are not the builder's own
    finish: Callable[[Part], Part] | None = None
    origin: Origin | None = None  # set by the registry; None: one of this project's own

    def filled(self, given: Given) -> Values:
        """The parameters with the defaults for those not given."""
        own = {p.name: p.default for p in takes(self.build).values() if p.default is not p.empty}
        return Values({**own, **self.defaults, **given})

    def drawn(self, given: Given) -> Part:
        """The part of these parameters; one that was drawn before is not drawn again. Raises ValueError as `build`."""
        return _drawn(self.build, self.finish, tuple(self.filled(given).items()))

    def reads(self, work: Groundwork, given: Given) -> Values:
        """How well it measures and what follows from it; nothing for what is no gauge."""
        return Values({} if self.resolution is None else self.resolution(work, self.filled(given)))


@cache
def takes(build: Callable[..., Part]) -> Mapping[str, Parameter]:
    """What a builder takes, in its order, annotations as types. Raises TypeError for one that nobody could type in."""
    found = signature(build, eval_str=True).parameters
    for name, one in found.items():
        if one.annotation not in SORTS or one.default is one.empty:
            raise TypeError(f"{name} has no default, or is none of float, int, str, bool and tuples of lengths")
    return found


@lru_cache(maxsize=256)
def _drawn(
    build: Callable[..., Part], finish: Callable[[Part], Part] | None, parameters: tuple[tuple[str, Value], ...]
) -> Part:
    part = build(**dict(parameters))
    return part if finish is None else finish(part)
