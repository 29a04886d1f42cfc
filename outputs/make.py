"""What a job leaves behind: the list of files, and making them one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from textwrap import wrap
from typing import Any

from scarfwright.models.job.file import job_to_toml
from scarfwright.models.job.paper import LETTER, drawing_size, prints
from scarfwright.models.job.shop import cutter
from scarfwright.models.lengths.say import say_in
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.part.part import Part
from scarfwright.models.planning.numbers import plan_numbers
from scarfwright.models.planning.planned import Planned
from scarfwright.models.printing.laying import FilledBed, Laid, filled_beds
from scarfwright.models.sharing.manifest import NAME as SEAL
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sheets.pieces import file_units
from scarfwright.models.sheets.tool_path import PathPlan, tool_path
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.templates.laser import laser_templates
from scarfwright.models.words.for_machines.cut_note import plain_lines, unit_line
from scarfwright.models.words.for_machines.laser_note import laser_lines, piece_notes
from scarfwright.models.words.for_machines.print_note import print_lines
from scarfwright.models.words.for_machines.router_note import router_lines
from scarfwright.models.words.plan import needs_care, twists_add
from scarfwright.models.workup import Workup
from scarfwright.outputs.formats.table import write

GROUPS = ("cad", "cut", "print", "paper")
BOOK = "index.html"
TO_LOOK_AT = ("sled", "riser")  # as meshes too, which any viewer opens
TO_MARK = ("FOR MARKING OUT ONLY: both halves of the sled on the plank", "Nothing in this file is for a machine.")
NOTE_COLUMNS = 96  # characters of the operator's lines, in the file and beside a sheet


@dataclass(frozen=True)
class OutputFile:
    """One file to make: its path in the folder, what writes it, and what is told about it at the end."""

    path: str
    make: Callable[[Path], None]
    told: str = ""


def items(
    work: Workup, groups: Iterable[str] = GROUPS, planned: Planned | None = None, beside: Iterable[str] = ()
) -> list[OutputFile]:
    """Every file the job leaves, in the order they are made: what every job has, then group by group.

    planned: which board goes where, for a job that has boards and blanks; beside: files of earlier runs that stay,
    which the book links too.
    """
    asked = set(groups)
    found = _always(work, planned)
    if planned is not None:
        found += _plan(work, planned, paper="paper" in asked)
    makers: dict[str, Callable[[Workup], list[OutputFile]]] = {
        "cut": _cut,
        "paper": _paper,
        "cad": _cad,
        "print": _print,
    }
    for group, maker in makers.items():
        if group in asked:
            found += maker(work)
    return [_book(work, planned, [*(item.path for item in found), SEAL, *beside]), *found]


def _book(work: Workup, planned: Planned | None, paths: list[str]) -> OutputFile:
    """The shop book, which links the files of `paths`."""

    def make(target: Path) -> None:
        from scarfwright.outputs.book.book import book
        from scarfwright.outputs.joint_form.piece import piece as joint_form
        from scarfwright.outputs.moving_cut.piece import piece as moving_cut

        write(book(work, planned, paths, (moving_cut(work), joint_form(work))), target)

    return OutputFile(BOOK, make)


def _always(work: Workup, planned: Planned | None) -> list[OutputFile]:
    """Numbers and job: what is left behind whatever else is."""
    plan = None if planned is None else plan_numbers(planned.request, planned.plan)
    return [
        OutputFile("numbers.json", lambda path: write(numbers(work, plan), path)),
        OutputFile("job.toml", lambda path: write(job_to_toml(work.job), path)),
    ]


def plan_items(work: Workup, planned: Planned) -> list[OutputFile]:
    """What a plan alone leaves, for a job whose sled can't be made as it stands."""
    return _always(work, planned) + _plan(work, planned, paper=True)


def _plan(work: Workup, planned: Planned, *, paper: bool) -> list[OutputFile]:
    from scarfwright.outputs.plan_sheet.codes import Look
    from scarfwright.outputs.plan_sheet.csv import plan_csv
    from scarfwright.outputs.plan_sheet.sheets import plan_sheets

    job = work.job
    found = [_item("plan.csv", plan_csv(planned.request, planned.plan))]
    if not paper:
        return found
    tell = say_in(job.units)
    wood = f"{job.stock.species} {tell(job.stock.thickness)} thick, {tell(job.stock.height)} high".strip()
    size = drawing_size(job.files)
    twists = twists_add(job.limits, planned.request, planned.plan)
    care = (*([] if twists is None else [twists]), *(one.text for one in needs_care(work.findings)))
    look = Look(job.title, job.units, wood, size, "Letter" if size == LETTER else "A4", care)
    sheets = plan_sheets(planned.request, planned.plan, look)
    pages = [_item(f"paper/plan-{number}.svg", sheet) for number, sheet in enumerate(sheets, 1)]
    return [*found, _item("paper/plan.pdf", sheets), *pages]


def parts_for(work: Workup, group: str) -> list[Part]:
    """The registry's parts that this job puts into a group, as they are on the user's side of the blade.

    Parts with a fault are left out; the findings say so.
    """
    sound = [one for one in work.wanted if not one.left_out and group in one.kind.goes_to]
    return [one.part for one in sound if one.part is not None]


def _cut(work: Workup) -> list[OutputFile]:
    """What is for no machine or for any, then what the machine cuts, and README.txt that names every file."""
    parts = parts_for(work, "cut")
    others = {f"{part.name}.dxf": f"{part.title.lower()} at its finished size, corners as drawn" for part in parts}
    found = [_dxf(work, part) for part in parts]
    if work.job.sled.made_from == "plank":
        found.append(_dxf(work, plank_plan(work.way), to_mark=True, notes=(*TO_MARK, unit_line(work.job))))
        others["plank.dxf"] = "drawing to mark out both halves by, on NOTES: cut them apart as paper/plank.svg says"
    machine = cutter(work.job)
    if machine is None:
        return [*found, _item("cut/README.txt", "\n".join(_wrapped(plain_lines(work.job, others))) + "\n")]
    return [*found, *{"router": _router, "laser": _laser}[machine](work, others)]


def _router(work: Workup, others: Mapping[str, str]) -> list[OutputFile]:
    """Sheets with the flat parts, the same as tracks if asked for, and the operator's summary."""
    job, plans = work.job, work.sheets
    notes = _wrapped(router_lines(job, work.flat_pieces, plans, others))
    found = []
    for plan in plans:
        told = f"{len(plan.placed)} piece{'s' * (len(plan.placed) != 1)}, {plan.filled:.1%} filled"
        found.append(replace(_dxf(work, replace(plan, notes=notes)), told=told))
        if job.files.tool_path:
            tracks = tool_path(
                plan,
                job.router.cutter,
                job.router.tabs,
                clockwise=job.files.direction == "clockwise",
                notes=notes,
                units=file_units(job),
            )
            found.append(_dxf(work, tracks))
    return [*found, _item("cut/README.txt", "\n".join(notes) + "\n")]


def _wrapped(lines: list[str]) -> tuple[str, ...]:
    return tuple(part for line in lines for part in wrap(line, NOTE_COLUMNS, subsequent_indent="    ") or [""])


def _laser(work: Workup, others: Mapping[str, str]) -> list[OutputFile]:
    """Marking templates in sections that fit the bed, and the operator's summary."""
    sections = laser_templates(work, work.flat_pieces)
    lines = laser_lines(work, sections, others)
    files = [_dxf(work, section, notes=piece_notes(work, section)) for section in sections]
    return [*files, _item("cut/README.txt", "\n".join(lines) + "\n")]


def _dxf(work: Workup, thing: Part | SheetPlan | PathPlan, **options: Any) -> OutputFile:
    files = work.job.files
    return _item(
        f"cut/{thing.name}.dxf",
        thing,
        units=file_units(work.job),
        version=files.dxf,
        direction=files.direction,
        **options,
    )


def _cad(work: Workup) -> list[OutputFile]:
    things: list[Part | SheetPlan] = [*parts_for(work, "cad")]
    if work.job.sled.made_from == "plank":
        things.append(plank_plan(work.way))
    found = [_solid_item(f"cad/{thing.name}.step", thing) for thing in things]
    found += [_solid_item(f"cad/{thing.name}.stl", thing) for thing in things if thing.name in TO_LOOK_AT]
    return [*found, *_setup(work)]


def _setup(work: Workup) -> list[OutputFile]:
    """The set-up at the saw, to measure in and to look at."""

    def make(target: Path) -> None:
        from scarfwright.models.solids.setup import setup_assembly

        write(setup_assembly(work, target.stem), target)

    return [OutputFile(f"cad/saw-setup{suffix}", make) for suffix in (".step", ".glb")]


def _print(work: Workup) -> list[OutputFile]:
    """Every part alone, and all of them arranged on the bed."""
    lying = [(laid, one.count) for one in work.wanted for laid in one.laid]
    alone = [_solid_item(f"print/{laid.name}{suffix}", laid) for laid, _ in lying for suffix in (".stl", ".3mf")]
    beds = filled_beds(lying, work.job.printer)
    note = "\n".join(_wrapped(print_lines(work.job, lying, beds))) + "\n"
    full = [_solid_item(f"print/{bed.name}.3mf", bed) for bed in beds]
    return [*alone, *full, _item("print/README.txt", note)] if lying else []


def _paper(work: Workup) -> list[OutputFile]:
    from scarfwright.outputs.full_size.templates_pdf import template_sheets
    from scarfwright.outputs.gauges.sheet import gauge_sheets
    from scarfwright.outputs.setup_card.card import setup_card
    from scarfwright.outputs.shop_drawings.measure_me import measure_me
    from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

    drawings = sled_drawings(work)
    found = [_item(f"paper/{name}.svg", sheet) for name, sheet in drawings.items()]
    found.append(_item("paper/sled.pdf", list(drawings.values())))
    card = setup_card(work)
    for number, sheet in enumerate(card, 1):
        found.append(_item(f"paper/setup-card{'' if number == 1 else f'-{number}'}.svg", sheet))
    found.append(_item("paper/setup-card.pdf", card))
    saw = measure_me(work.job)
    found += [_item("paper/measure-me.svg", saw), _item("paper/measure-me.pdf", [saw])]
    gauges = gauge_sheets(work)
    if gauges:
        found.append(_item("paper/gauges.pdf", gauges))
    if prints(work.job.files):
        found.append(_item("paper/templates.pdf", template_sheets(work, list(drawings.values()))))
    return [*found, *_joint(work), *_craft(work), *_sheet_drawings(work)]


def _craft(work: Workup) -> list[OutputFile]:
    from scarfwright.outputs.craft_papers import bend_papers, glue_papers, wood_papers

    craft = work.craft
    if craft is None:
        return []
    glue, bends = glue_papers(work, craft), bend_papers(work, craft)
    found = [_item("paper/glue-up.svg", glue[0]), _item("paper/glue-up.pdf", glue)]
    found.append(_item("paper/wood.pdf", wood_papers(work, craft)))
    return [*found, _item("paper/bending.pdf", bends)] if bends else found


def _joint(work: Workup) -> list[OutputFile]:
    from scarfwright.outputs.joint_papers import joint_papers, test_joint_paper

    return [_item("paper/joint.pdf", joint_papers(work)), _item("paper/test-joint.pdf", [test_joint_paper(work)])]


def _sheet_drawings(work: Workup) -> list[OutputFile]:
    from scarfwright.outputs.shop_drawings.cut_sheet import cut_sheets

    plans = work.sheets if cutter(work.job) == "router" else ()
    pages = cut_sheets(work, plans)
    found = [_item(f"paper/{plan.name}.svg", page) for plan, page in zip(plans, pages, strict=True)]
    return [*found, _item("paper/sheets.pdf", pages)] if pages else []


def _item(path: str, thing: Any, **options: Any) -> OutputFile:
    return OutputFile(path, lambda target: write(thing, target, **options))


def _solid_item(path: str, thing: Part | SheetPlan | Laid | FilledBed) -> OutputFile:
    def make(target: Path) -> None:
        from scarfwright.models.solids.solids import bodies

        write(bodies(thing), target)

    return OutputFile(path, make)


def make_all(todo: list[OutputFile], folder: Path, tell: Callable[[str], None]) -> None:
    """Make every file below `folder`, telling each path before it is begun. Raises OSError."""
    for item in todo:
        tell(item.path)
        target = folder / item.path
        target.parent.mkdir(parents=True, exist_ok=True)
        item.make(target)
