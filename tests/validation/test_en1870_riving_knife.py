"""EN 1870 series on riving knives, as quoted in guides: plate 2.0, knife 2.2, kerf 3.0 passes at the lower limit."""

from __future__ import annotations

import pytest
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import knife_and_guard

from tests.cut_jobs import of_code, worked


def knife(plate: str, thickness: str, kerf: str) -> list[str]:
    work = worked(saw={"plate": plate, "riving_knife": thickness, "kerf": kerf})
    return [f.code for f in work.findings if f.code.startswith("knife")]


def test_worked_case_passes_at_the_lower_limit() -> None:
    assert knife("2.0 mm", "2.2 mm", "3.0 mm") == []
    found = worked(saw={"plate": "2.0 mm", "riving_knife": "2.2 mm", "kerf": "3.0 mm"}).cut.knife
    assert found.least == pytest.approx(2.2)
    assert found.thick_enough
    assert found.thinner_than_kerf


def test_a_hair_under_the_lower_limit_is_too_thin() -> None:
    assert knife("2.0 mm", "2.19 mm", "3.0 mm") == ["knife.too_thin"]


def test_thinner_than_the_kerf() -> None:
    assert knife("2.0 mm", "2.9 mm", "3.0 mm") == []
    assert knife("2.0 mm", "3.0 mm", "3.0 mm") == ["knife.thicker_than_kerf"]


def test_top_at_least_2_mm_below_the_blades() -> None:
    work = worked()
    assert work.way.blade.height - work.cut.knife.top == pytest.approx(2.0)


def test_gap_of_3_to_8_mm_is_told() -> None:
    assert "3 mm to 8 mm from the teeth" in knife_and_guard.knife(worked().cut.knife, say_in("mm"))
    assert of_code(worked(), "knife.none") == []
