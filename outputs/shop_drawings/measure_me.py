"""What to measure on your own saw and clamps: a picture with an arrow for every key that is a guess till then.

The pictures are not to scale: they show between what the rule is laid. Beside each arrow stand the key of the job
file and the value the job uses now, and where that is still the tool's own guess: measure yours.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from pydantic import BaseModel
from scarfwright.models.flat.loop import Point, circle, rectangle
from scarfwright.models.job.paper import drawing_size
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import parse_length
from scarfwright.outputs.drawing.dimension import arrow, linear
from scarfwright.outputs.drawing.display import CENTRE, EDGE, OUTLINE, PHANTOM, Item, Pen, Sheet, Text, line, shape
from scarfwright.outputs.drawing.job_cells import DEFER
from scarfwright.outputs.drawing.lettering import wrap
from scarfwright.outputs.drawing.panels import Cell, inner, title_block
from scarfwright.outputs.shop_drawings.sled_details import LABEL
from scarfwright.outputs.shop_drawings.stand import HEADING_SIZE

STEEL, TABLE, IRON, ALERT = "#e4e8ec", "#ece7dc", "#cfd6dd", "#b00000"
HIGH = 173.0  # what the pictures take; 259 wide, the smaller of A4 and Letter each way
LEFT = 150.0  # of it the saw's
FOOT = 4.3  # from a key to the line below it
TEETH = Pen(0.4, ALERT)


@dataclass(frozen=True)
class _Value:
    """A key with what the job says of it."""

    key: str
    text: str
    guess: bool


class _Page:
    """Draws in a frame whose lower left corner is at `at`, and keeps what is drawn."""

    def __init__(self, job: Job, at: Point) -> None:
        self.job, self.at = job, at
        self.items: list[Item] = []

    def p(self, x: float, y: float) -> Point:
        return (self.at[0] + x, self.at[1] + y)

    def add(self, *items: Item) -> None:
        self.items += items

    def rect(self, x: float, y: float, wide: float, high: float, fill: str, pen: Pen = EDGE) -> None:
        self.add(shape(rectangle(*self.p(x, y), wide, high), pen, fill))

    def words(self, x: float, y: float, text: str, *, bold: bool = False, size: float = LABEL) -> None:
        self.add(Text(*self.p(x, y), text, size, bold=bold))

    def label(self, x: float, y: float, table: str, key: str, anchor: Literal["start", "middle", "end"]) -> None:
        """The key and its value on one line, below it what to do; nothing for a key the job does not have."""
        value = _value(self.job, table, key)
        self.add(Text(*self.p(x, y), f"{value.key} {value.text}", LABEL, anchor, bold=True))
        if value.guess:
            self.add(Text(*self.p(x, y - FOOT), "measure yours", LABEL, anchor, colour=ALERT))

    def across(self, a: float, b: float, y: float, key: str, *, foot: float, table: str = "saw") -> None:
        """A level dimension from a to b, its label in the middle above it, or below where `foot` says so."""
        self.level(a, b, y)
        self.label((a + b) / 2, y + foot, table, key, "middle")

    def level(self, a: float, b: float, y: float) -> None:
        """A level dimension without words."""
        self._bare(self.p(a, y), self.p(b, y), "horizontal")

    def upright(self, x: float, low: float, high: float) -> None:
        """An upright dimension without words."""
        self._bare(self.p(x, low), self.p(x, high), "vertical")

    def up(self, x: float, low: float, high: float, key: str, side: Literal["left", "right"], table: str) -> None:
        """An upright dimension, its label beside it."""
        self.upright(x, low, high)
        away = 2.2 if side == "right" else -2.2
        self.label(x + away, (low + high) / 2 + 0.4, table, key, "start" if side == "right" else "end")

    def _bare(self, p: Point, q: Point, along: Literal["horizontal", "vertical"]) -> None:
        """Line and arrows of a dimension whose words stand elsewhere."""
        self.add(*(item for item in linear(p, q, p, "", along) if not isinstance(item, Text)))

    def ticks(self, *lines: tuple[Point, Point]) -> None:
        self.add(*(line([self.p(*a), self.p(*b)]) for a, b in lines))


def measure_me(job: Job) -> Sheet:
    """One sheet; needs no more than the job, whatever else is wrong with it."""
    sheet = Sheet(f"{job.title or 'Sled'}: measure your saw and clamps", *drawing_size(job.files))
    x, y, width, height = inner(sheet)
    page = _Page(job, (x, y + (height - HIGH) / 2))
    pictures: tuple[Callable[[_Page], None], ...] = (_saw_from_the_side, _saw_from_above, _blade, _clamp, _hand_saw)
    for draw in pictures:
        draw(page)
    left = x + LEFT
    sheet.add(line([(left, y), (left, y + height)], EDGE))
    sheet.add(line([(left, page.at[1] + level), (x + width, page.at[1] + level)], EDGE) for level in (123.0, 40.0))
    sheet.add(page.items)
    sheet.add(title_block(sheet, _cells(job)))
    return sheet


def _cells(job: Job) -> list[Cell]:
    return [
        Cell("Job", (job.title or "(no title)", "Your saw and clamps: measure these"), 80, bold=True),
        Cell("How", ("Unplug the saw first. Put what you measure", "into the job file, by the name at the arrow."), 92),
        Cell("On paper", ("NOT TO SCALE", *wrap(DEFER, 3.0, 76.0)), 86, bold=True),
        Cell("Sheet", ("1 of 1", "scarfwright"), 24),
    ]


def _value(job: Job, table: str, key: str) -> _Value:
    model: BaseModel = getattr(job, table)
    name = key if key in type(model).model_fields else "jaw"
    value = getattr(model, name)
    extra = type(model).model_fields[name].json_schema_extra
    standard = extra.get("inch" if job.units == "in" else "default") if isinstance(extra, dict) else None
    guess = isinstance(standard, str) and abs(float(parse_length(standard)) - float(value)) < 1e-9
    return _Value(name, drawn_in(job.units)(float(value)), guess)


def _saw_from_the_side(page: _Page) -> None:
    """Blade, table and fence: you stand on the left."""
    page.words(2, 168, "The saw from the side, [saw] in the job file", bold=True, size=HEADING_SIZE)
    table, centre, radius, middle = 125.0, 113.0, 27.0, 80.0
    page.rect(37, table, 98, 10, IRON)
    page.rect(20, table - 4, 115, 4, TABLE, OUTLINE)
    page.add(shape(circle(*page.p(middle, centre), radius), TEETH, STEEL, "blade"))
    page.add(line([page.p(20, table), page.p(135, table)], OUTLINE))
    page.ticks(((middle, centre - 3), (middle, centre + 3)), ((middle - 3, centre), (middle + 3, centre)))
    page.ticks(((53, centre), (53, 78.5)), ((107, centre), (107, 78.5)))
    page.across(53, 107, 80, "blade_diameter", foot=1.4)
    page.ticks(((middle - 2, 140), (29, 140)))
    page.upright(31, table, 140)
    page.label(20, 150.5, "saw", "max_depth", "start")
    page.words(20, 150.5 + FOOT, "as high as it goes")
    page.ticks(((136, table), (142, table)), ((136, 135), (142, 135)))
    page.upright(140.5, table, 135)
    page.label(147, 144, "saw", "fence_height", "end")
    _your_side(page, 104.0)


def _saw_from_above(page: _Page) -> None:
    """Table and fence from above, the same way round."""
    page.words(2, 68.5, "The saw from above", bold=True, size=HEADING_SIZE)
    right = page.job.saw.fence_side == "right"
    low, high = (16.0, 46.0) if right else (6.0, 40.0)
    blade = (low + high) / 2
    page.rect(20, low, 115, high - low, TABLE, OUTLINE)
    fence = low + 3.0 if right else high - 8.0
    page.rect(37, fence, 98, 5, IRON)
    page.rect(56, blade - 0.6, 48, 1.2, ALERT, Pen(0.2, ALERT))
    page.add(line([page.p(80, 9.5 if right else 3.5), page.p(80, 64)], CENTRE))
    page.ticks(((20, high + 1), (20, 62)), ((135, high + 1), (135, 62)))
    page.across(20, 80, 60, "table_front", foot=1.4)
    page.across(80, 135, 60, "table_back", foot=1.4)
    level = 11.0 if right else 50.5
    page.ticks(((37, fence if right else fence + 5), (37, level - 1.5 if right else level + 1.5)))
    page.across(37, 80, level, "fence_front", foot=-3.6 if right else 1.4)
    _your_side(page, blade)


def _your_side(page: _Page, level: float) -> None:
    page.add(Text(*page.p(12, level), "YOUR SIDE", LABEL, "middle", math.pi / 2, bold=True))


def _blade(page: _Page) -> None:
    """Teeth, plate and riving knife from above, much enlarged."""
    page.words(LEFT + 2, 168, "The blade from above, much enlarged", bold=True, size=HEADING_SIZE)
    middle = 141.0
    page.rect(LEFT + 8, middle - 7, 7, 14, "#f3c9c9", TEETH)
    page.rect(LEFT + 15, middle - 4, 42, 8, STEEL)
    page.rect(LEFT + 62, middle - 5, 28, 10, IRON)
    for x, half, level, key in (
        (11.5, 7.0, 155.0, "kerf"),
        (40.0, 4.0, 155.0, "plate"),
        (80.0, 5.0, 155.0, "riving_knife"),
    ):
        _pinch(page, LEFT + x, middle - half, middle + half, level)
        page.label(LEFT + x + (1.5 if key == "kerf" else 0.0), level + FOOT + 1.0, "saw", key, "middle")
    page.words(LEFT + 8, 125.8, "teeth, across their set")


def _pinch(page: _Page, x: float, low: float, high: float, level: float) -> None:
    """Two arrows that take a thin thing between them, the upper one's shaft up to `level`."""
    page.add(line([page.p(x, high), page.p(x, level)]), line([page.p(x, low), page.p(x, low - 4)]))
    page.add(arrow(page.p(x, high), (0, -1)), arrow(page.p(x, low), (0, 1)))


def _clamp(page: _Page) -> None:
    """A clamp from the side and its pad from the front."""
    page.words(LEFT + 2, 117, "A clamp, [clamp] in the job file", bold=True, size=HEADING_SIZE)
    x, top, low = LEFT + 3, 107.0, 73.0
    page.rect(x, top, 67, 4, IRON)
    for jaw, pad in ((x + 4, x + 11), (x + 55, x + 52)):
        page.rect(jaw, low, 7, top - low, STEEL)
        page.rect(pad, low, 3, 11, "#ffffff")
    page.add(shape(rectangle(*page.p(x + 14, low), 38, 22), PHANTOM, None, "work and sled"))
    page.up(x + 16.5, low, top, "throat", "right", "clamp")
    page.ticks(((x + 14, low - 1), (x + 14, 67)), ((x + 52, low - 1), (x + 52, 67)))
    page.across(x + 14, x + 52, 69, "opening", foot=-3.6, table="clamp")
    for near, far in ((x + 4, x + 14), (x + 52, x + 62)):
        page.ticks(((near, 72 if near == x + 4 else 66), (near, 54.9)))
        page.ticks(((far, 66 if far == x + 14 else 72), (far, 54.9)))
        page.level(near, far, 56)
    page.label(LEFT + 2, 51.6, "clamp", "jaw_inner", "start")
    page.words(LEFT + 2, 51.6 - 2 * FOOT, "sled's side")
    page.label(x + 57, 51.6, "clamp", "jaw_outer", "middle")
    page.add(Text(*page.p(x + 57, 51.6 - 2 * FOOT), "board's side", LABEL, "middle"))
    page.ticks(((x + 56, low), (x + 71, low)), ((x + 56, low + 11), (x + 71, low + 11)))
    page.up(x + 69, low, low + 11, "pad_height", "right", "clamp")
    page.rect(x + 79, 97, 14, 8, "#ffffff")
    page.ticks(((x + 79, 96), (x + 79, 92)), ((x + 93, 96), (x + 93, 92)))
    page.across(x + 79, x + 93, 93, "pad_width", foot=-3.6, table="clamp")


def _hand_saw(page: _Page) -> None:
    """The base of a hand-held saw from above."""
    page.words(LEFT + 2, 34.5, "A hand-held saw from above, for dividing the plank", bold=True, size=HEADING_SIZE)
    x = LEFT + 8
    page.rect(x, 6, 46, 20, STEEL)
    page.rect(x + 8, 10, 30, 2, "#f3c9c9", TEETH)
    page.ticks(((x + 39, 12), (x + 52, 12)), ((x + 47, 26), (x + 52, 26)))
    page.up(x + 50, 12, 26, "base_to_blade", "right", "saw")
    page.ticks(((x + 39, 10), (x + 52, 10)))
    page.label(x + 52.2, 8.6, "saw", "hand_kerf", "start")
    page.add(line([page.p(x + 50, 12), page.p(x + 50, 10)]), arrow(page.p(x + 50, 10), (0, 1), 1.6))
