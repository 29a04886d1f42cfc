"""A board that no table saw can stand up and cut is one finding with a way out, not a row of absurd ones."""

from __future__ import annotations

from typing import Any

import pytest
from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.remedies.applying import applied
from scarfwright.models.solve import work_up


def board(thickness: str, height: str, **other: Any) -> Job:
    return job_from_dict({"stock": {"thickness": thickness, "height": height}, "joint": {"ratio": 12}, **other})


@pytest.mark.parametrize(
    ("thickness", "height", "stick"),
    [
        ("18 mm", "1 m", {"stock.height": "73 mm"}),
        ("22 mm", "200 mm", {"stock.height": "73 mm"}),
        ("1 m", "18 mm", {"stock.thickness": "18 mm", "stock.height": "73 mm"}),  # a sheet, its sizes exchanged
    ],
)
def test_a_panel_is_told_to_be_ripped_and_nothing_else(thickness: str, height: str, stick: dict[str, str]) -> None:
    job = board(thickness, height)
    (one,) = work_up(job).findings
    assert one.code == "stock.above_reach"
    assert "for sticks up to the saw's reach, 73 mm high" in one.text  # 79 of rise, 6 of it above the board
    assert "blade of" not in one.text
    assert dict(one.remedies[0]) == stick
    assert not faults(list(work_up(applied(job, one.remedies[0])).findings))


def test_a_saw_that_reaches_higher_is_believed() -> None:
    """144 mm and 6 above it are 150 mm: a blade of 400 mm may rise that far, if its owner measured so."""
    big = {"blade_diameter": "400 mm", "max_depth": "150 mm"}
    assert "stock.above_reach" not in {f.code for f in work_up(board("22 mm", "144 mm", saw=big)).findings}
    assert [f.code for f in work_up(board("22 mm", "144.1 mm", saw=big)).findings] == ["stock.above_reach"]


def test_a_board_under_the_reach_of_common_saws_is_told_of_the_saw_it_needs() -> None:
    found = {f.code: f.text for f in work_up(board("22 mm", "100 mm")).findings}
    assert "or use a saw whose blade rises 106 mm" in found["blade.too_low"]
    assert "high (rip it)" in found["blade.too_low"]  # on its other side it would be thicker than high
