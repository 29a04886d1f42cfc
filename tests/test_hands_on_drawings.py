"""Where the hands go, on every drawing of the sled: the words and an arrow stand on the side of the line where they
may be, never on the other."""

from __future__ import annotations

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Path, Sheet, Text, flat
from scarfwright.outputs.narrow.sled import sled_scenes
from scarfwright.outputs.setup_card.card import setup_card
from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

NARROW = """
units = "in"
[stock]
thickness = "1 1/8 in"
height = "2 1/4 in"
[joint]
ratio = 10
[saw]
fence_side = "{side}"
[clamp]
opening = "4 in"
[sled]
made_from = "sheet"
layers = 3
"""  # its nose is 1 in wide: the words have no room on it


@pytest.fixture(scope="module", params=["left", "right"])
def work(request: pytest.FixtureRequest) -> Workup:
    return work_up(job_from_text(NARROW.format(side=request.param)))


def named(sheet: Sheet, name: str) -> Path:
    (one,) = [i for i in flat(sheet.items) if isinstance(i, Path) and i.name == name]
    return one


def test_the_sled_sheet_says_hands_on_the_nose_side(work: Workup) -> None:
    """The nose lies on the left: the words end, and the arrow begins and ends, left of the line."""
    sheet = sled_drawings(work)["sled"]
    at = named(sheet, "hand line").vertices[0].x
    (words,) = [t for t in flat(sheet.items) if isinstance(t, Text) and t.text.startswith("HANDS")]
    assert words.anchor == "end"
    assert words.x < at
    start, tip = named(sheet, "hands go here").vertices
    assert tip.x < start.x < at


def test_on_the_card_an_arrow_leads_from_the_line_to_the_operator(work: Workup) -> None:
    sheet = setup_card(work)[0]
    at = named(sheet, "hand line").vertices[0].x
    start, tip = named(sheet, "hands go here").vertices
    assert start.x == pytest.approx(at)
    assert tip.x < at


def test_in_the_book_it_leads_down_to_the_nose(work: Workup) -> None:
    sheet = sled_scenes(work)[0].sheet
    at = named(sheet, "hand line").vertices[0].y
    start, tip = named(sheet, "hands go here").vertices
    assert start.y == pytest.approx(at)
    assert tip.y < at
