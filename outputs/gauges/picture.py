"""A scene: shapes and words in model mm, drawn as large as an area of paper lets it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from scarfwright.models.flat.loop import Loop, Point, polygon, rectangle
from scarfwright.outputs.drawing.display import EDGE, PHANTOM, Anchor, Item, Pen, Text, View, fitting_scale, line, shape
from scarfwright.outputs.drawing.lettering import width as width_of

WOOD, OTHER_WOOD, METAL, TABLE = "#f3e3c6", "#e2cda3", "#d9dde2", "#b9bec4"
SIZE = 2.5
Area = tuple[float, float, float, float]


@dataclass
class Picture:
    """Shapes from the lowest to the topmost, lines, and words that hang on points; all in model mm."""

    note: str = ""
    shapes: list[tuple[Loop, str | None, Pen | None]] = field(default_factory=list)
    lines: list[tuple[tuple[Point, ...], Pen]] = field(default_factory=list)
    words: list[tuple[Point, str, Anchor, float]] = field(default_factory=list)

    def loop(self, loop: Loop, fill: str | None, pen: Pen | None = EDGE) -> None:
        self.shapes.append((loop, fill, pen))

    def box(self, x: float, y: float, width: float, height: float, fill: str | None, pen: Pen = EDGE) -> None:
        self.loop(rectangle(x, y, width, height), fill, pen)

    def area(self, points: Sequence[Point], fill: str | None, pen: Pen = EDGE) -> None:
        self.loop(polygon(points), fill, pen)

    def line(self, *points: Point, pen: Pen = PHANTOM) -> None:
        self.lines.append((points, pen))

    def say(self, at: Point, text: str, anchor: Anchor = "middle", lift: float = 0.0) -> None:
        """Words at a point; `lift` moves them up the page [page mm], whatever the scale."""
        self.words.append((at, text, anchor, lift))


def picture_items(scene: Picture, area: Area) -> tuple[list[Item], float]:
    """The scene in the middle of an area (x, y, width, height) [page mm], and the scale's denominator.

    The usual scale is taken at which shapes and words alike stay inside.
    """
    x, y, width, height = area
    low, high = _bounds(scene)
    scale = fitting_scale(high[0] - low[0], high[1] - low[1], width, height, 1.0)
    while True:
        left, down, right, up = _words_beyond(scene, low, high, scale)
        needed_x, needed_y = width - left - right, height - down - up
        fitting = fitting_scale(high[0] - low[0], high[1] - low[1], max(needed_x, 5.0), max(needed_y, 5.0), scale)
        if fitting <= scale:
            break
        scale = fitting
    at = (
        x + left + (needed_x - (high[0] - low[0]) / scale) / 2,
        y + down + (needed_y - (high[1] - low[1]) / scale) / 2,
    )
    view = View(scale, at, origin=low)
    items: list[Item] = [shape(view.loop(loop), pen, fill) for loop, fill, pen in scene.shapes]
    items += [line([view.point(p) for p in points], pen) for points, pen in scene.lines]
    for point, text, anchor, lift in scene.words:
        px, py = view.point(point)
        items.append(Text(px, py + lift, text, SIZE, anchor))
    return items, scale


def _bounds(scene: Picture) -> tuple[Point, Point]:
    boxes = [loop.bounds for loop, _, _ in scene.shapes]
    points = [p for run, _ in scene.lines for p in run]
    xs = [b[i] for b in boxes for i in (0, 2)] + [p[0] for p in points]
    ys = [b[i] for b in boxes for i in (1, 3)] + [p[1] for p in points]
    return (min(xs), min(ys)), (max(xs), max(ys))


def _words_beyond(scene: Picture, low: Point, high: Point, scale: float) -> tuple[float, float, float, float]:
    """How far words stand out left, below, right and above the shapes [page mm]."""
    left = down = right = up = 0.0
    for (px, py), text, anchor, lift in scene.words:
        long = width_of(text, SIZE)
        start = {"start": 0.0, "middle": -long / 2, "end": -long}[anchor]
        left = max(left, (low[0] - px) / scale - start)
        right = max(right, (px - high[0]) / scale + start + long)
        down = max(down, (low[1] - py) / scale - lift + 0.25 * SIZE)
        up = max(up, (py - high[1]) / scale + lift + 0.8 * SIZE)
    return left, down, right, up
