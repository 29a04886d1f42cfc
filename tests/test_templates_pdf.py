"""paper/templates.pdf read back: page sizes, check scales, and the pages laid together against numbers.json.

Lines come from the pages' own vectors; where a page lies on the plane is read from its foot.
"""

from __future__ import annotations

import io
import math
import re
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pdfplumber
import pytest
from scarfwright.models.findings import Finding, faults
from scarfwright.models.flat.loop import Vertex, rectangle
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.paper import paper_of
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Path as Run
from scarfwright.outputs.formats.pdf import write_pdf
from scarfwright.outputs.full_size.templates_pdf import CUT, template_sheets
from scarfwright.outputs.full_size.tiling import clipped, row_name
from scarfwright.outputs.make import items
from shapely import LineString, Polygon, box, unary_union
from shapely.affinity import translate

from tests.clear_sheets import unclear
from tests.examples import sled_sheets

MM = 25.4 / 72
STOCK = {"thickness": "22 mm", "height": "60 mm"}
METRIC: dict[str, Any] = {"stock": STOCK, "joint": {"ratio": 12}, "sled": {"plank": ["38 mm", "184 mm"]}}
WIDE = {**METRIC, "clamp": {"opening": "120 mm"}, "sled": {"plank": ["38 mm", "286 mm"], "length": "1.5 m"}}
INCH: dict[str, Any] = {
    "units": "in",
    "stock": {"thickness": "3/4 in", "height": "2 1/2 in"},
    "joint": {"ratio": 14},
    "clamp": {"opening": "3 in"},
    "sled": {"plank": "2x6"},
}
SHEET: dict[str, Any] = {
    **METRIC,
    "saw": {"fence_side": "left"},
    "sled": {"made_from": "sheet", "layers": 2, "length": "1.1 m"},
}
CASES = {
    "plank on A4": (METRIC, "A4"),
    "wide plank on A4": (WIDE, "A4"),
    "inches on Letter": (INCH, "Letter"),
    "sheet, fence left, on Letter": (SHEET, "Letter"),
    "sheet, fence left, on A4": (SHEET, "A4"),
    "inches on a roll": (INCH, "roll"),
    "wide plank on a roll": (WIDE, "roll"),
}
SIZES = {"A4": (297.0, 210.0), "Letter": (11 * 25.4, 8.5 * 25.4)}


def _told(text: str) -> float:
    """A length as it stands on the page [mm]: "201.9 mm", 7 61/64"."""
    if text.endswith("mm"):
        return float(text.removesuffix("mm"))
    return 25.4 * sum(float(Fraction(part)) for part in text.removesuffix('"').split())


class Page(NamedTuple):
    """One page: its size [mm], its text, lines with their widths [mm] in page mm, y up, and its count of images."""

    width: float
    height: float
    text: str
    lines: list[tuple[LineString, float]]
    images: int

    @property
    def place(self) -> tuple[str, float, float] | None:
        found = re.search(r"Lower left corner of (\w+) on the map: x ([^,]+), y ([\d./ ]+(?: mm|\"))", self.text)
        return (found[1], _told(found[2]), _told(found[3])) if found else None


class Made(NamedTuple):
    work: Workup
    numbers: dict[str, Any]
    pages: list[Page]
    paper: str


@cache
def _made(name: str) -> Made:
    raw, paper = CASES[name]
    work = work_up(job_from_dict({**raw, "files": {"paper": paper}}))
    assert not faults(list(work.findings))
    return Made(work, numbers(work), pages(write_pdf(template_sheets(work, sled_sheets(work)))), paper)


@pytest.fixture(params=list(CASES))
def made(request: pytest.FixtureRequest) -> Made:
    return _made(request.param)


def pages(data: bytes) -> list[Page]:
    out = []
    with pdfplumber.open(io.BytesIO(data)) as document:
        for page in document.pages:
            height = float(page.height)
            lines = []
            for thing in [*page.lines, *page.curves, *page.rects]:
                points = [(float(x) * MM, (height - float(y)) * MM) for x, y in thing["pts"]]
                if thing["object_type"] == "rect" or _closed(thing):
                    points.append(points[0])
                lines += [(LineString(points), float(thing["linewidth"]) * MM)]
            out.append(Page(float(page.width) * MM, height * MM, page.extract_text(), lines, len(page.images)))
    return out


def _closed(thing: dict[str, Any]) -> bool:
    return bool(thing.get("path")) and thing["path"][-1][0] == "h"


def tile_pages(made: Made) -> list[Page]:
    return [page for page in made.pages if page.place is not None]


HALF = 0.02  # half the width given to lines [mm]: a gap wider than twice that stays open


def assembled(made: Made) -> list[Polygon]:
    """What the thick lines of all pages close round, each page laid where its foot says; largest first."""
    found = []
    for page in tile_pages(made):
        assert page.place is not None
        _, x, y = page.place
        (frame,) = [line for line, _ in page.lines if line.is_closed and _is_window(line, page)]
        dx, dy = x - frame.bounds[0], y - frame.bounds[1]
        for line, wide in page.lines:
            if wide == pytest.approx(CUT.width, abs=0.01):
                assert frame.envelope.buffer(0.01).covers(line)  # nothing drawn outside the window
                found.append(translate(line, dx, dy))
    drawn = unary_union([line.buffer(HALF) for line in found])
    rings = [ring for part in getattr(drawn, "geoms", [drawn]) for ring in part.interiors]
    inside = [Polygon(ring).buffer(HALF, join_style="mitre") for ring in rings]
    return sorted(inside, key=lambda p: -p.area)


def _is_window(line: LineString, page: Page) -> bool:
    low_x, low_y, high_x, high_y = line.bounds
    return bool(high_y - low_y > 0.7 * page.height and high_x - low_x > 0.5 * page.width)


def expected(made: Made) -> tuple[Polygon, Polygon]:
    """Sled template and taper template from numbers.json alone."""
    sled, joint = made.numbers["sled"], made.numbers["joint"]
    length, flat, step = sled["length_mm"], sled["nose_flat_mm"], sled["nose_flat_step_mm"]
    heel, nose = sled["heel_mm"], sled["nose_mm"]
    if sled["mark_mm"] is not None:
        heel, nose = sled["mark_mm"], sled["plank_width_mm"] - sled["mark_mm"]
    side = -1 if made.work.job.saw.fence_side == "left" else 1
    corners = [(0, 0), (flat, step), (flat, 0), (length, 0), (length, heel), (0, nose)]
    run, thick, tip = joint["taper_run_mm"], joint["thickness_mm"], joint["tip_mm"]
    return Polygon([(x, side * y) for x, y in corners]), Polygon([(0, 0), (run, 0), (run, thick), (0, tip)])


def test_pages_have_the_paper_asked_for(made: Made) -> None:
    for page in made.pages:
        if made.paper == "roll":
            assert page.height == pytest.approx(24 * 25.4 if made.work.job.units == "in" else 610, abs=0.01)
            assert 297 - 0.01 <= page.width <= 5080
        else:
            assert (page.width, page.height) == pytest.approx(SIZES[made.paper], abs=0.01)


def test_every_page_carries_both_check_scales(made: Made) -> None:
    assert len(made.pages) >= 4
    for page in made.pages:
        for name, length in (("100 mm", 100.0), ("4 in", 101.6)):
            assert name in page.text
            bars = [
                line
                for line, _ in page.lines
                if len(line.coords) == 2
                and abs(line.length - length) < 0.05
                and abs(line.coords[0][1] - line.coords[1][1]) < 1e-6
                and line.bounds[1] < 30
            ]
            assert bars, (name, page.text)
            (bar,) = bars
            assert bar.length == pytest.approx(length, abs=0.001)
            ticks = [line for line, _ in page.lines if line.length == pytest.approx(2.4, abs=0.01)]
            ends = [tick for tick in ticks if min(math.dist(tick.coords[0], end) for end in bar.coords) < 0.001]
            assert len(ends) == 2  # a tick at each end
        assert page.images == 0


def test_pages_laid_together_cover_both_outlines_without_gap(made: Made) -> None:
    """Lines that leave a gap close round nothing; pages that meet askew give a wrong shape."""
    shapes = assembled(made)
    assert len(shapes) == 2
    for shape, wanted in zip(shapes, expected(made), strict=True):
        dx, dy = shape.bounds[0] - wanted.bounds[0], shape.bounds[1] - wanted.bounds[1]
        there = translate(wanted, dx, dy)
        assert there.hausdorff_distance(shape) < 0.03
        assert shape.area == pytest.approx(wanted.area, abs=0.02 * wanted.length)


def test_drill_centres_are_where_the_numbers_say(made: Made) -> None:
    """The middles of the crosses, from the nose's fence corner, against stations from the heel."""
    sled = made.numbers["sled"]
    side = -1 if made.work.job.saw.fence_side == "left" else 1
    theta = math.atan((sled["heel_mm"] - sled["nose_mm"]) / sled["length_mm"])
    along, inward = -complex(math.cos(theta), math.sin(theta)), complex(math.sin(theta), -math.cos(theta))
    corner = complex(sled["length_mm"], sled["heel_mm"])
    wanted = []
    for notch in sled["notches"]:
        for half in (-1, 1):
            station = notch["station_mm"] + half * (notch["length_mm"] - notch["width_mm"]) / 2
            wanted.append(corner + along * station + inward * (notch["web_mm"] + notch["width_mm"] / 2))
    wanted += [complex(sled["length_mm"] - s, y) for s, y in sled["handle_holes_mm"] + sled["dowels_mm"]]
    whole = assembled(made)[0]
    x0 = whole.bounds[0]
    y0 = whole.bounds[1] if side > 0 else whole.bounds[3]
    arms = []
    for page in tile_pages(made):
        assert page.place is not None
        (frame,) = [line for line, _ in page.lines if line.is_closed and _is_window(line, page)]
        dx, dy = page.place[1] - frame.bounds[0], page.place[2] - frame.bounds[1]
        tens = [line for line, _ in page.lines if line.length == pytest.approx(10, abs=0.01)]
        arms += [translate(line, dx - x0, dy - y0) for line in tens]
    crosses = {(round(a.centroid.x, 2), round(side * a.centroid.y, 2)) for a in arms}
    for centre in wanted:
        assert min(math.dist(c, (centre.real, centre.imag)) for c in crosses) < 0.03


def test_only_pages_that_hold_something_and_named_in_the_corners(made: Made) -> None:
    names = [page.place[0] for page in tile_pages(made) if page.place]
    assert len(set(names)) == len(names)
    for page, name in zip(tile_pages(made), names, strict=True):
        assert page.text.split().count(name) >= 4
        assert any(wide == pytest.approx(CUT.width, abs=0.01) for _, wide in page.lines)
        assert f"page {made.pages.index(page) + 1} of {len(made.pages)}" in page.text
        assert name in made.pages[0].text  # on the map


def test_neighbours_overlap_and_share_their_join_marks() -> None:
    """The same diamond stands at the same place of the plane on both pages."""
    made = _made("wide plank on A4")
    diamonds: dict[str, set[tuple[float, float]]] = {}
    windows = {}
    for page in tile_pages(made):
        assert page.place is not None
        name, x, y = page.place
        (frame,) = [line for line, _ in page.lines if line.is_closed and _is_window(line, page)]
        dx, dy = x - frame.bounds[0], y - frame.bounds[1]
        windows[name] = box(*translate(frame, dx, dy).bounds)
        square = [line for line, _ in page.lines if line.is_closed and line.length == pytest.approx(10 * math.sqrt(2))]
        diamonds[name] = {(round(d.centroid.x + dx, 1), round(d.centroid.y + dy, 1)) for d in square}
    assert {"A4", "B1"} <= set(windows)
    assert "A1" not in windows  # the taper stands over the nose only where there is room
    for one, other in (("A4", "A5"), ("B1", "B2"), ("A4", "B4")):
        shared = windows[one].intersection(windows[other])
        low_x, low_y, high_x, high_y = shared.bounds
        assert min(high_x - low_x, high_y - low_y) == pytest.approx(10, abs=0.01)
        assert len(diamonds[one] & diamonds[other]) == 2


def test_order_stands_on_every_template_page(made: Made) -> None:
    for page in [made.pages[0], *tile_pages(made)]:
        assert "Print at 100 %, no fit to page; measure the check scale." in page.text


def test_map_says_how_to_use_and_cautions() -> None:
    text = _made("plank on A4").pages[0].text.replace("\n", " ")
    for word in ("Page map", "dividing line", "marks M", "TAPER", "Sawing can maim", "saw maker's manual"):
        assert word in text


def test_shop_drawings_come_last() -> None:
    made = _made("inches on Letter")
    assert "Sled seen from above" in made.pages[-5].text
    assert "Letter" in made.pages[-5].text
    assert "Notch, scale" in made.pages[-4].text
    assert "The plank" in made.pages[-3].text
    assert "Dividing the plank on a carrier" in made.pages[-2].text
    assert "The dividing cut" in made.pages[-1].text


def test_same_job_same_bytes() -> None:
    made = _made("plank on A4")
    again = work_up(made.work.job)
    assert write_pdf(template_sheets(made.work, sled_sheets(made.work))) == write_pdf(
        template_sheets(again, sled_sheets(again))
    )


def test_clipping_keeps_arcs_exact() -> None:
    """A circle of radius 10 at a window's corner: the quarter inside it, and no more."""
    ring = Run((Vertex(10, 0, 1.0), Vertex(-10, 0, 1.0)), True)
    (piece,) = clipped(ring, 0, 0, 50, 50)
    assert not piece.closed
    assert sum(edge.length for edge in piece.edges()) == pytest.approx(5 * math.pi)
    assert all(edge.radius == pytest.approx(10) for edge in piece.edges())
    assert clipped(ring, 20, 20, 5, 5) == []
    assert clipped(ring, -20, -20, 40, 40) == [ring]
    square = Run(rectangle(0, 0, 10, 10).vertices, True)
    assert sum(e.length for p in clipped(square, 5, -5, 50, 50) for e in p.edges()) == pytest.approx(20)


def test_rows_are_lettered_past_z() -> None:
    assert [row_name(i) for i in (0, 1, 25, 26, 27, 52)] == ["A", "B", "Z", "AA", "AB", "BA"]


# -- paper that is too small or too large ------------------------------------------------------------------


def roll(width: str) -> tuple[list[Finding], list[str]]:
    work = work_up(job_from_dict({**METRIC, "files": {"paper": "roll", "roll_width": width}}))
    return [f for f in work.findings if f.code.startswith("paper.")], [item.path for item in items(work, ["paper"])]


def test_narrow_roll_is_told_and_the_rest_is_made() -> None:
    (told,), paths = roll("150 mm")
    assert told.code == "paper.roll_narrow"
    assert told.numbers["needed_mm"] == 210
    assert "210 mm" in told.text
    assert "paper/templates.pdf" not in paths
    assert "paper/sled.pdf" in paths


def test_wide_roll_is_told() -> None:
    (told,), paths = roll("6 m")
    assert told.code == "paper.roll_wide"
    assert "paper/templates.pdf" not in paths


def test_way_out_holds(tmp_path: Path) -> None:
    told, paths = roll("210 mm")
    assert not told
    assert "paper/templates.pdf" in paths
    work = work_up(job_from_dict({**METRIC, "files": {"paper": "roll", "roll_width": "210 mm"}}))
    (item,) = [i for i in items(work, ["paper"]) if i.path == "paper/templates.pdf"]
    item.make(tmp_path / "templates.pdf")
    for page in pages((tmp_path / "templates.pdf").read_bytes()):
        assert page.height == pytest.approx(210, abs=0.01)
    assert paper_of(work.job.files, work.job.units).window[1] > 100


@pytest.mark.parametrize("raw", [METRIC, INCH, SHEET], ids=["metric", "inches", "sheet"])
def test_no_line_runs_through_a_name_on_the_map(raw: dict[str, Any]) -> None:
    page_map = template_sheets(work_up(job_from_dict(raw)), [])[0]
    assert [fault for fault in unclear(page_map) if " over " in fault] == []
