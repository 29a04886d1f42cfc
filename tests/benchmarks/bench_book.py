"""What the shop book adds to `make`, and how large it is. Run by hand: python -m tests.benchmarks.bench_book.

Times are processor time in a fresh process: the first book of a process loads templates and fonts too, as in `make`.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIMIT_S, LIMIT_BYTES = 0.5, 300_000

CODE = """
import sys, time
from pathlib import Path
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.outputs.make import items
work = work_up(read_job(Path(sys.argv[1])))
leaves = [item.path for item in items(work) if item.path != "index.html"]
began = time.process_time()
from scarfwright.outputs.book.book import book
page = book(work, None, leaves)
first = time.process_time() - began
began = time.process_time()
book(work, None, leaves)
print(first, time.process_time() - began, len(page.encode()))
"""


def main() -> None:
    room = dict(os.environ, PYTHONPATH=str(ROOT / ".typing"))
    for example in sorted((ROOT / "examples").glob("*.toml")):
        runs = []
        for _ in range(3):
            words = [sys.executable, "-c", CODE, str(example)]
            done = subprocess.run(words, capture_output=True, text=True, check=True, env=room)
            runs.append([float(word) for word in done.stdout.split()])
        first, again, size = (min(column) for column in zip(*runs, strict=True))
        verdict = "ok" if first <= LIMIT_S and size <= LIMIT_BYTES else "OVER"
        print(f"{example.stem:<14} first {first:.2f} s (limit {LIMIT_S:g}), again {again:.3f} s, "
              f"{size / 1000:.0f} kB (limit {LIMIT_BYTES / 1000:.0f}) {verdict}")  # fmt: skip


if __name__ == "__main__":
    main()
