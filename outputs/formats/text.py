"""Plain text and JSON files: UTF-8, line feeds, the same everywhere."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any


def as_json(data: Any) -> str:
    """JSON text as it is written and printed; not-a-number is refused, as JSON has none."""
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def write_json(data: Any, path: Path) -> None:
    write_text(as_json(data), path)


def write_text(text: str, path: Path) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
