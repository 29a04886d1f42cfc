"""Finding the job a command is about, and the job of one run with what the command line asks for."""

from __future__ import annotations

from collections.abc import Iterable
from importlib.resources import files
from pathlib import Path
from typing import Any

from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.job.shop import MACHINES, Machine
from scarfwright.models.job.tables import Job

FIRST_EXAMPLE = "plank-metric.toml"


def find_job(path: Path | None) -> tuple[Job, Path]:
    """The job and the file it stands for; without a path the packaged first example. Raises JobError."""
    if path is not None:
        return read_job(path), path
    text = (files("scarfwright.examples") / FIRST_EXAMPLE).read_text(encoding="utf-8")
    return job_from_text(text, FIRST_EXAMPLE), Path(FIRST_EXAMPLE)


def for_this_run(job: Job, instead: dict[str, Any], only: Iterable[str]) -> Job:
    """The job with keys of [files] as the command line asks for them (None leaves what the job says).

    A machine that the command line names is there. So are, for a job that says nothing of its shop, the machines
    that the groups asked for are for.
    """
    given = {key: value for key, value in instead.items() if value is not None}
    job = job.model_copy(update={"files": job.files.model_copy(update=given)})
    there = {*job.shop_has, *_named(job, given, set(only))}
    return job.model_copy(update={"shop_has": tuple(machine for machine in MACHINES if machine in there)})


def _named(job: Job, given: dict[str, Any], only: set[str]) -> set[Machine]:
    named: set[Machine] = set()
    if "machine" in given:
        named.add(job.files.machine)
    elif "tool_path" in given:
        named.add("router")
    if "shop_has" not in job.model_fields_set:
        if "print" in only:
            named.add("printer")
        if "cut" in only:
            named.add(job.files.machine)
    return named
