"""How figures that are no lengths read, in the job's units: loads, stresses, glue, warmth, time, slopes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.lengths.length import Unit, round_to, round_up, show
from scarfwright.models.quantities.quantity import POUND_FORCE, PSI
from scarfwright.models.strength.bend_test import pounds

OUNCE = 28.349523125  # g, exact


def slope_text(ratio: float) -> str:
    """A slope as it is written everywhere: "12:1"."""
    return f"{ratio:.2f}".rstrip("0").rstrip(".") + ":1"


def percent(share: float) -> str:
    """A share as whole percent."""
    return f"{100 * share:.0f} %"


@dataclass(frozen=True)
class Figures:
    """Shows quantities in the job's units: N, MPa, g, degrees C; or lb, psi, oz, degrees F."""

    units: Unit

    @property
    def coarse(self) -> float:
        """What a tape or a folding rule is read to [mm]: 1 mm, or 1/16 in."""
        return 1.0 if self.metric else 25.4 / 16

    def near(self, mm: float) -> str:
        """A length to the nearest coarse mark."""
        return show(round_to(mm, self.coarse), self.units)

    def over(self, mm: float) -> str:
        """A length to the next coarse mark at or above."""
        return show(round_up(mm, self.coarse), self.units)

    @property
    def metric(self) -> bool:
        return self.units == "mm"

    def force(self, newtons: float) -> str:
        if self.metric:
            return f"{two_figures(newtons)} N"
        return f"{two_figures(newtons / POUND_FORCE)} lb"

    def force_up(self, newtons: float) -> str:
        """The next figure at or above that reads well."""
        unit, factor = ("N", 1.0) if self.metric else ("lb", POUND_FORCE)
        return f"{two_figures(newtons / factor, 1)} {unit}"

    def force_down(self, newtons: float) -> str:
        """The next figure at or below that reads well."""
        unit, factor = ("N", 1.0) if self.metric else ("lb", POUND_FORCE)
        return f"{two_figures(newtons / factor, -1)} {unit}"

    def stress(self, mpa: float) -> str:
        """MPa to three figures or so; or whole psi, a million of them as such."""
        if self.metric:
            return f"{mpa:.{0 if mpa >= 1000 else 1 if mpa >= 10 else 2}f} MPa"
        if mpa / PSI >= 2e5:
            return f"{mpa / PSI / 1e6:.2f} million psi"
        return f"{round(mpa / PSI, -1 if mpa >= 1 else 0):.0f} psi"

    def stress_range(self, low: float, high: float) -> str:
        """ "0.7 to 1.4 MPa", "up to 0.1 MPa"."""
        if math.isinf(high):
            return f"{self.stress(low)} or more"
        if low <= 0:
            return f"contact, at most {self.stress(high)}"
        return f"{self.stress(low).rsplit(' ', 1)[0]} to {self.stress(high)}"

    def mass_range(self, low: float, high: float) -> str:
        """Glue: grams, or ounces with a decimal."""
        texts = [
            f"{m:.1f}" if self.metric and m < 10 else f"{m:.0f}" if self.metric else f"{m / OUNCE:.1f}"
            for m in (low, high)
        ]
        unit = "g" if self.metric else "oz"
        return f"{texts[0]} {unit}" if texts[0] == texts[1] else f"{texts[0]} to {texts[1]} {unit}"

    def spread_range(self, low: float, high: float) -> str:
        from scarfwright.models.quantities.quantity import SPREAD_POUNDS

        texts = [f"{s if self.metric else s / SPREAD_POUNDS:.0f}" for s in (low, high)]
        unit = "g/m²" if self.metric else "lb per 1000 ft²"
        return f"{texts[0]} {unit}" if texts[0] == texts[1] else f"{texts[0]} to {texts[1]} {unit}"

    def warmth(self, celsius: float) -> str:
        return f"{celsius:.0f} °C" if self.metric else f"{celsius * 9 / 5 + 32:.0f} °F"

    def weight(self, kg: float) -> str:
        """On a scale: kg and lb, both, for a scale may show either."""
        both = (f"{kg:.0f} kg", f"{pounds(kg):.0f} lb")
        return f"{both[0]} ({both[1]})" if self.metric else f"{both[1]} ({both[0]})"


def duration(minutes: float) -> str:
    """ "10 min", "2 h", "1 1/2 h" as "90 min": whole units only."""
    if minutes >= 60 and math.isclose(minutes % 60, 0, abs_tol=1e-9):
        return f"{minutes / 60:.0f} h"
    return f"{minutes:.0f} min"


def two_figures(value: float, way: int = 0) -> str:
    """A positive number to two significant figures: to the nearest, or up (1) or down (-1)."""
    if value <= 0:
        return "0"
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    steps = value / step
    rounded = (math.ceil(steps - 1e-9) if way > 0 else math.floor(steps + 1e-9) if way < 0 else round(steps)) * step
    return f"{rounded:.10g}"
