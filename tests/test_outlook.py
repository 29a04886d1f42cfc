"""What a job says of errors to be expected: its numbers, its finding, its keys."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest
from scarfwright.models.findings import CODES, Finding
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml
from scarfwright.models.job.problems import JobError
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.words.the_joint.accuracy import SOURCES, hundred, outlook_lines
from scarfwright.models.workup import Workup

from tests.finding_cases import BASE


def worked(**changes: Any) -> Workup:
    out: dict[str, Any] = {}
    for key, value in {**BASE, **{k.replace("__", "."): v for k, v in changes.items()}}.items():
        table, name = key.split(".")
        out.setdefault(table, {})[name] = value
    return work_up(job_from_dict(out))


def few(work: Workup) -> list[Finding]:
    return [one for one in work.findings if one.code == "accuracy.few_inside"]


def test_the_base_job_is_quiet() -> None:
    work = worked()
    assert not few(work)
    assert work.outlook is not None
    assert work.outlook.budget.inside > 0.8


def test_a_tight_gap_limit_is_noted() -> None:
    """0.05 mm at 60 mm allows 0.0239 degrees of lean, about what shows under a square."""
    (one,) = few(worked(adhesive__gap_limit="0.05 mm"))
    assert one.level is CODES["accuracy.few_inside"]
    assert one.numbers["lean_allowed_deg"] == pytest.approx(math.degrees(math.atan(0.05 / 120)), abs=1e-6)
    assert "0.05 mm" in one.text
    assert "test joint" in one.text
    assert f"{round(float(one.numbers['inside_percent'] or 0))} of 100" in one.text


def test_a_tight_twist_limit_is_noted() -> None:
    (one,) = few(worked(limits__twist=0.03))
    assert "twist limit of 0.03 degrees" in one.text
    assert not few(worked(limits__twist=2.0))
    assert few(worked(limits__twist=0.24, limits__joints=8))


def test_numbers() -> None:
    data = numbers(worked(limits__twist=1.5, limits__joints=3))
    found = data["accuracy"]
    assert found["gap_limit_mm"] == 0.15
    assert (found["twist_limit_deg"], found["joints"]) == (1.5, 3)
    assert found["gap_per_degree_mm"] == pytest.approx(2 * 60 * math.tan(math.radians(1)), abs=1e-6)
    assert sum(one["share"] for one in found["sources"]) == pytest.approx(1, abs=1e-5)
    assert 0 < found["inside_share"] < 1
    cuts = {(cut["board"], cut["end"]): cut for cut in data["pair"]["cuts"]}
    assert cuts[(1, "right")]["sled_face"] == "front"
    assert cuts[(2, "left")]["sled_face"] == "back"
    assert {cut["edge_down"] for cut in cuts.values()} == {"marked"}
    assert [one["lean_per_tilt"] for one in found["halves"]] == [0, 2, 0, 2]
    assert data["pair"]["thicker_per_mm_together_mm"] == pytest.approx(1 / data["joint"]["ratio_realised"], abs=1e-6)
    left = numbers(worked(saw__fence_side="left"))["pair"]["cuts"]
    assert left[0]["sled_face"] == "back"


def test_what_check_tells_of_it() -> None:
    work = worked(limits__twist=2.0)
    assert work.outlook is not None
    told = dict(outlook_lines(work.outlook, work.joint, "mm"))
    found = work.outlook.budget
    assert "gap at most 0.15 mm, twist at most 2 degrees" in told["inside the limits"]
    # 2 x 60 tan 1 degree; 2 atan(tan 1 degree / cos theta)
    assert "opens the glue line 2.09 mm held flat, or twists the pair 2.01 degrees" in told["1 degree of lean"]
    shares = [int(part) for part in re.findall(r"(\d+) %", told["what opens it"])]
    assert shares == sorted((round(100 * one.share) for one in found.sources), reverse=True)
    best = max(found.sources, key=lambda one: one.inside_if_halved)
    assert told["improve first"] == f"{SOURCES[best.name]}: half the error there gives {hundred(best.inside_if_halved)}"
    assert f"stiffness {100 * found.stiffness:.1f} %" in told["besides"]


def test_a_job_with_faults_has_none() -> None:
    data = numbers(worked(clamp__opening="30 mm"))
    assert data["accuracy"] is None
    assert data["pair"] is None


def test_keys_are_written_back() -> None:
    text = job_to_toml(worked(limits__twist=1.5, limits__joints=3).job)
    again = job_from_text(text)
    assert (again.limits.twist, again.limits.joints) == (1.5, 3)


@pytest.mark.parametrize(("key", "value"), [("twist", 0), ("twist", "1 deg"), ("twist", 90), ("joints", 0)])
def test_keys_that_are_none(key: str, value: Any) -> None:
    raw = {"stock": {"thickness": 22, "height": 60}, "joint": {"ratio": 12}, "limits": {key: value}}
    with pytest.raises(JobError, match=rf"\[limits\] {key}"):
        job_from_dict(raw)


def test_the_dividing_sheet_tells_the_half_that_cancels_the_tilt() -> None:
    """On the carrier the half between fence and blade goes heel first, and lies at the taper cut as it lay."""
    from scarfwright.models.accuracy.halves import half_lean, turn
    from scarfwright.models.words.the_sled.dividing import order

    work = worked()
    assert work.way.dividing is not None
    last = order(work, work.way.dividing)[-1].text
    assert "lay on the carrier" in last
    assert "the same face up" in last
    assert half_lean(0.01, "heel") == 0
    assert turn("fence", "heel") == "as_it_lay"
    # the batten stands nearer the fence at the leading end: there the half is wide
    trailing, leading = sorted(work.way.dividing.batten_ends)
    assert leading[1] < trailing[1]
