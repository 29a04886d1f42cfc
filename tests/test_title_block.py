"""The title block: type that can be read at arm's length, whatever the job and its wood are called."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scarfwright.models.job.file import job_from_dict
from scarfwright.outputs.drawing.display import Sheet, Text
from scarfwright.outputs.drawing.job_cells import job_cells
from scarfwright.outputs.drawing.lettering import in_font, width
from scarfwright.outputs.drawing.panels import Cell, title_block

OARS = "Other pair of oars for the harbour skiff, from the short spruce in the boat loft"
SIZES = {"mm": ("19 mm", "64 mm", "19 mm thick, 64 mm high"), "in": ("3/4 in", "2 1/2 in", '3/4" thick, 2 1/2" high')}


def texts(title: str, species: str = "", units: str = "in", paper: str = "Letter") -> list[Text]:
    thick, high, _ = SIZES[units]
    stock = {"thickness": thick, "height": high, "species": species}
    job = job_from_dict(
        {"title": title, "units": units, "stock": stock, "joint": {"ratio": 12}, "files": {"paper": paper}}
    )
    sheet = Sheet("block", *((279.4, 215.9) if paper == "Letter" else (297.0, 210.0)))
    items = title_block(sheet, job_cells(job, "Sled, as it runs", "1:12", 1, 5))
    return [item for item in items if isinstance(item, Text)]


def of_cell(found: list[Text], caption: str) -> list[Text]:
    """The rows under a caption, from above."""
    x = next(t.x for t in found if t.text == caption)
    return [t for t in found if t.x == x and t.text != caption]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_eighty_characters_stand_whole_in_two_rows_of_three_millimetres(paper: str) -> None:
    assert len(OARS) == 80
    rows = of_cell(texts(OARS, paper=paper), "Job")
    assert [row.bold for row in rows] == [True, True, False]
    assert f"{rows[0].text} {rows[1].text}" == OARS
    assert rows[2].text == "Sled, as it runs"
    assert min(row.size for row in rows) >= 3.0 - 1e-9


def test_a_short_name_is_as_large_as_ever() -> None:
    rows = of_cell(texts("Oars"), "Job")
    assert [(row.text, row.size, row.bold) for row in rows] == [("Oars", 3.6, True), ("Sled, as it runs", 3.6, False)]


def test_what_is_too_wide_goes_without_bold_first_and_then_without_its_end() -> None:
    medium = "OARS FOR THE HARBOUR SKIFF, CUT FROM WHAT SHORT SPRUCE IS IN THE BOAT LOFT"
    rows = of_cell(texts(medium), "Job")
    assert f"{rows[0].text} {rows[1].text}" == medium
    assert not rows[0].bold
    assert width(medium, 3.0, bold=True) > 2 * 73.6  # it is the bold letters that have no room
    rows = of_cell(texts("W" * 80), "Job")
    assert len(rows) == 3
    assert rows[1].text.endswith("W…")
    assert rows[2].text == "Sled, as it runs"


@settings(max_examples=60, derandomize=True)
@given(
    title=st.text(max_size=80),
    species=st.text(max_size=60),
    units=st.sampled_from(["mm", "in"]),
    paper=st.sampled_from(["A4", "Letter"]),
)
def test_any_name_leaves_the_figures_and_the_type_alone(title: str, species: str, units: str, paper: str) -> None:
    found = texts(title, species, units, paper)
    assert min(t.size for t in found) >= 3.0 - 1e-9
    wood = of_cell(found, "Wood")
    assert in_font(SIZES[units][2]) in " ".join(row.text for row in wood)
    assert any(row.text.startswith("Sled plank") for row in wood)
    rows = of_cell(found, "Job")
    assert rows[-1].text == "Sled, as it runs"
    ys = [t.y for t in rows]
    assert ys == sorted(ys, reverse=True)
    assert all(above - below >= 1.2 * 3.0 for above, below in pairwise(ys))
    assert min(ys) > 7.0 + 0.236 * 3.0  # above the frame, the tails of its letters too


def test_a_sheet_may_allow_smaller_type_and_then_keeps_more_of_a_name() -> None:
    sheet = Sheet("block", 279.4, 215.9)
    cells = [Cell("Job", ("W" * 80, "what"), 80, bold=True), Cell("Sheet", ("1 of 1",), 200)]
    kept = [sum(t.text.count("W") for t in title_block(sheet, cells, least) if isinstance(t, Text)) for least in (3, 2)]
    assert kept[0] < kept[1]
