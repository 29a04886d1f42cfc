"""For pytest in the mutation room: what tests keep in a cache was worked out before anything was broken; forget it."""

from __future__ import annotations

import sys


def pytest_sessionstart() -> None:
    """All mutants are tried in copies of one process, in which every test has already passed once."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("tests.", "scarfwright.models.")):
            for kept in list(vars(module).values()):
                forget = getattr(kept, "cache_clear", None)
                if callable(forget):
                    forget()
