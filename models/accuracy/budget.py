"""What is to be expected of a shop that sets up with care, before any test joint: each source's share of the glue
line's opening, the chance that a joint is inside its limits, and what to better first. Needs no array library.

Lean comes from the set-up and is shared by both boards; seat and bow are each board's own, the work edge's bow is in
both. Openings add up at the worst corner: lean across the height, seat and bow together along the joint, slide all
over. Lengths in mm, angles in radians, spreads are one standard deviation of a normal distribution about 0.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from scarfwright.models.accuracy.chances import folded, positive_part, sloped_bow_range, summed
from scarfwright.models.accuracy.effects import lean_of_gap
from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.joint.joint import Joint

LIGHT = 0.03  # mm of light that shows under a square or straightedge; common practice, no source
UNSEEN = LIGHT / 2  # so what stays unseen is under LIGHT in 95 of 100 cases: two standard deviations
SLIDE = 0.5  # mm to which boards are held on pencilled overlap marks; common practice, no source
FENCE = 0.15  # mm to which a fence is set from the heel with a rule; common practice, no source
PLANED = 0.1  # mm by which planed boards differ in thickness; common practice, no source

SOURCES = ("tilt", "edge_lean", "seat", "edge_bow", "board_bow", "slide")


@dataclass(frozen=True)
class Spreads:
    """One standard deviation of each error.

    tilt, edge_lean [rad]; seat: one end of the joint off the work edge [mm]; edge_bow, board_bow: out of straight over
    the joint [mm]; slide along the overlap marks [mm]; fence gap [mm]; thickness of one board [mm].
    """

    tilt: float
    edge_lean: float
    seat: float = UNSEEN
    edge_bow: float = UNSEEN
    board_bow: float = UNSEEN
    slide: float = SLIDE
    fence: float = FENCE
    thickness: float = PLANED


def careful(blade_height: float, sled_thickness: float) -> Spreads:
    """Spreads of a careful set-up: blade and work edge against a square until no light shows [mm above the table]."""
    return Spreads(tilt=math.atan(UNSEEN / blade_height), edge_lean=math.atan(UNSEEN / sled_thickness))


@dataclass(frozen=True)
class Source:
    """One source: its spread (rad or mm), the opening it gives alone (root mean square, mm), its share of their sum of
    squares, and the chance of a joint inside the limits if it were half as large."""

    name: str
    spread: float
    opening: float
    share: float
    inside_if_halved: float


@dataclass(frozen=True)
class Budget:
    """Chance of a joint inside gap and twist limits; the sources; the name of the one to better first (None: all so
    small that halving any of them gains nothing); and the spreads of what else shows, one standard deviation."""

    inside: float
    sources: tuple[Source, ...]
    improve_first: str | None
    step: float
    kink: float
    thickness: float
    stiffness: float
    tip: float


LEAST_GAIN = 0.005  # share of joints below which nothing is worth bettering first


@lru_cache(maxsize=64)
def budget(joint: Joint, spreads: Spreads, limits: Limits) -> Budget:
    """The budget of one joint; the overlap must be positive. Remembered: sleds of many lengths cut the same joint."""
    parts = _parts(joint, spreads, limits)
    inside = _inside(parts)
    openings = _openings(joint, spreads)
    total = sum(opening**2 for opening in openings.values())
    sources = []
    for name in SOURCES:
        half = replace(spreads, **{name: getattr(spreads, name) / 2})
        share = openings[name] ** 2 / total if total else 0.0
        better = _inside(_parts(joint, half, limits, parts, name)) if share else inside
        sources.append(Source(name, getattr(spreads, name), openings[name], share, better))
    best = max(sources, key=lambda one: one.inside_if_halved)
    slid = spreads.slide / joint.ratio
    return Budget(
        inside=inside,
        sources=tuple(sources),
        improve_first=best.name if best.inside_if_halved - inside >= LEAST_GAIN else None,
        step=math.sqrt(2) * spreads.thickness,
        kink=math.sqrt(2) * spreads.seat / joint.overlap,
        thickness=math.hypot(slid, spreads.thickness / math.sqrt(2)),
        stiffness=3 * math.hypot(slid, spreads.thickness / math.sqrt(2)) / joint.thickness,
        tip=spreads.fence / math.cos(joint.angle),
    )


@dataclass(frozen=True)
class _Parts:
    lean: list[float]
    along: list[float]
    slide: list[float]


def _parts(joint: Joint, spreads: Spreads, limits: Limits, before: _Parts | None = None, changed: str = "") -> _Parts:
    """The three openings as distributions; those that the `changed` source has no part in are taken from `before`."""
    lean = before.lean if before and changed not in ("tilt", "edge_lean") else _lean(joint, spreads, limits)
    along = before.along if before and changed not in ("seat", "edge_bow", "board_bow") else _along(spreads, limits)
    slide = before.slide if before and changed != "slide" else positive_part(_slid(joint, spreads), limits.gap)
    return _Parts(lean, along, slide)


def _lean(joint: Joint, spreads: Spreads, limits: Limits) -> list[float]:
    """Openings by lean; leans that twist the stick too much are outside however small the opening."""
    most = limits.lean_for_twist(joint.angle)

    def lean_at(gap: float) -> float:
        lean = lean_of_gap(gap, joint.height)
        return lean if most is None else min(lean, most)

    return folded(math.hypot(spreads.tilt, spreads.edge_lean), limits.gap, lean_at)


def _along(spreads: Spreads, limits: Limits) -> list[float]:
    return sloped_bow_range(math.sqrt(2) * spreads.seat, _bow(spreads), limits.gap)


def _bow(spreads: Spreads) -> float:
    """The work edge's bow comes twice, each board's own once."""
    return math.hypot(2 * spreads.edge_bow, math.sqrt(2) * spreads.board_bow)


def _slid(joint: Joint, spreads: Spreads) -> float:
    return spreads.slide / joint.ratio * math.cos(joint.angle)


def _inside(parts: _Parts) -> float:
    return min(sum(summed(summed(parts.lean, parts.along), parts.slide)), 1.0)


def _openings(joint: Joint, spreads: Spreads) -> dict[str, float]:
    """Root mean square of the opening by each source alone [mm]."""
    return {
        "tilt": 2 * joint.height * math.tan(spreads.tilt),
        "edge_lean": 2 * joint.height * math.tan(spreads.edge_lean),
        "seat": math.sqrt(2) * spreads.seat,
        "edge_bow": 2 * spreads.edge_bow,
        "board_bow": math.sqrt(2) * spreads.board_bow,
        "slide": _slid(joint, spreads) / math.sqrt(2),
    }
