"""One browser for all browser tests of a run: Debian's chromium, drawn by software, the network off.

`open_page(target, width, height, ...)` gives a `Watched` page; `open_without_webgl` the same where nothing draws in 3D.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.browser.watching import CHROMIUM, QUIET, SOFTWARE, WITHOUT_WEBGL, Watched, missing, watched

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import Browser, Playwright, sync_playwright

Open = Callable[..., Watched]


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    if not CHROMIUM.exists():
        missing(f"{CHROMIUM} is not there (on Debian: apt install chromium)")
    with sync_playwright() as found:
        yield found


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    found = playwright.chromium.launch(executable_path=str(CHROMIUM), args=[*QUIET, *SOFTWARE])
    yield found
    found.close()


@pytest.fixture(scope="session")
def browser_without_webgl(playwright: Playwright) -> Iterator[Browser]:
    found = playwright.chromium.launch(executable_path=str(CHROMIUM), args=[*QUIET, *SOFTWARE, *WITHOUT_WEBGL])
    yield found
    found.close()


@pytest.fixture
def open_page(browser: Browser) -> Iterator[Open]:
    yield from _opening(browser)


@pytest.fixture
def open_without_webgl(browser_without_webgl: Browser) -> Iterator[Open]:
    yield from _opening(browser_without_webgl)


def _opening(browser: Browser) -> Iterator[Open]:
    opened: list[Watched] = []

    def open_one(target: str, width: int = 360, height: int = 740, **context: object) -> Watched:
        opened.append(watched(browser, target, width, height, **context))
        return opened[-1]

    yield open_one
    for one in opened:
        one.page.context.close()
