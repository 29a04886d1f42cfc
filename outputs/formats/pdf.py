"""PDF: sheets as vector pages with an embedded font; no time stamps, so the same sheets give the same bytes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from io import BytesIO
from pathlib import Path as FilePath
from typing import Any

from scarfwright.models.flat.loop import Edge, Point
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import Clip, Item, Path, Sheet, Text

POINTS = 72 / 25.4  # PDF's unit is 1/72 in


def write_pdf(sheets: Sequence[Sheet], title: str = "") -> bytes:
    """All sheets as one document, one page each. Raises ValueError without any sheet."""
    from reportlab.pdfgen.canvas import Canvas

    if not sheets:
        raise ValueError("a document needs at least one sheet")
    stream = BytesIO()
    canvas = Canvas(stream, invariant=1, pageCompression=0)  # packed pages would show the compressor's version
    canvas.setTitle(lettering.one_line(title or sheets[0].title))
    canvas.setAuthor("scarfwright")
    canvas.setCreator("scarfwright")
    canvas.setProducer("scarfwright")
    canvas.setViewerPreference("PrintScaling", "None")  # a drawing to scale must not be shrunk to the page
    for sheet in sheets:
        canvas.setPageSize((sheet.width * POINTS, sheet.height * POINTS))
        canvas.scale(POINTS, POINTS)
        canvas.setLineJoin(1)
        _items(canvas, sheet.items)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def save_pdf(sheets: Sequence[Sheet], path: FilePath, title: str = "") -> None:
    """Write the document to a file."""
    path.write_bytes(write_pdf(sheets, title))


def _items(canvas: Any, items: Sequence[Item]) -> None:
    for item in items:
        if isinstance(item, Path):
            _path(canvas, item)
        elif isinstance(item, Text):
            _text(canvas, item)
        else:
            _clip(canvas, item)


def _clip(canvas: Any, clip: Clip) -> None:
    canvas.saveState()
    canvas.clipPath(_outline(canvas, Path(clip.window.vertices, closed=True)), stroke=0, fill=0)
    _items(canvas, clip.items)
    canvas.restoreState()


def _path(canvas: Any, path: Path) -> None:
    if path.pen:
        canvas.setStrokeColor(_colour(path.pen.colour))
        canvas.setLineWidth(path.pen.width)
        canvas.setDash(list(path.pen.dash))
    if path.fill:
        canvas.setFillColor(_colour(path.fill))
    canvas.drawPath(_outline(canvas, path), stroke=int(path.pen is not None), fill=int(path.fill is not None))


def _outline(canvas: Any, path: Path) -> Any:
    out = canvas.beginPath()
    out.moveTo(*path.vertices[0].point)
    for edge in path.edges():
        if edge.bulge == 0:
            out.lineTo(*edge.end)
        else:
            for one, two, end in beziers(edge):
                out.curveTo(*one, *two, *end)
    if path.closed:
        out.close()
    return out


def beziers(edge: Edge) -> list[tuple[Point, Point, Point]]:
    """An arc as cubic curves of at most a quarter turn each (off by less than 0.03 % of the radius).

    Handle length 4/3 tan(angle / 4) x radius: the usual cubic whose middle lies on the circle.
    """
    turn = 4 * math.atan(edge.bulge)
    count = max(1, math.ceil(abs(turn) / (math.pi / 2) - 1e-9))
    step = turn / count
    (cx, cy), radius = edge.centre, edge.radius
    handle = 4 / 3 * math.tan(step / 4) * radius
    start = math.atan2(edge.start[1] - cy, edge.start[0] - cx)
    out = []
    for i in range(count):
        a, b = start + i * step, start + (i + 1) * step
        p = (cx + radius * math.cos(a), cy + radius * math.sin(a))
        q = edge.end if i == count - 1 else (cx + radius * math.cos(b), cy + radius * math.sin(b))
        one = (p[0] - handle * math.sin(a), p[1] + handle * math.cos(a))
        two = (q[0] + handle * math.sin(b), q[1] - handle * math.cos(b))
        out.append((one, two, q))
    return out


def _text(canvas: Any, text: Text) -> None:
    canvas.saveState()
    canvas.setFillColor(_colour(text.colour))
    canvas.setFont(lettering.font(lettering.font_name(text.bold)).fontName, text.size)
    canvas.translate(text.x, text.y)
    canvas.rotate(math.degrees(text.angle))
    left = {"start": 0.0, "middle": -0.5, "end": -1.0}[text.anchor] * text.width
    canvas.drawString(left, 0, lettering.in_font(text.text, text.bold))
    canvas.restoreState()


def _colour(value: str) -> Any:
    from reportlab.lib.colors import HexColor

    return HexColor(value)
