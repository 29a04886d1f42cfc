"""Share of clear-wood strength that a plain glued scarf keeps, by its slope, and what a flatter one costs.

The table is slopes.csv, a source and a status a row. Straight between its rows, flat above the last (nothing published
shows more for a flatter one), refused below the first. It holds for well made joints in tension and on the tension
side in bending.

Sources: USDA Technical Bulletin 1069 (Freas & Selbo, 1954), the Wood Handbook; only the 12:1 row was read again.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

from scarfwright.models.joint.joint import Joint
from scarfwright.models.quantities.csv_rows import csv_rows

TABLE = Path(__file__).with_name("slopes.csv")


class TooSteepError(ValueError):
    """The slope is steeper than the table's first row: no share is known."""


@dataclass(frozen=True)
class SlopeRow:
    """One row of the table: slope `ratio`:1, share of clear-wood strength, where it stands, how sure that is."""

    ratio: float
    share: float
    source: str
    status: str


@dataclass(frozen=True)
class Step:
    """A slope flatter than the job's: share kept, overlap [mm], how much more length each joint then takes [mm]."""

    ratio: float
    share: float
    overlap: float
    extra: float


def slope_rows() -> tuple[SlopeRow, ...]:
    """The table, steepest first."""
    return tuple(
        SlopeRow(float(row["ratio"]), float(row["share"]), row["source"], row["status"]) for row in csv_rows(TABLE)
    )


def strength_share(ratio: float) -> float:
    """Share of clear-wood strength [0 to 1] at slope `ratio`:1. Raises TooSteepError below the table's first row."""
    rows = slope_rows()
    if not ratio >= rows[0].ratio:  # not-a-number is refused too
        raise TooSteepError(
            f"slope {ratio:g}:1 is steeper than {rows[0].ratio:g}:1, the steepest whose strength is known"
        )
    for low, high in pairwise(rows):
        if ratio <= high.ratio:
            return low.share + (high.share - low.share) * (ratio - low.ratio) / (high.ratio - low.ratio)
    return rows[-1].share


def row_behind(ratio: float) -> SlopeRow:
    """The table's row that a share at this slope leans on: the flatter of its two neighbours, whose status holds."""
    rows = slope_rows()
    return next((row for row in rows if ratio <= row.ratio), rows[-1])


def flatter_steps(joint: Joint) -> tuple[Step, ...]:
    """The table's slopes that are flatter than the joint's, with what each would keep and cost."""
    found = []
    for row in slope_rows():
        if row.ratio > joint.ratio:
            other = replace(joint, ratio=row.ratio)
            other = replace(other, tip=joint.tip * math.cos(joint.angle) / math.cos(other.angle))  # the same fence gap
            found.append(Step(row.ratio, row.share, other.overlap, other.overlap - joint.overlap))
    return tuple(found)


def plane_stress(axial: float, ratio: float) -> tuple[float, float]:
    """Shear along and tension across a glue plane at slope `ratio`:1 for an axial stress, in the unit of `axial`.

    Source: equilibrium; s N / (N^2 + 1) and s / (N^2 + 1).
    """
    below = ratio * ratio + 1
    return axial * ratio / below, axial / below
