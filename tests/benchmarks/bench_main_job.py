"""Speed and size of the main job, as ratios measured in one run. Run by hand: python tests/benchmarks/bench_main_job.py

Each figure is the best of several fresh processes, so that a busy machine shows as little as possible.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "plank-metric.toml"
RUN = "from scarfwright.cli.entry import run; run()"

# What a good engineer would script: the same solids and flat outlines, by the kernel's own writers.
BARE = """
import sys, math, cadquery as cq
from cadquery import exporters
out = sys.argv[1]
L, heel, nose, f, N = 800.0, 124.2, 57.2, 30.0, 11.94
outline = [(0, 0), (f, f / N), (f, 0), (L, 0), (L, heel), (0, nose)]
angle = math.degrees(math.atan(1 / N))
sled = cq.Workplane().polyline(outline).close().extrude(38)
sled = sled.cut(cq.Workplane().center(410, 50).transformed((0, 0, angle)).slot2D(50, 16).extrude(38))
sled = sled.cut(cq.Workplane().pushPoints([(150, 35), (250, 39)]).circle(2.5).extrude(38))
plank = cq.Assembly().add(sled).add(sled.rotate((0, 0, 0), (0, 0, 1), 180).translate((L, 184, 0)))
carrier = cq.Workplane().rect(860, 180).extrude(18)
carrier = carrier.union(cq.Workplane().workplane(offset=18).transformed((0, 0, angle)).rect(800, 40).extrude(18))
carrier = carrier.cut(cq.Workplane().pushPoints([(i * 60.0, 50.0) for i in range(6)]).circle(2.5).extrude(18))
riser = cq.Workplane().rect(60, 40).extrude(37).edges("|Z").fillet(3)
wedge = cq.Workplane().polyline([(0, 0), (60, 0), (60, 8), (0, 3)]).close().extrude(20)
stop = cq.Workplane().rect(80, 24).extrude(30).edges("|Z").fillet(6).pushPoints([(-25, 0), (25, 0)])
stop = stop.circle(2.5).cutThruAll()
parts = {"sled": sled, "carrier": carrier, "riser": riser, "wedge": wedge, "stop": stop}
for name, part in parts.items():
    cq.Assembly(part, name=name).export(f"{out}/{name}.step")
plank.export(f"{out}/plank.step")
for name in ("riser", "wedge", "stop"):
    exporters.export(parts[name], f"{out}/{name}.stl", tolerance=0.01)
    exporters.export(parts[name], f"{out}/{name}.3mf", tolerance=0.01)
for name in ("sled", "carrier"):
    exporters.export(parts[name].faces("<Z"), f"{out}/{name}.dxf")
exporters.export(sled.faces("<Z"), f"{out}/plank.dxf")
"""

WARM = """
import time
from scarfwright.models.parts.sled import sled
from scarfwright.models.solids import solid
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


def report(what: str, ours: float, theirs: float, limit: float, unit: str) -> None:
    ratio = ours / theirs
    verdict = "ok" if ratio <= limit else "OVER"
    print(f"{what:<46} {ours:8.3f} {unit} / {theirs:8.3f} {unit} = {ratio:5.2f} (limit {limit}) {verdict}")


def main() -> None:
    base, _ = best("import numpy, pydantic, rich")
    check, _ = best(RUN, "check", str(EXAMPLE))
    report("check over importing numpy, pydantic, rich", check, base, 3.0, "s")
    bare, _ = best(BARE, "ROOM", times=3)
    made, memory = best(RUN, "make", str(EXAMPLE), "--only", "cad,cut,print", "--out", "ROOM/out", times=3)
    report("make cad,cut,print over a bare script", made, bare, 1.3, "s")
    _, kernel = best("import cadquery", times=3)
    report("peak memory over importing cadquery", memory, kernel, 1.3, "MiB")
    warm = float(subprocess.run([sys.executable, "-c", WARM], capture_output=True, text=True, check=True).stdout)
    report("one sled solid again, warm", warm * 1000, 1.0, 60.0, "ms")


if __name__ == "__main__":
    main()
