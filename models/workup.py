"""A job worked out: its numbers, the parts it asks for, and every finding about them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from scarfwright.models.accuracy.outlook import Outlook
from scarfwright.models.craft import Craft
from scarfwright.models.findings import Finding, Level
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.sheets.layout import SheetPlan, sheet_plans
from scarfwright.models.sheets.pieces import FlatPart
from scarfwright.models.wanted.flat import flat_pieces
from scarfwright.models.wanted.wanted import Wanted


@dataclass(frozen=True)
class Workup(Groundwork):
    """Groundwork, with what was found about it and the parts that are wanted and the craft after
    the saw (none where the job has a fault)."""

    findings: tuple[Finding, ...]
    wanted: tuple[Wanted, ...] = ()
    craft: Craft | None = None
    outlook: Outlook | None = None

    @cached_property
    def sheets(self) -> tuple[SheetPlan, ...]:
        """What the router cuts, laid out once; nothing where the sheets have a fault."""
        if any(found.part == "sheets" and found.level is Level.FAULT for found in self.findings):
            return ()
        return tuple(sheet_plans(self.flat_pieces, self.job))

    @cached_property
    def flat_pieces(self) -> tuple[FlatPart, ...]:
        """The flat parts in nominal size, drawn once."""
        return tuple(flat_pieces(self.wanted))
