"""Tables that ship with the package: one CSV beside the module that reads it, one row a line, sources in columns."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path


@cache
def csv_rows(path: Path) -> tuple[dict[str, str], ...]:
    """The rows of a packaged table by column name; every row has every column. Read once."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = tuple(dict(row) for row in csv.DictReader(file, strict=True))
    if any(None in row or None in row.values() for row in rows):
        raise ValueError(f"{path.name}: a row is longer or shorter than the head")
    return rows


def number(text: str) -> float | None:
    """A cell as a number; None if it is empty."""
    return float(text) if text else None
