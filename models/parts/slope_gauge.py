"""The slope gauge: hooks over the sled's fence edge, and its long edge shows where the work edge should run.

 wide ____
     |    ----____            long edge, 1 in N
     |            ----____  narrow
     |____________________|   y = 0: against the fence edge
     |____ hook __________|   y = -hook, stands up in print, hangs down over the edge in use

A width out by `tolerance` at each end and an end read to `EYE` give ± N^2 2 sqrt((2 tolerance^2 + EYE^2) / 3) / L,
see models.resolution.slope_from_ends. Sections keep to this too: each hook lies against the fence edge by itself, so
a joint's play turns nothing. Heel and nose by rule give the same with RULE at both ends and the sled's length.
"""

from __future__ import annotations

import math

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import polygon, rectangle
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.joint.joint import MOST_OFF
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Part, Place, Raised
from scarfwright.models.part.reading import EYE, length_for_slope, slope_by_rule, slope_from_ends
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.printing.laying import free_bed

MOST_SECTIONS = 4
LEAST_LENGTH = 60.0
SLED_END = 10.0  # gauge clear of the nose flat's step and of the heel
HOOK = 5.0
LABEL_LENGTH = 140.0


def slope_gauge(
    ratio: float = 12.0,
    length: float = 210.0,
    narrow: float = 30.0,
    thickness: float = 4.0,
    hook: float = HOOK,
    drop: float = 10.0,
    label: str = "",
) -> Part:
    """Build the gauge, lying on the face that is up in use, its hook standing up.

    ratio: N of the slope it shows
    length: along the fence edge [mm]
    narrow: width at the end towards the nose, from the fence edge [mm]
    thickness: of the plate [mm]
    hook: thickness of the strip that hooks over the fence edge [mm]
    drop: how far the hook reaches down the fence edge [mm]
    label: text cut into the plate's inner face
    """
    wide = narrow + length / ratio
    plain = Part(
        name="slope_gauge",
        title="Slope gauge",
        outline=polygon([(0.0, -hook), (length, -hook), (length, narrow), (0.0, wide)]),
        thickness=thickness,
        raised=(Raised(rectangle(0.0, -hook, length, hook), thickness, thickness + drop, "hook"),),
        colour="#d6b25e",
        use="Hooked over the fence edge near the nose, narrow end to the nose, one end of its long edge level with "
        "the work edge: the other end is level too if the slope is right.",
    )
    return labels.engraved(plain, label, _place(length, narrow))


def _place(length: float, narrow: float) -> Place:
    """Near the wide end: a joint between two sections goes where no letter is."""
    return Place(4.0, 3.0, min(length - 8.0, LABEL_LENGTH), narrow - 6.0)


def _from_job(work: Groundwork) -> Given | None:
    """As long as the bed; in more sections where that does not tell the slope well enough and the sled is longer."""
    printer, sled = work.job.printer, work.way.nominal
    start = sled.nose_flat + SLED_END
    room = sled.length - start - SLED_END
    section = free_bed(printer)[0]
    ratio = sled.ratio
    needed = length_for_slope(ratio, MOST_OFF * ratio, float(printer.tolerance), EYE)
    sections = min(max(math.ceil(needed / max(section, 1.0)), 1), MOST_SECTIONS)
    length = max(min(sections * section, room), LEAST_LENGTH)
    narrow = sled.width_at(start)
    return {
        "ratio": ratio,
        "length": length,
        "narrow": narrow,
        "label": labels.job_label(work.job, work.planned, _place(length, narrow)),
    }


def _resolution(work: Groundwork, p: Values) -> dict[str, float]:
    ratio, tolerance = p["ratio"], float(work.job.printer.tolerance)
    return {
        "resolution_ratio": slope_from_ends(ratio, p["length"], tolerance, EYE),
        "needed_ratio": MOST_OFF * ratio,
        "needed_two_sleds_ratio": ratio**2 * work.job.adhesive.gap_limit / max(work.joint.overlap, 1.0),
        "by_rule_ratio": slope_by_rule(ratio, work.way.nominal.length),
        "place_from_nose_mm": work.way.nominal.nose_flat + SLED_END,
    }


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    return [] if work is None else [*_room(work, p), *_coarse(work, p)]


def _room(work: Groundwork, p: Values) -> list[Finding]:
    room = work.way.nominal.length - work.way.nominal.nose_flat - 2 * SLED_END
    return [] if room >= p["length"] else [finding("slope_gauge.no_room", length_mm=p["length"], room_mm=room)]


def _coarse(work: Groundwork, p: Values) -> list[Finding]:
    r = _resolution(work, p)
    reads, needed, rule = r["resolution_ratio"], r["needed_ratio"], r["by_rule_ratio"]
    if rule >= reads and reads <= needed:
        return []
    return [
        finding(
            "slope_gauge.coarse" if reads > needed else "slope_gauge.rule_better",
            ratio=p["ratio"],
            resolution_ratio=reads,
            needed_ratio=needed,
            by_rule_ratio=rule,
            length_mm=p["length"],
            sled_length_mm=work.way.nominal.length,
        )
    ]


KIND = PartKind(
    name="slope_gauge",
    summary="hooks over the fence edge; its long edge shows the work edge's slope",
    build=slope_gauge,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={
        "ratio": (1, 100),
        "length": (40, 1000),
        "narrow": (8, 200),
        "thickness": (2, 12),
        "hook": (2, 12),
        "drop": (2, 40),
    },
    units={"ratio": ""},
    resolution=_resolution,
    label_place=lambda p: _place(p["length"], p["narrow"]),
)
