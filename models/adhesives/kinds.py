"""Kinds of adhesive in numbers: kinds.csv, sources and status a row. The adhesive maker's instructions come first."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from pathlib import Path

from scarfwright.models.quantities.csv_rows import csv_rows

TABLE = Path(__file__).with_name("kinds.csv")
Range = tuple[float, float]


@dataclass(frozen=True)
class AdhesiveKind:
    """One kind. `spread`: both faces together [g/m2]; `softwood`, `hardwood`: pressure [MPa]; `line`: thickness of the
    glue line [mm]; `temperature`: least while it sets [C]; `moisture`: of the wood [%]; `fills`: it bridges gaps and
    needs contact only; `gives_off`: what to guard skin and lungs from, "" for dust and skin alone."""

    name: str
    also: tuple[str, ...]
    spread: Range
    softwood: Range
    hardwood: Range
    line: Range
    temperature: float
    moisture: Range
    fills: bool
    gives_off: str
    source: str
    status: str

    def pressure(self, wood: str | None) -> Range:
        """What it asks for on a "softwood" or "hardwood"; of a wood of unknown kind the least and the most of both."""
        if wood == "softwood":
            return self.softwood
        if wood == "hardwood":
            return self.hardwood
        return (min(self.softwood[0], self.hardwood[0]), max(self.softwood[1], self.hardwood[1]))


def adhesive_kinds() -> tuple[AdhesiveKind, ...]:
    """Every kind of the table."""

    def pair(row: dict[str, str], name: str) -> Range:
        return float(row[f"{name}_low"]), float(row[f"{name}_high"])

    return tuple(
        AdhesiveKind(
            row["kind"],
            tuple(name for name in row["also"].split(";") if name),
            pair(row, "spread"),
            pair(row, "softwood"),
            pair(row, "hardwood"),
            pair(row, "line"),
            float(row["temperature"]),
            pair(row, "moisture"),
            row["fills"] == "yes",
            row["gives_off"],
            row["source"],
            row["status"],
        )
        for row in csv_rows(TABLE)
    )


def find_kind(name: str) -> AdhesiveKind | None:
    """The kind of this name, in any case; None if it is not in the table."""
    wanted = " ".join(name.casefold().split())
    for kind in adhesive_kinds():
        if wanted in (known.casefold() for known in (kind.name, *kind.also)):
            return kind
    return None


def nearest_kinds(name: str) -> list[str]:
    """Kinds spelled like this one, else all."""
    known = {known.casefold(): kind.name for kind in adhesive_kinds() for known in (kind.name, *kind.also)}
    close = difflib.get_close_matches(name.casefold(), known, 3, 0.6)
    return list(dict.fromkeys(known[c] for c in close)) or [kind.name for kind in adhesive_kinds()]
