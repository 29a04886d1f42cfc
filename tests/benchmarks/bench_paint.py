"""How soon something is seen: of the book opened from disk, of the page after its address is printed.

Run by hand, on a machine at rest: python -m tests.benchmarks.bench_paint. Medians of seven, in Chromium drawn by
software. Aims: the book 1 s, the page 0.5 s; when its form can be typed into is printed too.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright
from scarfwright.outputs.joint_form.piece import piece as joint_form
from scarfwright.outputs.moving_cut.piece import piece as moving_cut

from tests.book.books import EXAMPLES, page_of, text_of, worked
from tests.browser.watching import CHROMIUM, QUIET, SOFTWARE
from tests.page.served import served

TIMES, BOOK_S, PAGE_S = 7, 1.0, 0.5
PAINTED = "() => performance.getEntriesByName('first-contentful-paint').length"
WHEN = """() => (performance.timeOrigin +
  performance.getEntriesByName('first-contentful-paint')[0].startTime) / 1000"""
FORM = "() => document.querySelectorAll('#fields input').length > 3"


def of_a_book(browser: Browser, address: str, width: int) -> float:
    """First paint after the address is asked for [s]."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto("about:blank")
    page.goto(address, wait_until="commit")
    page.wait_for_function(PAINTED)
    found = page.evaluate("() => performance.getEntriesByName('first-contentful-paint')[0].startTime") / 1000
    page.close()
    return float(found)


def of_a_page(browser: Browser) -> tuple[float, float]:
    """First paint, and the form, after the address is printed [s]."""
    page = browser.new_page(viewport={"width": 1300, "height": 800})
    page.goto("about:blank")
    with served() as one:
        began = time.time()
        page.goto(one.address, wait_until="commit")
        page.wait_for_function(PAINTED)
        painted = page.evaluate(WHEN)
        page.wait_for_function(FORM)
        typed = time.time()
    page.close()
    return painted - began, typed - began


def told(name: str, found: float, aim: float | None = None) -> None:
    verdict = "" if aim is None else f"  (aim {aim:g}){'' if found <= aim else '  OVER'}"
    print(f"{name:<44} {found:6.2f} s{verdict}", flush=True)


def main() -> None:
    with tempfile.TemporaryDirectory() as room, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=str(CHROMIUM), args=[*QUIET, *SOFTWARE])
        for path in EXAMPLES:
            work, planned = worked(text_of(path))
            file = Path(room) / f"{path.stem}.html"
            file.write_text(page_of(work, planned, (moving_cut(work), joint_form(work))), encoding="utf-8")
            for width in (360, 1300):
                seen = [of_a_book(browser, file.as_uri(), width) for _ in range(TIMES)]
                told(f"book of {path.stem}, {width} px", statistics.median(seen), BOOK_S)
        pages = [of_a_page(browser) for _ in range(TIMES)]
        told("page, after the address", statistics.median(one for one, _ in pages), PAGE_S)
        told("page, its form", statistics.median(two for _, two in pages))
        browser.close()


if __name__ == "__main__":
    main()
