"""Finding the job a command is about, and the job of one run with what the command line asks for."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from scarfwright.cli.examples import FIRST_EXAMPLE, example
from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.job.shop import MACHINES, Machine
from scarfwright.models.job.tables import Job


def find_job(path: Path | None) -> tuple[Job, Path]:
    """The job and the file it stands for; without a path the packaged first example. Raises JobError."""
    if path is not None:
        return read_job(path), path
    file = f"{FIRST_EXAMPLE}.toml"
    return job_from_text(example(FIRST_EXAMPLE).text, file), Path(file)


def for_this_run(job: Job, instead: dict[str, Any], only: Iterable[str]) -> Job:
    """The job with keys of [files] as the command line asks for them (None leaves what the job says).

    A machine that the command line names is there. So are, for a job that says nothing of its shop, the machines
    that the groups asked for are for.
    """
    given = {key: value for key, value in instead.items() if value is not None}
    job = job.model_copy(update={"files": job.files.model_copy(update=given)})
    named: set[Machine] = {job.files.machine} if "machine" in given else set()
    if "tool_path" in given and not named:
        named.add("router")
    if named:
        job = _with(job, named)
    return job if "shop_has" in job.model_fields_set else _for_once(job, set(only))


def _with(job: Job, more: set[Machine]) -> Job:
    there = {*job.shop_has, *more}
    return job.model_copy(update={"shop_has": tuple(machine for machine in MACHINES if machine in there)})


def _for_once(job: Job, only: set[str]) -> Job:
    """With the machines of the groups; the job as it is kept goes on saying nothing of its shop."""
    named: set[Machine] = {"printer"} if "print" in only else set()
    if "cut" in only:
        named.add(job.files.machine)
    changed = _with(job, named)
    changed.model_fields_set.discard("shop_has")
    return changed
