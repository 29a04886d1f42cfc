"""A wedge between clamp jaw and fence edge, so that a clamp closes on the uncut nose.

 ____________________   y = thin at x = 0
|                    |  rises by length / N to the other end
|____________________|
"""

from __future__ import annotations

import math
from typing import Any

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import polygon
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.part import Part
from scarfwright.models.parts.kind import Parameters, PartKind

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
        use="Between jaw and fence edge at the nose, thick end to the nose tip: the jaws close parallel.",
    )


def _from_job(work: Groundwork) -> dict[str, Any]:
    return {
        "ratio": work.way.sled.ratio,
        "length": 2.0 * work.job.clamp.pad_width,
        "height": float(work.job.clamp.pad_height),
    }


def _check(work: Groundwork | None, p: Parameters) -> list[Finding]:
    """A clamp over the wedge closes on board, nose and the wedge's thick end, square to the work edge."""
    if work is None:
        return []
    say, has = say_in(work.job.units), float(work.job.clamp.opening)
    thick = p["thin"] + p["length"] / p["ratio"]
    needed = work.joint.thickness + (work.way.sled.nose + thick) * math.cos(work.way.sled.angle)
    if needed <= has:
        return []
    text = (
        f"Over the nose wedge a clamp must close on {say.up(needed)} and opens {say(has)}: it lacks "
        f"{say.up(needed - has)}. Use clamps that open {say.up(needed)}, or clamp on a nose flat or in a nose notch."
    )
    return [finding("nose_wedge.no_grip", text, needed_mm=needed, opening_mm=has, lacking_mm=needed - has)]


KIND = PartKind(
    name="nose_wedge",
    summary="wedge that lets a clamp close on the uncut nose",
    build=nose_wedge,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={"ratio": (5.0, 40.0), "length": (15.0, 120.0), "height": (8.0, 60.0), "thin": (1.0, 12.0)},
)
