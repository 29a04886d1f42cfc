"""Templates, styles and scripts that lie in this room."""

from __future__ import annotations

from functools import cache
from importlib.resources import files


@cache
def resource(name: str) -> str:
    """One of them by its name."""
    return files("scarfwright.outputs.book").joinpath(name).read_text(encoding="utf-8")
