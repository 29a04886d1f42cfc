"""Speed and size of the main job, as ratios measured in one run. Run by hand: python -m tests.benchmarks.bench_main_job

Each figure is the best of several fresh processes, so that a busy machine shows as little as possible.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from scarfwright.models.job.file import read_job
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.solve import work_up
from scarfwright.outputs.make import parts_for

from tests.benchmarks.bench_gauges import BARE, plain, shape_of

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "plank-metric.toml"
RUN = "from scarfwright.cli.entry import run; run()"

# The flat outlines, by the kernel's own writer, after everything the gauges' bare script builds and writes.
BARE_CUT = """
for part in data["cut"]:
    exporters.export(cq.Workplane(build(part)).faces("<Z"), f"{out}/{part['name']}.dxf")
"""

WARM = """
import time
from scarfwright.models.sled.shape import sled
from scarfwright.models.solids.solids import solid
solid(sled())
best = 9.0
for i in range(10):
    began = time.perf_counter()
    solid(sled(length=1500.0 + i + 1))
    best = min(best, time.perf_counter() - began)
print(best)
"""


def best(code: str, *words: str, times: int = 5) -> tuple[float, float]:
    """Best wall time [s] and peak memory [MiB] of fresh processes running `code`."""
    seconds, memory = 1e9, 1e9
    for _ in range(times):
        with tempfile.TemporaryDirectory() as room:
            began = time.perf_counter()
            measured = (
                "import resource, runpy, sys, atexit\\n"
                "atexit.register(lambda: print('peak', resource.getrusage(resource.RUSAGE_SELF).ru_maxrss,"
                " file=sys.stderr))\\n"
            ).replace("\\n", "\n")
            done = subprocess.run(
                [sys.executable, "-c", measured + code, *[w.replace("ROOM", room) for w in words]],
                capture_output=True, text=True, check=True,
            )  # fmt: skip
            seconds = min(seconds, time.perf_counter() - began)
            memory = min(memory, int(done.stderr.split()[-1]) / 1024)
    return seconds, memory


def same_files() -> dict[str, Any]:
    """Every part `make` writes, as plain numbers: the gauges' list, the other solids, and what is cut flat."""
    work = work_up(read_job(EXAMPLE))
    data = plain()
    known = {part["name"] for part in data["cad"]}
    solids = [*parts_for(work, "cad"), *plank_plan(work.way).placed]
    data["cad"] += [shape_of(part) for part in solids if part.name not in known]
    placed = [part for plan in work.sheets for part in plan.placed]
    data["cut"] = [shape_of(part) for part in (*parts_for(work, "cut"), *plank_plan(work.way).placed, *placed)]
    return data


def report(what: str, ours: float, theirs: float, limit: float, unit: str) -> None:
    ratio = ours / theirs
    verdict = "ok" if ratio <= limit else "OVER"
    print(f"{what:<46} {ours:8.3f} {unit} / {theirs:8.3f} {unit} = {ratio:5.2f} (limit {limit}) {verdict}")


def main() -> None:
    base, _ = best("import numpy, pydantic, rich")
    check, _ = best(RUN, "check", str(EXAMPLE))
    report("check over importing numpy, pydantic, rich", check, base, 3.0, "s")
    with tempfile.TemporaryDirectory() as room:
        shapes = Path(room) / "shapes.json"
        shapes.write_text(json.dumps(same_files()))
        bare, _ = best(BARE + BARE_CUT, str(shapes), "ROOM", times=3)
    made, memory = best(RUN, "make", str(EXAMPLE), "--only", "cad,cut,print", "--out", "ROOM/out", times=3)
    report("make cad,cut,print over a bare script", made, bare, 1.3, "s")
    _, kernel = best("import cadquery", times=3)
    report("peak memory over importing cadquery", memory, kernel, 1.3, "MiB")
    warm = float(subprocess.run([sys.executable, "-c", WARM], capture_output=True, text=True, check=True).stdout)
    report("one sled solid again, warm", warm * 1000, 1.0, 60.0, "ms")


if __name__ == "__main__":
    main()
