"""What the joint's sheets are drawn from; made from the job once, so that the drawing knows no job."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import Unit
from scarfwright.models.pair.turns import Side
from scarfwright.outputs.drawing.panels import Cell

Cells = Callable[[str, str, int, int], Sequence[Cell]]  # what, scale, number and count of the sheet


@dataclass(frozen=True)
class JointData:
    """A joint as it will be cut [mm], what it is planed to (None: not given), and how the sheet is to look.

    paper: width and height [mm]; cells: makes the title block of one sheet; first, count: numbering of the sheets.
    """

    joint: Joint
    finished: float | None
    units: Unit
    fence_side: Side
    title: str
    paper: tuple[float, float]
    cells: Cells

    @property
    def planed(self) -> float:
        """The thickness drawn as planed: what was asked for, or the most that still planes the tips away."""
        return self.joint.thickest_finish if self.finished is None else self.finished
