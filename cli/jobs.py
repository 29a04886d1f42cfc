"""Finding the job a command is about."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import Any

from scarfwright.models.job.file import job_from_text, read_job
from scarfwright.models.job.tables import Job

FIRST_EXAMPLE = "plank-metric.toml"


def find_job(path: Path | None) -> tuple[Job, Path]:
    """The job and the file it stands for; without a path the packaged first example. Raises JobError."""
    if path is not None:
        return read_job(path), path
    text = (files("scarfwright.examples") / FIRST_EXAMPLE).read_text(encoding="utf-8")
    return job_from_text(text, FIRST_EXAMPLE), Path(FIRST_EXAMPLE)


def with_files(job: Job, instead: dict[str, Any]) -> Job:
    """The job with keys of [files] as the command line asks for them; None leaves what the job says."""
    given = {key: value for key, value in instead.items() if value is not None}
    return job.model_copy(update={"files": job.files.model_copy(update=given)})
