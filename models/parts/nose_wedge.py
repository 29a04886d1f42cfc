"""A wedge between clamp jaw and fence edge, so that a clamp closes on the uncut nose.

 ____________________   y = thin at x = 0
|                    |  rises by length / N to the other end
|____________________|

On the sled its thick end lies at the nose: its outer face is parallel to the work edge, (nose + thick) cos(theta)
away. The pad may lie anywhere on it, so its clamp comes nearer to the fence than one on a nose flat: it has a limit of
its own. Source: plane geometry, the project's own derivation.
"""

from __future__ import annotations

import math

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import polygon
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Part
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.sled.layout import deepest_lower_edge, jaw_between, pad_lower_edge, stop_spare

THIN_END = 3.0  # thinnest printed end that does not crush; common practice, no source


def nose_wedge(ratio: float = 12.0, length: float = 50.0, height: float = 20.0, thin: float = THIN_END) -> Part:
    """Build the wedge, lying on its lower side.

    ratio: N of the sled's slope
    length: along the fence edge [mm]
    height: up and down, the clamp's pad [mm]
    thin: thickness at the thin end [mm]
    """
    thick = thin + length / ratio
    return Part(
        name="nose_wedge",
        title="Nose wedge",
        outline=polygon([(0.0, 0.0), (length, 0.0), (length, thick), (0.0, thin)]),
        thickness=height,
        colour="#b8868a",
        use="Slip it between clamp jaw and fence edge at the nose, thick end at the nose: the jaws close parallel.",
    )


def _from_job(work: Groundwork) -> Given:
    """Two pads long, or as long as the fence leaves room for, at least one pad."""
    pad = float(work.job.clamp.pad_width)
    return {
        "ratio": work.way.sled.ratio,
        "length": max(math.floor(min(2 * pad, _longest(work)) * 10) / 10, pad),
        "height": float(work.job.clamp.pad_height),
    }


def _longest(work: Groundwork) -> float:
    """The longest wedge [mm] over which the clamp stays before the fence's front end for the whole cut."""
    needed = _free_at_fence(work)
    return math.inf if needed is None else _at_fence(work, 0.0) - needed


def _free_at_fence(work: Groundwork) -> float | None:
    """Travel [mm] for which the clamp must be clear of the fence: with the whole margin where its pads as set meet it,
    to just past the end of the cut where they only do pushed down, None where they never do."""
    job, way = work.job, work.way
    if pad_lower_edge(job, way.sled) < job.saw.fence_height:
        return way.travel_needed
    low = deepest_lower_edge(job, way.sled) < job.saw.fence_height
    return way.travel_end + stop_spare(job) if low else None


def _at_fence(work: Groundwork, length: float) -> float:
    """Travel [mm] at which the jaw at the wedge's inner end meets the fence: its corner leads by jaw sin(theta)."""
    sled, job = work.way.sled, work.job
    return sled.length - length - job.clamp.jaw_inner * math.sin(sled.angle) - job.saw.fence_front


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    """A clamp over the wedge closes on board, nose and the wedge's thick end, square to the work edge."""
    if work is None:
        return []
    has, sled = float(work.job.clamp.opening), work.way.sled
    across = (sled.nose + p["thin"] + p["length"] / p["ratio"]) * math.cos(sled.angle)
    needed = work.joint.thickness + across
    found = []
    if needed > has + 1e-6:
        found.append(finding("nose_wedge.no_grip", needed_mm=needed, opening_mm=has))
    limit = _limit(work, p["length"], across)
    if limit is not None and limit < work.way.travel_needed - 1e-6:
        found.append(finding("nose_wedge.meets_fence", limit_mm=limit, needed_mm=work.way.travel_needed))
    free = _free_at_fence(work)
    at_fence = _at_fence(work, p["length"])
    if not found and free is not None and at_fence < free - 1e-6:
        found.append(finding("nose_wedge.meets_fence", limit_mm=at_fence, needed_mm=free))
    return found


def _limit(work: Groundwork, length: float, across: float) -> float | None:
    """Travel [mm] at which the clamp over the wedge meets the fence, or with its outer jaw the blade."""
    way = work.way
    first = way.sled.station_of_x(length, across)
    limits = [
        jaw_between(work.job, way.sled, first, way.sled.work_edge).limit(way.sled.work_edge, way.joint, way.blade)
    ]
    if pad_lower_edge(work.job, way.sled) < work.job.saw.fence_height:
        limits.append(_at_fence(work, length))
    return min((t for t in limits if t is not None), default=None)


KIND = PartKind(
    name="nose_wedge",
    summary="wedge that lets a clamp close on the uncut nose",
    build=nose_wedge,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={"ratio": (5.0, 40.0), "length": (15.0, 120.0), "height": (8.0, 60.0), "thin": (1.0, 12.0)},
)
