"""Figures that can't be what they say on this job: a wrong unit, a slipped point, a mark past the end of the taper."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.lengths.length import show
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.forms import Found, Wrong
from scarfwright.models.tuning.measured import Reading, Station, TestJoint

FULL = 0.98  # share of the thickness past which callipers can't tell taper from board
MOST_GAP = 0.2  # of the height: more is no glue line


def implausible(joint: TestJoint, plan: Plan) -> Iterator[Wrong]:
    """What is far from anything the job's joint could give: each with what would be."""
    run, thick = (plan.thickness - plan.tip) / plan.slope, plan.thickness
    for key, readings, low, high in (
        ("board_thickness", joint.board_thickness, 0.5 * thick, 2 * thick),
        ("taper_run", joint.taper_run, 0.3 * run, 3 * run),
        ("tip", joint.tip, 0.0, 0.5 * thick),
    ):
        for reading in readings:
            for value in _values(reading):
                yield from _between(key, value, low, high, plan)
    for station in joint.thickness_at:
        yield from _mark(station, run, plan)
    pair = (
        ("gap_top", joint.gap_top, 0.0, MOST_GAP * plan.height),
        ("gap_bottom", joint.gap_bottom, 0.0, MOST_GAP * plan.height),
        ("joint_thickness", joint.joint_thickness, 0.5 * thick, 2 * thick),
        ("tip_to_tip", joint.tip_to_tip, 0.2 * run, 3 * run),
    )
    for key, length, low, high in pair:
        if length is not None:
            yield from _between(key, length, low, high, plan)
    for skew in joint.line_skew:
        yield from _between("line_skew", skew.offset, 0.0, MOST_GAP * plan.height / plan.slope, plan)


def _values(reading: Reading | Station) -> list[float]:
    return [value for value in (reading.value, reading.top, reading.bottom) if value is not None]


def _mark(station: Station, run: float, plan: Plan) -> Iterator[Wrong]:
    yield from _between("thickness_at", station.distance, 0.0, 3 * run, plan)
    for value in _values(station):
        if value >= FULL * plan.thickness:
            least = show(plan.thickness, plan.units)
            yield Wrong(
                "thickness_at",
                Found(f"{show(value, plan.units, places=2)} at {show(station.distance, plan.units)} from the tip"),
                f"a mark on the taper, where the board is thinner than its full {least}",
            )


def _between(key: str, value: float, low: float, high: float, plan: Plan) -> Iterator[Wrong]:
    if low <= value <= high:
        return
    span = f"{show(low, plan.units)} to {show(high, plan.units)}"
    yield Wrong(key, Found(show(value, plan.units, places=2)), f"{span} on this job; is the unit right?")
