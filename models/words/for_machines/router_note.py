"""What the person at the router has to know: the lines of cut/README.txt, which stand beside every sheet too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.sheets.layout import SheetPlan
from scarfwright.models.sheets.pieces import TAB_CUTTERS, FlatPart, file_units, in_order, kind_of, spacing_of
from scarfwright.models.words.for_machines.cut_note import LAST, R12, other_files, spaced, unit_line


def router_lines(
    job: Job, pieces: Sequence[FlatPart], plans: Sequence[SheetPlan], others: Mapping[str, str]
) -> list[str]:
    """The operator's summary for a router; `others`: what the other files of the folder hold, by name."""
    sections = [
        [f"CUT FILES FOR A ROUTER: {job.title or 'untitled'}"],
        _unit(job),
        list(_sheets(job, pieces, plans)),
        other_files(others),
        list(_cutter(job)),
        layer_lines([part for plan in plans for part in plan.placed], file_units(job)),
        list(_order(job)),
        list(_hold_down(job)),
        _cautions(),
    ]
    return spaced(sections)


def _unit(job: Job) -> list[str]:
    unit, say = file_units(job), say_in(job.units)
    length, width = job.router.sheet
    factor = 1.0 if unit == "mm" else 25.4
    lines = [
        unit_line(job),
        f"Check after loading: the sheet must measure {length / factor:.6g} x {width / factor:.6g} drawing units, "
        f"that is {say(length)} x {say(width)}.",
        "Origin: lower left corner of the sheet. Z is not in the files.",
    ]
    if job.files.dxf == "r12":
        lines.append(f"{R12} check as above.")
    return lines


def _sheets(job: Job, pieces: Sequence[FlatPart], plans: Sequence[SheetPlan]) -> Iterator[str]:
    say = say_in(job.units)
    if not plans:
        yield "SHEETS: none, the job has no flat parts that fit this machine."
        return
    counts = {p.part.name: p.count for p in pieces}
    titles = {p.part.name: p.part.title for p in pieces}
    for plan in plans:
        path = f" and {plan.name}-path.dxf" if job.files.tool_path else ""
        yield (
            f"{plan.name}.dxf{path}: sheet {say(plan.length)} x {say(plan.width)}, {say(plan.thickness)} thick, "
            f"{len(plan.placed)} piece{'s' * (len(plan.placed) != 1)}, {plan.filled:.1%} of it filled. "
            f"An offcut of {say.up(plan.used[0])} x {say.up(plan.used[1])} would do, from the origin."
        )
        on_it = Counter(kind_of(part.name, counts) for part in plan.placed)
        for name, count in on_it.items():
            of_all = "" if count == counts[name] else f" of {counts[name]}"
            yield f"  {count}{of_all} x {name}: {titles[name]}"
    yield f"Face grain along {job.router.grain}: what must be stiff along its length lies along it."


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
    "SCORE": "line to score lightly with a pointed cutter, or to draw with a pen; leave it out with a straight cutter",
    "DRILL": "hole at its finished diameter: drill right through at its centre; dowels in them keep the layers in line",
    "CUT_INSIDE": "opening: right through, cutter on the inside",
    "CUT_OUTSIDE": "edge of a part: right through, cutter on the outside",
    "NOTES": "text and marks for people: not cut",
    "SHEET": "edge of the sheet: not cut",
}


def layer_lines(parts: Sequence[Part], units: Unit) -> list[str]:
    """What each layer in use means, in the order of work."""
    cuts = in_order(tuple(parts))
    used = {cut.operation.value for cut in cuts}
    pockets = {cut.layer(units): cut.depth for cut in cuts if cut.operation is Operation.POCKET}
    if any(mark.scored for part in parts for mark in part.marks):
        used.add("SCORE")
    lines = ["LAYERS:", *(f"  {layer}: {_MEANING[layer]}" for layer in ("SCORE", "DRILL") if layer in used)]
    lines += [f"  {layer}: pocket {depth:g} mm deep from the top" for layer, depth in sorted(pockets.items())]
    lines += [f"  {layer}: {_MEANING[layer]}" for layer in ("CUT_INSIDE", "CUT_OUTSIDE") if layer in used]
    return [*lines, f"  NOTES: {_MEANING['NOTES']}", f"  SHEET: {_MEANING['SHEET']}"]


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
        "HOLD-DOWN: spoil board under the sheet, screws or clamps in the scrap clear of every line by more than the "
        "cutter; narrow and small pieces with tape or vacuum besides."
    )
    if job.router.tabs:
        wide = say(TAB_CUTTERS * job.router.cutter)
        yield (
            f"TABS: up to {job.router.tabs} per outline, {wide} wide, marked by strokes across it on NOTES: leave them "
            "standing. None is on an edge that guides or measures. Saw them off afterwards and plane the edge true."
        )
        if job.files.tool_path:
            yield "In the path files the outline is open where a tab is: lift the cutter clear there."
    else:
        yield "No tabs are drawn ([router] tabs): a piece is loose once its outline is cut."


def _cautions() -> list[str]:
    return [
        "CAUTIONS: run it once in the air. Eyes, ears and lungs protected, hands out of reach, never leave it running "
        "alone, wait until the cutter has STOPPED.",
        *LAST,
    ]
