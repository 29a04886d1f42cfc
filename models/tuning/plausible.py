"""Figures that can't be what they say on this job: a wrong unit, a slipped point, a mark past the end of the taper."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.lengths.length import show
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.forms import Found, Wrong
from scarfwright.models.tuning.measured import Reading, Station, TestJoint

FULL = 0.98  # share of the thickness past which callipers can't tell taper from board
MOST_GAP = 0.2  # of the height: more is no glue line
SPAN = "{low} to {high} on this job; is the unit right?"
NO_MARK = "{read} at {at} from the tip"
ON_TAPER = "a mark on the taper, where the board is thinner than its full {full}"


def spans(plan: Plan) -> dict[str, tuple[float, float]]:
    """Least and greatest value of each figure that the job's joint could give [mm]; of thickness_at, the distance."""
    run, thick = (plan.thickness - plan.tip) / plan.slope, plan.thickness
    return {
        "board_thickness": (0.5 * thick, 2 * thick),
        "taper_run": (0.3 * run, 3 * run),
        "tip": (0.0, 0.5 * thick),
        "thickness_at": (0.0, 3 * run),
        "gap_top": (0.0, MOST_GAP * plan.height),
        "gap_bottom": (0.0, MOST_GAP * plan.height),
        "joint_thickness": (0.5 * thick, 2 * thick),
        "tip_to_tip": (0.2 * run, 3 * run),
        "line_skew": (0.0, MOST_GAP * plan.height / plan.slope),
    }


def implausible(joint: TestJoint, plan: Plan) -> Iterator[Wrong]:
    """What is far from anything the job's joint could give: each with what would be."""
    for key, (low, high) in spans(plan).items():
        for value in _values(getattr(joint, key)):
            if not low <= value <= high:
                span = SPAN.format(low=show(low, plan.units), high=show(high, plan.units))
                yield Wrong(key, Found(show(value, plan.units, places=2)), span)
    for mark in joint.thickness_at:
        for value in _edges(mark):
            if value >= FULL * plan.thickness:
                read = NO_MARK.format(read=show(value, plan.units, places=2), at=show(mark.distance, plan.units))
                yield Wrong("thickness_at", Found(read), ON_TAPER.format(full=show(plan.thickness, plan.units)))


def _values(given: object) -> Iterator[float]:
    """All lengths of a figure that one span holds for."""
    if isinstance(given, float | int):
        yield given
    elif isinstance(given, tuple):
        for one in given:
            if isinstance(one, Station):
                yield one.distance
            elif isinstance(one, Reading):
                yield from _edges(one)
            else:
                yield one.offset


def _edges(reading: Reading | Station) -> list[float]:
    return [value for value in (reading.value, reading.top, reading.bottom) if value is not None]
