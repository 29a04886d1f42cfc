"""`scarfwright make`: all files of a job, put in place whole."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn
from scarfwright.cli import say
from scarfwright.cli.interruption import not_now
from scarfwright.cli.jobs import find_job, with_files
from scarfwright.cli.problems import problem
from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_to_toml
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.planning.numbers import plan_numbers
from scarfwright.models.planning.planned import Planned
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.folder import FolderError, replaced_whole
from scarfwright.outputs.formats.text import as_json
from scarfwright.outputs.make import GROUPS, Item, items, make_all


def make_job(
    path: Path | None, out: Path | None, only: str | None, json: bool, version: str, instead: dict[str, Any]
) -> int:
    """Returns the exit code. `instead`: keys of [files] given on the command line. Raises JobError."""
    groups = _groups(only)
    if groups is None:
        problem(f'--only: found "{only}", expected some of {",".join(GROUPS)}')
        return 2
    job, file = find_job(path)
    job = with_files(job, instead)
    work = work_up(job)
    found = faults(list(work.findings))
    if found:
        if json:
            print(as_json({"folder": None, "files": [], **numbers(work)}), end="")
        say.findings(work.findings, Console(stderr=True, highlight=False))
        problem(f"{file}: {len(found)} fault{'s' * (len(found) > 1)}, so nothing was made")
        return 1
    target = out if out is not None else file.with_name(f"{file.stem}-files")
    planned = _planned(work)
    todo = items(work, groups, planned)
    before = _groups_in(target)
    try:
        with replaced_whole(target, groups, version, job_to_toml(job).encode()) as folder:
            _make(todo, folder)
    except FolderError as error:
        problem(str(error))
        return 2
    if json:
        print(
            as_json({"folder": str(target), "files": [i.path for i in todo], **numbers(work, _plan_numbers(planned))}),
            end="",
        )
    else:
        _report(work, target, todo)
        _report_gone(before - _groups_in(target))
    return 0


def _planned(work: Workup) -> Planned | None:
    """Which board goes where, where the job has boards and blanks."""
    from scarfwright.cli.planning import can_plan, interruptible, planned_for

    if not can_plan(work):
        return None
    with interruptible() as stop:
        planned = planned_for(work, None, stop)
    if planned.plan.stopped:
        raise KeyboardInterrupt
    return planned


def _plan_numbers(planned: Planned | None) -> dict[str, Any] | None:
    return None if planned is None else plan_numbers(planned.request, planned.plan)


def _groups_in(folder: Path) -> set[str]:
    return {group for group in GROUPS if (folder / group).is_dir()}


def _report_gone(groups: set[str]) -> None:
    """Files of another job, or of this one with other choices, would be wrong beside the new ones."""
    if groups:
        names = ", ".join(f"{group}/" for group in GROUPS if group in groups)
        say.console().print(
            f"{names} held files of the job as it was and went with it: make without --only for new ones."
        )


def _groups(only: str | None) -> set[str] | None:
    if only is None:
        return set(GROUPS)
    asked = {word.strip() for word in only.split(",")}
    return asked if asked <= set(GROUPS) else None


def _make(todo: list[Item], folder: Path) -> None:
    columns = (TextColumn("{task.description:<28}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("starting", total=len(todo))
        done = 0

        def tell(name: str) -> None:
            nonlocal done
            progress.update(task, description=name, completed=done)
            done += 1

        if any(item.path.endswith((".step", ".stl", ".3mf", ".glb")) for item in todo):
            progress.update(task, description="loading the CAD kernel")
            with not_now():
                import cadquery  # noqa: F401  loaded here, where an interruption can be put off
        make_all(todo, folder, tell)


def _report(work: Workup, target: Path, todo: list[Item]) -> None:
    out = say.console()
    out.print(f"{target}: {len(todo)} files", style="bold")
    by_folder: dict[str, list[str]] = {}
    for item in todo:
        folder, _, name = item.path.rpartition("/")
        by_folder.setdefault(folder or ".", []).append(name)
    for folder, names in by_folder.items():
        out.print(f"  {folder + '/':8} {', '.join(names)}")
    for item in todo:
        if item.told:
            out.print(f"  {item.path}: {item.told}")
    out.print(say.sled_numbers(work))
    say.findings(work.findings, out)
    out.print(
        "Sawing can maim: the saw maker's manual, local rules and competent instruction come before these numbers.",
        style="bold",
    )
