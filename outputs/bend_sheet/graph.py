"""A plain graph as display list items: axes with round ticks, lines, shaded stretches."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scarfwright.models.flat.loop import Vertex
from scarfwright.outputs.drawing.display import EDGE, THIN, Item, Path, Pen, Text, box, line

FIGURE = 2.3
TICK = 1.2


@dataclass(frozen=True)
class Axes:
    """Data to page: x from 0 to `most_x`, y from 0 to `most_y`, drawn in the rectangle (x, y, width, height)."""

    area: tuple[float, float, float, float]
    most_x: float
    most_y: float

    def x(self, value: float) -> float:
        return self.area[0] + self.area[2] * value / self.most_x

    def y(self, value: float) -> float:
        return self.area[1] + self.area[3] * value / self.most_y

    def frame(self, ticks_x: Sequence[tuple[float, str]], ticks_y: Sequence[tuple[float, str]]) -> list[Item]:
        """The box and its ticks, figures outside below and to the left."""
        left, low, width, height = self.area
        items: list[Item] = [box(left, low, width, height, EDGE)]
        for value, text in ticks_x:
            at = self.x(value)
            items += [line([(at, low), (at, low - TICK)]), Text(at, low - TICK - 2.6, text, FIGURE, "middle")]
        for value, text in ticks_y:
            at = self.y(value)
            items += [line([(left, at), (left - TICK, at)]), Text(left - TICK - 0.8, at - 0.8, text, FIGURE, "end")]
        return items

    def curve(self, xs: Sequence[float], ys: Sequence[float], pen: Pen, name: str) -> Path:
        """A line through the data, cut off at the top."""
        points = tuple(Vertex(self.x(u), self.y(min(v, self.most_y))) for u, v in zip(xs, ys, strict=True))
        return Path(points, pen=pen, name=name)

    def level(self, value: float, text: str, pen: Pen = THIN) -> list[Item]:
        """A line straight across with its name at the right end, inside."""
        at = self.y(value)
        left, _, width, _ = self.area
        return [
            line([(left, at), (left + width, at)], pen),
            Text(left + width - 1.0, at + 0.9, text, FIGURE, "end", colour=pen.colour),
        ]

    def band(self, low: float, high: float, fill: str, name: str) -> Path:
        """A shaded stretch from bottom to top."""
        _, bottom, _, height = self.area
        corners = ((low, bottom), (high, bottom), (high, bottom + height), (low, bottom + height))
        return Path(tuple(Vertex(self.x(u), v) for u, v in corners), True, None, fill, name)


def round_ticks(most: float, least_count: int = 4) -> list[float]:
    """Multiples of 1, 2, 2.5 or 5 times a power of ten from 0 to `most`, at least `least_count` steps of them."""
    raw = most / least_count
    power = 10.0 ** math.floor(math.log10(raw))
    step = next(by * power for by in (5.0, 2.5, 2.0, 1.0) if by * power <= raw * (1 + 1e-9))
    return [i * step for i in range(int(most / step + 1e-9) + 1)]
