"""Hatching: parallel strokes over a stretch of a drawing, cut off at its edge."""

from __future__ import annotations

import math

from scarfwright.models.flat.loop import Loop
from scarfwright.outputs.drawing.display import Clip, Pen, line


def hatch(window: Loop, pen: Pen, gap: float, name: str = "hatching", angle: float = math.radians(45)) -> Clip:
    """Strokes `gap` apart [page mm] at `angle` [rad] inside a loop, all of them on one grid of the page, so that
    neighbours that are hatched alike match."""
    dx, dy = math.cos(angle), math.sin(angle)
    points = window.points(0.05)
    across = [y * dx - x * dy for x, y in points]
    along = [x * dx + y * dy for x, y in points]
    strokes = []
    for i in range(math.ceil(min(across) / gap), math.floor(max(across) / gap) + 1):
        ends = [(s * dx - i * gap * dy, s * dy + i * gap * dx) for s in (min(along), max(along))]
        strokes.append(line(ends, pen, name))
    return Clip(window, tuple(strokes))
