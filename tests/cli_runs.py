"""The tool run in fresh processes, as a user meets it, and small jobs to run it on."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

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
    *words: str | Path, cwd: Path, code: str | None = None, env: dict[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """The tool in a fresh process; `code` replaces the plain entry point, `env` adds to the environment."""
    return subprocess.run(
        [sys.executable, "-c", code or ENTRY, *map(str, words)],
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
