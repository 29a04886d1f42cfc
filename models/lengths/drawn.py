"""How lengths and slopes read in drawings and labels: inches with their mark (3/4"), slopes as 12:1."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.lengths.length import Unit, round_to, round_up
from scarfwright.models.lengths.say import Say
from scarfwright.models.lengths.slopes import degrees


def with_mark(text: str) -> str:
    """A length that ends in "in" with the inch mark instead."""
    return f'{text.removesuffix(" in")}"' if text.endswith(" in") else text


@dataclass(frozen=True)
class Drawn(Say):
    """Shows a length in mm in the job's units, as drawings write it.

    `rule`, `rule_up` and `rule_down` are for what somebody sets with a rule: to 1 mm or 1/16 in.
    """

    def __call__(self, mm: float) -> str:
        return with_mark(super().__call__(mm))

    def fine(self, mm: float) -> str:
        return with_mark(super().fine(mm))

    def up(self, mm: float) -> str:
        return with_mark(super().up(mm))

    def down(self, mm: float) -> str:
        return with_mark(super().down(mm))

    @property
    def mark(self) -> float:
        """What a rule shows at a glance [mm]: 1 mm, or 1/16 in."""
        return 1.0 if self.units == "mm" else 25.4 / 16

    def rule(self, mm: float) -> str:
        """To the nearest mark."""
        return self(round_to(mm, self.mark))

    def rule_up(self, mm: float) -> str:
        """To the next mark at or above."""
        return self(round_up(mm, self.mark))

    def rule_down(self, mm: float) -> str:
        """To the next mark at or below."""
        return self(math.floor(mm / self.mark + 1e-9) * self.mark)

    def between(self, least: float, most: float) -> str:
        """What may be anything from `least` to `most`, both on marks inside that range if there are any."""
        low, high = round_up(least, self.mark), math.floor(most / self.mark + 1e-9) * self.mark
        if low > high:
            return f"{self.up(least)} to {self.down(most)}"
        return self(low) if high - low < self.mark / 2 else f"{self(low).removesuffix(' mm')} to {self(high)}"


def drawn_in(units: Unit) -> Drawn:
    """A Drawn for the job's units."""
    return Drawn(units)


def one_to(ratio: float) -> str:
    """The slope alone: "12:1"."""
    return f"{ratio:.2f}".rstrip("0").rstrip(".") + ":1"


def slope_mark(ratio: float) -> str:
    """The slope and its angle, to stand after the word slope: "12:1, 4.76°"."""
    return f"{one_to(ratio)}, {degrees(ratio):.2f}°"
