"""Hardwood surfaced two sides (S2S): thicknesses of the hardwood trade by quarters of an inch."""

from __future__ import annotations

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.lengths.length import LengthError
from scarfwright.models.lengths.lumber import HARDWOOD_S2S, hardwood_thickness

S2S = {"4/4": 0.8125, "5/4": 1.0625, "6/4": 1.3125, "8/4": 1.75, "12/4": 2.75, "16/4": 3.75}  # 13/16, 1 1/16, ...


@pytest.mark.parametrize("quarters", S2S)
def test_every_thickness(quarters: str) -> None:
    found = hardwood_thickness(f"{quarters} S2S")
    assert found is not None
    assert float(found) == pytest.approx(S2S[quarters] * 25.4, rel=1e-15)


def test_no_other_is_known() -> None:
    assert {k: float(v) for k, v in HARDWOOD_S2S.items()} == S2S
    with pytest.raises(LengthError, match="4/4 S2S"):
        hardwood_thickness("7/4 S2S")
    assert hardwood_thickness("4/4") is None  # rough sawn: how thick it is, only a rule can tell


def test_in_a_job() -> None:
    job = job_from_text('units = "in"\n[stock]\nthickness = "8/4 s2s"\nheight = 3\n[joint]\nratio = 12\n')
    assert job.stock.thickness.text == "1 3/4 in"
