"""Finding the job a command is about, and the job of one run with what the command line asks for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scarfwright.cli.examples import FIRST_EXAMPLE, example
from scarfwright.models.job.file import Read, read_whole, whole_from_text
from scarfwright.models.job.problems import JobError, problem
from scarfwright.models.job.shop import MACHINES, Machine
from scarfwright.models.job.tables import Job
from scarfwright.models.sharing.manifest import NAME
from scarfwright.models.words.passing_on.verdict import shop_line
from scarfwright.outputs.share.shared import is_zip


@dataclass(frozen=True)
class Found:
    """The job a command is about, the file it stands for, and where its shop's keys came from."""

    job: Job
    file: Path
    read: Read

    @property
    def shop_line(self) -> str:
        """Where saw and machines came from; empty where all stands in the job."""
        shop = self.read.shop
        if shop is None:
            return ""
        taken = list(dict.fromkeys(key.partition(".")[0] for key in self.read.taken))
        return shop_line(shop.name, self.read.kept, taken)

    def shop_data(self) -> dict[str, Any]:
        """The same for JSON, as a key beside the numbers; nothing where all stands in the job."""
        shop = self.read.shop
        return {} if shop is None else {"shop": {"file": shop.name, "kept": list(self.read.kept)}}


def _no_saw_taken(read: Read) -> bool:
    """Whether the job keeps another saw and other clamps whole, whatever the shop's file says of them."""
    mine = ("saw.", "clamp.")
    return any(key.startswith(mine) for key in read.kept) and not any(key.startswith(mine) for key in read.taken)


def find(path: Path | None, shop: Path | None = None) -> Found:
    """The job and the file it stands for; without a path the packaged first example. `shop`: a file to take saw,
    clamps and machines from. Raises JobError.
    """
    if path is not None and not path.is_dir() and is_zip(path):
        said = "is a zip; expected a job file. A zip goes with check and make; to make it your own: "
        raise JobError(problem(str(path), f"{said}scarfwright start mine.toml --from {path}"))
    if path is not None:
        read, file = read_whole(path, shop), path
    else:
        file = Path(f"{FIRST_EXAMPLE}.toml")
        read = whole_from_text(example(FIRST_EXAMPLE).text, file.name, shop=shop)
    if shop is not None and _no_saw_taken(read):
        said = (
            f"found nothing of the saw and clamps in {shop} used, for the job gives all these keys itself; expected a "
            "job without them"
        )
        if (file.parent / NAME).is_file():
            said += f", such as: scarfwright start mine.toml --from {file.parent} --shop {shop}"
        raise JobError(problem(str(file), said, key="--shop"))
    return Found(read.job, file, read)


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
