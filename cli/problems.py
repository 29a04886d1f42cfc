"""One message on standard error; light enough to be imported before anything else."""

from __future__ import annotations

import sys


def problem(text: str) -> None:
    """Say what is wrong, on one line."""
    print(f"scarfwright: {text}", file=sys.stderr)
