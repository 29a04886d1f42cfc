"""Small pictures of where each figure of a test joint is taken. None is to scale; errors are drawn much too large."""

from __future__ import annotations

import math

from scarfwright.models.flat.loop import Point, polygon
from scarfwright.models.joint.joint import Joint
from scarfwright.outputs.drawing.dimension import linear
from scarfwright.outputs.drawing.display import CENTRE, EDGE, PHANTOM, Item, Pen, Text, box, line, shape
from scarfwright.outputs.joint_sheet.shapes import OTHER_WOOD, WOOD, far_board, near_board

Area = tuple[float, float, float, float]
STICK = Pen(1.1, "#5b4a32")
MARK = Pen(0.35, "#1f4e79")
LETTER = 3.6
STEEP = 3.2  # N of the slopes drawn


def pictures(area: Area) -> list[Item]:
    """All of them in a row."""
    x, y, width, height = area
    makers = (_board, _face, _joint, _gaps, _sticks)
    shares = (0.25, 0.21, 0.24, 0.13, 0.17)
    items: list[Item] = []
    left = x
    for make, share in zip(makers, shares, strict=True):
        wide = share * width
        items.append(box(left, y, wide, height, EDGE))
        heading, drawn = make((left + 3.0, y + 3.0, wide - 6.0, height - 12.0))
        items.append(Text(left + 2, y + height - 4.6, heading, 2.7, bold=True))
        items += drawn
        left += wide
    return items


def _letter(at: Point, letter: str) -> Text:
    return Text(at[0], at[1] - 0.36 * LETTER, letter, LETTER, "middle", bold=True, colour="#1f4e79")


def _board(area: Area) -> tuple[str, list[Item]]:
    """One board from above: thicknesses, tip and run."""
    x, y, width, height = area
    run, thick = 0.66 * width, 0.66 * width / STEEP
    tip = 0.13 * thick
    base = y + 0.42 * height
    end = x + width - 6.0
    full = end - run
    outline = [(x, base), (end, base), (end, base + tip), (full, base + thick), (x, base + thick)]
    items: list[Item] = [shape(polygon(outline), EDGE, WOOD)]
    items += linear((full, base), (end, base), (0, base - 5.0), "", "horizontal")
    items.append(_letter(((full + end) / 2, base - 8.5), "C"))
    items += linear((x + 4, base), (x + 4, base + thick), (x + 4, 0), "", "vertical")
    items.append(_letter((x + 7.5, base + thick / 2), "A"))
    items += linear((end, base), (end, base + tip), (end + 2.0, 0), "", "vertical")
    items.append(_letter((end + 4.6, base + 5.5), "B"))
    for share, letter in ((0.25, "D"), (0.75, "E")):
        at = end - share * run
        top = base + tip + share * (thick - tip)
        items.append(line([(at, base), (at, top)], MARK))
        items.append(_letter((at, top + 4.2), letter))
    return "One board, from above", items


def _face(area: Area) -> tuple[str, list[Item]]:
    """The tapered face: the marks at both edges, and the line where the taper ends."""
    x, y, width, height = area
    low, high = y + 0.25 * height, y + 0.75 * height
    end, out = x + 0.30 * width, 3.2
    items: list[Item] = [box(x, low, width, high - low, EDGE, WOOD)]
    items.append(shape(polygon([(end, low), (x + width, low), (x + width, high), (end + out, high)]), EDGE, OTHER_WOOD))
    items.append(line([(end, low), (end, high)], PHANTOM))
    items += linear((end, high), (end + out, high), (0, high + 2.5), "", "horizontal")
    items.append(_letter((end + out / 2, high + 7.0), "F"))
    for share, letter in ((0.25, "D"), (0.72, "E")):
        at = x + width - share * (x + width - end)
        items.append(line([(at, low), (at, high)], MARK))
        for edge, up in ((high, 3.6), (low, -3.6)):
            items.append(_letter((at, edge + up), letter))
    items.append(Text(x + width - 1, low + 1.2, "tip", 2.4, "end"))
    return "Its tapered face", items


def _joint(area: Area) -> tuple[str, list[Item]]:
    """The pair from above: tip to tip, thickness."""
    x, y, width, height = area
    thick = 0.34 * height
    joint = Joint(STEEP, thick, thick, 0.07 * thick)
    reach = (width - joint.overlap) / 2
    base = y + 0.40 * height

    def placed(points: list[Point]) -> list[Point]:
        return [(x + reach + px, base + py) for px, py in points]

    items: list[Item] = [
        shape(polygon(placed(near_board(joint, reach))), EDGE, WOOD),
        shape(polygon(placed(far_board(joint, reach))), EDGE, OTHER_WOOD),
    ]
    left, right = x + reach, x + reach + joint.overlap
    items += linear((left, base + thick), (right, base), (0, base - 5.0), "", "horizontal")
    items.append(_letter(((left + right) / 2, base - 8.5), "J"))
    middle = (left + right) / 2
    items += linear((middle, base), (middle, base + thick), (middle, 0), "", "vertical")
    items.append(_letter((middle - 3.2, base + thick + 4.0), "K"))
    return "The pair, from above", items


def _gaps(area: Area) -> tuple[str, list[Item]]:
    """The pair cut across: held flat, open at one edge."""
    x, y, width, height = area
    high = 0.62 * height
    base = y + 0.16 * height
    middle, half, lean = x + width / 2, 0.32 * width, 2.2
    left, right = middle - half, middle + half
    near = [(left, base), (middle - lean, base), (middle, base + high), (left, base + high)]
    far = [(right, base), (middle + lean, base), (middle, base + high), (right, base + high)]
    items: list[Item] = [shape(polygon(near), EDGE, WOOD), shape(polygon(far), EDGE, OTHER_WOOD)]
    items.append(_letter((middle, base + high + 3.4), "G"))
    items.append(_letter((middle, base - 3.4), "H"))
    items.append(line([(middle, base - 0.8), (middle, base + high + 0.8)], CENTRE))
    return "Held flat, cut across", items


def _sticks(area: Area) -> tuple[str, list[Item]]:
    """Two winding sticks, seen along the joint."""
    x, y, width, height = area
    middle, base = x + width / 2, y + 0.40 * height
    half, turn = 0.42 * width, math.radians(9)
    items: list[Item] = [box(middle - 3, base - 13, 9, 13, EDGE, WOOD)]
    items.append(line([(middle - half, base + 0.6), (middle + half, base + 0.6)], STICK))
    far = base + 7.5
    ends = [(middle + side * half * math.cos(turn), far - side * half * math.sin(turn)) for side in (-1, 1)]
    items.append(line(ends, Pen(1.1, "#a08a63")))
    left = middle - half
    items += linear((left + 1, base + 1.2), (left + 1, far + half * math.sin(turn)), (left + 1, 0), "", "vertical")
    items.append(_letter((left + 4.6, base + 4.6), "I"))
    items.append(Text(middle + half, base - 3.0, "near", 2.3, "end"))
    items.append(Text(middle + half, far + 1.5, "far: down", 2.3, "end"))
    for row, told in enumerate(("near", "board's", "tip this", "side")):  # narrow, to stand clear of the board
        items.append(Text(left, base - 4.4 - 2.8 * row, told, 2.3))
    return "Closed, along the joint", items
