"""What can't be used is one message on standard error, and data for those who asked for JSON."""

from __future__ import annotations

import sys
from typing import Any

from scarfwright.cli.terminal import json_out, visible


def problem(text: str) -> None:
    """Say what is wrong, on one line."""
    print(f"scarfwright: {visible(text)}".replace("\n", "\\n"), file=sys.stderr, flush=True)


def refuse(text: str, *, file: str | None = None, key: str | None = None, code: int = 2) -> int:
    """Say what can't be used ("...: found ..., expected ..."); returns the exit code."""
    problem(text)
    if "--json" in sys.argv[1:]:
        found, expected = _parts(text)
        told = {"file": file, "line": None, "key": key, "found": found, "expected": expected, "text": visible(text)}
        as_data([told])
    return code


def as_data(problems: list[dict[str, Any]]) -> None:
    """Print problems as JSON on standard output."""
    json_out({"format": 1, "problems": problems})


def _parts(text: str) -> tuple[str | None, str | None]:
    before, _, after = text.partition("expected ")
    _, has, found = before.rpartition("found ")
    return (visible(found).strip(" ,;") if has else None, visible(after) or None)
