"""The taper fork's scale: its zero on the line of the 1/4 slot, the slope is read at the line of the 3/4 slot.

     0             8        10       12
     |             |    |    |    |   |        a mark for N lies N t / 2 from zero
     |_________________________________________

A mark out by `tolerance` and two pencil lines move the slope read by 1 / (t / 2) each; the slots' share is the fork's.
"""

from __future__ import annotations

import math

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import rectangle
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Feature, Operation, Part, Place
from scarfwright.models.part.reading import PENCIL, expanded
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.parts.taper_fork import serves
from scarfwright.models.printing.laying import free_bed

END = 10.0  # scale beyond its first and last mark
LINE, LINE_DEPTH = 0.6, 0.6  # of the marks
WIDTH = 30.0
LEAST_STEP = 1.5  # marks nearer than this can't be read; common practice, no source
MOST_SLOPES = 40.0
SPREAD = 4.0  # slopes shown to either side of the job's


def taper_scale(
    step: float = 11.0, first: float = 8.0, last: float = 16.0, plate: float = 3.0, label: str = ""
) -> Part:
    """Build the scale, lying flat.

    step: between the marks of two whole slopes, the difference of the fork's outer slots [mm]
    first, last: the slopes N shown
    plate: thickness [mm]
    label: text cut into the upper half
    """
    low, high = sorted((first, last))
    length = high * step + 2 * END
    part = Part(
        name="taper_scale",
        title="Scale for the taper fork",
        outline=rectangle(0.0, 0.0, length, WIDTH),
        thickness=plate,
        guides=(((0.0, 0.0), (length, 0.0)),),
        features=(_mark(END, 12.0), *(_mark(END + n * step, high_mark) for n, high_mark in _ticks(low, high, step))),
        colour="#7fa58f",
        use="Zero on the line where the 1/4 slot stopped: read the slope at the line of the 3/4 slot.",
    )
    part = labels.engraved(part, "0", Place(END - 4.0, 13.0, 8.0, 5.0))
    for n in _numbered(low, high, step):
        part = labels.engraved(part, f"{n}", Place(END + n * step - 6.0, 13.0, 12.0, 5.0))
    return labels.engraved(part, label, _place(length))


def _mark(x: float, height: float) -> Feature:
    line = rectangle(x - LINE / 2, 1.0, LINE, height - 1.0)
    return Feature(Operation.POCKET, line, "scale mark", LINE_DEPTH, strokes=(((x, 1.0), (x, height)),))


def _ticks(low: float, high: float, step: float) -> list[tuple[float, float]]:
    """Slopes that get a mark and the mark's height: whole ones, and halves where there is room for them."""
    parts = 2 if step / 2 >= 2 * LEAST_STEP else 1
    found = []
    for i in range(math.ceil(low * parts - 1e-9), math.floor(high * parts + 1e-9) + 1):
        found.append((i / parts, 10.0 if i % parts == 0 else 6.0))
    return found


def _numbered(low: float, high: float, step: float) -> list[int]:
    every = max(1, math.ceil(9.0 / step))
    return [n for n in range(math.ceil(low - 1e-9), math.floor(high + 1e-9) + 1) if n % every == 0]


def _place(length: float) -> Place:
    return Place(4.0, 19.5, length - 8.0, WIDTH - 21.5)


def _from_job(work: Groundwork) -> Given | None:
    """None where there is no fork whose lines it would read."""
    if not serves(work):
        return None
    step, ratio = work.job.stock.thickness / 2, work.way.nominal.ratio
    bed = free_bed(work.job.printer)[0]
    fits = (bed - 2 * END) / step
    last = math.floor(min(ratio + SPREAD, fits)) if fits >= ratio + 1 else math.ceil(ratio + SPREAD)
    first = max(math.ceil(ratio - SPREAD), 1)
    place = _place(last * step + 2 * END)
    return {
        "step": step,
        "first": float(first),
        "last": float(last),
        "label": labels.job_label(work.job, work.planned, place),
    }


def _resolution(work: Groundwork, p: Values) -> dict[str, float]:
    line = 1 / p["step"]
    tolerance = float(work.job.printer.tolerance)
    return {"resolution_ratio": expanded((line, tolerance), (line, PENCIL), (line, PENCIL))}


def _check(_work: Groundwork | None, p: Values) -> list[Finding]:
    shown = abs(p["last"] - p["first"])
    if shown > MOST_SLOPES:
        return [
            finding("taper_scale.too_many", slopes=float(shown), most=MOST_SLOPES, first=p["first"], last=p["last"])
        ]
    if p["step"] >= LEAST_STEP:
        return []
    return [finding("taper_scale.marks_crowd", step_mm=p["step"], least_mm=LEAST_STEP)]


KIND = PartKind(
    name="taper_scale",
    summary="printed scale that reads the slope off the taper fork's two lines",
    build=taper_scale,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print", "flat"}),
    check=_check,
    ranges={
        "step": (LEAST_STEP, 40),
        "first": (1, 20),
        "last": (1, 40),
        "plate": (1.5, 10),
    },
    units={"first": "", "last": ""},
    resolution=_resolution,
    label_place=lambda p: _place(max(p["first"], p["last"]) * p["step"] + 2 * END),
)
