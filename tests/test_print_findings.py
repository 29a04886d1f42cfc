"""Findings about what is printed: too tall for the printer, hanging over nothing, letters that close up."""

from __future__ import annotations

import pytest
from scarfwright.models.findings import Finding
from scarfwright.models.flat.loop import rectangle
from scarfwright.models.job.file import job_from_text
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.lettering import LEAST_HEIGHT, label_findings
from scarfwright.models.part.part import Part, Raised
from scarfwright.models.printing.laying import laid_flat

JOB = job_from_text("[stock]\nthickness = 22\nheight = 60\n[joint]\nratio = 12\n")
SAY = say_in("mm")


def block(height: float, *raised: Raised) -> Part:
    return Part("block", "Block", rectangle(0, 0, 60, 60), height, raised=raised)


def of_code(part: Part, code: str) -> list[Finding]:
    return [f for f in laid_flat(part, JOB.printer)[1] if f.code == code]


def test_too_tall_for_the_printer() -> None:
    (one,) = of_code(block(240.1), "print.too_tall")  # the default printer reaches 240
    assert one.numbers == {"title": "Block", "height_mm": 240.1, "bed_z_mm": 240}
    assert laid_flat(block(240.1), JOB.printer)[0] == ()
    assert of_code(block(240.0), "print.too_tall") == []


def test_what_hangs_over_nothing_either_way_up() -> None:
    """Two plates 60 x 60 on a post 10 x 10: whichever way it lies, 3600 - 100 mm2 hang."""
    post = Raised(rectangle(25, 25, 10, 10), 5, 30)
    (one,) = of_code(block(5, post, Raised(rectangle(0, 0, 60, 60), 30, 35)), "print.overhang")
    assert one.numbers["area_mm2"] == pytest.approx(3500)
    assert of_code(block(5, post), "print.overhang") == []


def test_letters_that_close_up() -> None:
    (one,) = label_findings("Block", "N 12", LEAST_HEIGHT - 0.1, 100)
    assert one.code == "label.too_small"
    assert label_findings("Block", "N 12", LEAST_HEIGHT, 100) == []
