"""The taper fork: slots of 1/4, 1/2 and 3/4 of the thickness slide along a cut taper and stop where it is that thick.

Held square to the board's face, a slot stops where the taper is as thick as the slot is wide: the distance between two
stops is N times the slots' difference, whatever the tip. Slots are drawn wider by `compensation`, because printed ones
come out narrower.

Slots out by `tolerance` each, two pencil lines, and the scale: ± 2 sqrt(2 (N tolerance)^2 + 2 PENCIL^2 + tolerance^2)
/ (sqrt(3) w), w = t / 2 between the outer slots, see models.resolution.slope_from_stops.
"""

from __future__ import annotations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.joint.joint import MOST_OFF
from scarfwright.models.part import label as labels
from scarfwright.models.part.comb import comb, comb_width, slot_middles
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.reading import (
    slope_by_calliper,
    slope_by_rule,
    slope_from_stops,
    tolerance_for_stops,
)
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

SHARES = (0.25, 0.5, 0.75)
NAMES = ("1/4", "1/2", "3/4")
BACK, WALL, NAME_HEIGHT = 19.0, 10.0, 5.0
MOST_DEPTH = 30.0


def taper_fork(
    thickness: float = 22.0,
    depth: float = 30.0,
    wall: float = WALL,
    plate: float = 8.0,
    compensation: float = 0.2,
    label: str = "",
) -> Part:
    """Build the fork, lying flat.

    thickness: of the board the taper runs through [mm]
    depth: of the slots [mm]
    wall: between the slots [mm]
    plate: thickness of the fork; what lies against the board's face keeps it square [mm]
    compensation: what printed slots come out narrower by, added to each [mm]
    label: text cut into the back
    """
    slots = _slots(thickness, compensation)
    part = Part(
        name="taper_fork",
        title="Taper fork",
        outline=comb(slots, depth, wall, BACK),
        thickness=plate,
        colour="#7fa58f",
        use="Square across the taper, one slot side flat on the uncut face: slide each slot up from the tip until it "
        "stops and draw a line there. The lines of 1/4 and 3/4 lie N times half the thickness apart.",
    )
    room = min(wall + slots[0] - 1.0, 14.0)
    for middle, name in zip(slot_middles(slots, wall), NAMES, strict=True):
        part = labels.engraved(part, name, Place(middle - room / 2, depth + 2.0, room, NAME_HEIGHT))
    return labels.engraved(part, label, _place(thickness, depth, wall, compensation))


def _slots(thickness: float, compensation: float) -> list[float]:
    return [share * thickness + compensation for share in SHARES]


def _place(thickness: float, depth: float, wall: float, compensation: float) -> Place:
    width = comb_width(_slots(thickness, compensation), wall)
    return Place(3.0, depth + NAME_HEIGHT + 4.0, width - 6.0, BACK - NAME_HEIGHT - 6.0)


def _from_job(work: Groundwork) -> Given:
    stock = work.job.stock
    own = {
        "thickness": float(stock.thickness),
        "depth": min(float(stock.height), MOST_DEPTH),
        "compensation": float(work.job.printer.tolerance),
    }
    return {**own, "label": labels.job_label(work.job, work.planned, _place(wall=WALL, **own))}


def _resolution(work: Groundwork, p: Values) -> Given:
    ratio = work.way.nominal.ratio
    return {
        "slots_mm": tuple(share * p["thickness"] for share in SHARES),
        "slots_drawn_mm": tuple(_slots(p["thickness"], p["compensation"])),
        "stops_from_tip_mm": tuple((share * p["thickness"] - work.joint.tip) * ratio for share in SHARES),
        **_reads(work, p),
    }


def _reads(work: Groundwork, p: Values) -> dict[str, float]:
    tolerance, ratio = float(work.job.printer.tolerance), work.way.nominal.ratio
    apart = p["thickness"] * (SHARES[-1] - SHARES[0])
    return {
        "stops_apart_mm": apart * ratio,
        "resolution_ratio": slope_from_stops(ratio, apart, tolerance),
        "needed_ratio": MOST_OFF * ratio,
        "needed_tolerance_mm": tolerance_for_stops(ratio, apart, MOST_OFF * ratio),
        "by_calliper_ratio": slope_by_calliper(ratio, max(apart * ratio, 1.0)),
        "by_rule_ratio": slope_by_rule(ratio, work.way.nominal.length),
    }


def serves(work: Groundwork) -> bool:
    """Whether the job's own fork is made: it reads finely enough, or every gauge is asked for whatever it reads."""
    return work.job.printer.gauges != "useful" or not _check(work, KIND.filled(_from_job(work)))


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    if work is None:
        return []
    tolerance, first = float(work.job.printer.tolerance), SHARES[0] * p["thickness"]
    if tolerance >= first:
        return [finding("taper_fork.slots_alike", difference_mm=first, tolerance_mm=tolerance)]
    if work.joint.tip + tolerance >= first:
        return [finding("taper_fork.tip_too_thick", tip_mm=work.joint.tip, slot_mm=first, tolerance_mm=tolerance)]
    r = _reads(work, p)
    if r["resolution_ratio"] <= r["needed_ratio"]:
        return []
    told = ("resolution_ratio", "needed_ratio", "needed_tolerance_mm", "by_calliper_ratio", "by_rule_ratio")
    return [finding("taper_fork.coarse", ratio=work.way.nominal.ratio, **{key: r[key] for key in told})]


KIND = PartKind(
    name="taper_fork",
    summary="slots of 1/4, 1/2 and 3/4 of the thickness that stop on a cut taper",
    build=taper_fork,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print", "flat"}),
    check=_check,
    ranges={
        "thickness": (3, 150),
        "depth": (5, 80),
        "wall": (3, 30),
        "plate": (2, 20),
        "compensation": (0, 1),
    },
    resolution=_resolution,
    label_place=lambda p: _place(p["thickness"], p["depth"], p["wall"], p["compensation"]),
)
