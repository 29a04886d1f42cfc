"""What is asked on a terminal about a test joint: one question for each box of the sheet test-joint, by its letters."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from scarfwright.models.lengths.length import show
from scarfwright.models.tuning.corrections import Plan

BOARDS = (1, 2)
INTRO = (
    "Figures of one test joint, by the letters of the sheet test-joint. With or without a unit. Where a figure has "
    'several parts, type ";" between them. Enter alone skips.'
)
ANOTHER = "Another test joint? (y; Enter: no): "
NOTHING = "one figure at least"


@dataclass(frozen=True)
class Question:
    """One figure: its letter, its key in a file of test joints, how it is asked, the names of its parts: of each number
    of them that will do, in the order typed. board: 1 or 2, None for the pair. more: asked until nothing is typed."""

    letter: str
    key: str
    name: str
    parts: tuple[tuple[str, ...], ...]
    forms: str
    board: int | None = None
    more: bool = False

    @property
    def text(self) -> str:
        of = "" if self.board is None else f", board {self.board}"
        again = "each mark, then Enter" if self.more else "Enter to skip"
        return f"{self.letter} {self.name}{of} ({self.forms}; {again}): "

    def value(self, typed: list[str]) -> Any:
        """What was typed as the file would have it; None where it has too many parts or too few."""
        names = next((names for names in self.parts if len(names) == len(typed)), None)
        if names is None:
            return None
        if self.board is None:
            return typed if len(self.parts) > 1 else typed[0]
        return {**dict(zip(names, typed, strict=True)), "piece": self.board}


ALONE = (("value",),)
EDGES = (("value",), ("top", "bottom"))
MARK = (("at", "thickness"), ("at", "top", "bottom"))
LINE = (("value",), ("value", "nearer"))
STICKS = (("difference", "length"), ("difference", "length", "hand"))


def questions(plan: Plan) -> tuple[Question, ...]:
    """Every figure in the order of the sheet, with examples near what is planned, in the job's units."""
    run = (plan.thickness - plan.tip) / plan.slope

    def near(mm: float) -> str:
        return f"a figure like {show(mm, plan.units)}"

    edges = "or both edges: upper; lower"
    mark = "distance from the tip; thickness there, or distance; upper; lower edge"
    line = "out by; top or bottom, the end nearer the tip"
    sticks = "ends differ by; sticks' length; far end up or down"
    boards = [
        one
        for board in BOARDS
        for one in (
            Question("A", "board_thickness", "board thickness", EDGES, f"{near(plan.thickness)}, {edges}", board),
            Question("B", "tip", "tip thickness", EDGES, f"{near(plan.tip)}, {edges}", board),
            Question("C", "taper_run", "taper run", EDGES, f"{near(run)}, {edges}", board),
            Question("D, E", "thickness_at", "thickness at a mark", MARK, mark, board, more=True),
            Question("F", "line_skew", "line where the taper ends", LINE, line, board),
        )
    ]
    return (
        *boards,
        Question("G", "gap_top", "gap, upper edge", ALONE, near(0.0)),
        Question("H", "gap_bottom", "gap, lower edge", ALONE, near(0.0)),
        Question("I", "twist", "twist", STICKS, sticks),
        Question("J", "tip_to_tip", "tip to tip", ALONE, near((plan.thickness - 2 * plan.tip) / plan.slope)),
        Question("K", "joint_thickness", "joint thickness", ALONE, near(plan.thickness)),
    )
