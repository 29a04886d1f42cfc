"""The page about choosing boards: where the wood must be clear, and how the grain should run at the taper."""

from __future__ import annotations

from scarfwright.models.flat.loop import Loop, Point, Vertex
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.drawn import Drawn, drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.planing.boards import BoardNeeds
from scarfwright.models.words.the_joint.planing import board_words
from scarfwright.models.words.the_joint.strength import NOT_DESIGN
from scarfwright.outputs.drawing.dimension import linear
from scarfwright.outputs.drawing.display import EDGE, OUTLINE, Clip, Item, Path, Pen, Sheet, Text
from scarfwright.outputs.wood_sheets.page import Area, Cells, Page, wood_page

WOOD = "#f3e3c3"
FIBRE, RIGHT, WRONG = Pen(0.2, "#9a7a45"), "#2d6a2d", "#b00000"
THICK = 15.0  # page mm the stock is drawn thick
FIBRES = 7


def boards_sheet(
    joint: Joint, needs: BoardNeeds, units: Unit, size: tuple[float, float], title: str, cells: Cells
) -> Sheet:
    """The page, on paper of `size` [mm]."""
    words = Page((), board_words(joint, needs, units), [NOT_DESIGN], "", "Choosing boards")
    return wood_page(words, lambda area: _picture(joint, needs, area, drawn_in(units)), size, title, cells)


def _picture(joint: Joint, needs: BoardNeeds, area: Area, say: Drawn) -> list[Item]:
    x, y, width, height = area
    items: list[Item] = [
        Text(
            x + 2, y + height - 4.8, "Two board ends from the side, drawn too thick: how the grain runs", 3.0, bold=True
        )
    ]
    half = width / 2
    for number, (along, name, colour) in enumerate(
        (
            (True, "RIGHT: grain runs out the same way as the taper", RIGHT),
            (False, "WRONG: short grain in the tip", WRONG),
        )
    ):
        items += _end(joint, needs, (x + number * half, y, half, height - 8.0), along, say)
        items.append(Text(x + number * half + half / 2, y + height - 15.0, name, 2.9, "middle", 0.0, True, colour))
    return items


def _end(joint: Joint, needs: BoardNeeds, area: Area, along: bool, say: Drawn) -> list[Item]:
    """One board end, tip to the left, with its fibres, and where it must be clear."""
    x, y, width, height = area
    shown = 1.25 * needs.clear
    scale = (width - 28.0) / shown
    left, low = x + 14.0, y + height / 2 - 2.0
    up = THICK / joint.thickness

    def at(s: float, z: float) -> Point:
        return left + s * scale, low + z * up

    t, b, taper = joint.thickness, joint.tip, joint.taper_run
    outline = Loop(tuple(Vertex(*at(*p)) for p in ((0, 0), (shown, 0), (shown, t), (taper, t), (0, b))))
    rise = t / taper * (1.0 if along else -1.0)
    fibres: list[Path] = []
    for i in range(-FIBRES, 2 * FIBRES):
        z = t * (i + 0.5) / FIBRES * 1.4
        fibres.append(Path((Vertex(*at(0, z - rise * shown / 2)), Vertex(*at(shown, z + rise * shown / 2))), pen=FIBRE))
    items: list[Item] = [
        Path(outline.vertices, True, None, WOOD, "board"),
        Clip(outline, tuple(fibres)),
        Path(outline.vertices, True, OUTLINE, None, "board end"),
    ]
    if along:
        items += linear(at(0, 0), at(taper, 0), (0, low - 6.0), f"taper {say(taper)}", "horizontal", size=3.0)
        clear = f"no knot, shake or pith: {say.up(needs.clear)}"
        items += linear(at(0, 0), at(needs.clear, 0), (0, low - 14.0), clear, "horizontal", size=3.0)
    items.append(Path((Vertex(*at(0, -0.1 * t)), Vertex(*at(0, b + 0.4 * t))), pen=EDGE, name="tip"))
    return items
