"""Drawings at full size cut into pages that overlap: which pages are needed, and exactly what each one shows.

The drawings stand on one plane [mm], in bands one above the other; a band is as many pages high as it needs. Each
page shows a window of the plane. What it shows is really cut at its window, so that a page holds nothing else.
"""

from __future__ import annotations

import string
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scarfwright.models.flat.chains import split
from scarfwright.models.flat.loop import Edge, Vertex, rectangle
from scarfwright.models.job.paper import OVERLAP, Paper
from scarfwright.models.lengths.length import round_up
from scarfwright.outputs.drawing.display import Clip, Item, Path, Text, flat

NEAR = 1e-6
BETWEEN = 12.0  # drawings in one band keep this apart [mm]
APART = 25.0  # bands keep this apart on the plane: their pages are not joined [mm]


@dataclass(frozen=True)
class Figure:
    """A drawing at full size: its name, its size, and its items from its own lower left corner [mm]."""

    name: str
    width: float
    height: float
    items: tuple[Path | Text, ...]


@dataclass(frozen=True)
class Band:
    """Figures one above the other with their places on the plane, and the plane's stretch they have to themselves."""

    figures: tuple[tuple[Figure, float], ...]
    bottom: float
    length: float
    height: float
    rows: int
    columns: int


@dataclass(frozen=True)
class Tile:
    """One page: its name, the window it shows of the plane, and what is in it, in plane mm."""

    name: str
    row: int
    column: int
    x: float
    y: float
    width: float
    height: float
    items: tuple[Item, ...]
    figures: tuple[str, ...]


def bands(figures: Sequence[Figure], paper: Paper) -> list[Band]:
    """Each figure in the first band that has room above those it holds already, else in a band of its own."""
    groups: list[list[Figure]] = []
    for figure in figures:
        for group in groups:
            used = sum(f.height + BETWEEN for f in group)
            if used + figure.height <= paper.window[1]:
                group.append(figure)
                break
        else:
            groups.append([figure])
    found: list[Band] = []
    bottom = 0.0
    for group in reversed(groups):  # the first stands uppermost
        places, height = [], 0.0
        for figure in group:
            places.append((figure, bottom + height))
            height += figure.height + BETWEEN
        height -= BETWEEN
        length = max(f.width for f in group)
        rows = paper.pages(height, 1)
        found.append(Band(tuple(places), bottom, length, height, rows, paper.pages(length, 0)))
        bottom = round_up(bottom + (rows - 1) * paper.step[1] + paper.window[1] + APART, paper.grid)
    return found[::-1]


def tiles(found: Sequence[Band], paper: Paper) -> list[Tile]:
    """The pages that show something no page before them shows, row by row from above."""
    out: list[Tile] = []
    row_number = 0
    for band in found:
        items = [_moved(item, 0.0, y) for figure, y in band.figures for item in figure.items]
        for row in range(band.rows - 1, -1, -1):
            for column in range(band.columns):
                tile = _tile(band, items, row, column, row_number, paper)
                if tile is not None:
                    out.append(tile)
            row_number += 1
    return out


def row_name(number: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    letters = string.ascii_uppercase
    return (row_name(number // 26 - 1) if number >= 26 else "") + letters[number % 26]


def _tile(band: Band, items: list[Path | Text], row: int, column: int, number: int, paper: Paper) -> Tile | None:
    x, y = column * paper.step[0], band.bottom + row * paper.step[1]
    width, height = paper.window
    if paper.roll:
        width = min(width, band.length - x)
    paths = [piece for item in items if isinstance(item, Path) for piece in clipped(item, x, y, width, height)]
    # the strip on the left belongs to the page there too, the lower strip to the page below
    own_x, own_y = x + (OVERLAP if column else 0.0), y + (OVERLAP if row else 0.0)
    if not any(p[0] >= own_x - NEAR and p[1] >= own_y - NEAR for path in paths for p in path.points()):
        return None
    window = rectangle(x, y, width, height)
    texts = [item for item in items if isinstance(item, Text) and _meets(item, x, y, width, height)]
    shown = tuple(figure.name for figure, base in band.figures if _shows(figure, base, x, y, width, height))
    clip = (Clip(window, tuple(texts)),) if texts else ()
    name = f"{row_name(number)}{column + 1}"
    return Tile(name, number, column, x, y, width, height, (*paths, *clip), shown)


def _shows(figure: Figure, base: float, x: float, y: float, width: float, height: float) -> bool:
    return x < figure.width and base < y + height and base + figure.height > y and x + width > 0


def _meets(text: Text, x: float, y: float, width: float, height: float) -> bool:
    corners = text.box()
    xs, ys = [p[0] for p in corners], [p[1] for p in corners]
    return min(xs) < x + width and max(xs) > x and min(ys) < y + height and max(ys) > y


def clipped(path: Path, x: float, y: float, width: float, height: float) -> list[Path]:
    """What of a path lies in a window, exact in lines and arcs; the path itself if all of it does."""

    def inside(p: tuple[float, float]) -> bool:
        return x - NEAR <= p[0] <= x + width + NEAR and y - NEAR <= p[1] <= y + height + NEAR

    sides = list(rectangle(x, y, width, height).edges())
    edges = list(path.edges())
    pieces = split(edges, sides)
    kept = [piece for piece in pieces if inside(piece.middle)]
    if len(kept) == len(pieces) == len(edges):
        return [path]
    runs: list[list[Edge]] = []
    for piece in kept:
        if runs and _near(runs[-1][-1].end, piece.start):
            runs[-1].append(piece)
        else:
            runs.append([piece])
    if path.closed and len(runs) > 1 and _near(runs[-1][-1].end, runs[0][0].start):
        runs[0] = runs.pop() + runs[0]
    return [_open(path, run) for run in runs]


def _near(p: tuple[float, float], q: tuple[float, float]) -> bool:
    return abs(p[0] - q[0]) < 10 * NEAR and abs(p[1] - q[1]) < 10 * NEAR


def _open(path: Path, run: list[Edge]) -> Path:
    vertices = [Vertex(*edge.start, edge.bulge) for edge in run]
    return Path((*vertices, Vertex(*run[-1].end)), False, path.pen, None, path.name)


def _moved(item: Path | Text, dx: float, dy: float) -> Path | Text:
    if isinstance(item, Text):
        return replace(item, x=item.x + dx, y=item.y + dy)
    return replace(item, vertices=tuple(Vertex(v.x + dx, v.y + dy, v.bulge) for v in item.vertices))


def moved(items: Iterable[Item], dx: float, dy: float) -> list[Item]:
    """Items carried from the plane to a page."""
    out: list[Item] = []
    for item in items:
        if isinstance(item, Clip):
            inner = tuple(_moved(i, dx, dy) for i in flat(item.items))
            out.append(Clip(item.window.moved(dx, dy), inner))
        else:
            out.append(_moved(item, dx, dy))
    return out
