"""The packaged examples: all of them, and the three that every file is looked into of (each costs seconds)."""

from __future__ import annotations

from pathlib import Path

import pytest

FOLDER = Path(__file__).resolve().parent.parent / "examples"
EVERY_EXAMPLE = sorted(FOLDER.glob("*.toml"))
LOOKED_INTO = [FOLDER / f"{name}.toml" for name in ("plank-inch", "plank-metric", "sheet-layers")]
SLOWLY_ALL = [
    *LOOKED_INTO,
    *(pytest.param(path, marks=pytest.mark.slow) for path in EVERY_EXAMPLE if path not in LOOKED_INTO),
]
