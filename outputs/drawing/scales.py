"""Check scales: a bar of 100 mm and one of 4 in at full size, to be measured on the print before it is trusted."""

from __future__ import annotations

from scarfwright.outputs.drawing.display import EDGE, THIN, Item, Text, line

BARS = (("100 mm", 100.0, 10), ("4 in", 101.6, 8))  # name, length [mm], divisions
NAME_ROOM = 18.0  # to the right of a bar
SCALES_WIDTH = sum(length + NAME_ROOM for _, length, _ in BARS)
TICK, SHORT, SIZE = 2.4, 1.4, 2.8


def check_scales(x: float, y: float) -> list[Item]:
    """Both bars side by side, their base line's left end at (x, y), ticks above it, their names beside [page mm]."""
    items: list[Item] = []
    for name, length, divisions in BARS:
        items.append(line([(x, y), (x + length, y)], EDGE, f"check scale {name}"))
        for i in range(divisions + 1):
            at = x + length * i / divisions
            items.append(line([(at, y), (at, y + (TICK if i in (0, divisions) else SHORT))], THIN))
        items.append(Text(x + length + 2.0, y, name, SIZE, bold=True))
        x += length + NAME_ROOM
    return items
