"""Every sheet of random jobs can be read: no text over a text, none over a line, none outside its frame."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, reject, settings
from scarfwright.models.findings import faults
from scarfwright.models.flat.loop import rectangle
from scarfwright.models.job.file import job_from_dict, job_from_text
from scarfwright.models.job.tables import Job
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Clip, Sheet, Text, box, line
from scarfwright.outputs.gauges.sheet import gauge_sheets
from scarfwright.outputs.setup_card.card import setup_card
from scarfwright.outputs.shop_drawings.cut_sheet import cut_sheets
from scarfwright.outputs.shop_drawings.measure_me import measure_me

from tests.clear_sheets import unclear
from tests.examples import sled_sheets
from tests.strategies import likely_jobs

Maker = Callable[[Workup], Iterator[Sheet]]


def _drawings(work: Workup) -> Iterator[Sheet]:
    yield from sled_sheets(work)
    yield measure_me(work.job)


def _sheets(work: Workup) -> Iterator[Sheet]:
    yield from cut_sheets(work, work.sheets)


def _card(work: Workup) -> Iterator[Sheet]:
    yield from setup_card(work)


def _gauges(work: Workup) -> Iterator[Sheet]:
    yield from gauge_sheets(work)


MAKERS: dict[str, Maker] = {"drawings": _drawings, "sheets": _sheets, "card": _card, "gauges": _gauges}
every_maker = pytest.mark.parametrize("name", MAKERS)
LEAST_LETTERS = 3.0  # mm, read at arm's length
AS_THEY_COME = [Phase.explicit, Phase.reuse, Phase.generate]  # a smaller job is no easier to look at, and takes long


def _check(name: str, job: Job) -> None:
    work = work_up(job)
    if faults(list(work.findings)):
        reject()
    sheets = list(MAKERS[name](work))
    found = [fault for sheet in sheets for fault in unclear(sheet)]
    # the sled's and the dividing cut's sheets and the card
    for sheet in {"drawings": sheets[:-1], "card": sheets}.get(name, []):  # the last drawing: what to measure
        small = {t.text for t in sheet.texts() if t.text.strip() and t.size < LEAST_LETTERS - 1e-9}
        found += [f"{sheet.title}: {text!r} under {LEAST_LETTERS} mm" for text in small]
    assert not found, "\n".join(found)


@every_maker
@settings(max_examples=3, derandomize=True, phases=AS_THEY_COME, suppress_health_check=list(HealthCheck))
@given(job=likely_jobs())
def test_a_few_random_jobs(name: str, job: Job) -> None:
    _check(name, job)


@pytest.mark.slow
@every_maker
@settings(max_examples=300, phases=AS_THEY_COME, suppress_health_check=list(HealthCheck))
@given(job=likely_jobs())
def test_many_random_jobs(name: str, job: Job) -> None:
    _check(name, job)


@pytest.mark.parametrize(
    ("name", "raw"),
    [
        (  # the rail's edge rises to its figure at the plank's end
            "drawings",
            {"units": "in", "stock": {"thickness": "29.7 mm", "height": "40 mm"}, "joint": {"ratio": 6.0},
             "clamp": {"opening": "60 mm", "throat": "60 mm", "pad_width": "15 mm",
             "pad_height": "8 mm", "jaw": "8 mm"}},
        ),
        (  # a blade's height as wide as the room beside the side view
            "card",
            {"stock": {"thickness": "24.6 mm", "height": "1 37/64 in"}, "joint": {"ratio": 8.6},
             "clamp": {"opening": "60 mm", "throat": "2 23/64 in", "pad_width": "15 mm",
             "pad_height": "8 mm", "jaw": "8 mm"}},
        ),
        (  # every place for the second half's name was taken
            "drawings",
            {"stock": {"thickness": "38 mm", "height": "48.3 mm"}, "joint": {"ratio": 17.86},
             "clamp": {"opening": "100.6 mm", "throat": "4 21/64 in", "pad_width": "50/64 in",
             "jaw": "13.8 mm", "pad_height": "10.8 mm"}},
        ),
        (  # the arrow of the feed, as wide as it is drawn, under a clamp's station
            "card",
            {"stock": {"thickness": "10 mm", "height": "1 37/64 in"}, "joint": {"ratio": 6.0},
             "saw": {"fence_gap": "3/64 in"},
             "clamp": {"opening": "2 36/64 in", "throat": "60 mm", "pad_width": "1 21/64 in", "jaw": "14.9 mm"}},
        ),
    ],
    ids=["rail", "height", "half", "feed"],
)  # fmt: skip
def test_jobs_that_ran_into_something_once(name: str, raw: dict[str, Any]) -> None:
    _check(name, job_from_dict(raw))


# -- the reader itself: it must see what it is for ------------------------------------------------------------


def page(*items: object) -> Sheet:
    sheet = Sheet("page", 100, 100, 5)
    for item in items:
        sheet.add(item)  # type: ignore[arg-type]
    return sheet


def test_a_clear_page_is_clear() -> None:
    assert not unclear(page(Text(20, 20, "one"), Text(20, 30, "two"), line([(10, 26), (60, 26)])))


def test_text_over_text_is_seen() -> None:
    assert any("'one' over 'two'" in f for f in unclear(page(Text(20, 20, "one"), Text(22, 20, "two"))))


def test_text_over_a_line_is_seen_unless_something_is_painted_between() -> None:
    stroke, patch = line([(10, 21), (60, 21)], name="stroke"), box(15, 15, 40, 10, None, "#ffffff")
    assert any("over the line 'stroke'" in f for f in unclear(page(stroke, Text(20, 20, "one"))))
    assert not unclear(page(stroke, patch, Text(20, 20, "one")))
    assert unclear(page(stroke, Text(20, 20, "one"), patch))


def test_pale_text_is_seen() -> None:
    """Contrasts worked out by hand: #777777 on white 4.48, #767676 4.54; black on #737373 4.43 (WCAG 2.2)."""
    assert any("too pale, 4.5" in f for f in unclear(page(Text(20, 20, "one", colour="#777777"))))
    assert not unclear(page(Text(20, 20, "one", colour="#767676")))
    dark = box(15, 15, 40, 10, None, "#737373")
    assert any("too pale, 4.4" in f for f in unclear(page(dark, Text(20, 20, "one"))))
    assert not unclear(page(dark, box(15, 15, 40, 10, None, "#ffffff"), Text(20, 20, "one")))


def test_text_outside_the_frame_is_seen() -> None:
    frame = box(7, 7, 86, 86)
    assert any("outside" in f for f in unclear(page(frame, Text(85, 50, "far too long"))))
    assert any("outside" in f for f in unclear(page(Text(1, 50, "off the paper's margin"))))


def test_only_what_shows_of_a_clipped_group_counts() -> None:
    hidden = Clip(rectangle(60, 60, 10, 10), (line([(10, 21), (60, 21)]),))
    assert not unclear(page(hidden, Text(20, 20, "one")))


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_what_to_measure_is_shown_for_every_job(units: str, side: str, paper: str) -> None:
    """Even a job that has faults, with every size a long fraction."""
    odd = "23 63/64 in"
    text = (
        f"units = '{units}'\n[stock]\nthickness = '3/4 in'\nheight = '2 1/2 in'\n[joint]\nratio = 12\n"
        f"[saw]\nfence_side = '{side}'\ntable_front = '{odd}'\ntable_back = '{odd}'\nfence_front = '{odd}'\n"
        f"[clamp]\nopening = '{odd}'\nthroat = '{odd}'\n[files]\npaper = '{paper}'\n"
    )
    sheet = measure_me(job_from_text(text))
    assert not unclear(sheet)
    words = [t.text for t in sheet.texts()]
    shown = '23 63/64"' if units == "in" else "609.2 mm"
    for key in ("table_front", "table_back", "fence_front", "opening", "throat"):
        assert f"{key} {shown}" in words
    saw = ("blade_diameter", "kerf", "plate", "riving_knife", "max_depth", "fence_height", "base_to_blade", "hand_kerf")
    keys = (*saw, "pad_width", "pad_height")
    for key in keys:
        assert any(w.startswith(f"{key} ") for w in words), key
    assert words.count("measure yours") == len(keys) + 2  # and either jaw; what was measured is not asked for again
