"""What is wrong with a sheet's lettering, read from its display list with shapely and none of the drawing's own code
for finding room: texts that run into one another, into a line that shows, or out of the frame, or that are too pale."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from scarfwright.outputs.drawing.display import Clip, Item, Path, Sheet, Text
from shapely.geometry import LineString, Polygon, box
from shapely.strtree import STRtree

PALE = 4.5  # contrast of text with what is behind it, at least: WCAG 2.2, success criterion 1.4.3
TOUCH = 0.05  # letters fill their boxes less than this much short of the edge [page mm]


@dataclass(frozen=True)
class Shown:
    """An item with its place in the order of painting and the shape of what shows of it [page mm]."""

    order: int
    item: Path | Text
    area: Any

    @property
    def what(self) -> str:
        return self.item.text if isinstance(self.item, Text) else self.item.name or f"line at {self.item.vertices[0]}"


def shown(items: Iterable[Item], window: Any = None) -> list[Shown]:
    """Every text and path in the order of painting, cut off at the windows it lies in."""
    found: list[Shown] = []
    for item in items:
        if isinstance(item, Clip):
            inside = Polygon(item.window.points(0.02)).buffer(0)
            inside = inside if window is None else inside.intersection(window)
            found += [Shown(0, one.item, one.area) for one in shown(item.items, inside)]
            continue
        area = _area(item)
        area = area if window is None else area.intersection(window)
        if not area.is_empty:
            found.append(Shown(0, item, area))
    return [Shown(number, one.item, one.area) for number, one in enumerate(found)]


def _area(item: Path | Text) -> Any:
    if isinstance(item, Text):
        return Polygon(_letters(item).box()).buffer(-TOUCH) if item.text.strip() else Polygon()
    stroke: Any = Polygon()
    if item.pen is not None:
        stroke = LineString(item.points()).buffer(item.pen.width / 2)
    elif item.fill is not None:
        stroke = LineString([*item.points()]).buffer(0.01)  # a filled shape shows by its edge
    return stroke


def _letters(text: Text) -> Text:
    """The text without blanks at its ends, its letters where they were: blanks don't print."""
    if text.text == text.text.strip():
        return text
    before = text.width - replace(text, text=text.text.lstrip()).width
    after = text.width - replace(text, text=text.text.rstrip()).width
    along = {"start": before, "middle": (before - after) / 2, "end": -after}[text.anchor]
    moved = (text.x + along * math.cos(text.angle), text.y + along * math.sin(text.angle))
    return replace(text, x=moved[0], y=moved[1], text=text.text.strip())


def outside(sheet: Sheet) -> list[Item]:
    """The items that reach beyond the sheet's margins; a clipped one by its window."""
    low, right, top = sheet.margin, sheet.width - sheet.margin, sheet.height - sheet.margin

    def points(item: Item) -> Iterable[tuple[float, float]]:
        if isinstance(item, Clip):
            return item.window.points()
        return item.box() if isinstance(item, Text) else item.points()

    return [item for item in sheet.items if not all(low <= x <= right and low <= y <= top for x, y in points(item))]


def unclear(sheet: Sheet) -> list[str]:
    """One line for every text that can't be read well; empty for a clear sheet."""
    every = shown(sheet.items)
    texts = [one for one in every if isinstance(one.item, Text)]
    strokes = [one for one in every if isinstance(one.item, Path)]
    found = [
        f"{sheet.title}: {one.what!r} over {other.what!r}"
        for one, other in itertools.combinations(texts, 2)
        if one.area.intersects(other.area)
    ]
    frame = _frame(sheet)
    found += [f"{sheet.title}: {t.what!r} outside its frame" for t in texts if not frame.covers(t.area)]
    tree, fills = STRtree([s.area for s in strokes]), Fills(strokes)
    for text in texts:
        for index in tree.query(text.area, predicate="intersects"):
            stroke = strokes[int(index)]
            if not _hidden(text, stroke, fills):
                found.append(f"{sheet.title}: {text.what!r} over the line {stroke.what!r}")
    return found + [f"{sheet.title}: {t.what!r} too pale, {c:.1f}" for t in texts if (c := contrast(t, fills)) < PALE]


class Fills:
    """What is painted over an area, in the order it was painted, looked up by place."""

    def __init__(self, strokes: list[Shown]) -> None:
        self.painted = [one for one in strokes if isinstance(one.item, Path) and one.item.fill is not None]
        self.shapes = [Polygon(one.item.points()[:-1]).buffer(0) for one in self.painted if isinstance(one.item, Path)]
        self._tree = STRtree(self.shapes)

    def near(self, area: Any, after: int, before: int) -> Iterable[tuple[Any, str]]:
        """Shape and colour of those that may touch `area`, painted after and before these; the last painted first."""
        for index in sorted(map(int, self._tree.query(area)), key=lambda i: -self.painted[i].order):
            one = self.painted[index]
            if after < one.order < before and isinstance(one.item, Path):
                yield self.shapes[index], str(one.item.fill)


def contrast(text: Shown, fills: Fills) -> float:
    """The least contrast of a text with what is seen behind it, 1 to 21."""
    assert isinstance(text.item, Text)
    ink, found, bare = _luminance(text.item.colour), [], text.area
    for shape, colour in fills.near(text.area, -1, text.order):
        if bare.intersection(shape).area > 0.01 * text.area.area:
            found.append(_luminance(colour))
        bare = bare.difference(shape)
    if not bare.is_empty:
        found.append(1.0)
    return min((max(ink, other) + 0.05) / (min(ink, other) + 0.05) for other in found)


def _luminance(colour: str) -> float:
    """Relative luminance of "#rrggbb", WCAG 2.2."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _frame(sheet: Sheet) -> Any:
    """The largest upright box drawn, or the paper within its margin."""
    paper = box(sheet.margin, sheet.margin, sheet.width - sheet.margin, sheet.height - sheet.margin)
    boxes = [Polygon(p.points()[:-1]) for p in sheet.paths() if p.closed and len(p.vertices) == 4]
    largest = max(boxes, key=lambda b: float(b.area), default=paper)
    return largest if largest.area > 0.6 * paper.area and paper.covers(largest) else paper


def _hidden(text: Shown, stroke: Shown, fills: Fills) -> bool:
    """Whether something painted later, but before the text, covers the stroke where they meet."""
    where = stroke.area.intersection(text.area)
    for shape, _ in fills.near(where, stroke.order, text.order):
        where = where.difference(shape)
    return bool(where.is_empty)
