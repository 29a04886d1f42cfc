"""A sled that is made: whatever is found, no advice leads to another one, and what is cut stays where it is."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.findings import Level
from scarfwright.models.job.file import job_from_dict, read_job
from scarfwright.models.solve import advised, work_out

from tests.finding_cases import BASE, CASES
from tests.test_advice import followed

TRIAL = Path(__file__).parent / "trials" / "as-made-notch-cut.toml"
# a longer flat can still be sawn: nose.flat_short alone may ask for it
SHAPE = ("length", "plank", "layers", "sheet_thickness", "nose_flat", "web", "round_marks")
OTHER = {f"sled.{key}" for key in SHAPE} | {"joint.ratio"}
SIZES: dict[str, dict[str, Any]] = {
    "plank": {"sled.heel_as_made": "153 mm", "sled.nose_as_made": "28 mm", "sled.length_as_made": "1500 mm"},
    "sheet": {"sled.made_from": "sheet", "sled.heel_as_made": "150 mm", "sled.nose_as_made": "25 mm"},
}


def tables(*changes: dict[str, Any]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for key, value in {k: v for change in changes for k, v in change.items()}.items():
        table, _, name = key.partition(".")
        made.setdefault(table, {})[name] = value
    return made


@pytest.mark.parametrize("made", SIZES)
def test_no_advice_leads_to_another_sled(made: str) -> None:
    """Over the jobs of the findings' cases, measured."""
    told = 0
    for case in CASES:
        if case.code.startswith("sled.as_made"):
            continue
        for one in advised(job_from_dict(tables(BASE, case.wrong, SIZES[made]))).findings:
            for remedy in one.remedies:
                told += 1
                allowed = {"sled.nose_flat"} if one.code == "nose.flat_short" else set()
                assert not (OTHER - allowed) & {key for key, _ in remedy}, (case.code, one.text)
            assert "Make the sled" not in one.text
    assert told > 10


def test_a_measured_sled_may_run_with_what_margin_is_left() -> None:
    """The taper comes out 4 flatter in 1 000, the notch is cut: 44 of the 50 are left, and the notch stays."""
    job = read_job(TRIAL)
    work = advised(job)
    (one,) = [f for f in work.findings if f.code == "clamp.meets_blade"]
    (remedy,) = [r for r in one.remedies if "saw.travel_margin" in dict(r)]
    after = work_out(followed(job, remedy))
    assert [f.code for f in after.findings if f.level is Level.FAULT] == []
    assert [n.station for n in after.way.layout.notches] == [n.station for n in work.way.layout.notches]
    assert after.way.layout.hand_line == work.way.layout.hand_line
    assert "margin.travel_small" not in {f.code for f in after.findings}
    assert float(str(one.numbers["limit_mm"])) - float(str(one.numbers["end_mm"])) == pytest.approx(44, abs=0.1)
