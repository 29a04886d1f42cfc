"""What the sheet to measure on is drawn from."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import Unit
from scarfwright.outputs.joint_sheet.data import Cells


@dataclass(frozen=True)
class TestJointData:
    """The joint as planned [mm], the unit figures are shown in, a title, the paper [mm] and the title block's maker."""

    __test__ = False  # no test of ours, whatever the name says

    joint: Joint
    units: Unit
    title: str
    paper: tuple[float, float]
    cells: Cells
