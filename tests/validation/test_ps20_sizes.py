"""American Softwood Lumber Standard PS 20: nominal against dry dressed sizes of boards and dimension lumber.

6/4 -> 1 1/4 in is from memory (high confidence), as the sources say.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.lengths.length import LengthError
from scarfwright.models.lengths.lumber import PS20_THICKNESS, PS20_WIDTH, nominal_plank

# PS 20, dry: nominal -> dressed [in]
THICKNESS = {"1": 0.75, "5/4": 1.0, "6/4": 1.25, "2": 1.5}
WIDTH = {"2": 1.5, "3": 2.5, "4": 3.5, "6": 5.5, "8": 7.25, "10": 9.25, "12": 11.25}


@pytest.mark.parametrize("thick", THICKNESS)
@pytest.mark.parametrize("wide", WIDTH)
def test_every_nominal_size(thick: str, wide: str) -> None:
    thickness, width = nominal_plank(f"{thick}x{wide}")
    assert float(thickness) == pytest.approx(THICKNESS[thick] * 25.4, rel=1e-15)
    assert float(width) == pytest.approx(WIDTH[wide] * 25.4, rel=1e-15)


def test_no_size_is_known_that_is_not_in_the_standard() -> None:
    assert {k: float(v) for k, v in PS20_THICKNESS.items()} == THICKNESS
    assert {k: float(v) for k, v in PS20_WIDTH.items()} == WIDTH
    assert PS20_WIDTH["8"] == Fraction(29, 4)


@pytest.mark.parametrize("name", ["2x8", "2X8", "2 x 8", " 2×8 "])
def test_ways_to_write_it(name: str) -> None:
    assert [x.text for x in nominal_plank(name)] == ["1 1/2 in", "7 1/4 in"]


@pytest.mark.parametrize("name", ["3x8", "2x7", "2", "x8", "2x8x10", "2x8 in", "", "1.5x7.25"])
def test_other_names_are_refused_with_the_sizes_known(name: str) -> None:
    with pytest.raises(LengthError, match="expected a nominal size"):
        nominal_plank(name)


def test_a_nominal_plank_in_a_metric_job_keeps_its_inches() -> None:
    job = job_from_text('[stock]\nthickness = 22\nheight = 60\n[joint]\nratio = 12\n[sled]\nplank = "2x8"\n')
    assert (job.sled.plank.thickness.text, job.sled.plank.width.text) == ("1 1/2 in", "7 1/4 in")
    assert float(job.sled.plank.width) == pytest.approx(184.15)
