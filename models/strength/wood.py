"""Kinds of wood: average strength and stiffness of clear wood at 12 % moisture, a source and a status a row.

Averages of small clear specimens, not design values. The table is species.csv, from the Wood Handbook (FPL-GTR-190,
Tables 5-3 and 5-5; FPL-GTR-282 has the same) where the row does not say otherwise.
Scatter: coefficients of variation of ASTM D2555, rupture 16 %, modulus 22 %, shear 14 %.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from scarfwright.models.quantities.csv_rows import csv_rows, number

TABLE = Path(__file__).with_name("species.csv")
SCATTER_RUPTURE = 0.16  # ASTM D2555, coefficient of variation
SCATTER_MODULUS = 0.22  # ASTM D2555


@dataclass(frozen=True)
class Wood:
    """A wood in numbers [MPa]. `kind` is None where the user's own values say nothing of it."""

    name: str
    rupture: float
    modulus: float
    compression: float | None = None
    shear: float | None = None
    specific_gravity: float | None = None
    kind: Literal["softwood", "hardwood"] | None = None
    source: str = "your own values"
    status: str = "as given in the job"
    also: tuple[str, ...] = ()


def species() -> tuple[Wood, ...]:
    """Every wood of the table, in its order."""
    return tuple(
        Wood(
            name=row["name"],
            rupture=float(row["rupture_mpa"]),
            modulus=float(row["modulus_mpa"]),
            compression=number(row["compression_mpa"]),
            shear=number(row["shear_mpa"]),
            specific_gravity=number(row["specific_gravity"]),
            kind="hardwood" if row["wood"] == "hardwood" else "softwood",
            source=row["source"],
            status=row["status"],
            also=tuple(name for name in row["also"].split(";") if name),
        )
        for row in csv_rows(TABLE)
    )


def find_species(name: str) -> Wood | None:
    """The wood of this name; case, hyphens, commas and the order of words do not count. None if it is not listed."""
    wanted = _words(name)
    for wood in species():
        if any(_words(known) == wanted for known in (wood.name, *wood.also)):
            return wood
    return None


def nearest_species(name: str, most: int = 3) -> list[str]:
    """Names in the table that are like this one: those that share a word first, then those spelled alike."""
    wanted = _words(name)
    names = [wood.name for wood in species()]
    sharing = sorted((n for n in names if wanted & _words(n)), key=lambda n: -len(wanted & _words(n)))
    plain = {" ".join(sorted(_words(known))): wood.name for wood in species() for known in (wood.name, *wood.also)}
    alike = [plain[close] for close in difflib.get_close_matches(" ".join(sorted(wanted)), plain, most, 0.6)]
    return list(dict.fromkeys([*alike, *sharing]))[:most]


def wood_of(name: str, modulus: float | None = None, rupture: float | None = None) -> Wood | None:
    """The wood a job is made of; own values [MPa] go before the table's. None if the table does not know it and
    not both values are given."""
    known = find_species(name)
    if known is None:
        return None if modulus is None or rupture is None else Wood(name or "your wood", rupture, modulus)
    if modulus is None and rupture is None:
        return known
    return Wood(
        known.name,
        known.rupture if rupture is None else rupture,
        known.modulus if modulus is None else modulus,
        known.compression,
        known.shear,
        known.specific_gravity,
        known.kind,
        f"{Wood.source}; else {known.source}",
        f"{Wood.status}; else {known.status}",
        known.also,
    )


def _words(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W_]+", name.casefold()))
