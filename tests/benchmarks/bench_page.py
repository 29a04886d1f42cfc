"""The page: how long from an edit to its answer, and from starting the command to the first answer.

Run by hand: python -m tests.benchmarks.bench_page [JOB]. Milliseconds as a client on this machine sees them, warm; the
median of fifty edits, each another job. Aims: numbers, findings, sled and moving cut 60 ms; ways out, the rest of the
pieces and the whole sheets 400 ms later; the command listens after 1 s.
"""

from __future__ import annotations

import json
import statistics
import sys
import time
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from scarfwright.models.job.reading.toml_text import read_text

from tests.page.served import JOB, Served, served

EDITS = 50
AT_ONCE_MS, LATER_MS, LISTENS_S = 60.0, 400.0, 1.0


def edited(job: dict[str, Any], number: int) -> dict[str, Any]:
    """Another job each time: no answer is one that was worked out before."""
    return {**job, "title": f"edit {number}", "joint": {"ratio": 10 + number / 20}}


def median_ms(ask: Callable[[int], object]) -> float:
    times = []
    for number in range(EDITS + 5):
        began = time.perf_counter()
        ask(number)
        times.append(1000 * (time.perf_counter() - began))
    return statistics.median(times[5:])


def told(name: str, found: float, aim: float, unit: str) -> None:
    print(f"{name:<44} {found:8.1f} {unit}  (aim {aim:g}){'' if found <= aim else '  OVER'}")


def measure(page: Served, job: dict[str, Any]) -> None:
    page.answer("begin", {})
    sizes = [len(json.dumps(page.answer("work", {"job": job})))]
    at_once = median_ms(lambda n: page.ask("work", {"job": edited(job, n)}))
    told("edit to numbers, findings, sled, moving cut", at_once, AT_ONCE_MS, "ms")
    later = median_ms(lambda n: page.ask("look", {"job": edited(job, n)}))
    told("then ways out and the other pieces", later, LATER_MS, "ms")
    sheets = median_ms(lambda n: page.ask("look", {"job": edited(job, n), "sheets": True}))
    told("the same with whole sheets", sheets, LATER_MS, "ms")
    print(f"an answer is {sizes[0] / 1000:.0f} kB")


def main() -> None:
    job = tomllib.loads(read_text(Path(sys.argv[1]))) if sys.argv[1:] else JOB
    began = time.perf_counter()
    with served() as page:
        told("from the command to the address", time.perf_counter() - began, LISTENS_S, "s ")
        began = time.perf_counter()
        page.ask("begin", {})
        page.ask("work", {"job": job})
        print(f"from the address to the first answer {time.perf_counter() - began:.2f} s")
        measure(page, job)


if __name__ == "__main__":
    main()
