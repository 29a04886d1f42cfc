"""A bent member along its curve as shapes, and where round lengths along it fall."""

from __future__ import annotations

import math

from scarfwright.models.bending.use import Bend
from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.lengths.drawn import Drawn
from scarfwright.outputs.bend_sheet.graph import round_ticks
from scarfwright.outputs.drawing.display import EDGE, Path, View


def ribbon(bend: Bend, view: View, low: float, high: float, half: float, fill: str, name: str) -> Path:
    """The member from `low` to `high` along its curve, `half` to each side [mm]."""
    arc = bend.curve.arc
    places = [low, *(s for s in arc if low < s < high), high]
    above = [beside(bend, s, half) for s in places]
    below = [beside(bend, s, -half) for s in reversed(places)]
    return Path(tuple(Vertex(*view.point(p)) for p in [*above, *below]), True, EDGE, fill, name)


def beside(bend: Bend, s: float, off: float) -> Point:
    """The point `off` square to the curve at `s` along it."""
    curve = bend.curve
    i = next((k for k in range(1, len(curve.arc)) if curve.arc[k] >= s - 1e-9), len(curve.arc) - 1)
    part = (s - curve.arc[i - 1]) / (curve.arc[i] - curve.arc[i - 1])
    dx, dy = curve.station[i] - curve.station[i - 1], curve.offset[i] - curve.offset[i - 1]
    long = math.hypot(dx, dy)
    return (
        curve.station[i - 1] + part * dx - off * dy / long,
        curve.offset[i - 1] + part * dy + off * dx / long,
    )


def length_ticks(length: float, say: Drawn) -> list[tuple[float, str]]:
    """Round lengths from 0 to `length` [mm], each as it is told."""
    if say.units == "mm":
        return [(t, say(t)) for t in round_ticks(length)]
    step = next((s for s in (6, 12, 24, 36, 48, 60, 120, 240, 600) if length / (s * 25.4) <= 9), 1200)
    return [(i * step * 25.4, f'{i * step}"') for i in range(int(length / step / 25.4 + 1e-9) + 1)]
