"""The papers about what comes after the saw: legible, inside the page, everything where the numbers say."""

from __future__ import annotations

from functools import cache
from pathlib import Path as File

import pdfplumber
import pytest
from scarfwright.models.craft import Craft
from scarfwright.models.flat.loop import Loop
from scarfwright.models.job.file import job_from_text
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.craft_papers import bend_papers, glue_papers, wood_papers
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.formats.table import write as write_table
from scarfwright.outputs.make import items

from tests.clear_sheets import outside, unclear

STOCK = "[stock]\nspecies = 'white ash'\nthickness = 22\nheight = 60\nfinished_thickness = 20\nlength = 2400\n"
MM = STOCK + "[joint]\nratio = 12\n[clamp]\nopening = 120\npad_width = 30\nforce = 800\n[adhesive]\nkind = 'epoxy'\n"
BOW = (
    "[[blank]]\nname = 'gunwale'\ncurve = [[0, 0], [600, 190.5], [1300, 345], [2100, 440], [3000, 400], [3900, 210]]\n"
)
ESS = "[[blank]]\nbend = 'height'\ncurve = [[0, 0], [500, -31.3], [1000, 4], [1500, 33], [2000, 3], [2500, -44.1]]\n"
IN = """\
units = "in"
[stock]
species = "Sitka spruce"
thickness = "1 1/4 in"
height = "5 1/2 in"
length = "10 ft"
[joint]
ratio = 16
[saw]
max_depth = "7 in"
blade_diameter = "16 in"
[clamp]
opening = "5 in"
throat = "2 1/2 in"
pad_width = "1 1/4 in"
[adhesive]
kind = "resorcinol"
open_time = "10 min"
clamp_time = "12 h"
[sled]
made_from = "sheet"
layers = 6
[files]
paper = "Letter"
[[blank]]
name = "side stringer of a long boat, lower"
length = "13 ft"
curve = [["0 in", "0 in"], ["3 ft", "9 1/2 in"], ["6 ft", "15 in"], ["9 ft", "16 1/4 in"], ["13 ft", "11 in"]]
"""
JOBS = {
    "flat": "title = 'Gunwales'\n" + MM + BOW,
    "bare": "[stock]\nthickness = 22\nheight = 60\n[joint]\nratio = 12\n[clamp]\nopening = 120\n",
    "on edge, inch": IN,
    "several": MM.replace("epoxy", "polyurethane") + BOW + ESS + BOW.replace("190.5", "90.5"),
    "long": MM.replace("= 22", "= 38").replace("= 20\n", "= 36\n").replace("ratio = 12", "ratio = 18"),
    "short": MM.replace("= 22", "= 9").replace("= 20\n", "= 8\n").replace("ratio = 12", "ratio = 8"),
    "long words": f"title = '{'Wide WORDS ' * 7}'\n" + MM.replace("white ash", "W" * 60) + BOW,
}
every_job = pytest.mark.parametrize("name", JOBS)


@cache
def done(name: str) -> tuple[Workup, Craft]:
    work = work_up(job_from_text(JOBS[name]))
    assert work.craft is not None, [f.text for f in work.findings]
    return work, work.craft


@cache
def sheets(name: str) -> tuple[Sheet, ...]:
    work, craft = done(name)
    return (*glue_papers(work, craft), *wood_papers(work, craft), *bend_papers(work, craft))


def bounds(sheet: Sheet, what: str) -> list[tuple[float, float, float, float]]:
    return sorted(Loop(p.vertices).bounds for p in sheet.paths() if p.name == what)


@every_job
def test_every_text_is_clear(name: str) -> None:
    assert [fault for sheet in sheets(name) for fault in unclear(sheet)] == []


@every_job
def test_everything_lies_inside_the_margins(name: str) -> None:
    assert [item for sheet in sheets(name) for item in outside(sheet)] == []


@every_job
def test_letters_are_large_enough_to_read(name: str) -> None:
    sizes = {t.size for sheet in sheets(name) for t in sheet.texts() if t.text.strip()}
    assert min(sizes) >= (1.4 if name == "long words" else 2.1)


@every_job
def test_clamps_stand_to_scale_from_the_first_tip(name: str) -> None:
    """Pads on the page against the stations, by the tips' own lines; outermost pads flush with the tips."""
    _, craft = done(name)
    sheet, plan = sheets(name)[0], craft.gluing
    first, second = sorted(p.vertices[0].x for p in sheet.paths() if p.name == "tip")
    per = (second - first) / plan.joint.overlap
    pads = [(low + high) / 2 for low, _, high, _ in bounds(sheet, "pad")]
    expected = sorted(first + station * per for station in plan.places.clamps for _ in range(2))
    assert pads == pytest.approx(expected, abs=1e-6)
    clamps = bounds(sheet, "clamp")
    assert len(clamps) == plan.places.clamp_count
    assert clamps[0][0] == pytest.approx(first, abs=1e-6)
    assert clamps[-1][2] == pytest.approx(second, abs=1e-6)
    told = {t.text for t in sheet.texts()}
    say = drawn_in(done(name)[0].job.units)
    assert {say.rule(station) for station in plan.places.clamps} <= told
    assert {say.rule(abs(rest.place)) for rest in plan.places.supports} <= told


@every_job
def test_each_clamp_has_its_turn_on_both_edges(name: str) -> None:
    _, craft = done(name)
    count = len(craft.gluing.places.clamps)
    turns = [t.text for t in sheets(name)[0].texts() if t.bold and t.text.isdigit()]
    assert sorted(turns, key=int) == [str(i) for i in range(1, count + 1) for _ in range(2)]


def test_how_the_work_lies() -> None:
    assert done("flat")[1].gluing.lay.way == "flat"
    assert done("on edge, inch")[1].gluing.lay.way == "edge"
    flat, edge = ({p.name for p in sheets(name)[0].paths()} for name in ("flat", "on edge, inch"))
    assert "batten" in edge - flat
    assert "strip" in flat - edge


def test_which_pages_there_are() -> None:
    """Planing needs a finished thickness, the bend test and the bends a wood with figures."""
    assert {name: len(sheets(name)) for name in JOBS} == {
        "flat": 6,
        "bare": 3,
        "on edge, inch": 5,
        "several": 8,
        "long": 5,
        "short": 5,
        "long words": 4,
    }


def test_make_writes_them() -> None:
    def papers(name: str) -> set[str]:
        return {item.path for item in items(done(name)[0], ["paper"])}

    own = {"paper/glue-up.pdf", "paper/glue-up.svg", "paper/wood.pdf", "paper/bending.pdf"}
    assert own <= papers("flat")
    assert own & papers("bare") == own - {"paper/bending.pdf"}
    assert "paper/bending.pdf" not in papers("long words")


def test_where_joints_may_stand_is_where_the_picture_is_green() -> None:
    """The bands in both graphs against the stretches, by the graph's own frame: 0 to the curve's length."""
    _, craft = done("on edge, inch")
    (member,) = craft.members
    assert member.bend is not None
    sheet = sheets("on edge, inch")[-1]
    lines = [p for p in sheet.paths() if p.name == "use"]
    left, right = lines[0].vertices[0].x, lines[0].vertices[-1].x
    bands = [b for b in bounds(sheet, "joint may stand") if b[0] >= left - 1e-6 and b[3] - b[1] > 20]
    assert len(bands) == len(member.bend.allowed) == 1
    told = [(x - left) / (right - left) * member.curve.length for x in (bands[0][0], bands[0][2])]
    assert told == pytest.approx(list(member.bend.allowed[0]), abs=1e-3)
    assert 0 < told[1] < member.curve.length


def test_every_page_with_a_strength_says_what_it_is_not() -> None:
    for name in ("flat", "on edge, inch", "several"):
        work, craft = done(name)
        for sheet in [*wood_papers(work, craft)[-1:], *bend_papers(work, craft)]:
            told = " ".join(t.text for t in sheet.texts())
            assert "not design values" in told
            assert "eyes protected" in " ".join(told.split())


def test_read_back_as_pdf(tmp_path: File) -> None:
    """Another reader finds the words and the paper's size."""
    target = tmp_path / "glue-up.pdf"
    write_table(list(sheets("on edge, inch")[:2]), target)
    with pdfplumber.open(target) as pdf:
        assert [(float(p.width), float(p.height)) for p in pdf.pages] == [pytest.approx((792, 612), abs=0.5)] * 2
        text = "".join(page.extract_text() for page in pdf.pages)
    assert "Order of work" in text
    assert "resorcinol" in text
    assert " mm" not in text
