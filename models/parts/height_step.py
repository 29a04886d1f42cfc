"""The height step: on the saw table, the highest tooth just touches one arm, the work just passes under the other.

  work ___       ___ blade
      |___|_____|___|      undersides at work height and at blade height above the table
          |     |
          |     |
          |_____|          stands on the table

An underside out by `tolerance` and a touch felt to `EYE`: ± 2 sqrt((tolerance^2 + EYE^2) / 3).
"""

from __future__ import annotations

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import Point, polygon
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part import label as labels
from scarfwright.models.part.part import Part, Place
from scarfwright.models.part.reading import EYE, RULE, expanded
from scarfwright.models.part.values import Given, Values
from scarfwright.models.parts.kind import PartKind

COLUMN, ARM, ARM_THICK = 44.0, 30.0, 10.0


def height_step(
    blade_height: float = 66.0,
    work_height: float = 60.0,
    column: float = COLUMN,
    arm: float = ARM,
    arm_thick: float = ARM_THICK,
    width: float = 20.0,
    label: str = "",
) -> Part:
    """Build the step, lying on its side.

    blade_height: table to the underside of the blade's arm [mm]
    work_height: table to the underside of the work's arm [mm]
    column: width of the column between the arms [mm]
    arm: how far each arm reaches out [mm]
    arm_thick: thickness of the arms, up and down [mm]
    width: of the whole, front to back as it stands [mm]
    label: text cut into the column
    """
    part = Part(
        name="height_step",
        title="Height step",
        outline=polygon(_outline(blade_height, work_height, column, arm, arm_thick)),
        thickness=width,
        colour="#b89a6a",
        use="On the table, blade arm over the blade (saw unplugged, blade turned by hand): raise the blade until its "
        "highest tooth touches. Under the other arm the work just passes.",
    )
    part = labels.engraved(part, "BLADE", Place(column + 1.0, blade_height + 1.0, arm - 2.0, arm_thick - 2.0))
    part = labels.engraved(part, "WORK", Place(1.0 - arm, work_height + 1.0, arm - 2.0, arm_thick - 2.0))
    return labels.engraved(part, label, _place(column, min(blade_height, work_height)))


def _outline(blade: float, work: float, column: float, arm: float, thick: float) -> list[Point]:
    """Counter-clockwise from the foot; the column ends level with the higher arm."""
    top = max(blade, work) + thick
    right = [(column, blade), (column + arm, blade), (column + arm, blade + thick), (column, blade + thick)]
    left = [(0.0, work + thick), (-arm, work + thick), (-arm, work), (0.0, work)]
    points = [(0.0, 0.0), (column, 0.0), *right, (column, top), (0.0, top), *left]
    # where an arm ends level with the column the corner between them is not one
    return [p for p in points if not (p[1] == top and p[0] in (0.0, column) and _level(p, blade, work, column, thick))]


def _level(p: Point, blade: float, work: float, column: float, thick: float) -> bool:
    arm_top = (blade if p[0] == column else work) + thick
    return p[1] == arm_top


def _place(column: float, height: float) -> Place:
    return Place(2.0, height / 2 - 4.0, column - 4.0, min(8.0, height - 2.0))


def _from_job(work: Groundwork) -> Given:
    blade, high = work.way.blade.height, float(work.job.stock.height)
    place = _place(COLUMN, min(blade, high))
    return {"blade_height": blade, "work_height": high, "label": labels.job_label(work.job, work.planned, place)}


def _resolution(work: Groundwork, _parameters: Values) -> dict[str, float]:
    return {
        "resolution_mm": expanded((1.0, float(work.job.printer.tolerance)), (1.0, EYE)),
        "needed_mm": float(work.job.saw.blade_above_work) / 2,
        "by_rule_mm": expanded((1.0, RULE)),
    }


def _check(work: Groundwork | None, p: Values) -> list[Finding]:
    if work is None:
        return []
    r = _resolution(work, p)
    return [finding("height_step.coarse", **r)] if r["resolution_mm"] > r["needed_mm"] else []


KIND = PartKind(
    name="height_step",
    summary="step a tooth touches at blade height; its other arm is at work height",
    build=height_step,
    from_job=_from_job,
    goes_to=frozenset({"cad", "print"}),
    check=_check,
    ranges={
        "blade_height": (5, 250),
        "work_height": (5, 250),
        "column": (10, 100),
        "arm": (5, 60),
        "arm_thick": (3, 30),
        "width": (5, 60),
    },
    resolution=_resolution,
    label_place=lambda p: _place(p["column"], min(p["blade_height"], p["work_height"])),
)
