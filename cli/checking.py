"""`scarfwright check`: numbers and findings on the screen."""

from __future__ import annotations

from pathlib import Path

from rich.table import Table
from scarfwright.cli import say
from scarfwright.cli.cutting import show_cut
from scarfwright.cli.jobs import find_job
from scarfwright.models.findings import faults
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.formats.text import as_json


def check_job(path: Path | None, json: bool) -> int:
    """Returns the exit code: 1 if the job has faults, else 0. Raises JobError."""
    job, file = find_job(path)
    work = work_up(job)
    if json:
        print(as_json(numbers(work)), end="")
    else:
        _show(work, file)
    return 1 if faults(list(work.findings)) else 0


def _show(work: Workup, file: Path) -> None:
    out = say.console()
    out.print(f"{file}: {work.job.title or 'untitled'}", style="bold")
    out.print(say.sled_numbers(work))
    out.print(_table(work))
    if not faults(list(work.findings)):
        show_cut(work, out)
    if work.findings:
        say.findings(work.findings, out)
    else:
        out.print("No findings.")


def _table(work: Workup) -> Table:
    tell = say_in(work.job.units)
    sled, joint, travel = work.way.sled, work.joint, work.way.travel
    limit = work.way.travel_limit
    table = Table(title="Sled and cut", title_justify="left", show_header=False)
    rows = [
        ("sled", f"{tell(sled.length)} long, heel {tell(sled.heel)}, nose {tell(sled.nose)}"),
        ("shortest for this cut", tell(work.way.shortest)),
        ("tip left at the feather end", tell(joint.tip)),
        ("taper run", tell(joint.taper_run)),
        ("nose flat", f"{tell(sled.nose_flat)}, step {tell(sled.flat_step)}"),
        ("hand line", f"{tell(work.way.layout.hand_line)} from the heel"),
        ("start", f"heel {tell(-travel.start)} before the blade's axis"),
        ("offcut free at", tell(travel.offcut_free)),
        ("taper complete at", tell(travel.done)),
        ("blade clear at", tell(travel.clear)),
        ("travel limit", "none" if limit is None else tell(limit)),
    ]
    if sled.mark is not None:
        rows.insert(1, ("mark, from opposite edges", tell(sled.mark)))
    for name, text in rows:
        table.add_row(name, text)
    return table
