"""What the person at the printer has to know: the lines of print/README.txt."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import show
from scarfwright.models.lengths.say import say_in
from scarfwright.models.printing.bed import height
from scarfwright.models.printing.laying import FilledBed, Laid
from scarfwright.models.printing.overhang import ceilings
from scarfwright.models.words.for_machines.cut_note import spaced


def print_lines(job: Job, things: Sequence[tuple[Laid, int]], beds: Sequence[FilledBed]) -> list[str]:
    """The summary for a printer: `things`, each part or section with how many of it are wanted, and the full beds."""
    sections = [
        [f"PRINT FILES: {job.title or 'untitled'}"],
        list(_settings(job)),
        ["PARTS, each alone as .3mf and .stl, lying as it is to be printed:", *(_part(job, *t) for t in things)],
        ["BEDS, all parts side by side:", *(_bed(bed) for bed in beds)],
        list(_cautions()),
    ]
    return spaced(sections)


def _settings(job: Job) -> Iterator[str]:
    say, printer = say_in(job.units), job.printer
    layer = show(printer.layer, "mm", places=2)
    bed_x, bed_y, bed_z = (say(side) for side in printer.bed)
    yield "SCALE: 100 %. The .3mf files carry millimetres. The .stl files carry no unit: load them as millimetres."
    yield (
        f"LAYER: {layer}, the first one too: the gap shim's thickness and every step count on it. Trim the edge that "
        "the first layer squeezes out before you measure with a part."
    )
    yield (
        f"BED: {bed_x} x {bed_y}, {bed_z} high; {say(printer.margin)} are kept free on each side for skirt or brim "
        "([printer] margin)."
    )
    yield f"TOLERANCE: sizes out by {say.fine(printer.tolerance)} are allowed for ([printer] tolerance, measure yours)."


def _part(job: Job, laid: Laid, count: int) -> str:
    say, (long, wide) = say_in(job.units), laid.box
    face = "top face down" if laid.turned_over else "as drawn, lower face down"
    supports = "; with supports" if ceilings(laid.part, turned_over=laid.turned_over) else ""
    return (
        f"  {laid.name}: {laid.part.title}, print {count}, {say(long)} x {say(wide)} x {say(height(laid.part))}, "
        f"{face}{supports}"
    )


def _bed(bed: FilledBed) -> str:
    return f"  {bed.name}.3mf: {', '.join(laid.name for laid in bed.laid)}"


def _cautions() -> Iterator[str]:
    yield "CAUTIONS: hot nozzle and bed; fumes drawn off; never leave the printer running alone."
    yield "Measure the first part against its drawing before printing the rest."
    yield "Printed parts measure and hold light things in place. None of them carries a load at the saw."
