"""paper/templates.pdf: the templates at full size on pages to be joined, a map of the pages, and the shop drawings.

Every page has its name in the corners, a bar of 100 mm and one of 4 in to measure, and says what it shows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from scarfwright.models.flat.loop import Point, Vertex
from scarfwright.models.job.paper import FOOT, HEAD, MARGIN, OVERLAP, Paper, paper_of
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.templates.shapes import CENTRE_HOLE, sled_template, taper_template
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.display import ASCENT, GREY, THIN, Item, Path, Pen, Sheet, Text, box, line, shape
from scarfwright.outputs.drawing.scales import SCALES_WIDTH, check_scales
from scarfwright.outputs.full_size.page_map import map_items
from scarfwright.outputs.full_size.tiling import Figure, Tile, bands, moved, tiles

CUT = Pen(0.4)
SAWN = Pen(0.25, dash=(4.0, 1.0))
JOIN = Pen(0.13, "#666666", (2.0, 1.5))
ARM = 5.0  # of a drill centre's cross [mm]
BESIDE = 2.0  # paper round a template
DIAMOND = 2.5
NAME, SMALL = 5.5, 2.5
ORDER = "Print at 100 %, no fit to page; measure the check scale."


def template_sheets(work: Workup, drawings: Sequence[Sheet]) -> list[Sheet]:
    """All pages in order: the map, the pages to join, the shop drawings. For a job without faults."""
    paper = paper_of(work.job.files, work.job.units)
    found = bands([figure(part) for part in (sled_template(work), taper_template(work))], paper)
    pages = tiles(found, paper)
    count = 1 + len(pages) + len(drawings)
    first = _blank(work, paper, "page map", 0.0)
    first.add(_frame(first, paper, "MAP", f"Templates at full size: {work.job.title or 'sled'}", 1, count, ""))
    first.add(map_items(work, paper, found, pages, CUT, SAWN))
    sheets = [first]
    for number, tile in enumerate(pages, 2):
        sheets.append(_page(work, paper, tile, pages, number, count))
    return [*sheets, *(_drawing(paper, sheet) for sheet in drawings)]


def figure(part: Part) -> Figure:
    """A template at full size with what is cut, drawn and drilled, and its words."""
    x0, y0, x1, y1 = part.outline.bounds
    dx, dy = BESIDE - x0, BESIDE - y0
    here = part.moved(dx, dy)
    items: list[Path | Text] = [shape(here.outline, CUT, None, "cut line")]
    for feature in here.features:
        if feature.operation is Operation.CUT_INSIDE and feature.loop.circle is not None:
            items += _drill_centre(*feature.loop.circle)
        else:
            items.append(shape(feature.loop, SAWN, None, feature.name))
    for mark in here.marks:
        if len(mark.points) > 1:
            items.append(line(mark.points, SAWN, mark.name))
        if mark.text:
            x, y = mark.points[0]
            items.append(Text(x, y, mark.text, mark.height / ASCENT, "start", mark.angle, name=mark.name))
    return Figure(part.title, x1 - x0 + 2 * BESIDE, y1 - y0 + 2 * BESIDE, tuple(items))


def _drill_centre(at: Point, _radius: float) -> list[Path | Text]:
    x, y = at
    ring = (Vertex(x + CENTRE_HOLE / 2, y, 1.0), Vertex(x - CENTRE_HOLE / 2, y, 1.0))
    return [
        line([(x - ARM, y), (x + ARM, y)], THIN, "drill centre"),
        line([(x, y - ARM), (x, y + ARM)], THIN, "drill centre"),
        Path(ring, True, THIN),
    ]


def _page(work: Workup, paper: Paper, tile: Tile, pages: Sequence[Tile], number: int, count: int) -> Sheet:
    sheet = _blank(work, paper, f"page {tile.name}", tile.width)
    what = f"{', '.join(tile.figures)}: {work.job.title or 'sled'}"
    say = drawn_in(work.job.units)
    place = f"Lower left corner of {tile.name} on the map: x {say(tile.x)}, y {say(tile.y)}"
    sheet.add(_frame(sheet, paper, tile.name, what, number, count, place))
    sheet.add(box(MARGIN, MARGIN + FOOT, tile.width, tile.height, GREY))
    dx, dy = MARGIN - tile.x, MARGIN + FOOT - tile.y
    sheet.add(moved([*tile.items, *_joins(paper, tile, pages)], dx, dy))
    return sheet


def _blank(work: Workup, paper: Paper, what: str, shown: float) -> Sheet:
    title = f"{work.job.title or 'Sled'}: templates, {what}"
    return Sheet(title, paper.page_width(shown), paper.height, MARGIN)


def _frame(sheet: Sheet, paper: Paper, name: str, what: str, number: int, count: int, place: str) -> list[Item]:
    """Head and foot of a page: names in the corners, what it is, and the check scales."""
    left, right = MARGIN, sheet.width - MARGIN
    head, foot = sheet.height - MARGIN - HEAD + 1.6, MARGIN
    items: list[Item] = []
    for y in (head, foot + 0.5):
        items.append(Text(left, y, name, NAME, "start", bold=True))
        items.append(Text(right, y, name, NAME, "end", bold=True))
    middle = (left + right) / 2
    room = right - left - 2 * lettering.width(name, NAME, True) - 10.0
    told = f"{what}, {'roll' if paper.roll else paper.name}, page {number} of {count}"
    size, lines = lettering.fit(told, 3.0, room)
    items.append(Text(middle, head + 0.6, lines[0], size, "middle"))
    items += check_scales(middle - SCALES_WIDTH / 2, foot + 9.5)
    size, lines = lettering.fit(f"{ORDER} {place}".strip(), 3.0, room)
    items.append(Text(middle, foot + 2.0, lines[0], size, "middle", bold=not place))
    return items


def _joins(paper: Paper, tile: Tile, pages: Sequence[Tile]) -> list[Item]:
    """Along each edge that has a neighbour: a line to cut along, and two diamonds that must meet their likes."""
    items: list[Item] = []
    for other in pages:
        across, up = other.x - tile.x, other.y - tile.y
        beside = abs(up) < 1e-6 and math.isclose(abs(across), paper.step[0])
        above = abs(across) < 1e-6 and math.isclose(abs(up), paper.step[1])
        names = " | ".join(sorted((tile.name, other.name), key=lambda n: (len(n), n)))
        if beside:
            x = max(tile.x, other.x) + OVERLAP / 2
            items += _join((x, tile.y), (x, tile.y + tile.height), names)
        elif above:
            y = max(tile.y, other.y) + OVERLAP / 2
            wide = min(tile.width, other.width)
            items += _join((tile.x, y), (tile.x + wide, y), names)
    return items


def _join(start: Point, end: Point, names: str) -> list[Item]:
    items: list[Item] = [line([start, end], JOIN, "join line")]
    upright = start[0] == end[0]
    for share in (0.2, 0.8):
        x = start[0] + share * (end[0] - start[0])
        y = start[1] + share * (end[1] - start[1])
        corners = ((x + DIAMOND, y), (x, y + DIAMOND), (x - DIAMOND, y), (x, y - DIAMOND))
        items.append(Path(tuple(Vertex(*c) for c in corners), True, THIN, None, "join mark"))
        items += [
            line([(x - DIAMOND, y), (x + DIAMOND, y)], THIN, "join mark"),
            line([(x, y - DIAMOND), (x, y + DIAMOND)], THIN, "join mark"),
        ]
        away = DIAMOND + 1.0
        angle = math.pi / 2 if upright else 0.0
        at = (x - 0.6, y + away) if upright else (x + away, y + 0.6)
        items.append(Text(*at, names, SMALL, "start", angle, colour="#444444"))
    return items


def _drawing(paper: Paper, sheet: Sheet) -> Sheet:
    """A shop drawing as a page: the check scales in the margin under its frame, on a roll at the roll's width."""
    x = (sheet.width - SCALES_WIDTH) / 2
    scales = check_scales(x, MARGIN - 1.0)
    height = paper.height if paper.roll else sheet.height
    return replace(sheet, height=height, items=[*sheet.items, *scales])
