"""A wedge between clamp jaw and fence edge, so that a clamp closes on the uncut nose.

 ____________________   y = thin at x = 0
|                    |  rises by length / N to the other end
|____________________|
"""

from __future__ import annotations

from typing import Any

from scarfwright.models.outline import polygon
from scarfwright.models.part import Part, PartKind
from scarfwright.models.workup import Workup

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


def _from_job(work: Workup) -> dict[str, Any]:
    return {
        "ratio": work.sled.ratio,
        "length": 2.0 * work.job.clamp.pad_width,
        "height": float(work.job.clamp.pad_height),
    }


KIND = PartKind(
    name="nose_wedge",
    summary="wedge that lets a clamp close on the uncut nose",
    build=nose_wedge,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    ranges={"ratio": (5.0, 40.0), "length": (15.0, 120.0), "height": (8.0, 60.0), "thin": (1.0, 12.0)},
)
