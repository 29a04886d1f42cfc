"""What the person at the machine has to know: the lines of cut/README.txt, which stand beside every sheet too.

Plain ASCII where the job's own texts are, so that any editor and any controller shows them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.part import Part
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sheets.pieces import TAB_CUTTERS, FlatPart, in_order, spacing_of

_UNIT_NAMES = {"mm": ("millimetres", "millimetre"), "in": ("inches", "inch")}


def file_units(job: Job) -> Unit:
    """The unit of the cut files."""
    return job.units if job.files.dxf_units == "auto" else job.files.dxf_units


def router_lines(job: Job, pieces: Sequence[FlatPart], plans: Sequence[SheetPlan]) -> list[str]:
    """The operator's summary for a router."""
    sections = [
        [f"CUT FILES FOR A ROUTER: {job.title or 'untitled'}"],
        _unit(job),
        list(_sheets(job, pieces, plans)),
        list(_cutter(job)),
        layer_lines([part for plan in plans for part in plan.placed], machine="router"),
        list(_order(job)),
        list(_hold_down(job)),
        _cautions(),
    ]
    lines: list[str] = []
    for section in sections:
        lines += [*([""] if lines else []), *section]
    return lines


def _unit(job: Job) -> list[str]:
    unit, say = file_units(job), say_in(job.units)
    length, width = job.router.sheet
    factor = 1.0 if unit == "mm" else 25.4
    several, one = _UNIT_NAMES[unit]
    lines = [
        f"UNIT: {several}. One drawing unit is one {one}.",
        f"Check after loading: the sheet must measure {length / factor:.6g} x {width / factor:.6g} drawing units, "
        f"that is {say(length)} x {say(width)}.",
        "Origin: lower left corner of the sheet. Z is not in the files.",
    ]
    if job.files.dxf == "r12":
        lines.append("R12 files carry no unit that a machine must heed: set it by hand, then check as above.")
    return lines


def _sheets(job: Job, pieces: Sequence[FlatPart], plans: Sequence[SheetPlan]) -> Iterator[str]:
    say = say_in(job.units)
    if not plans:
        yield "SHEETS: none, the job has no flat parts that fit this machine."
        return
    counts = {p.part.name: p.count for p in pieces}
    titles = {p.part.name: p.part.title for p in pieces}
    for plan in plans:
        yield (
            f"{plan.name}.dxf: sheet {say(plan.length)} x {say(plan.width)}, {say(plan.thickness)} thick, "
            f"{len(plan.placed)} piece{'s' * (len(plan.placed) != 1)}, {plan.filled:.1%} of it filled. "
            f"An offcut of {say.up(plan.used[0])} x {say.up(plan.used[1])} would do, from the origin."
        )
        on_it = Counter(kind_of(part.name, counts) for part in plan.placed)
        for name, count in on_it.items():
            of_all = "" if count == counts[name] else f" of {counts[name]}"
            yield f"  {count}{of_all} x {name}: {titles[name]}"
    yield f"Face grain along {job.router.grain}: what must be stiff along its length lies along it."
    yield "The other files (sled.dxf and so on) each hold one thing at its finished size, corners as drawn."


def kind_of(name: str, counts: dict[str, int]) -> str:
    """The part a numbered piece is of."""
    return name if name in counts else name.rpartition("_")[0]


def _cutter(job: Job) -> Iterator[str]:
    say = say_in(job.units)
    cutter = job.router.cutter
    yield (
        f"CUTTER: straight, diameter {say(cutter)}. The sheet-N.dxf files show finished size: run the cutter "
        "outside CUT_OUTSIDE and inside CUT_INSIDE. No kerf is allowed for in them."
    )
    yield (
        f"Inside corners are rounded to {say(cutter / 2)} radius, or relieved where another piece must fit into them: "
        "a wider cutter does not reach them."
    )
    if job.files.tool_path:
        yield (
            f"The sheet-N-path.dxf files are offset by {say(cutter / 2)} already: the cutter's middle follows the line "
            "itself, no compensation. Use one set or the other, never both."
        )
    yield f"Pieces are {say(spacing_of(job))} apart and from the sheet's edges."


_MEANING = {
    "ENGRAVE": "line to score lightly, or to draw",
    "DRILL": "hole at its finished diameter: drill right through at its centre; those for dowels register the layers",
    "CUT_INSIDE": "opening: right through, cutter on the inside",
    "CUT_OUTSIDE": "edge of a part: right through, cutter on the outside",
    "NOTES": "text and marks for people: not cut",
    "SHEET": "edge of the sheet: not cut",
}


def layer_lines(parts: Sequence[Part], machine: str) -> list[str]:
    """What each layer in use means, in the order of work."""
    used = [cut.layer for cut in in_order(tuple(parts))]
    used += ["ENGRAVE" for part in parts for mark in part.marks if mark.scored]
    lines = ["LAYERS:"]
    for layer in [
        "ENGRAVE",
        "DRILL",
        *sorted({u for u in used if u.startswith("POCKET_")}),
        "CUT_INSIDE",
        "CUT_OUTSIDE",
    ]:
        if layer in used:
            lines.append(f"  {layer}: {_meaning(layer, machine)}")
    return [*lines, f"  NOTES: {_MEANING['NOTES']}", f"  SHEET: {_MEANING['SHEET']}"]


def _meaning(layer: str, machine: str) -> str:
    if layer.startswith("POCKET_"):
        return f"pocket {int(layer.removeprefix('POCKET_')) / 10:g} mm deep from the top"
    text = _MEANING[layer]
    return text if machine == "router" else text.replace("cutter", "beam")


def _order(job: Job) -> Iterator[str]:
    yield "ORDER: score, drill, pockets, inside cuts, and the outlines last; the files hold them in this order."
    climb = job.files.direction == "clockwise"
    outside, inside = ("clockwise", "counter-clockwise") if climb else ("counter-clockwise", "clockwise")
    kind = "climb" if climb else "conventional"
    yield (
        f"DIRECTION: outside {outside}, inside {inside}, seen from above: {kind} cutting with a cutter that turns "
        "clockwise."
    )


def _hold_down(job: Job) -> Iterator[str]:
    say = say_in(job.units)
    yield (
        "HOLD-DOWN: spoil board under the sheet, screws or clamps in the waste clear of every line by more than the "
        "cutter; narrow and small pieces with tape or vacuum besides."
    )
    if job.router.tabs:
        wide = say(TAB_CUTTERS * job.router.cutter)
        yield (
            f"TABS: up to {job.router.tabs} an outline, {wide} wide, marked by strokes across it on NOTES: leave them "
            "in your program. Saw them off afterwards and plane the edge true with a straightedge."
        )
        if job.files.tool_path:
            yield "In the path files the outline is open where a tab is: lift the cutter clear there."
    else:
        yield "No tabs are drawn ([router] tabs): a piece is loose once its outline is cut."


def _cautions() -> list[str]:
    return [
        "CAUTIONS: run it once in the air. Eyes, ears and lungs protected, hands out of reach, never leave it running "
        "alone, wait until the cutter stands.",
        "The machine maker's manual, local rules and competent instruction come before this note.",
        "Measure the first piece against the numbers before cutting the rest.",
    ]
