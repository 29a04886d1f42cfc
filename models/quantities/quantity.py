"""Quantities of a job that are no lengths: pressure, force, spread, time. Read with a unit or bare, kept as written.

Inside they are MPa, N, g/m2 and minutes. Factors: exact by definition (pound, standard gravity), or computed from it.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any

from scarfwright.models.lengths.length import LengthError, shown

POUND_FORCE = 0.45359237 * 9.80665  # N
PSI = POUND_FORCE / 25.4**2  # MPa
SPREAD_POUNDS = 453.59237 / (1000 * 0.3048**2)  # g/m2 of 1 lb per 1000 ft2

_FORM = re.compile(r"^\s*(?P<number>\d+(?:\.\d+)?)\s*(?P<unit>[A-Za-z].*?)?\s*$", re.ASCII)


class Quantity(float):
    """A number in the unit used inside, with the text it was written as."""

    text: str

    def __new__(cls, value: float, text: str) -> Quantity:
        self = super().__new__(cls, value)
        self.text = text
        return self

    def __reduce__(self) -> tuple[Any, tuple[float, str]]:
        return Quantity, (float(self), self.text)


@dataclass(frozen=True)
class Kind:
    """A kind of quantity: its name, the unit inside, what it may be written in (factor to it), its range, an "
    "example."""

    name: str
    unit: str
    units: dict[str, float]
    most: float
    example: str

    @property
    def expected(self) -> str:
        return f"{self.name} from more than 0 to {self.most:g} {self.unit}, such as {self.example}"


STRESS = Kind(
    "a stress",
    "MPa",
    {
        "mpa": 1.0,
        "n/mm2": 1.0,
        "n/mm²": 1.0,
        "gpa": 1000.0,
        "kpa": 0.001,
        "bar": 0.1,
        "psi": PSI,
        "ksi": 1000 * PSI,
        "mpsi": 1e6 * PSI,
    },
    100_000.0,
    '"12 GPa" or "1.5 Mpsi"',
)
PRESSURE = Kind("a pressure", "MPa", STRESS.units, 10.0, '"0.7 MPa" or "100 psi"')
FORCE = Kind(
    "a force",
    "N",
    {"n": 1.0, "kn": 1000.0, "kgf": 9.80665, "kg": 9.80665, "lbf": POUND_FORCE, "lb": POUND_FORCE},
    100_000.0,
    '"800 N" or "180 lb"',
)
SPREAD = Kind(
    "glue for an area, both faces together",
    "g/m2",
    {"g/m2": 1.0, "g/m²": 1.0, "kg/m2": 1000.0, "lb/1000 ft2": SPREAD_POUNDS, "lb/1000ft2": SPREAD_POUNDS},
    2000.0,
    '"250 g/m2" or "60 lb/1000 ft2"',
)
TIME = Kind(
    "a time",
    "min",
    {"min": 1.0, "h": 60.0, "hours": 60.0, "minutes": 1.0, "days": 1440.0},
    30 * 1440.0,
    '"10 min" or "24 h"',
)


def parse_quantity(value: object, kind: Kind) -> Quantity:
    """Read a number with a unit, or a bare number in the unit used inside. Raises LengthError."""
    if isinstance(value, Quantity):
        return value
    if isinstance(value, str):
        match = _FORM.match(value)
        factor = None if match is None else kind.units.get((match["unit"] or kind.unit).casefold())
        if match is None or factor is None:
            raise LengthError(f"found {shown(value)}, expected {kind.expected}")
        number, text = float(match["number"]) * factor, " ".join(value.split())
        if match["unit"] is None:
            text = f"{text} {kind.unit}"
    elif isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value) if abs(value) <= kind.most else math.inf
        text = f"{number:.10g} {kind.unit}"
    else:
        raise LengthError(f"found {shown(value)}, expected {kind.expected}")
    if not (math.isfinite(number) and 0 < number <= kind.most):
        raise LengthError(f"found {shown(value)}, expected {kind.expected}")
    return Quantity(number, text)
