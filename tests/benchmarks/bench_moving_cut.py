"""Pictures a second of the moving cut, drawn by software, and what it adds to a page and to the time of making it.

Run by hand, on a machine at rest: python tests/benchmarks/bench_moving_cut.py. Needs Chromium and playwright.
"""

from __future__ import annotations

import json
import statistics
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
WANTED, PICTURES = 30.0, 120  # a second; drawn for each view
MOST_BYTES = 100_000

SCRUB = """(count) => new Promise((done) => {
  const slider = document.querySelector("input[type=range]"), low = Number(slider.min), high = Number(slider.max);
  let drawn = 0;
  const began = performance.now();
  const next = () => {
    slider.value = low + (high - low) * drawn / count;
    slider.dispatchEvent(new Event("input"));
    if (++drawn < count) requestAnimationFrame(next);
    else done(1000 * count / (performance.now() - began));
  };
  requestAnimationFrame(next);
})"""


def main() -> None:
    from playwright.sync_api import sync_playwright
    from scarfwright.models.job.file import read_job
    from scarfwright.models.solve import work_up
    from scarfwright.outputs.moving_cut.piece import piece

    from tests.browser.moving_cut_page import written
    from tests.browser.watching import CHROMIUM, QUIET, SOFTWARE

    with tempfile.TemporaryDirectory() as room, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=str(CHROMIUM), args=[*QUIET, *SOFTWARE])
        for example in sorted((ROOT / "examples").glob("*.toml")):
            work = work_up(read_job(example))
            seconds = []
            for _ in range(5):
                began = time.perf_counter()
                shown = piece(work)
                seconds.append(time.perf_counter() - began)
            size = len(
                (shown.html + shown.script + shown.style + json.dumps(shown.data, separators=(",", ":"))).encode()
            )
            verdict = "ok" if size <= MOST_BYTES else "OVER"
            print(f"{example.stem:<14} {size} bytes {verdict}, made in {statistics.median(seconds):.3f} s")
            page = browser.new_page(viewport={"width": 800, "height": 450}, reduced_motion="reduce")
            page.goto(written(shown, Path(room) / "cut.html"))
            for button in page.query_selector_all(".views button"):
                button.click()
                page.evaluate("() => scrollTo(0, 0)")
                page.wait_for_timeout(300)
                found = page.evaluate(SCRUB, PICTURES)
                verdict = "ok" if found >= WANTED else "SLOW"
                print(f"    {button.inner_text():<16} {found:5.1f} pictures a second {verdict}")
            page.close()
        browser.close()


if __name__ == "__main__":
    main()
