"""`scarfwright check`: numbers and findings on the screen, short unless more is asked for."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.table import Table
from scarfwright.cli.jobs import find
from scarfwright.cli.showing import glance, say
from scarfwright.cli.showing.craft import show_craft
from scarfwright.cli.showing.cutting import show_cut
from scarfwright.cli.terminal import json_out, visible
from scarfwright.models.findings import ABOVE_REACH, faults
from scarfwright.models.job.guesses import guessed, nothing_measured
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.solve import work_up
from scarfwright.models.words.at_the_saw.place import from_centre, in_a_table, limit_in_a_table
from scarfwright.models.words.the_joint.accuracy import expected_inside
from scarfwright.models.workup import Workup


def check_job(path: Path | None, tables: Tables, *, json: bool, shop: Path | None = None) -> int:
    """`shop`: a shop file to take saw, clamps and machines from. Returns the exit code: 1 if the job has faults, else
    0. Raises JobError."""
    found = find(path, shop)
    work = work_up(found.job)
    if json:
        json_out({**numbers(work), **found.shop_data()})
    else:
        head = [found.shop_line] if found.shop_line else []
        more = "" if shop is None else f" --shop {shlex.quote(str(shop))}"
        show_work(work, found.file, tables, head, glance.what_next(work, found.file, more))
    return 1 if faults(list(work.findings)) else 0


@dataclass(frozen=True)
class Tables:
    """Which tables are shown besides the five numbers, and whether every finding in full."""

    cut: bool = False
    sled: bool = False
    joint: bool = False
    everything: bool = False

    def shown(self, name: str) -> bool:
        return self.everything or bool(getattr(self, name))


def show_work(
    work: Workup,
    file: Path,
    tables: Tables,
    head: Sequence[str],
    then: Sequence[str],
    assumed: str = "Assumed, measure yours",
) -> None:
    """A job on the screen: lines that come first, the numbers for the sled, findings, and what to do then.

    `assumed`: what is said of sizes of the saw and the clamps that nobody gave.
    """
    screen, good = say.console(), not faults(list(work.findings))
    screen.print(f"{visible(str(file))}: {visible(work.job.title) or 'untitled'}".replace("\n", "\\n"), style="bold")
    for line in head:
        screen.print(line)
    why = glance.why_so_long(work)
    if why:
        screen.print(why)
    if not any(f.code == ABOVE_REACH for f in work.findings):
        screen.print(say.sled_numbers(work))
    if good:
        screen.print(say.pairs("The cut at a glance", glance.the_cut(work)))
    if tables.shown("sled"):
        screen.print(_sizes(work))
    if tables.shown("cut") and good:
        show_cut(work, screen)
    if tables.shown("joint") and good:
        show_craft(work, screen)
    screen.print()
    if work.findings:
        say.findings(work.findings, screen, whole=tables.everything or not good)
    else:
        screen.print("Nothing needs doing.")
    _assumed(work, screen, assumed)
    screen.print()
    screen.print("Next", style="bold")
    for line in then:
        screen.print(f"  {line}")


def _assumed(work: Workup, screen: say.Screen, said: str) -> None:
    keys = guessed(work.job)
    if nothing_measured(work.job):
        screen.print(f"{said}: every size of your saw and clamps (paper/measure-me.pdf shows each).")
    elif keys:
        screen.print(f"{said}: {', '.join(key.replace('_', ' ') for key in keys)}.")


def _sizes(work: Workup) -> Table:
    tell = say_in(work.job.units)
    sled, joint, travel = work.way.sled, work.joint, work.way.travel
    limit = work.way.travel_limit
    rows = [
        (
            "sled",
            f"{tell(sled.length)} long, {tell(sled.thickness)} thick, heel {tell(sled.heel)}, nose {tell(sled.nose)}",
        ),
        ("shortest for this cut", tell.up(work.cut.advice.asked.least_length)),
        ("tip left at the feather end", tell(joint.tip)),
        ("taper run", tell(joint.taper_run)),
        ("nose flat", f"{tell(sled.nose_flat)}, step {tell(sled.flat_step)}"),
        ("hand line", f"{tell(work.way.layout.hand_line)} from the heel"),
        ("start", f"heel {from_centre(-work.cut.advice.start.from_axis, tell)}"),
        ("offcut free at", in_a_table(travel.offcut_free, tell)),
        ("taper complete at", in_a_table(travel.done, tell)),
        ("blade clear at", in_a_table(travel.clear, tell)),
        ("travel limit", "none" if limit is None else limit_in_a_table(limit, tell)),
    ]
    if work.outlook is not None:
        rows.append(("joints inside the limits", expected_inside(work.outlook)))
    if sled.mark is not None:
        rows.insert(1, ("mark, from opposite edges", tell(sled.mark)))
    return say.pairs("Sled and cut", rows)
