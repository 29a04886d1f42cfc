"""Speed of the cut files, as ratios measured in one run. Run by hand: python tests/benchmarks/bench_cut.py

Each figure is the best of several fresh processes, so that a busy machine shows as little as possible.
"""

from __future__ import annotations

import math
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SHEET, SPACING = (2440.0, 1220.0), 12.0

WRITE = """
import sys
from pathlib import Path
from scarfwright.models.job.file import read_job
from scarfwright.models.solve import work_up
from scarfwright.outputs.make import items, make_all
make_all(items(work_up(read_job(Path(sys.argv[1]))), ["cut"]), Path(sys.argv[2]), lambda name: None)
heavy = {"cadquery", "OCP", "trimesh", "matplotlib", "shapely", "scipy", "vtk"} & set(sys.modules)
assert not heavy, heavy
"""


def best(code: str, *words: str, times: int = 7) -> float:
    """Best wall time [s] of fresh processes running `code`."""
    seconds = 1e9
    for _ in range(times):
        with tempfile.TemporaryDirectory() as room:
            began = time.perf_counter()
            subprocess.run([sys.executable, "-c", code, *[w.replace("ROOM", room) for w in words]], check=True)
            seconds = min(seconds, time.perf_counter() - began)
    return seconds


def writing() -> None:
    base = best("import ezdxf")
    for example in sorted((ROOT / "examples").glob("*.toml")):
        ours = best(WRITE, str(example), "ROOM")
        verdict = "ok" if ours <= 4 * base else "OVER"
        told = f"{ours:6.3f} s / import ezdxf {base:6.3f} s = {ours / base:5.2f} (limit 4)"
        print(f"all DXF of {example.stem:<14} {told} {verdict}")


def nesting() -> None:
    from scarfwright.models.flat.loop import polygon, rectangle
    from scarfwright.models.part.part import Part
    from scarfwright.models.sheets.nesting import bundles_of, nest
    from scarfwright.models.sheets.pieces import FlatPart

    for seed in range(5):
        pick = random.Random(seed)
        outlines = [rectangle(0, 0, pick.uniform(60, 1500), pick.uniform(40, 320)) for _ in range(50)]
        pieces = [FlatPart(Part(f"board{i}", "", o, 18.0), 1, False, False) for i, o in enumerate(outlines)]
        for i in range(5):
            length, heel = pick.uniform(700, 1600), pick.uniform(110, 220)
            sled = polygon([(0, 0), (length, 0), (length, heel), (0, 28)])
            pieces.append(FlatPart(Part(f"sled{i}", "", sled, 18.0), 2, True, False))
        began = time.perf_counter()
        sheets = nest([b for p in pieces for b in bundles_of(p, SPACING, "x")], *SHEET, SPACING)
        seconds = time.perf_counter() - began
        need = 0.0
        for piece in pieces:
            left, low, right, high = piece.part.outline.bounds
            need += piece.count * (right - left + SPACING) * (high - low + SPACING)
        bound = math.ceil(need / (SHEET[0] * SHEET[1]))
        filled = [f"{sum(p.area for p in s) / (SHEET[0] * SHEET[1]):.0%}" for s in sheets]
        verdict = "ok" if len(sheets) <= bound + 1 and seconds <= 10 else "OVER"
        print(f"60 pieces: {len(sheets)} sheets, bound {bound}, filled {' '.join(filled)}, {seconds:.2f} s {verdict}")


if __name__ == "__main__":
    writing()
    nesting()
