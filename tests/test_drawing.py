"""Drawings: what is on the paper is legible, to scale, complete, and the same every time."""

from __future__ import annotations

import io
import itertools
import math
import re
import xml.etree.ElementTree as ET
from functools import cache
from typing import Any

import pdfplumber
import pypdfium2 as pdfium
import pytest
from scarfwright.models.flat.loop import Edge, Loop, Vertex, circle, rectangle, slot
from scarfwright.models.job.file import job_from_text
from scarfwright.models.job.paper import LETTER
from scarfwright.models.lengths.drawn import drawn_in, slope_mark
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing import lettering
from scarfwright.outputs.drawing.dimension import linear, spread
from scarfwright.outputs.drawing.display import Clip, Path, Sheet, Text, View, fitting_scale, flat, line, shape
from scarfwright.outputs.drawing.placing import Room, apart
from scarfwright.outputs.formats.pdf import beziers, write_pdf
from scarfwright.outputs.formats.svg import write_svg
from shapely.geometry import LineString, Polygon, box

from tests.clear_sheets import shown, unclear
from tests.examples import sled_sheets

MM = "[stock]\nspecies = 'Sitka spruce'\nthickness = 22\nheight = 60\n[joint]\nratio = 12\n"
IN = "units = 'in'\n[stock]\nspecies = 'ash'\nthickness = '3/4 in'\nheight = '2 1/2 in'\n[joint]\nratio = 12\n"
JOBS = {
    "metric plank": "title = 'Gunwales'\n" + MM,
    "inch plank": "title = 'Stringers'\n" + IN,
    "sheet": MM + "[sled]\nmade_from = 'sheet'\n",
    "inch sheet, left": IN + "[saw]\nfence_side = 'left'\n[sled]\nmade_from = 'sheet'\nlayers = 3\n",
    "one layer": MM + "[sled]\nmade_from = 'sheet'\nlayers = 1\nsheet_thickness = 38\n",
    "left": MM + "[saw]\nfence_side = 'left'\n",
    "short": "[stock]\nthickness = 12\nheight = 40\n[joint]\nratio = 8\n",
    "short and wide": MM.replace("22", "15")
    + "[clamp]\nopening = 200\n[sled]\nplank = [39, 376]\nnose_flat = 0\nlength = 450\n",
    "short, left, inch": IN.replace("ratio = 12", "ratio = 8") + "[saw]\nfence_side = 'left'\n",
    "long": MM.replace("22", "30") + "[sled]\nplank = [45, 286]\nlength = 2400\nextra_stations = [700, 900, 1300]\n",
    "very long": MM + "[sled]\nplank = [60, 600]\nlength = 5600\n",
    "many stations": IN + "[sled]\nplank = '2x12'\nlength = '6 ft'\n"
    "extra_stations = ['18 in', '21 in', '24 in', '27 in', '30 in', '33 in', '36 in', '39 1/64 in']\n",
    "close stations": MM + "[saw]\nfence_side = 'left'\n[sled]\nextra_stations = [480, 560, 640, 1000]\n",
    "twenty stations": MM + "[sled]\nplank = [38, 350]\nlength = 2400\n"
    f"extra_stations = {[460 + 62 * i for i in range(20)]}\n",
    "no flat": MM + "[sled]\nnose_flat = 0\nhandle_hole = 0\nhand_line = 700\n",
    "as made": MM + "[sled]\nheel_as_made = 152\nnose_as_made = 28.5\n",
    "long words": f"title = '{'Wide WORDS ' * 7}'\n" + MM.replace("Sitka spruce", "W" * 60),
    "other letters": 'title = "Żółw <&> \\u0007 Ω"\n' + MM,
}


@cache
def work_of(name: str) -> Workup:
    return work_up(job_from_text(JOBS[name]))


@cache
def sheets_of(name: str) -> list[Sheet]:
    return sled_sheets(work_of(name))


@cache
def pdf_of(name: str) -> bytes:
    return write_pdf(sheets_of(name))


def pages(data: bytes) -> Any:
    return pdfplumber.open(io.BytesIO(data)).pages


every_job = pytest.mark.parametrize("name", JOBS)


# -- legible -------------------------------------------------------------------------------------------


@every_job
def test_no_text_runs_into_another_or_into_a_line(name: str) -> None:
    for sheet in sheets_of(name):
        assert not unclear(sheet)


@every_job
def test_everything_lies_inside_the_margins(name: str) -> None:
    for sheet in sheets_of(name):
        paper = box(sheet.margin, sheet.margin, sheet.width - sheet.margin, sheet.height - sheet.margin)
        for one in shown(sheet.items):
            assert paper.covers(one.area), (sheet.title, one.what)


@every_job
def test_letters_are_large_enough_to_read_on_paper(name: str) -> None:
    """1.5 mm font size is about 4 point; only a 60 letter word in a small cell may go below."""
    least = min(text.size for sheet in sheets_of(name) for text in sheet.texts())
    assert least >= (0.9 if name == "long words" else 1.5)


def test_width_of_letters_agrees_with_the_printed_page() -> None:
    sheet = Sheet("letters", 200, 100)
    sheet.add(Text(20, 50, "Heel as measured + 0.4 mm", 5.0, bold=True), Text(180, 20, "1 in 12.01", 4.0, "end"))
    [page] = pages(write_pdf([sheet]))
    for text in sheet.texts():
        chars = [c for c in page.chars if abs(c["size"] * 25.4 / 72 - text.size) < 0.01]
        printed = (max(c["x1"] for c in chars) - min(c["x0"] for c in chars)) * 25.4 / 72
        assert text.width == pytest.approx(printed, abs=0.05)


# -- complete ------------------------------------------------------------------------------------------


def words(sheet: Sheet) -> str:
    return "\n".join(text.text for text in sheet.texts())


@every_job
def test_the_first_two_sheets_have_every_number_a_builder_needs(name: str) -> None:
    work, text = work_of(name), words(sheets_of(name)[0]) + words(sheets_of(name)[1])
    real, job = work.way.sled, work.job

    def say(mm: float) -> str:
        return drawn_in(job.units)(mm)

    wanted = [f"length {say(real.length)}", say(real.heel), say(real.nose), say(real.thickness), slope_mark(real.ratio)]
    wanted += [f"{say(n.station)}" for n in work.way.layout.notches]
    wanted += [f"web {say(job.sled.web)}", say(job.sled.notch_length), say(job.sled.notch_width)]
    if real.nose_flat:
        wanted += [say(real.nose_flat), f"step {say(real.nose_flat / real.ratio)}"]
    if 0 < work.way.layout.hand_line < real.length:
        wanted.append(f"hand line {say(work.way.layout.hand_line)}")
    wanted += [say(real.length - x) for x, _ in work.way.layout.handle_holes]
    wanted += [f"heel as measured + {say(job.saw.fence_gap)}", f"{say(work.way.blade.height)} above", "Overlap"]
    wanted += [say(work.joint.overlap), "HEEL", "NOSE", "FENCE EDGE", "WORK EDGE", "FEED", "DO NOT SCALE"]
    wanted += ["manual"]
    for piece in wanted:
        assert piece in text, (name, piece)


PLANKS = pytest.mark.parametrize("name", ["metric plank", "inch plank", "left", "long"])


@PLANKS
def test_plank_sheet_has_mark_sizes_to_measure_rail_and_cautions(name: str) -> None:
    work, sheet = work_of(name), sheets_of(name)[2]
    cut, text, nominal = work.way.dividing, words(sheet), work.way.nominal
    assert cut is not None
    assert nominal.mark is not None
    assert nominal.plank_width is not None
    say = drawn_in(work.job.units)
    assert [t.text for t in sheet.texts()].count(f"M {say(nominal.mark)}") == 2
    wanted = [slope_mark(nominal.ratio), say(cut.rail_offset), say(cut.rail.kerf), say(nominal.heel), say(nominal.nose)]
    for piece in wanted:
        assert piece in text, piece
    joined = text.replace("\n", " ")
    for piece in (
        f"these sizes are right for {say(nominal.plank_width)}",
        "Measure heel, nose and length on the half you will use",
        "before the notches or after",
        f"heel {say(cut.rail.heel)}, nose {say(cut.rail.nose)}",
        "Never freehand",
        "KICKBACK",
        "Eyes and ears protected",
        "wear a dust mask",
        "has STOPPED",
        "Unplug",
        "saw maker's manual, local rules and competent instruction come first",
    ):
        assert piece in joined, piece


@PLANKS
def test_dividing_sheet_has_carrier_strip_screws_run_and_cautions(name: str) -> None:
    """The carrier and how it is set on one sheet, how the cut is run and its cautions on the next."""
    work, sheets = work_of(name), sheets_of(name)[3:]
    cut, joined = work.way.dividing, " ".join(words(sheet).replace("\n", " ") for sheet in sheets)
    assert cut is not None
    assert cut.screw is not None
    say = drawn_in(work.job.units)
    run = cut.run
    wanted = [say(cut.fence), say(cut.carrier_width), say(cut.carrier_length), say.down(cut.screw_to_kerf), "STRIP"]
    wanted += [say.rule_up(v) for v in (cut.blade_height, run.start, run.end, run.infeed, run.outfeed, run.stick_from)]
    wanted += [say(v) for point in (*cut.batten_ends, *cut.screws_on_plank) for v in point]
    wanted += [say.between(cut.screw.least, cut.screw.most), "thick as the carrier", "riving knife fitted"]
    wanted += ["Never freehand", "free half drops", "KICKBACK", "STOPPED", "Unplug", "come first"]
    for piece in wanted:
        assert piece in joined, piece
    assert all("Never freehand" in words(sheet) and "come first" in words(sheet) for sheet in sheets)
    assert "Read the next sheet before anything is set" in words(sheets[0]).replace("\n", " ")


def test_the_forbidden_side_of_the_hand_line_is_hatched_and_an_arrow_leads_from_it() -> None:
    work, sheet = work_of("metric plank"), sheets_of("metric plank")[0]
    every = shown(sheet.items)
    outline = Polygon(next(p for p in sheet.paths() if p.name == "sled outline").points())
    [mark] = [p for p in sheet.paths() if p.name == "hand line"]
    strokes = [one.area for one in every if one.what == "no hands"]
    assert len(strokes) > 10
    left, _, right, _ = outline.bounds
    for stroke in strokes:
        assert outline.buffer(0.1).covers(stroke)
        assert stroke.bounds[0] > mark.vertices[0].x - 0.2
    scale = work.way.sled.length / (right - left)
    assert (right - mark.vertices[0].x) * scale == pytest.approx(work.way.layout.hand_line, abs=0.5)
    [shaft] = [p for p in sheet.paths() if p.name == "hands go here"]
    assert shaft.vertices[1].x < shaft.vertices[0].x < mark.vertices[0].x


def test_no_sheet_speaks_of_a_hand_line_that_is_not_on_the_sled() -> None:
    work = work_up(job_from_text(MM + "[sled]\nlength = 1000\nhand_line = 1200\n"))
    text = words(sled_sheets(work)[0]) + words(sled_sheets(work)[1])
    assert "hand line" not in text
    assert "HANDS" not in text


@pytest.mark.parametrize("name", ["metric plank", "left", "short, left, inch"])
def test_the_marks_on_the_plank_are_where_the_kerf_meets_its_ends(name: str) -> None:
    """M as drawn, from the plank's edge to the dividing line at each end, against the halves' own outlines."""
    work, sheet = work_of(name), sheets_of(name)[2]
    drawn = {path.name: path for path in sheet.paths() if path.name in ("plank", "half_1", "half_2", "dividing line")}
    scale = float(next(t.text for t in sheet.texts() if t.text.startswith("The plank,")).rsplit("1:", 1)[1])
    (x0, y0, x1, y1), first = LineString(drawn["plank"].points()).bounds, Polygon(drawn["half_1"].points())
    mark = float(work.way.nominal.mark or 0) / scale
    (ax, ay), (bx, by) = (v.point for v in drawn["dividing line"].vertices)
    assert (ax, bx) == pytest.approx((x0, x1))
    if name == "metric plank":
        assert (y1 - ay, by - y0) == pytest.approx((mark, mark))
    else:
        assert (ay - y0, y1 - by) == pytest.approx((mark, mark))
    gap = first.distance(Polygon(drawn["half_2"].points()))
    assert gap == pytest.approx(work.job.saw.kerf / scale, abs=1e-6)
    arrows = [p for p in sheet.paths() if p.pen is None and len(p.vertices) == 3]
    tips = {(round(p.vertices[0].y, 3)) for p in arrows}
    assert {round(ay, 3), round(by, 3)} <= tips  # a dimension ends at either mark
    nose_end = first.intersection(box(x0 - 1, y0 - 1, x0 + 1, y1 + 1))
    phantom = Polygon(next(p for p in sheets_of(name)[3].paths() if p.name == "half on the carrier").points())
    title = next(t.text for t in sheets_of(name)[3].texts() if t.text.startswith("Dividing the plank on"))
    carrier_scale = float(title.rsplit("1:", 1)[1])
    assert phantom.area * carrier_scale**2 == pytest.approx(first.area * scale**2)
    assert nose_end.area < first.intersection(box(x1 - 1, y0 - 1, x1 + 1, y1 + 1)).area


@pytest.mark.parametrize("name", ["sheet", "inch sheet, left"])
def test_layer_sheet_has_layers_and_dowels(name: str) -> None:
    work, text = work_of(name), words(sheets_of(name)[2])
    assert f"{work.job.sled.layers} layers" in text
    assert work.way.layout.dowels
    for x, y in work.way.layout.dowels:
        assert drawn_in(work.job.units)(work.way.sled.length - x) in text
        assert drawn_in(work.job.units)(y) in text


@every_job
def test_svg_parses_and_carries_every_text(name: str) -> None:
    for sheet in sheets_of(name):
        root = ET.fromstring(write_svg(sheet))
        assert root.get("width") == f"{sheet.width:g}mm"
        found = [e.text or "" for e in root.iter("{http://www.w3.org/2000/svg}text")]
        assert sorted(found) == sorted(lettering.one_line(t.text) for t in sheet.texts())


@every_job
def test_pdf_carries_every_text(name: str) -> None:
    for page, sheet in zip(pdfium.PdfDocument(pdf_of(name)), sheets_of(name), strict=True):
        printed = sorted(c for c in page.get_textpage().get_text_range() if c.strip())
        wanted = "".join(lettering.in_font(t.text, t.bold) for t in sheet.texts())
        assert printed == sorted(c for c in wanted if c.strip())


# -- to scale ------------------------------------------------------------------------------------------


@every_job
def test_pdf_page_is_a4_and_the_sled_is_to_scale(name: str) -> None:
    """The outline is found in the PDF by its own shape: a closed path as long as L / scale."""
    work, sheet = work_of(name), sheets_of(name)[0]
    page = pages(pdf_of(name))[0]
    assert (page.width * 25.4 / 72, page.height * 25.4 / 72) == pytest.approx(
        LETTER if work.job.units == "in" else (297, 210), abs=0.01
    )
    heading = next(t.text for t in sheet.texts() if t.text.startswith("Sled seen from above"))
    scale = float(heading.rsplit("1:", 1)[1])
    real = work.way.sled
    corners = 6 if real.nose_flat else 4
    sizes = []
    for curve in (*page.curves, *page.rects, *page.lines):
        points = [(x * 25.4 / 72, y * 25.4 / 72) for x, y in curve["pts"]]
        if len(set(points)) == corners:
            xs, ys = zip(*points, strict=True)
            sizes.append((max(xs) - min(xs), max(ys) - min(ys)))
    wanted = (real.length / scale, real.heel / scale)
    assert any(size == pytest.approx(wanted, abs=0.05) for size in sizes), (wanted, sizes)


@pytest.mark.parametrize("name", ["metric plank", "left"])
def test_a_fence_on_the_left_puts_the_work_edge_on_the_other_side(name: str) -> None:
    sheet = sheets_of(name)[0]
    outline = next(p for p in sheet.paths() if p.name == "sled outline")
    by_y = {round(v.y, 3) for v in outline.vertices}
    straight = max(by_y) if name == "left" else min(by_y)
    assert sum(abs(v.y - straight) < 0.01 for v in outline.vertices) == 3  # two ends and the flat's step
    assert all(-math.pi / 2 < t.angle <= math.pi / 2 + 1e-9 for t in sheet.texts())


# -- the same every time ---------------------------------------------------------------------------------


def test_same_job_gives_the_same_bytes() -> None:
    once = sled_sheets(work_up(job_from_text(JOBS["metric plank"])))
    assert write_pdf(once) == pdf_of("metric plank")
    assert [write_svg(s) for s in once] == [write_svg(s) for s in sheets_of("metric plank")]
    assert b"CreationDate (D:2000" in pdf_of("metric plank")


def test_pdf_embeds_its_font_and_a_letter_it_lacks_is_replaced() -> None:
    assert b"/FontFile2" in pdf_of("metric plank")
    assert lettering.in_font("Żółw ½ ⅛ 5′ Ω\x07") == "Żółw ½ ⅛ 5′ Ω "
    for text in ("Ялик Ёж", "Βάρκα ΐ", "Łódź ơ ș", "Їжак Ђ"):
        for bold in (False, True):
            assert lettering.in_font(text, bold) == text
    assert lettering.in_font("木") == "?"
    assert lettering.replaced(["Ялик 木", "木 ｗ"]) == {"木": "?", "ｗ": "w"}


def test_a_title_in_greek_or_cyrillic_is_printed_and_wide_letters_are_measured() -> None:
    """Read back from the PDF by another library: the letters, and that the line is as wide as it was taken for."""
    title = "Ялик для озера, Βάρκα"
    work = work_up(job_from_text(JOBS["metric plank"].replace("Gunwales", title)))
    sheet = sled_sheets(work)[0]
    (page,) = pages(write_pdf([sheet]))
    (text,) = [t for t in sheet.texts() if t.text == title]
    assert title in page.extract_text()
    (line,) = page.search(re.escape(title))
    assert (line["x1"] - line["x0"]) * 25.4 / 72 == pytest.approx(text.width, rel=0.01)


# -- the display list ------------------------------------------------------------------------------------


def test_bezier_arcs_stay_on_their_circle() -> None:
    for bulge in (0.2, 1.0, -0.7, 2.5):
        edge = Edge((3.0, 4.0), (10.0, -2.0), bulge)
        start = edge.start
        for one, two, end in beziers(edge):
            for i in range(1, 20):
                u = i / 20
                weights = ((1 - u) ** 3, 3 * u * (1 - u) ** 2, 3 * u * u * (1 - u), u**3)
                x, y = (sum(w * p[k] for w, p in zip(weights, (start, one, two, end), strict=True)) for k in (0, 1))
                assert math.dist((x, y), edge.centre) == pytest.approx(edge.radius, rel=3e-4)
            start = end
        assert start == edge.end


def test_svg_arcs_are_exact() -> None:
    sheet = Sheet("arc", 100, 100)
    sheet.add(Path((Vertex(10, 10, 1.0), Vertex(30, 10)), pen=None, fill="#000000"))
    path = next(iter(ET.fromstring(write_svg(sheet)).iter("{http://www.w3.org/2000/svg}path")))
    # a half circle turning left from (10, 10) to (30, 10) bulges down the page: SVG sweep 0, y from the top
    assert path.get("d") == "M10 90 A10 10 0 0 0 30 90"


@pytest.mark.parametrize("mirrored", [False, True])
def test_view_keeps_lengths_and_arcs(mirrored: bool) -> None:
    view = View(5.0, (40.0, 30.0), (7.0, -2.0), 0.3, mirrored)
    loop = slot((20.0, 5.0), (60.0, 25.0), 16.0)
    seen = view.loop(loop)
    assert abs(seen.area) == pytest.approx(loop.area / 25)
    assert (seen.area > 0) is not mirrored
    assert seen.perimeter == pytest.approx(loop.perimeter / 5)


def test_clipped_groups_hide_what_is_outside() -> None:
    sheet = Sheet("tile", 100, 100)
    sheet.add(Clip(rectangle(20, 20, 30, 30), (shape(circle(35, 35, 40), fill="#000000"),)))
    root = ET.fromstring(write_svg(sheet))
    [group] = list(root.iter("{http://www.w3.org/2000/svg}g"))
    assert group.get("clip-path") == "url(#window1)"
    [page] = pages(write_pdf([sheet]))
    pixels = page.to_image(resolution=25.4).original.convert("L")
    assert pixels.getpixel((35, 65)) < 60
    assert pixels.getpixel((60, 65)) > 200


def test_a_document_has_a_page_a_sheet_and_refuses_none() -> None:
    assert len(pages(write_pdf([Sheet("a"), Sheet("b", 210, 297)]))) == 2
    with pytest.raises(ValueError, match="at least one sheet"):
        write_pdf([])


def test_figures_are_spread_as_little_as_needed() -> None:
    assert spread([0.0, 10.0, 20.0], [4.0] * 3) == [0.0, 10.0, 20.0]
    assert spread([10.0, 10.0], [4.0, 4.0]) == pytest.approx([8.0, 12.0])
    close = spread([1.0, 2.0, 3.0, 30.0], [4.0] * 4)
    assert all(b - a >= 4.0 - 1e-9 for a, b in itertools.pairwise(close))
    assert sum(close[:3]) == pytest.approx(6.0)
    assert spread([1.0, 2.0, 29.0], [4.0, 2.0, 4.0], 0.0, 30.0) == pytest.approx([2.0, 5.0, 28.0])


def test_dimension_runs_between_its_points() -> None:
    items = linear((10.0, 10.0), (50.0, 30.0), (0.0, 40.0), "40 mm", "horizontal")
    xs = [x for p in flat(items) if isinstance(p, Path) and p.fill for x, _ in p.points()]
    assert (min(xs), max(xs)) == pytest.approx((10.0, 50.0))
    [text] = [t for t in items if isinstance(t, Text)]
    assert (text.x, text.anchor) == (30.0, "middle")


def test_labels_take_the_first_free_place() -> None:
    room = Room((0, 0, 100, 100))
    room.take([line([(0, 50), (100, 50)]), Text(50, 70, "taken", 5.0, "middle")])
    places = [[Text(50, y, "label", 5.0, "middle")] for y in (49.0, 70.0, 20.0, 10.0)]
    assert room.put(places) == places[2]
    assert room.hits(places[3]) == 0
    assert room.hits([Text(99, 10, "off the edge", 5.0)]) >= 100


def test_shapes_apart_or_not() -> None:
    square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]
    assert not apart(square, [(1.0, 1.0), (5.0, 5.0)])
    assert apart(square, [(2.5, 0.0), (2.5, 2.0)])
    assert apart([(0.0, 0.0), (1.0, 0.0)], [(2.0, 0.0), (3.0, 0.0)])


def test_usual_scales() -> None:
    assert fitting_scale(1500, 100, 200, 100) == 8.0
    assert fitting_scale(90_000, 100, 200, 100) == 500.0
    assert Loop(circle(0, 0, 5).vertices).circle is not None
