"""A job that somebody passed on: its manifest and its job file, read out of a zip or a folder, and nothing else."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from scarfwright.models.job.file import job_from_text
from scarfwright.models.job.problems import JobError, problem
from scarfwright.models.job.reading.toml_text import LARGEST_BYTES as LARGEST_JOB
from scarfwright.models.job.reading.toml_text import text_of
from scarfwright.models.job.tables import Job
from scarfwright.models.sharing.manifest import JOB, LARGEST_BYTES, NAME, Manifest, ManifestError, read_manifest
from scarfwright.outputs.share.zip_directory import Entry, ZipError, read_directory, read_entry, without_folder

_ZIP_BEGINS = (b"PK\x03\x04", b"PK\x05\x06")


@dataclass(frozen=True)
class Shared:
    """What was passed on: where it lies, its manifest and job, and, of a zip, the files that its manifest does not
    list."""

    place: str
    manifest: Manifest
    job: Job
    unlisted: tuple[str, ...] = ()


def is_zip(path: Path) -> bool:
    """Whether a path is meant as a zip: by its name, or by how its file begins."""
    if path.suffix.lower() == ".zip":
        return True
    try:
        if not path.is_file():
            return False
        with path.open("rb") as file:
            return file.read(4) in _ZIP_BEGINS
    except OSError:
        return False


def read_shared(path: Path) -> Shared:
    """The manifest and the job of a zip, compared with the zip's directory. Raises JobError, OSError."""
    try:
        if not path.exists():
            raise ZipError("no such file; expected a zip made by: scarfwright share")
        if not path.is_file():
            raise ZipError("is not an ordinary file; expected a zip made by: scarfwright share")
        with path.open("rb") as file:
            return _read(file, path)
    except (ZipError, ManifestError) as error:
        raise JobError(problem(str(path), str(error))) from None


def _read(file: BinaryIO, path: Path) -> Shared:
    folder, entries = without_folder(read_directory(file), NAME)
    for wanted in (NAME, JOB):
        if wanted not in entries:
            raise ZipError(f"found no {wanted} in it, expected a zip made by: scarfwright share")
    try:
        manifest = read_manifest(read_entry(file, entries[NAME], LARGEST_BYTES))
    except ManifestError as error:
        raise ZipError(f"{folder}{NAME}: {error}") from None
    data = read_entry(file, entries[JOB], LARGEST_JOB)
    _not_lying(manifest, entries, data)
    job = job_from_text(text_of(data, f"{path}/{folder}{JOB}"), f"{path}/{folder}{JOB}")
    unlisted = sorted({*entries} - {NAME} - {*manifest.files})
    return Shared(str(path), manifest, job, tuple(unlisted))


def _not_lying(manifest: Manifest, entries: Mapping[str, Entry], job: bytes) -> None:
    """Whether the manifest says what is there, as far as that can be told without reading the files."""
    for name, told in manifest.files.items():
        if name not in entries:
            raise ZipError(f"{NAME} lists {name}, found no such file; expected every file it lists")
        if entries[name].size != told.size:
            found = f"found {entries[name].size} bytes in the zip"
            raise ZipError(f"{NAME} lists {name} with {told.size} bytes, {found}; expected the same")
    if hashlib.sha256(job).hexdigest() != manifest.files[JOB].sha256:
        raise ZipError(f"found another {JOB} than {NAME} was written for, expected the one it was made with")


def read_folder(folder: Path) -> Manifest:
    """The manifest of a folder. Raises JobError, OSError."""
    try:
        data = bytes_of(folder / NAME, LARGEST_BYTES)
    except FileNotFoundError:
        said = f"found no {NAME} in it, expected a folder made by scarfwright, or unpacked from a zip that was shared"
        raise JobError(problem(str(folder), said)) from None
    if data is None:
        raise JobError(problem(str(folder / NAME), "found no ordinary file, expected a manifest"))
    try:
        return read_manifest(data)
    except ManifestError as error:
        raise JobError(problem(str(folder / NAME), str(error))) from None


def job_of(folder: Path) -> Job:
    """The job of a folder. Raises JobError, OSError."""
    data = bytes_of(folder / JOB, LARGEST_JOB)
    if data is None:
        raise JobError(problem(str(folder / JOB), "found no ordinary file, expected a job file in TOML"))
    return job_from_text(text_of(data, str(folder / JOB)), str(folder / JOB))


def bytes_of(path: Path, most: int) -> bytes | None:
    """What a file holds, no more than shows that it is too large; None for a link, a pipe or a device.

    Raises OSError.
    """
    if not stat.S_ISREG(os.lstat(path).st_mode):
        return None
    with path.open("rb") as file:
        return file.read(most + 1)
