"""What a job leaves behind: the list of files, and making them one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scarfwright.models.checks.parts import as_cut
from scarfwright.models.jobfile import job_to_toml
from scarfwright.models.numbers import numbers
from scarfwright.models.part import Part
from scarfwright.models.plates import Laid, Plate, plates
from scarfwright.models.sheets import SheetPlan, plank_plan, sheet_plans
from scarfwright.models.wanted import sided, wanted
from scarfwright.models.workup import Workup
from scarfwright.outputs.table import write

GROUPS = ("cad", "cut", "print", "paper")


@dataclass(frozen=True)
class Item:
    """One file to make: its path in the folder, and what writes it."""

    path: str
    make: Callable[[Path], None]


def items(work: Workup, groups: Iterable[str] = GROUPS) -> list[Item]:
    """Every file the job leaves, in the order they are made: what every job has, then group by group."""
    asked = set(groups)
    found = [
        Item("numbers.json", lambda path: write(numbers(work), path)),
        Item("job.toml", lambda path: write(job_to_toml(work.job), path)),
    ]
    makers: dict[str, Callable[[Workup], list[Item]]] = {"cut": _cut, "paper": _paper, "cad": _cad, "print": _print}
    for group, maker in makers.items():
        if group in asked:
            found += maker(work)
    return found


def parts_for(work: Workup, group: str) -> list[Part]:
    """The registry's parts that this job puts into a group, as they are on the user's side of the blade.

    Parts with a fault are left out; the findings say so.
    """
    sound = [one for one in wanted(work) if one.part is not None and group in one.kind.goes_to]
    if group == "flat":
        return [sided(one.kind, as_cut(one.parameters), work) for one in sound]
    return [one.part for one in sound if one.part is not None]


def _cut(work: Workup) -> list[Item]:
    things: list[Part | SheetPlan] = [*parts_for(work, "cut"), *_plans(work)]
    return [_item(f"cut/{thing.name}.dxf", thing, units=work.job.units) for thing in things]


def _plans(work: Workup) -> list[SheetPlan]:
    return sheet_plans(work) if work.job.sled.made_from == "sheet" else [plank_plan(work)]


def _cad(work: Workup) -> list[Item]:
    things: list[Part | SheetPlan] = [*parts_for(work, "cad")]
    if work.job.sled.made_from == "plank":
        things.append(plank_plan(work))
    return [_solid_item(f"cad/{thing.name}.step", thing) for thing in things]


def _print(work: Workup) -> list[Item]:
    """Every part alone, and all of them arranged on the bed."""
    lying = [(laid, one.count) for one in wanted(work) for laid in one.laid]
    alone = [_solid_item(f"print/{laid.name}{suffix}", laid) for laid, _ in lying for suffix in (".stl", ".3mf")]
    return alone + [_solid_item(f"print/{plate.name}.3mf", plate) for plate in plates(lying, work.job.printer)]


def _paper(work: Workup) -> list[Item]:
    from scarfwright.outputs.sled_sheet import sled_sheets

    sheets = sled_sheets(work)
    names = ("sled", "layer" if work.job.sled.made_from == "sheet" else "plank")
    found = [_item(f"paper/{name}.svg", sheet) for name, sheet in zip(names, sheets, strict=True)]
    return [*found, _item("paper/sled.pdf", sheets)]


def _item(path: str, thing: Any, **options: Any) -> Item:
    return Item(path, lambda target: write(thing, target, **options))


def _solid_item(path: str, thing: Part | SheetPlan | Laid | Plate) -> Item:
    def make(target: Path) -> None:
        from scarfwright.models.solids import bodies

        write(bodies(thing), target)

    return Item(path, make)


def make_all(todo: list[Item], folder: Path, tell: Callable[[str], None]) -> None:
    """Make every file below `folder`, telling each path before it is begun. Raises OSError."""
    for item in todo:
        tell(item.path)
        target = folder / item.path
        target.parent.mkdir(parents=True, exist_ok=True)
        item.make(target)
