"""Which jobs can be shown in motion: a rule that is stated, against the bodies themselves."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from scarfwright.models.cut.bodies import drawable, mesh_of, moving_setup
from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.page.order import FIRST, MOVING
from scarfwright.outputs.page.pieces import pieces

from tests.strategies import jobs

SAGITTA = 0.1  # mm
JOB: dict[str, Any] = {"stock": {"thickness": "22 mm", "height": "60 mm"}, "joint": {"ratio": 12}}
BODILESS: dict[str, dict[str, Any]] = {
    "notches that cross": {"sled": {"heel_station": "400 mm", "extra_stations": ["410 mm"]}},
    "a notch through the fence edge": {"sled": {"web": "140 mm"}},
    "a board shorter than its taper": {"stock": {**JOB["stock"], "length": "200 mm"}},
}


def bodies(work: Workup) -> bool:
    """Whether all are bodies, found by making them."""
    try:
        return all(mesh_of(one.piece, SAGITTA).triangles for one in moving_setup(work.way))
    except ValueError:
        return False


@pytest.mark.parametrize("name", BODILESS)
def test_what_is_no_body_is_not_shown(name: str) -> None:
    work = work_up(job_from_dict({**JOB, **BODILESS[name]}), advice=False)
    assert not drawable(work.way)
    assert not bodies(work)
    assert faults(list(work.findings))
    assert MOVING not in [one.key for one in pieces(work, FIRST)]


def test_a_job_with_another_fault_is_shown() -> None:
    work = work_up(job_from_dict({**JOB, "saw": {"max_depth": "30 mm"}}), advice=False)
    assert faults(list(work.findings))
    assert MOVING in [one.key for one in pieces(work, FIRST)]


def _check(job: Job) -> None:
    work = work_up(job, advice=False)
    assert drawable(work.way) == bodies(work)
    assert drawable(work.way) or faults(list(work.findings))


@settings(max_examples=12, derandomize=True, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
@given(job=jobs())
def test_a_few_random_jobs(job: Job) -> None:
    _check(job)


@pytest.mark.slow
@settings(max_examples=400, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
@given(job=jobs())
def test_many_random_jobs(job: Job) -> None:
    _check(job)
