"""Speed of the whole gauge set over a bare script. Run by hand: python tests/benchmarks/bench_gauges.py

Ours: job read, worked out, every printed part built, STEP, STL and 3MF of each, and the plates. Theirs: the same loops,
given as plain numbers, extruded, cut and fused with CadQuery, and written by its own writers. Both with all imports, in
fresh processes, in turn; the best of several runs counts.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from scarfwright.models.flat.loop import Loop
from scarfwright.models.job.file import read_job
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.printing.laying import Laid, filled_beds
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.wanted import wanted

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "plank-metric.toml"
LIMIT = 1.3

OURS = """
import sys
from pathlib import Path
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.wanted import wanted
from scarfwright.outputs.make import items, make_all
work = work_up(read_job(Path(sys.argv[1])))
names = {one.part.name for one in wanted(work) if one.laid}
todo = [i for i in items(work, {"cad", "print"})
        if i.path.startswith("print/") or (i.path.startswith("cad/") and Path(i.path).stem in names)]
make_all(todo, Path(sys.argv[2]), lambda name: None)
"""

BARE = """
import json, math, sys
import cadquery as cq
from cadquery import exporters
data, out = json.load(open(sys.argv[1])), sys.argv[2]
def wire(loop):
    edges = []
    for kind, *points in loop:
        points = [cq.Vector(*p) for p in points]
        edges.append(cq.Edge.makeLine(*points) if kind == "line" else cq.Edge.makeThreePointArc(*points))
    return cq.Wire.assembleEdges(edges)
def prism(shape, low, high):
    outer, *inner = [wire(loop) for loop in shape]
    return cq.Solid.extrudeLinear(outer, inner, cq.Vector(0, 0, high - low)).translate(cq.Vector(0, 0, low))
def build(part):
    body = prism(part["plate"], 0, part["thickness"])
    tools = [prism(shape, part["thickness"] - depth, part["thickness"] + 1) for shape, depth in part["pockets"]]
    if tools:
        body = body.cut(*tools)
    if part["raised"]:
        body = body.fuse(*[prism(*r) for r in part["raised"]]).clean()
    return body
for part in data["cad"]:
    cq.Assembly(build(part), name=part["name"]).export(f"{out}/{part['name']}.step")
flat = {}
for part in data["print"]:
    body = flat[part["name"]] = build(part)
    for suffix in (".stl", ".3mf"):
        exporters.export(cq.Workplane(body), f"{out}/{part['name']}{suffix}", tolerance=0.01, angularTolerance=0.4)
for name, spots in data["plates"].items():
    bodies = [flat[n].rotate((0, 0, 0), (0, 0, 1), turn).translate((x, y, 0)) for n, turn, x, y in spots]
    exporters.export(cq.Workplane(cq.Compound.makeCompound(bodies)), f"{out}/{name}.3mf",
                     tolerance=0.01, angularTolerance=0.4)
"""


def loop_of(loop: Loop) -> list[Any]:
    return [
        ["line", [*e.start, 0], [*e.end, 0]] if e.bulge == 0 else ["arc", [*e.start, 0], [*e.middle, 0], [*e.end, 0]]
        for e in loop.edges()
    ]


def shape_of(part: Part) -> dict[str, Any]:
    """The part as plain numbers."""
    through = [f.loop for f in part.features if f.through]
    pockets = [f for f in part.features if f.depth is not None and f.operation is not Operation.SCORE]
    return {
        "name": part.name,
        "thickness": part.thickness,
        "plate": [loop_of(loop) for loop in (part.outline, *through)],
        "pockets": [([loop_of(loop) for loop in (f.loop, *f.islands)], f.depth) for f in pockets],
        "raised": [([loop_of(r.loop)], r.bottom, r.top) for r in part.raised],
    }


def spot(laid: Laid) -> list[Any]:
    name = laid.name.rpartition("_")[0] if laid.name.rpartition("_")[2].isdigit() else laid.name
    return [name, laid.angle * 57.29577951308232, *laid.shift]


def plain() -> dict[str, Any]:
    work = work_up(read_job(EXAMPLE))
    made = [one for one in wanted(work) if one.laid]
    lying = [(laid, one.count) for one in made for laid in one.laid]
    return {
        "cad": [shape_of(one.part) for one in made if one.part is not None],
        "print": [shape_of(laid.part) for laid, _ in lying],
        "plates": {p.name: [spot(laid) for laid in p.laid] for p in filled_beds(lying, work.job.printer)},
    }


def seconds(code: str, source: Path) -> float:
    with tempfile.TemporaryDirectory() as room:
        began = time.perf_counter()
        subprocess.run([sys.executable, "-c", code, str(source), room], check=True, capture_output=True)
        return time.perf_counter() - began


def main(times: int = 5) -> None:
    with tempfile.TemporaryDirectory() as room:
        numbers = Path(room) / "loops.json"
        numbers.write_text(json.dumps(plain()))
        runs = [(seconds(OURS, EXAMPLE), seconds(BARE, numbers)) for _ in range(times)]
    ours, theirs = (min(column) for column in zip(*runs, strict=True))
    verdict = "ok" if ours <= LIMIT * theirs else "OVER"
    print(f"whole gauge set: {ours:.2f} s / bare {theirs:.2f} s = {ours / theirs:.2f} (limit {LIMIT}) {verdict}")


if __name__ == "__main__":
    main()
