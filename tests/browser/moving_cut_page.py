"""A small page that holds the moving cut alone, under the content policy of the book, and a way to read its picture."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

from scarfwright.outputs.book.book import digest, page_data
from scarfwright.outputs.web.piece import Piece

START = """
scarfwright.pieces.moving_cut(document.querySelector("[data-piece]"),
  JSON.parse(document.getElementById("told").textContent));
"""
STYLE = ":root { color-scheme: light dark; } body { margin: 0 auto; max-width: 800px; font: 18px/1.4 sans-serif; }\n"

# the canvas as it was drawn last, read in the same frame: at places in CSS px, rows of red, green, blue, opacity
READ = """(places) => new Promise((done) => requestAnimationFrame(() => {
  const canvas = document.querySelector("canvas"), copy = document.createElement("canvas");
  Object.assign(copy, { width: canvas.width, height: canvas.height });
  const context = copy.getContext("2d");
  context.drawImage(canvas, 0, 0);
  const fine = canvas.width / canvas.clientWidth;
  done(places.map(([x, y]) => [...context.getImageData(Math.floor(x * fine), Math.floor(y * fine), 1, 1).data]));
}))"""
# the slider moved to a travel, the picture asked for before READ asks for its frame
MOVE = """(travel) => { const slider = document.querySelector("input[type=range]");
  slider.value = travel; slider.dispatchEvent(new Event("input")); }"""


def page_of(piece: Piece) -> str:
    script, style = piece.script + START, STYLE + piece.style
    policy = f"default-src 'none'; script-src '{digest(script)}'; style-src '{digest(style)}'"
    return (
        f'<!DOCTYPE html><html lang="en-GB"><head><meta charset="utf-8"><title>The cut</title>'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><style>{style}</style></head><body><main>'
        f'<h1>The cut</h1><section data-piece="{piece.key}">{piece.html}</section></main>'
        f'<script type="application/json" id="told">{page_data(piece.data)}</script><script>{script}</script>'
        "</body></html>"
    )


def written(piece: Piece, path: Path) -> str:
    """The page on disk; its address."""
    path.write_text(page_of(piece), encoding="utf-8")
    return path.as_uri()


def seen_at(view: Any, place: tuple[float, float, float], width: float, height: float) -> tuple[float, float]:
    """Where a place of the saw's frame is in a picture of so many px, by similar triangles from the eye."""
    turn, tilt = math.radians(view["turn"]), math.radians(view["tilt"])
    half = math.tan(math.radians(view["lens"]) / 2)
    away = max(view["tall"], view["wide"] * height / width) / 2 / half
    dx, dy, dz = (p - a for p, a in zip(place, view["at"], strict=True))
    # turned so that the eye looks along -x from x = away
    across = -dx * math.sin(turn) + dy * math.cos(turn)
    level = dx * math.cos(turn) + dy * math.sin(turn)
    towards = level * math.cos(tilt) + dz * math.sin(tilt)
    up = -level * math.sin(tilt) + dz * math.cos(tilt)
    scale = height / 2 / half / (away - towards)
    return (width / 2 + across * scale, height / 2 - up * scale)
