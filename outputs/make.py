"""What a job leaves behind: the list of files, and making them one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scarfwright.models.jobfile import job_to_toml
from scarfwright.models.numbers import numbers
from scarfwright.models.part import Part
from scarfwright.models.parts import registry
from scarfwright.models.sheets import SheetPlan, plank_plan, sheet_plans
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
    wanted = set(groups)
    found = [
        Item("numbers.json", lambda path: write(numbers(work), path)),
        Item("job.toml", lambda path: write(job_to_toml(work.job), path)),
    ]
    makers: dict[str, Callable[[Workup], list[Item]]] = {"cut": _cut, "paper": _paper, "cad": _cad, "print": _print}
    for group, maker in makers.items():
        if group in wanted:
            found += maker(work)
    return found


def parts_for(work: Workup, group: str) -> list[Part]:
    """The registry's parts that this job puts into a group, as they are on the user's side of the blade."""
    found = []
    for kind in registry().values():
        parameters = kind.from_job(work) if group in kind.goes_to else None
        if parameters is not None:
            part = kind.build(**parameters)
            found.append(part.mirrored_y() if kind.handed and work.job.saw.fence_side == "left" else part)
    return found


def _cut(work: Workup) -> list[Item]:
    things: list[Part | SheetPlan] = [*parts_for(work, "cut"), *_plans(work)]
    return [_item(f"cut/{thing.name}.dxf", thing, units=work.job.units) for thing in things]


def _plans(work: Workup) -> list[SheetPlan]:
    return sheet_plans(work) if work.job.sled.made_from == "sheet" else [plank_plan(work)]


def _cad(work: Workup) -> list[Item]:
    things: list[Part | SheetPlan] = [*parts_for(work, "cad")]
    if work.job.sled.made_from == "plank":
        things.append(plank_plan(work))
    return [*(_solid_item(f"cad/{thing.name}.step", thing) for thing in things), *_setup(work)]


def _setup(work: Workup) -> list[Item]:
    """The set-up at the saw, to measure in and to look at."""

    def make(target: Path) -> None:
        from scarfwright.models.setup_solids import setup_assembly

        write(setup_assembly(work, target.stem), target)

    return [Item(f"cad/saw-setup{suffix}", make) for suffix in (".step", ".glb")]


def _print(work: Workup) -> list[Item]:
    return [
        _solid_item(f"print/{part.name}{suffix}", part)
        for part in parts_for(work, "print")
        for suffix in (".stl", ".3mf")
    ]


def _paper(work: Workup) -> list[Item]:
    from scarfwright.outputs.sled_sheet import sled_sheets

    sheets = sled_sheets(work)
    names = ("sled", "layer" if work.job.sled.made_from == "sheet" else "plank")
    found = [_item(f"paper/{name}.svg", sheet) for name, sheet in zip(names, sheets, strict=True)]
    return [*found, _item("paper/sled.pdf", sheets)]


def _item(path: str, thing: Any, **options: Any) -> Item:
    return Item(path, lambda target: write(thing, target, **options))


def _solid_item(path: str, thing: Part | SheetPlan) -> Item:
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
