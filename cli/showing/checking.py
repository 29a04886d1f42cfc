"""`scarfwright check`: numbers and findings on the screen, short unless more is asked for."""

from __future__ import annotations

from pathlib import Path

from rich.table import Table
from scarfwright.cli.jobs import find_job
from scarfwright.cli.showing import glance, say
from scarfwright.cli.showing.craft import show_craft
from scarfwright.cli.showing.cutting import show_cut
from scarfwright.cli.terminal import json_out, visible
from scarfwright.models.findings import faults
from scarfwright.models.job.guesses import guessed
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.words.the_joint.accuracy import expected_inside
from scarfwright.models.workup import Workup


def check_job(path: Path | None, *, json: bool, cut: bool, sled: bool, joint: bool, everything: bool) -> int:
    """Returns the exit code: 1 if the job has faults, else 0. Raises JobError."""
    job, file = find_job(path)
    work = work_up(job)
    if json:
        json_out(numbers(work))
    else:
        shown = {"cut": cut, "sled": sled, "joint": joint}
        _show(work, file, {name for name, on in shown.items() if on or everything}, whole=everything)
    return 1 if faults(list(work.findings)) else 0


def _show(work: Workup, file: Path, tables: set[str], *, whole: bool) -> None:
    screen, good = say.console(), not faults(list(work.findings))
    screen.print(f"{visible(str(file))}: {visible(work.job.title) or 'untitled'}".replace("\n", "\\n"), style="bold")
    why = glance.why_so_long(work)
    if why:
        screen.print(why)
    screen.print(say.sled_numbers(work))
    if good:
        screen.print(say.pairs("The cut at a glance", glance.the_cut(work)))
    if "sled" in tables:
        screen.print(_sizes(work))
    if "cut" in tables and good:
        show_cut(work, screen)
    if "joint" in tables and good:
        show_craft(work, screen)
    screen.print()
    if work.findings:
        say.findings(work.findings, screen, whole=whole or not good)
    else:
        screen.print("Nothing needs doing.")
    _assumed(work, screen)
    screen.print()
    screen.print("Next", style="bold")
    for line in glance.what_next(work, file):
        screen.print(f"  {line}")


def _assumed(work: Workup, screen: say.Screen) -> None:
    keys = guessed(work.job)
    if keys:
        screen.print(f"Assumed, measure yours: {', '.join(key.replace('_', ' ') for key in keys)}.")


def _sizes(work: Workup) -> Table:
    tell = say_in(work.job.units)
    sled, joint, travel = work.way.sled, work.joint, work.way.travel
    limit = work.way.travel_limit
    rows = [
        (
            "sled",
            f"{tell(sled.length)} long, {tell(sled.thickness)} thick, heel {tell(sled.heel)}, nose {tell(sled.nose)}",
        ),
        ("shortest for this cut", tell(work.way.shortest)),
        ("tip left at the feather end", tell(joint.tip)),
        ("taper run", tell(joint.taper_run)),
        ("nose flat", f"{tell(sled.nose_flat)}, step {tell(sled.flat_step)}"),
        ("hand line", f"{tell(work.way.layout.hand_line)} from the heel"),
        ("start", f"heel {tell(-travel.start)} short of the blade's centre"),
        ("offcut free at", tell(travel.offcut_free)),
        ("taper complete at", tell(travel.done)),
        ("blade clear at", tell(travel.clear)),
        ("travel limit", "none" if limit is None else tell(limit)),
    ]
    if work.outlook is not None:
        rows.append(("joints inside the limits", expected_inside(work.outlook)))
    if sled.mark is not None:
        rows.insert(1, ("mark, from opposite edges", tell(sled.mark)))
    return say.pairs("Sled and cut", rows)
