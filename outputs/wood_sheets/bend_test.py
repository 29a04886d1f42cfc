"""The page about proving a sample joint: supports, load, scale, what to expect."""

from __future__ import annotations

from collections.abc import Callable

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.strength.bend_test import BendTest
from scarfwright.models.strength.wood import Wood
from scarfwright.models.words.the_joint.strength import NOT_DESIGN, TEST_CAUTION, sample_rows, sample_steps
from scarfwright.outputs.drawing.dimension import arrow, linear
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, PHANTOM, THIN, Item, Path, Pen, Sheet, Text, box
from scarfwright.outputs.wood_sheets.page import Area, Cells, Page, wood_page

WOOD, OTHER_WOOD, METAL, BENCH = "#f3e3c3", "#e7cf9f", "#c9d3dc", "#b7b0a6"
LOAD = Pen(0.7, "#b00000")
THICK, BAR, SCALE = 9.0, 2.2, 4.0  # page mm: stick, bar's radius, scale's height


def bend_test_sheet(
    test: BendTest, wood: Wood, units: Unit, size: tuple[float, float], title: str, cells: Cells
) -> Sheet:
    """The page, on paper of `size` [mm]."""
    words = Page(
        sample_rows(test, wood, units),
        sample_steps(test, units),
        [TEST_CAUTION, NOT_DESIGN],
        "What to expect",
        "The test",
    )
    return wood_page(words, lambda area: _picture(test, area, drawn_in(units)), size, title, cells)


def _picture(test: BendTest, area: Area, say: Drawn) -> list[Item]:
    x, y, width, height = area
    beam = test.beam
    scale = (width - 50.0) / test.length
    middle, bench = x + width / 2, y + 18.0
    low = bench + SCALE + 2 * BAR + 3.0

    def at(s: float, z: float) -> Point:
        """s from the load, z up from the stick's lower face [model mm]."""
        return middle + s * scale, low + z * THICK / beam.depth

    end, t, half = test.length / 2, beam.depth, beam.span / 2
    caption = "The sample from the side, drawn too thick. The tip on the lower face lies under the load."
    items: list[Item] = [Text(x + 2, y + height - 4.8, caption, 3.0, bold=True)]
    items += _stands(at, half, bench, low)
    stick = [(-end, 0.0), (0.0, 0.0), (-test.reach, t), (-end, t)]
    mate = [(0.0, 0.0), (end, 0.0), (end, t), (-test.reach, t)]
    items += [
        Path(tuple(Vertex(*at(*p)) for p in shape), True, EDGE, fill, "sample")
        for shape, fill in ((stick, WOOD), (mate, OTHER_WOOD))
    ]
    items.append(Path((Vertex(*at(0, 0)), Vertex(*at(-test.reach, t))), pen=OUTLINE, name="glue line"))
    top = at(0, t)
    items += [
        Path((Vertex(top[0], top[1] + 14.0), Vertex(top[0], top[1] + 1.5)), pen=LOAD, name="load"),
        arrow((top[0], top[1] + 1.0), (0.0, -1.0), 4.0),
        Text(top[0] + 3.0, top[1] + 10.0, "clamp pulls the middle down, slowly", 2.8),
        Path((Vertex(*at(0, 0)), Vertex(top[0], bench + 1.0)), pen=PHANTOM, name="below the load"),
    ]
    foot = bench - 3.0
    items += linear(
        (at(-half, 0)[0], bench), (at(half, 0)[0], bench), (0, foot - 7.0), f"span {say(beam.span)}", "horizontal"
    )
    sag = say(test.sag.mean)
    items.append(Text(top[0] + 2.0, bench + 3.0, f"sag {sag} at the proof load", 3.0))
    items += linear(
        at(-test.reach, t), at(0, t), (0, top[1] + 6.0), f"joint {say(test.reach)}", "horizontal", outside="p"
    )
    return items


def _stands(at: Callable[[float, float], Point], half: float, bench: float, low: float) -> list[Item]:
    """Bench, bars, and the scale under the left one."""
    left, right = at(-half, 0)[0], at(half, 0)[0]
    items: list[Item] = [box(left - 14.0, bench - 3.0, right - left + 28.0, 3.0, THIN, BENCH)]
    for x, name in ((left, "scale"), (right, "block")):
        block = low - 2 * BAR - bench
        items.append(box(x - 11.0, bench, 22.0, block, EDGE, METAL if name == "scale" else BENCH))
        items.append(Text(x, bench + block / 2 - 1.0, name, 3.0, "middle"))
        circle = (Vertex(x + BAR, low - BAR, 1.0), Vertex(x - BAR, low - BAR, 1.0))
        items.append(Path(circle, True, EDGE, "#ffffff", "bar"))
    return items
