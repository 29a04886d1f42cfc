"""What a shop has besides the saw, as a job says it, and what follows: which machine cuts, which gauges are made."""

from __future__ import annotations

import difflib
from importlib import metadata
from typing import Annotated, Any, Literal, Protocol

from pydantic import PlainValidator, WithJsonSchema
from scarfwright.models.lengths.length import LengthError, shown

Machine = Literal["printer", "router", "laser"]
Cutter = Literal["router", "laser"]
MACHINES: tuple[Machine, ...] = ("printer", "router", "laser")
_PAPERS = ("A4", "Letter", "roll")

# the printed parts a list may name; the job is read before there are parts, so a test compares this with the registry
PRINTED = (
    "gap_shim",
    "hand_stop",
    "height_step",
    "nose_wedge",
    "notch_guide",
    "riser",
    "riser_lip",
    "slope_gauge",
    "square_block",
    "taper_fork",
    "taper_scale",
    "thickness_fork",
)
PART_GROUP = "scarfwright.parts"  # entry points of other packages' parts, each named as its part


def _machines(value: object) -> tuple[Machine, ...]:
    expected = 'a list of what there is of "printer", "router" and "laser", or []'
    if not isinstance(value, list | tuple):
        raise LengthError(f"found {shown(value)}, expected {expected}")
    for one in value:
        if one not in MACHINES:
            raise LengthError(f"found {shown(one)}, expected {expected}")
    return tuple(machine for machine in MACHINES if machine in value)


def _gauges(value: object) -> str | tuple[str, ...]:
    expected = '"useful", "all", or a list of names such as ["slope_gauge"]'
    if isinstance(value, str) and value in ("useful", "all"):
        return value
    if not isinstance(value, list | tuple):
        raise LengthError(f"found {shown(value)}, expected {expected}")
    for one in value:
        if one not in PRINTED and one not in _added():
            near = difflib.get_close_matches(str(one), PRINTED, 1, 0.0)[0]
            raise LengthError(f'found {shown(one)}, which is no printed part; the nearest is "{near}"')
    return tuple(name for name in (*PRINTED, *sorted(_added() - set(PRINTED))) if name in value)


def _added() -> set[str]:
    """Names of the parts that other packages add; none is loaded for it."""
    return {entry.name for entry in metadata.entry_points(group=PART_GROUP)}


def _paper(value: object) -> str:
    known = {name.lower(): name for name in _PAPERS}
    if not isinstance(value, str) or value.strip().lower() not in known:
        raise LengthError(f'found {shown(value)}, expected "A4", "Letter" or "roll"')
    return known[value.strip().lower()]


ShopHas = Annotated[
    tuple[Machine, ...],
    PlainValidator(_machines),
    WithJsonSchema({"type": "array", "items": {"enum": list(MACHINES)}, "uniqueItems": True}),
]
Gauges = Annotated[
    str | tuple[str, ...],
    PlainValidator(_gauges),
    WithJsonSchema(
        {"anyOf": [{"enum": ["useful", "all"]}, {"type": "array", "items": {"enum": list(PRINTED)}}]},
    ),
]
PaperName = Annotated[str, PlainValidator(_paper), WithJsonSchema({"enum": list(_PAPERS)})]


class _Files(Protocol):
    @property
    def machine(self) -> Cutter: ...


class _Shop(Protocol):
    @property
    def shop_has(self) -> tuple[Machine, ...]: ...
    @property
    def files(self) -> _Files: ...


def prints_gauges(job: _Shop) -> bool:
    """Whether there is a printer."""
    return "printer" in job.shop_has


def cutter(job: _Shop) -> Cutter | None:
    """The machine the cut files are for: the one [files] asks for if it is there, else the other; None without any."""
    there: dict[Any, Cutter] = {"router": "router", "laser": "laser"}
    asked = job.files.machine
    for machine in (asked, "router", "laser"):
        if machine in job.shop_has:
            return there[machine]
    return None
