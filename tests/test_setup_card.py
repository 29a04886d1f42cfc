"""The set-up card: legible at arm's length, to scale, with every number that the saw is set by."""

from __future__ import annotations

import io
import itertools
from functools import cache

import pdfplumber
import pytest
from scarfwright.models.cut.scene import setup_scene
from scarfwright.models.findings import faults
from scarfwright.models.flat.loop import Loop
from scarfwright.models.job.file import job_from_text
from scarfwright.models.lengths.drawn import slope_mark
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.part import Part
from scarfwright.models.solids.setup import block_solid
from scarfwright.models.solve import work_out
from scarfwright.models.words.at_the_saw.procedure import cautions, order_of_work
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Path, Sheet
from scarfwright.outputs.formats.pdf import write_pdf
from scarfwright.outputs.formats.svg import write_svg
from scarfwright.outputs.make import items
from scarfwright.outputs.setup_card.card import frame_of, setup_card
from scarfwright.outputs.setup_card.frame import Frame
from scarfwright.outputs.setup_card.projection import from_above, from_the_side
from shapely import LineString, Polygon

from tests.clear_sheets import outside

MM = "[stock]\nthickness = 22\nheight = 60\n[joint]\nratio = 12\n[clamp]\nopening = 120\n"
IN = "units = 'in'\n[stock]\nthickness = '3/4 in'\nheight = '2 1/2 in'\n[joint]\nratio = 14\n[clamp]\nopening = 4\n"
JOBS = {
    "hold": "title = 'Gunwales'\n" + MM,
    "hold, left": MM + "[saw]\nfence_side = 'left'\n",
    "run on": MM + "[saw]\nend_of_cut = 'run_on'\nteeth = 24\nrpm = 4000\n",
    "run on, left, inch": IN + "[saw]\nend_of_cut = 'run_on'\nfence_side = 'left'\n[files]\npaper = 'Letter'\n",
    "hold, inch": IN,
    "draw back": MM + "[saw]\nend_of_cut = 'draw_back'\nriving_knife = 0\n",
    "small": "[stock]\nthickness = 12\nheight = 40\nlength = 900\n[joint]\nratio = 8\n[clamp]\nopening = 150\n",
    "long": MM.replace("22", "30") + "[sled]\nplank = [45, 286]\nlength = 2400\nextra_stations = [700, 900, 1300]\n",
    "sheet": MM + "[sled]\nmade_from = 'sheet'\nnose_flat = 0\n",
    "long words": f"title = '{'Wide WORDS ' * 7}'\n" + MM.replace("[stock]", f"[stock]\nspecies = '{'W' * 60}'"),
}
every_job = pytest.mark.parametrize("name", JOBS)


@cache
def work_of(name: str) -> Workup:
    work = work_out(job_from_text(JOBS[name]))
    assert not faults(list(work.findings)), [f.code for f in work.findings]
    return work


@cache
def sheets(name: str) -> list[Sheet]:
    return setup_card(work_of(name))


def card(name: str) -> Sheet:
    """The sheet with the views."""
    return sheets(name)[0]


@cache
def frame(name: str) -> Frame:
    return frame_of(work_of(name))


def named(name: str, what: str, above: bool) -> tuple[float, float, float, float]:
    """Bounds of a thing's outline on the page, arcs exact; the plan stands over the side view."""
    found = [Loop(p.vertices).bounds for p in card(name).paths() if p.name == what and p.closed]
    assert len(found) == 2
    return sorted(found, key=lambda bounds: bounds[1] + bounds[3])[1 if above else 0]


@every_job
def test_no_text_runs_into_another(name: str) -> None:
    for sheet in sheets(name):
        texts = [(t, Polygon(t.box())) for t in sheet.texts() if t.text.strip()]
        for (a, one), (b, other) in itertools.combinations(texts, 2):
            assert one.intersection(other).area < 0.02 * min(one.area, other.area), (a.text, b.text)


@every_job
def test_no_line_runs_through_a_text(name: str) -> None:
    """Dimension lines and leaders; what lies in the views themselves is covered by what lies over it."""
    strokes = [
        LineString(path.points()) for path in card(name).items if isinstance(path, Path) and path.pen is not None
    ]
    for text in card(name).texts():
        if text.text.strip():
            area = Polygon(text.box()).buffer(-0.1)
            assert not any(area.intersects(stroke) for stroke in strokes), text.text


@every_job
def test_everything_lies_inside_the_margins(name: str) -> None:
    assert [item for sheet in sheets(name) for item in outside(sheet)] == []


@every_job
def test_letters_are_large_enough_to_read_at_the_saw(name: str) -> None:
    """3 mm at arm's length. A title of 80 wide letters in its cell is the only text that may be smaller."""
    small = {t.text for sheet in sheets(name) for t in sheet.texts() if t.text.strip() and t.size < 3.0 - 1e-9}
    assert not small or (name == "long words" and all("W" in text for text in small))
    assert len(sheets(name)) == 2


@every_job
def test_the_page_says_what_the_saw_is_set_by(name: str) -> None:
    work, say = work_of(name), say_in(work_of(name).job.units)
    told = " ".join(t.text for sheet in sheets(name) for t in sheet.texts())
    advice, fence = work.cut.advice, work.cut.fence
    numbers = [
        slope_mark(work.way.sled.ratio),
        f"{say(fence.to_tooth)} = heel by callipers + {say(work.way.blade.gap)}",
        f"heel + {say.fine(fence.plate_gap)}",
        f"{say(work.way.blade.height)} above the table",
        f"{say(advice.stop.from_front)} from the table's front edge",
        f"Fence, {work.job.saw.fence_side}",
        say(advice.start.from_front),
        say(work.way.layout.hand_line),
        *(say(c.station) for c in work.way.layout.clamps),
        *(say(e.travel) for e in advice.endings),
        f"FREE SIDE, {advice.offcut.side}",
    ]
    squeezed = told.replace(" ", "")
    for number in numbers:
        assert number.replace(" ", "") in squeezed, number
    for text in (*cautions(work), *order_of_work(work)):
        for piece in text.replace(" ", "").split(","):
            assert all(word in squeezed for word in piece.split(".") if len(word) < 12), text


@every_job
def test_cautions_stand_at_the_top(name: str) -> None:
    sheet = card(name)
    for word in ("Protect eyes", "KICKBACK", "STOPPED", "Unplug", "manual", "HANDS: keep"):
        (first, *_) = [t for t in sheet.texts() if word in t.text]
        assert first.y > sheet.height - 58, word
    needs = any("infeed_needed" in f.code for f in work_of(name).findings)
    assert any("INFEED SUPPORT FIRST" in t.text for t in sheet.texts()) == needs


@every_job
def test_what_guards_stands_on_the_card(name: str) -> None:
    """Guard, dust, where one stands, switch, run-down, push stick, test joint, insert: a card that never says one of
    them leaves a maker to guess."""
    told = " ".join(t.text for sheet in sheets(name) for t in sheet.texts())
    stick = "450 mm or longer" if work_of(name).job.units == "mm" else "18 in or longer"
    for words in ("crown guard", "dust extraction", "Stand on the", "knee", "10 s or less", stick, "test joint",
                  "zero-clearance", "until the blade has stopped; never let go", "same edge down"):  # fmt: skip
        assert words in told, words


@every_job
def test_both_views_are_to_scale(name: str) -> None:
    """Lengths measured on the page against the job's numbers, in both views, and the two in line."""
    work, scale = work_of(name), frame(name).plan.scale
    fence, blade, stop = (named(name, what, True) for what in ("fence", "blade", "stop block"))
    left = work.job.saw.fence_side == "left"
    face = fence[1] if left else fence[3]
    near = blade[3] if left else blade[1]
    assert abs(near - face) * scale == pytest.approx(work.way.fence, abs=0.01)
    table = named(name, "table", True)
    assert (stop[0] - table[0]) * scale == pytest.approx(work.cut.advice.stop.from_front, abs=0.01)
    sled = [Polygon(p.points()) for p in card(name).paths() if p.name == "sled" and p.closed]
    assert {round((p.bounds[2] - p.bounds[0]) * scale, 2) for p in sled} == {round(work.way.sled.length, 2)}
    end = "clear" if work.job.saw.end_of_cut == "run_on" else "done"
    axis = (blade[0] + blade[2]) / 2
    travel = getattr(work.way.travel, end)
    assert (max(p.bounds[2] for p in sled) - axis) * scale == pytest.approx(travel, abs=0.01)
    beside = named(name, "blade", False)
    ground = named(name, "table", False)[3]
    assert (beside[3] - ground) * scale == pytest.approx(work.way.blade.height, abs=0.01)
    assert (beside[0] + beside[2]) / 2 == pytest.approx(axis, abs=0.01)
    assert (table[0], table[2]) == pytest.approx(
        (named(name, "table", False)[0], named(name, "table", False)[2]), abs=0.01
    )


@every_job
def test_the_fence_lies_down_the_page_on_the_right_and_up_the_page_on_the_left(name: str) -> None:
    """Seen from above with the feed to the right, the operator's right hand is down the page."""
    fence, blade = named(name, "fence", True), named(name, "blade", True)
    below = fence[3] < blade[1]
    assert below == (work_of(name).job.saw.fence_side == "right")
    assert below or fence[1] > blade[3]


@every_job
def test_pdf_pages_are_of_the_jobs_paper(name: str) -> None:
    pages = pdfplumber.open(io.BytesIO(write_pdf(sheets(name)))).pages
    wide = (279.4, 215.9) if work_of(name).job.files.paper == "Letter" else (297.0, 210.0)
    for page in pages:
        assert (float(page.width) / 72 * 25.4, float(page.height) / 72 * 25.4) == pytest.approx(wide, abs=0.05)
    first, second = (page.extract_text() for page in pages)
    assert "BEFORE ANYTHING ELSE" in first
    assert "Order of work" in second


def test_same_job_same_bytes() -> None:
    for name in ("hold", "run on, left, inch"):
        again = setup_card(work_out(job_from_text(JOBS[name])))
        assert [write_svg(sheet) for sheet in again] == [write_svg(sheet) for sheet in sheets(name)]
        assert write_pdf(again) == write_pdf(sheets(name))


def test_make_lists_the_card() -> None:
    paths = [item.path for item in items(work_of("hold"), ["paper"])]
    assert {"paper/setup-card.pdf", "paper/setup-card.svg", "paper/setup-card-2.svg"} <= set(paths)


@every_job
def test_blocks_are_seen_as_the_solids_stand(name: str) -> None:
    """Outlines from above and from the side against the bounding boxes of the kernel's solids, in every state."""
    seen = set()
    for state in setup_scene(work_of(name).way).states:
        for piece in state.pieces:
            if isinstance(piece.shape, Part):
                continue
            found = block_solid(piece.shape).BoundingBox()
            along = (found.xmin + piece.along, found.xmax + piece.along)
            above, beside = from_above(piece).bounds, from_the_side(piece).bounds
            assert (above[0], above[2]) == pytest.approx(along, abs=0.01), piece.name
            assert (above[1], above[3]) == pytest.approx((found.ymin, found.ymax), abs=0.01), piece.name
            assert (beside[0], beside[2]) == pytest.approx(along, abs=0.01), piece.name
            assert (beside[1], beside[3]) == pytest.approx((found.zmin, found.zmax), abs=0.01), piece.name
            seen.add(piece.name.split("_meets_")[0])
    knife = {"riving_knife"} if work_of(name).job.saw.riving_knife > 0 else set()
    assert {"table", "fence", "blade", "work", "offcut", "heel_clamp"} | knife <= seen
