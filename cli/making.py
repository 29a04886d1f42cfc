"""`scarfwright make`: all files of a job, put in place whole."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn
from rich.table import Table
from scarfwright.cli.interruption import Interruption, not_now
from scarfwright.cli.jobs import find, for_this_run
from scarfwright.cli.problems import problem, refuse
from scarfwright.cli.showing import say
from scarfwright.cli.terminal import json_out, visible
from scarfwright.models.findings import Finding, faults
from scarfwright.models.job.file import job_to_toml
from scarfwright.models.job.shop import prints_gauges
from scarfwright.models.job.tables import Job
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.planning.numbers import plan_numbers
from scarfwright.models.planning.planned import Planned
from scarfwright.models.sharing.manifest import Terms
from scarfwright.models.sharing.plug_ins import plug_ins_of
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.folder import FolderError, kept_beside, replaced_whole
from scarfwright.outputs.make import GROUPS, OutputFile, items, make_all

Tell = Callable[[str, int, int], None]  # what is made now, how many are done, of how many


@dataclass(frozen=True)
class Ready:
    """A job worked out and found good to make, with its plan and the files it leaves."""

    work: Workup
    planned: Planned | None
    todo: list[OutputFile]

    @property
    def terms(self) -> Terms:
        return Terms(plug_ins_of(self.work))


def make_job(
    path: Path | None,
    out: Path | None,
    only: str | None,
    json: bool,
    version: str,
    instead: dict[str, Any],
    shop: Path | None = None,
    tell: Tell | None = None,
) -> int:
    """Returns the exit code. `instead`: keys of [files] given on the command line; `shop`: a shop file to take saw,
    clamps and machines from; `tell`: hears of every file, instead of a bar on the screen. Raises JobError."""
    groups = groups_of(only)
    if groups is None:
        return no_group(only)
    found = find(path, shop)
    file = found.file
    target = out if out is not None else file.with_name(f"{file.stem}-files")
    job = for_this_run(found.job, instead, groups if only is not None else ())
    ready = make_ready(job, file, groups, json, target, version)
    if isinstance(ready, int):
        return ready
    empty = empty_groups(ready.todo, groups)
    if only is not None and empty:
        return refuse(f"{file}: {nothing_for(empty[0], ready.work.job)}", file=str(file), key="shop_has")
    before = groups_in(target)
    stopped = put(ready, target, groups, version, ready.terms, tell)
    if stopped is not None:
        return stopped
    if json:
        made = {"folder": str(target), "files": [i.path for i in ready.todo], **found.shop_data()}
        json_out({**made, **numbers(ready.work, plan_of(ready.planned))})
    else:
        if found.shop_line:
            say.console().print(found.shop_line)
        report(ready.work, target, ready.todo)
        report_gone(before - groups_in(target))
    return 0


def no_group(only: str | None) -> int:
    return refuse(f'--only: found "{only}", expected some of {",".join(GROUPS)}', key="--only")


def make_ready(
    job: Job, file: Path, groups: set[str], json: bool, target: Path | None = None, version: str = ""
) -> Ready | int:
    """Work the job out and list its files; for one that has faults, say so and give the exit code.

    target: the folder they go to, where files of earlier runs may stay.
    """
    work = work_up(job)
    found = _faults(work, groups)
    if found:
        if json:
            json_out({"folder": None, "files": [], **numbers(work)})
        say.findings(work.findings, say.Screen(stderr=True))
        problem(f"{file}: {len(found)} fault{'s' * (len(found) > 1)}, so nothing was made")
        return 1
    planned = _planned(work)
    beside = kept_beside(target, groups, version, job_to_toml(job).encode(), Terms(plug_ins_of(work)))
    return Ready(work, planned, items(work, groups, planned, beside))


def put(
    ready: Ready, target: Path, groups: set[str], version: str, terms: Terms, tell: Tell | None = None
) -> int | None:
    """Make the files and put the folder in place whole; the exit code where that can't be."""
    try:
        with replaced_whole(target, groups, version, job_to_toml(ready.work.job).encode(), terms) as folder:
            make_files(ready.todo, folder, tell)
    except FolderError as error:
        return refuse(str(error), file=str(target))
    Interruption.so_far = f"the files are in {visible(str(target))}, whole"
    return None


def _faults(work: Workup, groups: set[str]) -> list[Finding]:
    """What stops this run: what a router can't cut stops only the files for it."""
    found = faults(list(work.findings))
    return found if "cut" in groups else [f for f in found if not f.code.startswith("router.")]


def empty_groups(todo: list[OutputFile], groups: set[str]) -> list[str]:
    """The groups asked for of which this job leaves no file."""
    return [group for group in GROUPS if group in groups and not any(i.path.startswith(f"{group}/") for i in todo)]


def nothing_for(group: str, job: Job) -> str:
    if group == "print" and not prints_gauges(job):
        there = ", ".join(job.shop_has) or "no machine"
        return f'--only print: found {there} in shop_has, expected "printer" there to print with'
    return f"--only {group}: found nothing of this job that goes there, expected another group (see: scarfwright check)"


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


def plan_of(planned: Planned | None) -> dict[str, Any] | None:
    return None if planned is None else plan_numbers(planned.request, planned.plan)


def groups_in(folder: Path) -> set[str]:
    return {group for group in GROUPS if (folder / group).is_dir()}


def report_gone(groups: set[str]) -> None:
    """Files of another job, or of this one with other choices, would be wrong beside the new ones."""
    if groups:
        names = ", ".join(f"{group}/" for group in GROUPS if group in groups)
        say.console().print(
            f"Removed {names}: made with other settings. To have everything again, make without --only."
        )


def groups_of(only: str | None) -> set[str] | None:
    if only is None:
        return set(GROUPS)
    asked = {word.strip() for word in only.split(",")}
    return asked if asked <= set(GROUPS) else None


def make_files(todo: list[OutputFile], folder: Path, tell: Tell | None = None) -> None:
    if tell is not None:
        return _make(todo, folder, tell)
    columns = (TextColumn("{task.description:<28}", markup=False), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=say.Screen(stderr=True), transient=True) as progress:
        task = progress.add_task("starting", total=len(todo))
        _make(todo, folder, lambda name, done, _: progress.update(task, description=name, completed=done))
    return None


def _make(todo: list[OutputFile], folder: Path, tell: Tell) -> None:
    done = 0

    def begun(name: str) -> None:
        nonlocal done
        tell(name, done, len(todo))
        done += 1

    if any(item.path.endswith((".step", ".stl", ".3mf", ".glb")) for item in todo):
        from scarfwright.models.solids.solids import load_kernel

        tell("loading the CAD kernel", 0, len(todo))
        with not_now():
            load_kernel()  # here, where an interruption can be put off
    make_all(todo, folder, begun)


def _report_letters(work: Workup, out: say.Screen) -> None:
    """Which of the job's own letters the sheets can't print, and what stands there instead."""
    from scarfwright.outputs.drawing.lettering import replaced

    job = work.job
    names = [job.title, job.stock.species, *(one.name for one in job.board), *(one.name for one in job.blank)]
    swapped = ", ".join(f'"{letter}" by "{instead}"' for letter, instead in replaced(names).items())
    if swapped:
        out.print(f"  Replaced on the sheets, whose font has Latin, Greek and Cyrillic letters: {swapped}")


def report(work: Workup, target: Path, todo: list[OutputFile]) -> None:
    out = say.console()
    out.print(f"{target}: {len(todo)} files", style="bold")
    by_folder: dict[str, list[str]] = {}
    for item in todo:
        folder, _, name = item.path.rpartition("/")
        by_folder.setdefault(folder or ".", []).append(name)
    listed = Table.grid(padding=(0, 1))
    for folder, names in by_folder.items():
        listed.add_row(f"  {folder}/", ", ".join(names))
    out.print(listed)
    for item in todo:
        if item.told:
            out.print(f"  {item.path}: {item.told}")
    if "paper" in by_folder:
        _report_letters(work, out)
    if any(item.path == "index.html" for item in todo):
        out.print(f"Open first: {visible(str(target / 'index.html'))}, which leads through the job.", style="bold")
    out.print(say.sled_numbers(work))
    say.findings(work.findings, out, whole=False)
    out.print(
        "Sawing can maim: the saw maker's manual, local rules and competent instruction come before these numbers.",
        style="bold",
    )
