"""Advice is a promise: done as written, it mends its finding in one step and brings no new fault.

The job is written out, the keys are set in its text, and it is read and worked out again: not the way the advice was
found.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from scarfwright.models.findings import Finding, Level, Remedy
from scarfwright.models.job.file import job_from_text, job_to_toml, read_job, toml_value
from scarfwright.models.job.tables import Job
from scarfwright.models.remedies.proving import same
from scarfwright.models.remedies.ways import WAYS
from scarfwright.models.solve import advised, work_out
from scarfwright.models.words.the_sled.remedies import ways_out

from tests.strategies import jobs, likely_jobs

QUIET = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
DO_IT = re.compile(r"(?:^|[.;,] (?:or )?)(?:make|put|set|use|slide|move|cut|fit)\b[^.;]*\d", re.IGNORECASE)
FOLDER = Path(__file__).parent / "trials"


def followed(job: Job, remedy: Remedy) -> Job:
    """The job file with the keys set, each on its own line, and read again."""
    text = job_to_toml(job)
    for key, value in remedy:
        table, name = key.split(".")
        before, header, after = text.partition(f"[{table}]\n")
        line = f"{name} = {toml_value(value)}".replace("\\", "\\\\")
        after, count = re.subn(rf"(?m)^(# )?{name}( = |:).*$", line, after, count=1)
        assert count == 1, key
        text = before + header + after
    return job_from_text(text)


def check(job: Job) -> int:
    """How many remedies were followed."""
    found = advised(job).findings
    before = Counter(same(f) for f in found)
    count = 0
    for one in found:
        for remedy in one.remedies:
            after = work_out(followed(job, remedy)).findings
            assert Counter(same(f) for f in after)[same(one)] < before[same(one)], (one.text, remedy)
            for key, n in Counter(same(f) for f in after if f.level is Level.FAULT).items():
                assert n <= before[key], (one.text, remedy, key)
            assert_told(one, remedy)
            count += 1
        if one.code in WAYS:
            assert_only_what_was_tried(one)
    return count


def assert_only_what_was_tried(one: Finding) -> None:
    """What a sentence says to do with a figure is one of the remedies: none has advice of its own beside them."""
    tried = ways_out(one)
    assert one.text.endswith(tried)
    alone = one.text.removesuffix(tried)
    assert not DO_IT.search(alone), (one.text, alone)


def assert_told(one: Finding, remedy: Remedy) -> None:
    """Every figure of a remedy stands in the sentence."""
    for _, value in remedy:
        for text in value if isinstance(value, list) else [value]:
            assert str(text) in one.text, (one.text, remedy)


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.toml")), ids=lambda p: p.stem)
def test_advice_on_the_trials(path: Path) -> None:
    check(read_job(path))


def test_advice_on_random_jobs() -> None:
    followed = []

    @settings(derandomize=True, max_examples=10, deadline=None, suppress_health_check=QUIET)
    @given(likely_jobs())
    def run(job: Job) -> None:
        followed.append(check(job))

    run()
    assert sum(followed) > 20


@pytest.mark.slow
@settings(derandomize=True, max_examples=600, deadline=None, suppress_health_check=QUIET)
@given(likely_jobs())
def test_advice_on_many_likely_jobs(job: Job) -> None:
    check(job)


@pytest.mark.slow
@settings(derandomize=True, max_examples=400, deadline=None, suppress_health_check=QUIET)
@given(jobs())
def test_advice_on_many_wild_jobs(job: Job) -> None:
    check(job)


def test_faults_that_can_be_mended_are_given_a_way_out() -> None:
    """Over the trials: no fault of sled, notches or clamps without one."""
    for path in sorted(FOLDER.glob("*.toml")):
        for one in advised(read_job(path)).findings:
            if one.level is Level.FAULT and one.code in WAYS:
                assert one.remedies, (path.stem, one.text)
