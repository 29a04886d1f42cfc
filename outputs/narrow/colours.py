"""The colours of the narrow drawings, and what each becomes on a dark screen. Loads nothing."""

from __future__ import annotations

INK, PAPER = "#000000", "#ffffff"
WOOD, OTHER_WOOD, METAL, STEEL, GROUND = "#f3e3c3", "#e7cf9f", "#c9d3dc", "#9fb0bd", "#eef1ec"
STRIP, GOOD, LOSS = "#d9e6cf", "#cfe3c4", "#d8d2c8"
RED, BLUE = "#a00000", "#1f4e79"
NIGHT = {  # what each colour of the day becomes on a dark screen
    INK: "#f6efe2",
    PAPER: "#1d1813",
    WOOD: "#6a5433",
    OTHER_WOOD: "#85673a",
    METAL: "#4a5963",
    STEEL: "#6d8291",
    GROUND: "#2b3029",
    STRIP: "#3f5233",
    GOOD: "#3f6a2c",
    LOSS: "#4b443b",
    RED: "#ff9d8a",
    BLUE: "#9cc9f2",
    "#555555": "#c9bfae",
    "#777777": "#b5ab9b",
}
