"""SVG: one sheet, in page mm, arcs as exact arcs. Text asks for any sans-serif at an explicit size.

A sheet is a file of its own, or a picture inside a page, which gives it its size, its ids and its colours of the night.
"""

from __future__ import annotations

import math
from pathlib import Path as FilePath
from xml.sax.saxutils import escape, quoteattr

from scarfwright.models.flat.loop import Edge
from scarfwright.outputs.drawing.display import Clip, Item, Path, Sheet, Text
from scarfwright.outputs.drawing.lettering import one_line


def write_svg(sheet: Sheet) -> str:
    """The sheet as an SVG document; 1 user unit is 1 mm."""
    body = _Body(sheet.height)
    lines = body.items(sheet.items, "  ")
    size = f'width="{_n(sheet.width)}mm" height="{_n(sheet.height)}mm"'
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {_n(sheet.width)} {_n(sheet.height)}"'
            ' font-family="sans-serif" fill="none" stroke-linejoin="round">',
            f"  <title>{escape(one_line(sheet.title))}</title>",
            f'  <rect width="{_n(sheet.width)}" height="{_n(sheet.height)}" fill="#ffffff"/>',
            *lines,
            "</svg>",
            "",
        ]
    )


def inline_svg(sheet: Sheet, ids: str, label: str) -> str:
    """The sheet as an element of a page: no size of its own, ids that begin with `ids`, `label` for who can't see it.

    Coordinates to 1/100 mm, no names: it is to be looked at, and stands in a page with many others.
    """
    body = _Body(sheet.height, ids, places=2, named=False)
    box = f'viewBox="0 0 {_n(sheet.width)} {_n(sheet.height)}"'
    head = f'<svg role="img" aria-label={quoteattr(one_line(label))} {box} fill="none" stroke-linejoin="round">'
    return "\n".join([head, *body.items(sheet.items, ""), "</svg>"])


def save_svg(sheet: Sheet, path: FilePath) -> None:
    """Write the drawing to a file."""
    path.write_text(write_svg(sheet), encoding="utf-8", newline="\n")


class _Body:
    """Writes items; y turns over, because SVG counts down the page."""

    def __init__(self, height: float, ids: str = "window", *, places: int = 4, named: bool = True) -> None:
        self.height = height
        self.ids = ids
        self.places = places
        self.named = named
        self.clips = 0

    def items(self, items: list[Item] | tuple[Item, ...], indent: str) -> list[str]:
        lines: list[str] = []
        for item in items:
            if isinstance(item, Path):
                lines.append(indent + self.path(item))
            elif isinstance(item, Text):
                lines.append(indent + self.text(item))
            else:
                lines += self.clip(item, indent)
        return lines

    def clip(self, clip: Clip, indent: str) -> list[str]:
        self.clips += 1
        name = f"{self.ids}{self.clips}"
        window = self.data(Path(clip.window.vertices, closed=True))
        return [
            f'{indent}<clipPath id="{name}"><path d="{window}"/></clipPath>',
            f'{indent}<g clip-path="url(#{name})">',
            *self.items(clip.items, indent + "  "),
            f"{indent}</g>",
        ]

    def path(self, path: Path) -> str:
        parts = [f'd="{self.data(path)}"']
        if path.fill:
            parts.append(f'fill="{path.fill}"')
        if path.pen:
            parts.append(f'stroke="{path.pen.colour}" stroke-width="{self.n(path.pen.width)}"')
            if path.pen.dash:
                parts.append(f'stroke-dasharray="{" ".join(self.n(d) for d in path.pen.dash)}"')
        if path.name and self.named:
            parts.append(f"data-name={quoteattr(one_line(path.name))}")
        return f"<path {' '.join(parts)}/>"

    def data(self, path: Path) -> str:
        out = [f"M{self.xy(*path.vertices[0].point)}"]
        out += [self.edge(edge) for edge in path.edges()]
        return " ".join(out) + (" Z" if path.closed else "")

    def edge(self, edge: Edge) -> str:
        if edge.bulge == 0:
            return f"L{self.xy(*edge.end)}"
        radius = self.n(edge.radius)
        large = int(abs(edge.bulge) > 1)
        sweep = int(edge.bulge < 0)  # counter-clockwise on our page runs against SVG's positive angle
        return f"A{radius} {radius} 0 {large} {sweep} {self.xy(*edge.end)}"

    def text(self, text: Text) -> str:
        x, y = text.x, self.height - text.y
        parts = [f'x="{self.n(x)}" y="{self.n(y)}" font-size="{self.n(text.size)}" fill="{text.colour}"']
        if text.anchor != "start":
            parts.append(f'text-anchor="{text.anchor}"')
        if text.bold:
            parts.append('font-weight="bold"')
        if abs(text.angle) > 1e-9:
            parts.append(f'transform="rotate({self.n(-math.degrees(text.angle))} {self.n(x)} {self.n(y)})"')
        return f"<text {' '.join(parts)}>{escape(one_line(text.text))}</text>"

    def xy(self, x: float, y: float) -> str:
        return f"{self.n(x)} {self.n(self.height - y)}"

    def n(self, value: float) -> str:
        return _n(value, self.places)


def _n(value: float, places: int = 4) -> str:
    """A number to 1/10 000 mm, or as few places as asked for, the same on every machine."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
