"""The square block: one face square to its base, the other leaning in by a small angle; upside down it leans out.

   ______________
  /            \\     left: 90 degrees to base and top
 |              \\    right: 90 - angle to the base, so 90 + angle to the top
 |               \\   bevelled corners keep clear of dust
  \\______________/

Set against work or blade at 90 - angle and at 90 + angle, light shows once at the top and once at the bottom if the
thing stands square to within that angle.

Ends of face and base out by `tolerance`, light seen from `EYE`: ± 2 sqrt((2 tol^2 + EYE^2) / H^2 + 2 tol^2 / B^2) /
sqrt(3) rad, H and B the straight lengths of face and base, see models.resolution.square.

A lean of e opens the joint by 2 h tan(e) at one edge: it may be gap_limit / (2 h).
"""

from __future__ import annotations

import math

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import polygon
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import round_up
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.reading import EYE, FEELER, expanded, square
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

BEVEL = 2.0
BASE = 60.0
ANGLE_STEP = 0.1
ROOM_FOR_ANGLES = (30.0, 40.0)  # top and height; smaller blocks have room for the label only


def square_block(
    height: float = 60.0, base: float = BASE, angle: float = 0.5, width: float = 20.0, label: str = ""
) -> Part:
    """Build the block, lying on its side.

    height: base to top [mm]
    base: length of the base [mm]
    angle: how far the leaning face is off square [deg]
    width: how wide its faces are [mm]
    label: text cut into the side
    """
    lean = math.tan(math.radians(angle))

    def right(y: float) -> float:
        return base - y * lean

    points = [
        (BEVEL, 0.0),
        (base - BEVEL, 0.0),
        (right(BEVEL), BEVEL),
        (right(height - BEVEL), height - BEVEL),
        (right(height) - BEVEL, height),
        (BEVEL, height),
        (0.0, height - BEVEL),
        (0.0, BEVEL),
    ]
    part = Part(
        name="square_block",
        title="Square block",
        outline=polygon(points),
        thickness=width,
        colour="#8f8fb8",
        use=f"On the saw table against work or blade (between two teeth): square face to see, leaning face on its base "
        f"and on its top to bracket. Light at opposite ends: within {angle:g} degrees of square.",
    )
    if height >= ROOM_FOR_ANGLES[1] and right(height) >= ROOM_FOR_ANGLES[0]:
        part = labels.engraved(part, "90", Place(4.0, height / 2 - 3.0, 12.0, 6.0))
        part = labels.engraved(part, f"-{angle:.2g}", Place(right(height) - 24.0, 5.0, 18.0, 5.0))
    return labels.engraved(part, label, _place(height, base, angle))


def _place(height: float, base: float, angle: float) -> Place:
    top = base - height * math.tan(math.radians(angle))
    low = max(height - 14.0, BEVEL + 1.0)
    return Place(5.0, low, top - 10.0, min(8.0, height - low - BEVEL - 1.0))


def _straight(length: float) -> float:
    """Length of a face between its bevels [mm]."""
    return max(length - 2 * BEVEL, 1.0)


def _block_resolution(work: Groundwork, height: float, base: float) -> float:
    return square(_straight(height), _straight(base), float(work.job.printer.tolerance), EYE)


def _from_job(work: Groundwork) -> Given:
    """As high as the work, its angle the least that the printer can be trusted with."""
    height = float(work.job.stock.height)
    angle = round_up(1.2 * _block_resolution(work, height, BASE), ANGLE_STEP)
    own = {"height": height, "base": BASE, "angle": max(angle, ANGLE_STEP)}
    return {**own, "label": labels.job_label(work.job, work.planned, _place(**own))}


def _resolution(work: Groundwork, p: Values) -> dict[str, float]:
    gap, high = work.job.adhesive.gap_limit, work.job.stock.height
    return {
        "resolution_deg": _block_resolution(work, p["height"], p["base"]),
        "needed_deg": math.degrees(math.atan(gap / (2 * high))),
        "by_test_joint_deg": math.degrees(expanded((1 / (2 * high), FEELER), (1 / (2 * high), FEELER))),
    }


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    left = p["base"] - p["height"] * math.tan(math.radians(p["angle"]))
    least = 3 * BEVEL
    if left < least or p["height"] < least or p["base"] < least:
        return [
            finding(
                "square_block.leans_too_far",
                top_mm=left,
                height_mm=p["height"],
                base_mm=p["base"],
                angle_deg=p["angle"],
                least_mm=least,
            )
        ]
    return [] if work is None else _useful(_resolution(work, p), p)


def _useful(r: dict[str, float], p: Values) -> list[Finding]:
    numbers = {"angle_deg": p["angle"], **r}
    if p["angle"] <= r["resolution_deg"]:
        return [finding("square_block.angle_lost", **numbers)]
    return [finding("square_block.coarse", **numbers)] if p["angle"] > r["needed_deg"] else []


KIND = PartKind(
    name="square_block",
    summary="faces at 90 and 90 ± a small angle, for work and blade to the table",
    build=square_block,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={
        "height": (10, 120),
        "base": (30, 200),
        "angle": (0.05, 10),
        "width": (5, 60),
    },
    units={"angle": "deg"},
    resolution=_resolution,
    label_place=lambda p: _place(p["height"], p["base"], p["angle"]),
)
