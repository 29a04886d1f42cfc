"""`scarfwright check` of a zip or a folder: whether what was passed on is what its job gives here."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scarfwright.cli.showing.checking import Tables, show_work
from scarfwright.cli.terminal import json_out
from scarfwright.models.findings import faults
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.sharing.compared import Compared, compared
from scarfwright.models.sharing.manifest import JOB, Manifest, kept_numbers
from scarfwright.models.sharing.versions import Other, others
from scarfwright.models.solve import work_up
from scarfwright.models.words.passing_on import verdict as words
from scarfwright.models.words.passing_on.papers import licence_line
from scarfwright.models.workup import Workup
from scarfwright.outputs.share.shared import job_of, read_folder, read_shared
from scarfwright.outputs.share.whole import Files, files_of

NEW = "mine.toml"  # the name that is offered for a job made one's own


@dataclass(frozen=True)
class Verdict:
    """What was found of a job that was passed on."""

    manifest: Manifest
    others: tuple[Other, ...]
    compared: Compared

    def lines(self, job: Job, files: Sequence[str], own: str) -> list[str]:
        """Sentences for the screen: the versions, the numbers, the files, whose saw, the licence."""
        say = say_in(job.units)
        return [
            words.versions_line(self.manifest, self.others),
            *words.plug_in_lines(self.others, self.manifest),
            *words.numbers_lines(say, self.compared),
            *files,
            words.whose_line(job, own),
            licence_line(self.manifest.terms.licence),
        ]

    def as_json(self) -> dict[str, Any]:
        found = self.compared
        return {
            "scarfwright": self.manifest.tool,
            "licence": self.manifest.terms.licence,
            "versions": [{"name": one.name, "there": one.there, "here": one.here} for one in self.others],
            "same_numbers": found.same,
            "figures": found.figures,
            "other_numbers": [{"key": one.path, "there": one.there, "here": one.here} for one in found.others],
            "findings_here_only": list(found.came),
            "findings_there_only": list(found.went),
        }


def verdict_of(manifest: Manifest, work: Workup) -> Verdict:
    """The numbers worked out again against those that were passed on, and the versions against those here."""
    here = kept_numbers(numbers(work))
    found = others(manifest.tool, manifest.libraries, manifest.terms.plug_ins)
    return Verdict(manifest, found, compared(manifest.numbers, here))


def own_command(path: Path) -> str:
    """The command that makes a zip one's own."""
    return f"scarfwright start {NEW} --from {shlex.quote(str(path))} --shop my-shop.toml"


def check_zip(path: Path, tables: Tables, *, json: bool) -> int:
    """Returns the exit code: 1 for a job with faults, other numbers, or files that are not of it. Raises JobError."""
    shared = read_shared(path)
    work = work_up(shared.job)
    found = verdict_of(shared.manifest, work)
    if json:
        json_out({"shared": {**found.as_json(), "not_listed": list(shared.unlisted)}, **numbers(work)})
    else:
        files = [words.zip_files_line(len(shared.manifest.files)), *words.unlisted_lines(shared.unlisted)]
        name = shlex.quote(str(path))
        then = [
            f"{own_command(path)}   (your saw, your clamps)",
            f"scarfwright make {name}   (every file made anew, its bytes compared)",
        ]
        show_work(work, path, tables, found.lines(shared.job, files, own_command(path)), then)
    good = found.compared.same and not shared.unlisted and not faults(list(work.findings))
    return 0 if good else 1


def check_folder(path: Path, tables: Tables, *, json: bool) -> int:
    """Returns the exit code: 1 for a job with faults, other numbers, or files that are not whole. Raises JobError."""
    from scarfwright.outputs.readers.expected import expected
    from scarfwright.outputs.readers.reading import read_back

    manifest = read_folder(path)
    files = files_of(path, manifest)
    if JOB not in files.whole:
        return _without_job(path, files, json)
    work = work_up(job_of(path))
    found = verdict_of(manifest, work)
    groups = read_back(path, files.whole, expected(work))
    unreadable = [fault for group in groups for fault in group.faults]
    if json:
        read = [
            {"format": one.suffix, "files": one.count, "reader": one.reader or None, "faults": list(one.faults)}
            for one in groups
        ]
        json_out({"shared": {**found.as_json(), **_as_json(files), "read_back": read}, **numbers(work)})
    else:
        lines = words.files_lines(len(manifest.files), files.changed, files.missing, files.unlisted)
        lines += words.read_back_lines([(one.suffix, one.count, one.reader, one.faults) for one in groups])
        then = ["Pin paper/setup-card.pdf up at the saw it is for. The saw maker's manual comes first."]
        show_work(work, path, tables, found.lines(work.job, lines, own_command(path)), then)
    good = files.untouched and not files.unlisted and found.compared.same and not unreadable
    return 0 if good and not faults(list(work.findings)) else 1


def _without_job(path: Path, files: Files, json: bool) -> int:
    """A folder whose job is not the one it was made with: what its numbers would be says nothing of its files."""
    from scarfwright.cli.showing import say

    if json:
        json_out({"shared": {"same_numbers": None, **_as_json(files)}})
        return 1
    screen = say.console()
    screen.print(f"{path}: {JOB} is not the one it was made with", style="bold")
    for line in words.files_lines(len(files.whole), files.changed, files.missing, files.unlisted):
        screen.print(line)
    screen.print(f"So its numbers can't be worked out again. Make it anew from the job: scarfwright make {JOB}")
    return 1


def _as_json(files: Files) -> dict[str, Any]:
    return {
        "whole": list(files.whole),
        "changed": list(files.changed),
        "missing": list(files.missing),
        "not_listed": list(files.unlisted),
    }
