"""Script and style of the moving cut, the same for every job."""

from __future__ import annotations

from importlib.resources import files


def packaged(name: str) -> str:
    """A file of this room: "cut.js", "cut.css"."""
    return files("scarfwright.outputs.moving_cut").joinpath(name).read_text(encoding="utf-8")
