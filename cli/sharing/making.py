"""`scarfwright make` of a zip: everything anew, and whether it has the same bytes."""

from __future__ import annotations

from pathlib import Path

from scarfwright.cli.making import (
    Ready,
    empty_groups,
    groups_in,
    groups_of,
    make_ready,
    no_group,
    nothing_for,
    plan_of,
    put,
    report,
    report_gone,
)
from scarfwright.cli.problems import refuse
from scarfwright.cli.sharing.checking import own_command, verdict_of
from scarfwright.cli.showing import say
from scarfwright.cli.terminal import json_out
from scarfwright.models.job.file import job_to_toml
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.sharing.manifest import JOB, Manifest, Sealed, Terms
from scarfwright.models.words.passing_on import verdict as words
from scarfwright.outputs.make import GROUPS
from scarfwright.outputs.share.papers import papers
from scarfwright.outputs.share.seal import manifest_in
from scarfwright.outputs.share.shared import Shared, read_shared


def make_zip(path: Path, out: Path | None, only: str | None, json: bool, version: str) -> int:
    """Returns the exit code: 1 for a job with faults, other numbers or other bytes. Raises JobError, OSError."""
    groups = groups_of(only)
    if groups is None:
        return no_group(only)
    shared = read_shared(path)
    target = out if out is not None else path.with_name(f"{path.stem}-files")
    taken = _another_job(target, shared)
    if taken:
        return refuse(taken, file=str(target))
    made = make_ready(shared.job, path, groups, json)
    if isinstance(made, int):
        return made
    empty = empty_groups(made.todo, groups)
    if only is not None and empty:
        return refuse(f"{path}: {nothing_for(empty[0], shared.job)}", file=str(path), key="shop_has")
    licence = shared.manifest.terms.licence
    ready = Ready(made.work, made.planned, [*made.todo, *papers(made.work, licence)])
    before = groups_in(target)
    stopped = put(ready, target, groups, version, Terms(ready.terms.plug_ins, licence))
    if stopped is not None:
        return stopped
    return _told(path, target, shared, ready, groups, before, json)


def _another_job(target: Path, shared: Shared) -> str:
    """Files of one's own job are not replaced by somebody else's without a word."""
    here = target / JOB
    if not here.is_file() or here.read_bytes() == job_to_toml(shared.job).encode():
        return ""
    return f"{target}: found the files of another job there, expected another folder: name one with --out"


def _told(
    path: Path, target: Path, shared: Shared, ready: Ready, groups: set[str], before: set[str], json: bool
) -> int:
    there, made = shared.manifest, manifest_in(target)
    here = {} if made is None else {item.path: made.files[item.path] for item in ready.todo}
    same, other, absent = _bytes(there, here, groups)
    found = verdict_of(there, ready.work)
    if json:
        data = {**found.as_json(), "same_bytes": same, "other_bytes": other, "not_made": absent}
        files = [item.path for item in ready.todo]
        json_out(
            {
                "folder": str(target),
                "files": files,
                "shared": {**data, "not_listed": list(shared.unlisted)},
                **numbers(ready.work, plan_of(ready.planned)),
            }
        )
    else:
        report(ready.work, target, ready.todo)
        report_gone(before - groups_in(target))
        lines = [*words.bytes_lines(same, other, absent, found.others), *words.unlisted_lines(shared.unlisted)]
        screen = say.console()
        for line in found.lines(shared.job, lines, own_command(path)):
            screen.print(line)
    return 0 if found.compared.same and not (other or absent or shared.unlisted) else 1


def _bytes(there: Manifest, here: dict[str, Sealed], groups: set[str]) -> tuple[list[str], list[str], list[str]]:
    """Names of files with the same bytes, with others, and of those that were not made though their group was."""
    left = set(GROUPS) - groups
    told = {name: one for name, one in there.files.items() if name.partition("/")[0] not in left}
    same = [name for name, one in here.items() if told.get(name) == one]
    other = [name for name, one in here.items() if told.get(name) != one]
    return same, other, [name for name in told if name not in here]
