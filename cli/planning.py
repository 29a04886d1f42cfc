"""`scarfwright plan`: which board goes where, on the screen and in the job's folder."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterator
from pathlib import Path

from rich.console import Console
from rich.status import Status
from rich.table import Table
from scarfwright.cli.interruption import Interruption
from scarfwright.cli.jobs import find
from scarfwright.cli.problems import problem
from scarfwright.cli.showing import say
from scarfwright.models.findings import Level, faults
from scarfwright.models.job.file import job_to_toml
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.plan.data import Progress
from scarfwright.models.planning.numbers import plan_numbers
from scarfwright.models.planning.planned import Planned, plan_job
from scarfwright.models.planning.request import wants_plan
from scarfwright.models.sharing.manifest import Terms
from scarfwright.models.sharing.plug_ins import plug_ins_of
from scarfwright.models.solve import work_up
from scarfwright.models.words import plan as words
from scarfwright.models.workup import Workup
from scarfwright.outputs.folder import FolderError, kept_beside, replaced_whole
from scarfwright.outputs.formats.text import as_json
from scarfwright.outputs.make import items, make_all, plan_items
from scarfwright.outputs.plan_sheet.codes import blank_code, strip_name

INTERRUPTED = 130


def plan_command(
    path: Path | None, out: Path | None, seconds: float | None, json: bool, version: str, shop: Path | None = None
) -> int:
    """Returns the exit code: 0 every blank is made, 1 not, 130 stopped by hand. Raises JobError."""
    found = find(path, shop)
    job, file = found.job, found.file
    if seconds is not None and not 0 < seconds <= 86400:
        problem(f"--seconds: found {seconds:g}, expected more than 0 and at most 86400")
        return 2
    work = work_up(job)
    if not wants_plan(work):
        problem(f"{file}: there is nothing to plan; expected at least one [[board]] and one [[blank]] with a length")
        return 2
    if not can_plan(work):
        say.findings([f for f in work.findings if f.part == "plan"], Console(stderr=True, highlight=False))
        problem(f"{file}: boards or blanks have faults, so nothing was planned")
        return 1
    with interruptible() as stop:
        planned = planned_for(work, seconds, stop)
        target = out if out is not None else file.with_name(f"{file.stem}-files")
        groups = set() if faults(list(work.findings)) else {"paper"}
        terms = Terms(plug_ins_of(work))
        beside = kept_beside(target, {"paper"}, version, job_to_toml(job).encode(), terms)
        todo = items(work, groups, planned, beside) if groups else plan_items(work, planned)
        try:
            with replaced_whole(target, {"paper"}, version, job_to_toml(job).encode(), terms) as folder:
                make_all(todo, folder, lambda _: None)
        except FolderError as error:
            problem(str(error))
            return 2
    if json:
        given = {"folder": str(target), **found.shop_data()}
        print(as_json({**given, **numbers(work, plan_numbers(planned.request, planned.plan))}), end="")
    else:
        if found.shop_line:
            say.console().print(found.shop_line)
        show(planned, say_in(job.units), target)
        care(work, planned)
    if planned.plan.stopped:
        return INTERRUPTED
    return 0 if planned.plan.verdict == "made" else 1


def care(work: Workup, planned: Planned) -> None:
    """What needs care about boards and blanks: their cautions, and a twist held against too few joints."""
    told = words.twists_add(work.job.limits, planned.request, planned.plan)
    if told is not None:
        say.console().print(told)
    say.findings(words.needs_care(work.findings))


def can_plan(work: Workup) -> bool:
    """Whether boards and blanks are without faults."""
    return wants_plan(work) and not any(f.part == "plan" and f.level is Level.FAULT for f in work.findings)


@contextlib.contextmanager
def interruptible() -> Iterator[Callable[[], bool]]:
    """Within the block Ctrl-C only sets a flag; yields what tells whether it is set."""
    Interruption.waits = True
    try:
        yield lambda: Interruption.asked
    finally:
        Interruption.waits = False


def planned_for(work: Workup, seconds: float | None, stop: Callable[[], bool]) -> Planned:
    """Plan with a line of progress on standard error."""
    status = Status("planning", console=Console(stderr=True))

    def tell(now: Progress) -> None:
        bound = "" if now.bound is None else f" (no plan has fewer than {now.bound})"
        unmade = f"{now.unmade} blanks unmade, " if now.unmade else ""
        status.update(f"{unmade}{now.joints} joints{bound}, {now.stage} {now.wood:.0f}, work {now.work:.1f}")

    with status:
        members = () if work.craft is None else work.craft.members
        return plan_job(work, members, seconds=seconds, stop=stop, tell=tell)


def show(planned: Planned, tell: Say, target: Path | None) -> None:
    """The plan as a table, what is proved, and ways out."""
    request, plan = planned.request, planned.plan
    out = say.console()
    out.print(words.verdict(plan), style="bold")
    out.print(words.joints_line(plan))
    out.print(words.wood_line(tell, plan))
    if plan.bound_row is not None:
        out.print(words.row_line(tell, request, plan))
    table = Table(title="Blanks, from the bow", title_justify="left")
    for name in ("blank", "pieces, board, where on it", "joints at"):
        table.add_column(name)
    for blank in plan.blanks:
        one = request.blanks[blank.blank]
        code = blank_code(request, blank.blank, blank.copy)
        rows = [
            f"{code}-{k}  {strip_name(request, c)}: {tell(float(c.start))} to {tell(float(c.end))}"
            for k, c in enumerate(blank.pieces, 1)
        ]
        name = f"{code} {one.name}"
        table.add_row(name, "\n".join(rows), "\n".join(words.joint_line(tell, j) for j in blank.joints))
    out.print(table)
    for missing in plan.missing:
        name = f"{request.blanks[missing.blank].name} {missing.copy}"
        out.print(f"Not made: {name}: {words.why_missing(missing.why)}.")
    for remedy in plan.remedies:
        out.print(f"Way out: {words.remedy_line(tell, request, remedy)}")
    for cut in plan.spare:
        out.print(f"Test joint: {words.spare_line(tell, strip_name(request, cut), cut)}.")
    if plan.spare_short:
        out.print("No offcut is long enough for the test joint: set a board aside.")
    if not plan.repeatable:
        out.print("Stopped by the clock or by hand: another run may find another plan.")
    if target is not None:
        out.print(f"{target}: plan.csv, numbers.json, paper/plan.pdf")
    for text in words.CAUTIONS:
        out.print(text, style="bold")
