"""How numbers read in sentences, in the job's units."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.lengths.length import Unit, round_up, rule_step, show
from scarfwright.models.lengths.slopes import degrees


@dataclass(frozen=True)
class Say:
    """Shows a length in mm in the job's units.

    `up` and `down` are for what must be at least or at most so much: who sets the shown figure is on the safe side.
    """

    units: Unit

    def __call__(self, mm: float) -> str:
        return show(mm, self.units)

    def fine(self, mm: float) -> str:
        """For what no rule shows: to 0.001 mm or 0.001 in."""
        return show(mm, self.units, places=3, sixtyfourths=False)

    def up(self, mm: float) -> str:
        """The next mark at or above."""
        return show(round_up(mm, rule_step(self.units)), self.units)

    def down(self, mm: float) -> str:
        """The next mark at or below."""
        return show(-round_up(-mm, rule_step(self.units)), self.units)


def say_in(units: Unit) -> Say:
    """A Say for the job's units."""
    return Say(units)


def slope(ratio: float) -> str:
    """A slope in both forms, always: "1 in 12 (4.76 degrees)"."""
    return f"1 in {ratio:.2f}".rstrip("0").rstrip(".") + f" ({degrees(ratio):.2f} degrees)"
