"""The tool run in processes of its own, as a user meets it, and small jobs to run it on."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests import forked

ENTRY = "from scarfwright.cli.entry import run; run()"
TRIALS = Path(__file__).resolve().parent / "trials"
GOOD = """
[stock]
thickness = "22 mm"
height = "60 mm"
[joint]
ratio = 12
[clamp]
opening = "80 mm"
"""


def run(
    *words: str | Path, cwd: Path, code: str | None = None, env: dict[str, str] | None = None, first: str = ""
) -> subprocess.CompletedProcess[str]:
    """The tool in a process of its own; `code` replaces the plain entry point, `first` goes before it, `env` adds to
    the environment.
    """
    if forked.CAN and not code and not any(name.startswith("PYTHON") for name in env or ()):
        return forked.run(tuple(map(str, words)), cwd, {**os.environ, "COLUMNS": "80", **(env or {})}, first)
    return subprocess.run(
        [sys.executable, "-c", code or f"{first}\n{ENTRY}", *map(str, words)],
        cwd=cwd,
        env={**os.environ, "COLUMNS": "80", **(env or {})},
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="surrogateescape",
        timeout=300,
    )


def write(folder: Path, text: str, name: str = "job.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path
