"""Options of the test run."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

import pytest
from hypothesis import Phase, settings

BROWSER = Path(__file__).parent / "browser"
MEASURED = Path("mutmut-stats.json")  # how long each test took on the unbroken code, where a broken one is tried

# properties: few and always the same examples in the fast run, more and new ones each time in the slow one;
# no time limit for one example, as a busy machine would trip it
settings.register_profile("fast", max_examples=30, derandomize=True, deadline=None)
settings.register_profile("slow", max_examples=200, deadline=None)
# where the code is broken on purpose it is enough to know that a test fails, not on which smallest case
settings.register_profile(
    "broken", max_examples=40, derandomize=True, deadline=None, database=None, phases=[Phase.explicit, Phase.generate]
)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--slow", action="store_true", help="run the full property runs too (thousands of jobs)")
    parser.addoption("--browser", action="store_true", help="run the tests that drive a browser too (tests/browser)")


def pytest_configure(config: pytest.Config) -> None:
    fast = "fast"
    if os.environ.get("MUTANT_UNDER_TEST"):
        fast = "broken"
        _forget_all()
    settings.load_profile("slow" if config.getoption("--slow") else fast)


def pytest_runtest_setup() -> None:
    """Where it is found out which test reaches what, each works out everything itself."""
    if os.environ.get("MUTANT_UNDER_TEST") == "stats":
        _forget_all()


def _forget_all() -> None:
    """Drop what was kept from the run before the code was broken: each broken run is forked from that one."""
    for name, module in list(sys.modules.items()):
        if name.partition(".")[0] in ("tests", "scarfwright"):
            for kept in list(vars(module).values()):
                if hasattr(kept, "cache_clear"):
                    kept.cache_clear()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Slow tests, and those that need a browser, are left out unless asked for."""

    def asked(item: pytest.Item) -> bool:
        slow = item.get_closest_marker("slow") is not None and not config.getoption("--slow")
        return not slow and (config.getoption("--browser") or BROWSER not in item.path.parents)

    left_out = [item for item in items if not asked(item)]
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if asked(item)]
    if os.environ.get("MUTANT_UNDER_TEST") and MEASURED.exists():
        took = json.loads(MEASURED.read_text(encoding="utf-8"))["duration_by_test"]
        items.sort(key=lambda item: took.get(item.nodeid, 0.0))  # the first to notice ends the run
