"""The packaged examples: all of them, and the three that every file is looked into of (each costs seconds); sheets."""

from __future__ import annotations

from pathlib import Path

import pytest
from scarfwright.models.workup import Workup
from scarfwright.outputs.drawing.display import Sheet
from scarfwright.outputs.shop_drawings.sled_sheet import sled_drawings

FOLDER = Path(__file__).resolve().parent.parent / "examples"
EVERY_EXAMPLE = sorted(FOLDER.glob("*.toml"))
LOOKED_INTO = [FOLDER / f"{name}.toml" for name in ("plank-inch", "plank-metric", "sheet-layers")]
SLOWLY_ALL = [
    *LOOKED_INTO,
    *(pytest.param(path, marks=pytest.mark.slow) for path in EVERY_EXAMPLE if path not in LOOKED_INTO),
]


def sled_sheets(work: Workup) -> list[Sheet]:
    """The sheets of the sled's drawing, in order."""
    return list(sled_drawings(work).values())
