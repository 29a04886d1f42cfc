"""Files for machines, on jobs that once went wrong: nothing missing in silence, no tab where it spoils the part."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from scarfwright.models.findings import faults
from scarfwright.models.flat.overlap import inside
from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.part.label import engraved
from scarfwright.models.part.letter_set import GLYPHS
from scarfwright.models.part.lettering import lettered, scored_letters
from scarfwright.models.part.part import Place
from scarfwright.models.parts import registry
from scarfwright.models.printing.laying import filled_beds
from scarfwright.models.sheets.pieces import tabs_of
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items
from shapely import LineString

from tests.shapes import blank
from tests.shops import in_full_shop

TRIALS = Path(__file__).parent / "trials"
SHEET = """
[stock]
thickness = 22
height = 60
[joint]
ratio = 12
[clamp]
opening = 80
[sled]
made_from = "sheet"
"""


def trial(name: str) -> Workup:
    return work_up(in_full_shop(read_job(TRIALS / f"{name}.toml")))


def file_names(work: Workup, *groups: str) -> set[str]:
    return {item.path for item in items(work, groups)}


def test_a_printer_out_by_25_mm_is_a_finding() -> None:
    work = trial("printer-out-by-25")
    assert not faults(list(work.findings))
    (found,) = [f for f in work.findings if f.code == "split.too_loose"]
    assert found.part == "slope_gauge"
    assert found.numbers["clearance_mm"] == 25
    assert "tolerance to that: 1 mm or less" in found.text
    told = job_from_text((TRIALS / "printer-out-by-25.toml").read_text().replace("25 mm", "1 mm"))
    assert "split.too_loose" not in [f.code for f in work_up(in_full_shop(told)).findings]


def test_on_a_small_bed_every_gauge_is_printed_or_said_to_be_left_out() -> None:
    """A label may leave no place to cut a gauge in sections: then it is printed without the label."""
    work = trial("small-print-bed")
    made = file_names(work, "print")
    assert {f"print/slope_gauge-{n}.3mf" for n in (1, 2, 3)} <= made
    for one in work.wanted:
        if "print" in one.kind.goes_to:
            assert any(path.startswith(f"print/{one.kind.name}") for path in made) or faults_of(work, one.kind.name)


def faults_of(work: Workup, name: str) -> list[str]:
    return [f.code for f in work.findings if f.part == name and "left out" in f.text]


def test_beds_keep_their_margin_free() -> None:
    work = trial("small-print-bed")
    things = [(laid, one.count) for one in work.wanted for laid in one.laid]
    for bed in filled_beds(things, work.job.printer):
        for laid in bed.laid:
            long, wide = laid.box
            assert laid.x >= 5 - 1e-6
            assert laid.y >= 5 - 1e-6
            assert laid.x + long <= 135 + 1e-6
            assert laid.y + wide <= 135 + 1e-6


def test_no_tab_in_a_slot_or_on_an_edge_that_guides() -> None:
    work = trial("tabs-on-gauge")
    counts = {}
    for piece in work.flat_pieces:
        tabs = tabs_of(piece.part, 4, 6.0)
        counts[piece.part.name] = len(tabs)
        lines = [LineString(guide) for guide in piece.part.guides]
        for tab in tabs:
            (x, y), (ux, uy) = tab.at, tab.along
            assert all(line.distance(LineString([tab.at, (x + 1e-9, y)])) > 1 for line in lines), piece.part.name
            outward = [(x + d * uy, y - d * ux) for d in (0.5, 5.0, 15.0, 40.0)]
            assert not any(inside(piece.part.outline, p) for p in outward), piece.part.name
    assert set(counts) >= {"sheet_layer", "taper_fork", "taper_scale"}
    assert all(count > 0 for count in counts.values()), counts


def test_a_sleds_tabs_are_on_its_square_ends() -> None:
    """Fence edge, work edge and nose flat guide or bear: what is left for tabs are the two ends."""
    work = trial("tabs-on-gauge")
    layer = next(p.part for p in work.flat_pieces if p.part.name == "sheet_layer")
    left, _, right, _ = layer.outline.bounds
    assert {round(tab.at[0] - left, 3) for tab in tabs_of(layer, 8, 6.0)} <= {0.0, round(right - left, 3)}


@pytest.mark.parametrize("letter", sorted(GLYPHS))
def test_a_scored_letter_is_single_lines_on_the_printed_one(letter: str) -> None:
    """Every stroke lies inside the letter as it is printed, and none is run twice."""
    part = lettered(blank(), letter, 3.0, 8.0, 6.0)
    scored = scored_letters(part)
    assert not scored.features
    assert all(mark.scored and len(mark.points) > 1 for mark in scored.marks)
    for mark in scored.marks:
        for x, y in mark.points:
            assert any(inside(f.loop, (x, y)) and not any(inside(i, (x, y)) for i in f.islands) for f in part.features)
    lines = [LineString(pair) for mark in scored.marks for pair in itertools.pairwise(mark.points)]
    for one, other in itertools.combinations(lines, 2):
        assert one.intersection(other).length < 1e-6


def test_scored_letters_stay_readable_on_the_other_side() -> None:
    part = engraved(blank(), "R", Place(5.0, 5.0, 20.0, 8.0))
    right, left = scored_letters(part), scored_letters(part.mirrored_y())
    low = left.outline.bounds[1]
    xs = [x for m in right.marks for x, _ in m.points]
    assert xs == pytest.approx([x for m in left.marks for x, _ in m.points])
    assert all(low <= y <= 0 for m in left.marks for _, y in m.points)


def test_scale_marks_are_single_lines_for_the_cutter() -> None:
    scale = scored_letters(registry()["taper_scale"].build())
    assert not scale.features
    upright = [m for m in scale.marks if m.name == "scale mark"]
    assert all(a[0] == b[0] for a, b in (m.points for m in upright))
    assert len(upright) >= 10


def test_a_routers_fault_leaves_out_the_sheets_only() -> None:
    work = work_up(in_full_shop(job_from_text(SHEET + '[router]\nsheet = ["700 mm", "300 mm"]\n')))
    (found,) = [f for f in work.findings if f.code == "router.sled_too_large"]
    assert found.part == "sheets"
    assert found.text.endswith("The sheets are left out.")
    assert not faults(list(work.findings))
    assert work.sheets == ()
    assert any(path.endswith(".3mf") for path in file_names(work, "print"))
    assert {p for p in file_names(work, "cut") if "sheet" in p} == set()


@pytest.mark.parametrize("extra", ["", '[files]\nmachine = "laser"\n', "[files]\ntool_path = true\n"])
def test_the_cut_readme_names_every_file(tmp_path: Path, extra: str) -> None:
    work = work_up(
        in_full_shop(job_from_text(SHEET.replace('made_from = "sheet"', 'plank = ["38 mm", "184 mm"]') + extra))
    )
    todo = [item for item in items(work, {"cut"}) if item.path.startswith("cut/")]
    (note,) = [item for item in todo if item.path.endswith("README.txt")]
    note.make(tmp_path / "README.txt")
    text = " ".join((tmp_path / "README.txt").read_text().split())
    assert len(todo) > 3
    for item in todo:
        assert item is note or item.path.removeprefix("cut/") in text, item.path


def test_the_print_readme_names_every_part_and_how_it_lies(tmp_path: Path) -> None:
    work = trial("small-print-bed")
    todo = [item for item in items(work, {"print"}) if item.path.startswith("print/")]
    (note,) = [item for item in todo if item.path.endswith("README.txt")]
    note.make(tmp_path / "README.txt")
    text = " ".join((tmp_path / "README.txt").read_text().split())
    for item in todo:
        assert item is note or item.path.removeprefix("print/").partition(".")[0] in text, item.path
    for words in (
        "SCALE: 100 %",
        "LAYER: 0.2 mm, the first one too",
        "lower face down",
        "print 4",
        "5 mm are kept",
    ):
        assert words in text
