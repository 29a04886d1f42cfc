"""The list of packages in pyproject.toml against the tree: a folder left off is missing from the wheel."""

from __future__ import annotations

import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def test_every_package_folder_is_listed() -> None:
    listed = set(tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["setuptools"]["packages"])
    found = {
        "scarfwright." + ".".join(init.parent.relative_to(ROOT).parts)
        for top in ("models", "cli", "outputs", "examples")
        for init in (ROOT / top).rglob("__init__.py")
    }
    assert found == listed
