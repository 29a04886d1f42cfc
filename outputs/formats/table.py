"""Writers by suffix: the one table in which a format is found. Their rooms are imported only when used."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from typing import Any

WRITERS = {
    ".step": "scarfwright.outputs.formats.step:write_step",
    ".stl": "scarfwright.outputs.formats.mesh:write_stl",
    ".3mf": "scarfwright.outputs.formats.mesh:write_3mf",
    ".glb": "scarfwright.outputs.formats.glb:write_glb",
    ".dxf": "scarfwright.outputs.formats.dxf:write_dxf",
    ".svg": "scarfwright.outputs.formats.svg:save_svg",
    ".pdf": "scarfwright.outputs.formats.pdf:save_pdf",
    ".json": "scarfwright.outputs.formats.text:write_json",
    ".html": "scarfwright.outputs.formats.text:write_text",
    ".txt": "scarfwright.outputs.formats.text:write_text",
    ".csv": "scarfwright.outputs.formats.text:write_text",
    ".toml": "scarfwright.outputs.formats.text:write_text",
}


def write(thing: Any, path: Path, **options: Any) -> None:
    """Write a finished object to `path` with the writer of its suffix. Raises ValueError for an unknown suffix."""
    target = WRITERS.get(path.suffix)
    if target is None:
        raise ValueError(f'no writer for "{path.suffix}"; known are {", ".join(WRITERS)}')
    module, _, function = target.partition(":")
    getattr(import_module(module), function)(thing, path, **options)
