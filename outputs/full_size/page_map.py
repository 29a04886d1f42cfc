"""The first page of the templates: a map of the pages, and how to print, join and use them."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.job.paper import FOOT, MARGIN, OVERLAP, Paper
from scarfwright.models.lengths.say import say_in
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.dimension import FREE
from scarfwright.outputs.drawing.display import (
    EDGE,
    THIN,
    Item,
    Path,
    Pen,
    Text,
    View,
    box,
    fitting_scale,
    line,
    scale_text,
)
from scarfwright.outputs.drawing.job_cells import DEFER
from scarfwright.outputs.drawing.lettering import wrap
from scarfwright.outputs.drawing.panels import Row, panel
from scarfwright.outputs.full_size.tiling import Band, Tile

TILE = Pen(0.3, "#b00000")
RULES = 74.0  # height of the panels under the map
LEGEND = 76.0  # width of the legend


def map_items(
    work: Workup, paper: Paper, found: Sequence[Band], pages: Sequence[Tile], cut: Pen, sawn: Pen
) -> list[Item]:
    """Everything between head and foot of the first page."""
    x, y = MARGIN, MARGIN + FOOT
    width, height = paper.page_width(0.0) - 2 * MARGIN, paper.window[1]
    rules = (x, y, width - LEGEND, RULES)
    return [
        *_map((x, y + RULES, width, height - RULES), found, pages),
        *panel(rules, "Print, check, join", _rules(work, found), 3.2),
        *_legend((x + width - LEGEND, y, LEGEND, RULES), cut, sawn),
    ]


def _map(area: tuple[float, float, float, float], found: Sequence[Band], pages: Sequence[Tile]) -> list[Item]:
    """The plane made small: the templates' outlines, and the pages over them with their names."""
    x, y, width, height = area
    right = max(tile.x + tile.width for tile in pages)
    top = max(tile.y + tile.height for tile in pages)
    scale = fitting_scale(right, top, width - 12.0, height - 16.0, 1.0)
    view = View(scale, (x + (width - right / scale) / 2, y + 4.0 + (height - 12.0 - top / scale) / 2))
    items: list[Item] = [box(*area, EDGE)]
    items.append(Text(x + 2, y + height - 5.5, f"Page map, scale {scale_text(scale)}", 3.4, bold=True))
    for band in found:
        for figure, base in band.figures:
            place = View(scale, view.point((0.0, base)))
            items += [_small(path, place) for path in figure.items if isinstance(path, Path) and path.closed]
    for tile in pages:
        left, low = view.point((tile.x, tile.y))
        items.append(box(left, low, view.length(tile.width), view.length(tile.height), TILE))
    for tile in pages:
        size = min(5.0, 0.4 * view.length(min(tile.width, tile.height)))
        at = view.point((tile.x + tile.width / 2, tile.y + 0.82 * tile.height))
        name = Text(at[0], at[1] - 0.3 * size, tile.name, size, "middle", bold=True, colour=TILE.colour)
        wide = name.width + 1.0  # a patch of paper, so that no outline runs through the name
        items += [box(at[0] - wide / 2, name.y - 0.3 * size, wide, 1.2 * size, None, "#ffffff"), name]
    return items


def _small(path: Path, view: View) -> Path:
    return Path(tuple(v._replace(x=p[0], y=p[1]) for v in path.vertices for p in [view.point(v.point)]), True, THIN)


def _rules(work: Workup, found: Sequence[Band]) -> list[Row]:
    say = say_in(work.job.units)
    several = any(band.rows * band.columns > 1 for band in found)
    rows = [
        Row("Print at 100 %, no fit to page; measure the check scale.", bold=True),
        Row(
            "Both bars at the foot of every page must measure what they say, to half a millimetre or 1/64 in. If they "
            "do not, throw the print away and print again without fitting, shrinking or centring."
        ),
    ]
    if several:
        rows.append(
            Row(
                f"Neighbours overlap by {say(OVERLAP)}. Cut one of two along the dashed join line, lay it on the other "
                "so that both diamonds and the drawing meet, tape. Left to right, then row on row, on a flat table; "
                "check with a straightedge along the fence edge."
            )
        )
    length = say(work.way.nominal.length)
    rows.append(Row(f"Before use measure the whole: the sled's template is {length} long. Paper moves with damp."))
    if work.way.nominal.mark is None:
        rows.append(Row("SLED: cut out along the thick line, lay ends and fence edge flush with the sheet."))
    else:
        rows.append(
            Row(
                "SLED: cut out along the thick line; ends and fence edge flush with the plank. The sloping edge is the "
                f"dividing line, the middle of the kerf: its ends are both marks M, {say(work.way.nominal.mark)} from "
                "opposite edges. Turned half round, the same template marks the other half."
            )
        )
    rows.append(
        Row(
            "TAPER: cut out, glue or tape it on the board's edge: tip flush with the end, its straight long side along "
            "the face that lies on the sled. The slope is the cut."
        )
    )
    rows.append(Row(f"Marks guide the saw, they do not replace its set-up. Sawing can maim. {DEFER}"))
    return rows


def _legend(area: tuple[float, float, float, float], cut: Pen, sawn: Pen) -> list[Item]:
    x, y, _, height = area
    items: list[Item] = [box(*area, EDGE, FREE), Text(x + 2, y + height - 5.5, "Lines", 3.2, bold=True)]
    rows = [
        (cut, "edge of a template: cut out here"),
        (sawn, "to be drawn on the wood: notch, bore, hand line, work edge"),
        (Pen(0.13, "#666666", (2.0, 1.5)), "join line of two pages"),
    ]
    level = y + height - 13.0
    for pen, text in rows:
        items.append(line([(x + 3, level), (x + 15, level)], pen))
        for part in wrap(text, 2.6, LEGEND - 21.0):
            items.append(Text(x + 18, level - 0.9, part, 2.6))
            level -= 3.6
        level -= 3.2
    items += [line([(x + 4, level), (x + 14, level)], THIN), line([(x + 9, level - 3), (x + 9, level + 3)], THIN)]
    items.append(Text(x + 18, level - 0.9, "drill centre", 2.6))
    level -= 9.0
    items.append(Text(x + 3, level, "On every page: its name in the corners, the", 2.6))
    items.append(Text(x + 3, level - 3.6, "place of its lower left corner on the map.", 2.6))
    return items
