"""The gauges' sheets: every printed part in a cell of its own, legible, to scale, the same bytes again."""

from __future__ import annotations

import io
import itertools

import pdfplumber
import pytest
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.wanted import wanted
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.drawing.placing import apart
from scarfwright.outputs.formats.pdf import write_pdf
from scarfwright.outputs.gauges.picture import Picture, picture_items
from scarfwright.outputs.gauges.pictures import SCENES
from scarfwright.outputs.gauges.sheet import gauge_sheets

from tests.examples import LOOKED_INTO
from tests.shops import in_full_shop


@pytest.fixture(scope="module", params=LOOKED_INTO, ids=lambda p: str(p.stem))
def made(request: pytest.FixtureRequest) -> tuple[Workup, list[Sheet]]:
    work = work_up(in_full_shop(read_job(request.param)))
    return work, gauge_sheets(work)


def test_every_printed_part_is_shown_with_its_use(made: tuple[Workup, list[Sheet]]) -> None:
    work, sheets = made
    with pdfplumber.open(io.BytesIO(write_pdf(sheets))) as document:
        text = " ".join(" ".join((page.extract_text() or "").split()) for page in document.pages)
    shown = [one for one in wanted(work) if one.laid]
    assert shown
    for one in shown:
        assert one.part is not None
        assert one.part.title in text
        assert one.part.use[:25] in text, one.part.name


def test_texts_keep_clear_of_each_other_and_inside_the_margins(made: tuple[Workup, list[Sheet]]) -> None:
    for sheet in made[1]:
        texts = [t for t in sheet.texts() if t.text.strip()]
        for text in texts:
            for x, y in text.box():
                assert sheet.margin <= x <= sheet.width - sheet.margin, text.text
                assert sheet.margin <= y <= sheet.height - sheet.margin, text.text
            assert text.size >= 1.9, text.text
        for one, other in itertools.combinations(texts, 2):
            assert apart(one.box(), other.box()), (one.text, other.text)


def test_same_job_same_bytes(made: tuple[Workup, list[Sheet]]) -> None:
    work, sheets = made
    assert write_pdf(gauge_sheets(work)) == write_pdf(sheets)


def test_a_scene_is_drawn_to_its_scale_inside_its_area() -> None:
    """A 200 x 50 box with words on both sides in a 120 x 60 area: what is left takes a usual scale, sides exact."""
    scene = Picture()
    scene.box(0.0, 0.0, 200.0, 50.0, None)
    scene.say((0.0, 25.0), "left of it ", "end")
    scene.say((200.0, 25.0), " right of it", "start")
    items, scale = picture_items(scene, (10.0, 20.0, 120.0, 60.0))
    drawn = [item for item in items if not hasattr(item, "text")]
    xs = [p[0] for item in drawn for p in item.points()]  # type: ignore[union-attr]  # only paths are left
    assert max(xs) - min(xs) == pytest.approx(200.0 / scale)
    for item in items:
        corners = item.box() if hasattr(item, "box") else item.points()  # type: ignore[union-attr]  # no clips here
        assert all(10.0 <= x <= 130.0 and 20.0 <= y <= 80.0 for x, y in corners)


def test_every_scene_belongs_to_a_part() -> None:
    from scarfwright.models.parts import registry

    assert set(SCENES) <= set(registry())
