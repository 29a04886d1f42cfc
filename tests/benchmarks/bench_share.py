"""What passing a job on costs beyond making it, and checking a zip beyond checking its job.

Run by hand: python -m tests.benchmarks.bench_share. Processor time, the best of several, taken in turn in one run.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "plank-metric.toml"
LIMIT_SHARE, LIMIT_CHECK = 0.3, 0.2  # s

TIMED = """
import sys, time, atexit
sys.argv = ["scarfwright", *sys.argv[1:]]
atexit.register(lambda: print("took", time.process_time(), file=sys.stderr))
from scarfwright.cli.entry import run
run()
"""


def took(*words: str | Path) -> float:
    """Processor time of the tool in a fresh process, its start included [s]."""
    done = subprocess.run([sys.executable, "-c", TIMED, *map(str, words)], capture_output=True, text=True, check=True)
    return float(done.stderr.splitlines()[-1].split()[1])


def main() -> None:
    with tempfile.TemporaryDirectory() as place:
        room = Path(place)
        zipped = room / "job.zip"
        make: list[float] = []
        share: list[float] = []
        check: list[float] = []
        check_zip: list[float] = []
        for _ in range(3):
            make.append(took("make", EXAMPLE, "--out", room / "out"))
            share.append(took("share", EXAMPLE, "--out", zipped, "--force"))
        for _ in range(7):
            check.append(took("check", EXAMPLE))
            check_zip.append(took("check", zipped))
    more = min(share) - min(make)
    said = _verdict(more, LIMIT_SHARE)
    print(f"make {min(make):.2f} s, share {min(share):.2f} s: {more:+.2f} s (limit {LIMIT_SHARE}) {said}")
    more = min(check_zip) - min(check)
    said = _verdict(more, LIMIT_CHECK)
    print(f"check {min(check):.2f} s, of its zip {min(check_zip):.2f} s: {more:+.2f} s (limit {LIMIT_CHECK}) {said}")


def _verdict(more: float, limit: float) -> str:
    return "ok" if more <= limit else "OVER"


if __name__ == "__main__":
    main()
