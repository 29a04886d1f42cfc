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

    @property
    def step(self) -> float:
        """The finest mark shown [mm]."""
        return rule_step(self.units)

    def apart(self, one: float, other: float) -> tuple[str, str]:
        """Two lengths that are not alike, with as many digits as show it."""
        plain = (self(one), self(other))
        return plain if plain[0] != plain[1] or one == other else (self.fine(one), self.fine(other))


def say_in(units: Unit) -> Say:
    """A Say for the job's units."""
    return Say(units)


def slope(ratio: float) -> str:
    """A slope, always with its angle: "12:1, 4.76°". It stands after the word slope."""
    return f"{steepness(ratio)}, {degrees(ratio):.2f}°"


def steepness(ratio: float) -> str:
    """The slope alone: "12:1", "11.43:1"."""
    return f"{ratio:.2f}".rstrip("0").rstrip(".") + ":1"
