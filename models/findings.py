"""Findings: what is wrong or worth knowing, as data with numbers and a way out.

Every code is entered once in CODES with its level; `finding()` refuses a code that is not there, and a
test asks that every code is raised by some test.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Level(StrEnum):
    """How serious: a fault must not be built or cut so; a caution wants a decision; a note informs."""

    FAULT = "fault"
    CAUTION = "caution"
    NOTE = "note"


# code -> level. Grouped by what has to change.
CODES: dict[str, Level] = {}


def register(codes: dict[str, Level]) -> None:
    """Enter a module's codes. Raises ValueError if one is already taken by another level."""
    for code, level in codes.items():
        if CODES.setdefault(code, level) is not level:
            raise ValueError(f"finding code {code} is registered twice")


@dataclass(frozen=True)
class Finding:
    """One finding. `numbers` keys carry their unit (`needed_mm`); `text` says what, how much, and what to do.

    `part` names the optional part it is about: a fault of that stops the part, not the job.
    """

    code: str
    level: Level
    text: str
    numbers: dict[str, float | str | None]
    part: str = ""

    def as_json(self) -> dict[str, Any]:
        return {
            "code": self.code,
            "level": self.level.value,
            **({"part": self.part} if self.part else {}),
            "text": self.text,
            "numbers": {k: round(v, 6) if isinstance(v, float) else v for k, v in self.numbers.items()},
        }


def finding(code: str, text: str, **numbers: float | str | None) -> Finding:
    """Make a finding of a registered code."""
    return Finding(code, CODES[code], text, {k: _plain(v) for k, v in numbers.items()})


def _plain(value: float | str | None) -> float | str | None:
    """Lengths that remember their text become ordinary numbers."""
    return float(value) if isinstance(value, float) else value


def faults(found: list[Finding]) -> list[Finding]:
    """The findings that stop a build; those about an optional part that is left out don't."""
    return [f for f in found if f.level is Level.FAULT and not f.part]


def worst_first(found: list[Finding]) -> list[Finding]:
    """Faults, then cautions, then notes; the order within a level is kept."""
    order = [Level.FAULT, Level.CAUTION, Level.NOTE]
    return sorted(found, key=lambda f: order.index(f.level))
