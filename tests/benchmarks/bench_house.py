"""Working an example out again, and making one, side by side with another checkout in one run.

Run by hand: python -m tests.benchmarks.bench_house [OTHER_CHECKOUT]. Times are processor time, the best of several.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
LIMIT_MS, LIMIT_MAKE = 15.0, 0.8

# The same job again, and a job whose title and thickness differ each time: no part drawn before serves.
WARM = """
import sys, time
try:
    from scarfwright.models.job.file import job_from_text
except ImportError:
    from scarfwright.models.jobfile import job_from_text
from scarfwright.models.solve import work_up
text = open(sys.argv[1]).read()
same = job_from_text(text)
others = [job_from_text(text.replace('title = "', f'title = "{n} ')) for n in range(12)]
def best(jobs):
    least = 9.0
    for job in jobs:
        began = time.process_time()
        work_up(job)
        least = min(least, time.process_time() - began)
    return least * 1000
work_up(same)
print(best([same] * 12), best(others))
"""
MAKE = """
import sys, time
import cadquery
from pathlib import Path
from scarfwright.cli.making import make_job
began = time.process_time()
make_job(Path(sys.argv[1]), Path(sys.argv[2]), None, False, "0", {})
print("took", time.process_time() - began)
"""


def timed(code: str, checkout: Path, *words: str) -> list[float]:
    """The last figures that a fresh process prints with a checkout's code."""
    room = dict(os.environ, PYTHONPATH=str(checkout / ".typing"))
    done = subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, text=True, check=True, env=room, cwd=checkout
    )
    return [float(word) for word in done.stdout.splitlines()[-1].split() if word != "took"]


def main() -> None:
    others = [Path(word).resolve() for word in sys.argv[1:2]]
    for example in sorted(EXAMPLES.glob("*.toml")):
        for checkout in (ROOT, *others):
            again, changed = timed(WARM, checkout, str(example))
            verdict = "ok" if again <= LIMIT_MS else "OVER"
            where = "here" if checkout == ROOT else "other"
            print(f"{example.stem:<14} {where:<6} work_up again {again:6.1f} ms (limit {LIMIT_MS:g}) {verdict}, "
                  f"another title {changed:6.1f} ms")  # fmt: skip
    example = EXAMPLES / "plank-metric.toml"
    found: dict[Path, float] = {}
    for _ in range(3):
        for checkout in (ROOT, *others):
            with tempfile.TemporaryDirectory() as room:
                (seconds,) = timed(MAKE, checkout, str(example), f"{room}/out")
            found[checkout] = min(found.get(checkout, 1e9), seconds)
    print(f"make {example.stem} without the kernel's import: {found[ROOT]:.2f} s")
    for other in others:
        ratio = found[ROOT] / found[other]
        print(f"  other {found[other]:.2f} s, ratio {ratio:.2f} (limit {LIMIT_MAKE})")


if __name__ == "__main__":
    main()
