"""Random jobs without faults, and the three files of each that the proof by solids reads.

The ranges are wide: slopes 1 in 8 to 1 in 20, stock 10 to 45 mm, work as high as the blade goes, planks and sheet, both
units, both fence sides, all endings, notches where "auto" puts them and further in, sleds as measured. What has a fault
is thrown away and drawn again, so every seed gives a job that may be cut.
"""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from scarfwright.outputs.make import items, make_all

FILES = ("numbers.json", "job.toml", "cad/sled.step")
MOST_TRIES = 200


class _Draw:
    """Random lengths as a user would write them: mm with a tenth, or inches to 1/64."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)
        self.side = "left" if seed % 2 else "right"  # half of them each
        self.inch = self.random.random() < 0.4

    def value(self, least: float, most: float) -> float:
        mm = self.random.uniform(least, most)
        return max(round(mm / 25.4 * 64), 1) / 64 * 25.4 if self.inch else max(round(mm, 1), 0.1)

    def text(self, mm: float) -> str:
        if not self.inch:
            return f"{round(mm, 1):g} mm"
        count = round(mm / 25.4 * 64)
        whole, rest = divmod(count, 64)
        return f"{whole} {rest}/64 in" if whole and rest else f"{whole} in" if whole or not rest else f"{rest}/64 in"

    def length(self, least: float, most: float) -> str:
        return self.text(self.value(least, most))

    def chance(self, share: float) -> bool:
        return self.random.random() < share


def _raw_job(draw: _Draw) -> dict[str, Any]:
    choice = draw.random.choice
    diameter = draw.value(200, 320)
    depth = diameter * draw.random.uniform(0.24, 0.34)
    above = draw.value(1, 15) if draw.chance(0.9) else 0.0
    height = draw.value(15, max(depth - above - 1, 16))
    thickness = draw.value(10, min(45.0, height))
    kerf = draw.value(1.8, 4.2)
    jaw, pad = draw.value(4, 18), draw.value(12, 50)
    inner = draw.value(4, 18)
    notch_width = inner + draw.value(1, 6)
    sheet = draw.chance(0.35)
    layers = draw.random.randint(1, 4)
    layer, plank = draw.value(9, 24), draw.value(25, 60)
    sled_thickness = layers * layer if sheet else plank
    pad_height = min(draw.value(5, 30), min(height, sled_thickness) - 1)
    sled: dict[str, Any] = {
        "round_marks": choice([0, draw.text(0.5), draw.text(1.0)]),
        "web": draw.length(15, 40),
        "notch_length": draw.text(pad + notch_width + (draw.value(1, 40) if draw.chance(0.7) else 0)),
        "notch_width": draw.text(notch_width),
        "nose_min": draw.length(15, 45),
        "nose_flat": choice(["auto", "auto", 0, draw.text(pad + draw.value(1, 40))]),
    }
    if sheet:
        sled |= {"made_from": "sheet", "sheet_thickness": draw.text(layer), "layers": layers}
    else:
        sled |= {"plank": [draw.text(plank), draw.length(140, 340)]}
    if draw.chance(0.25):
        sled["heel_station"] = draw.length(400, 900)
    if draw.chance(0.2):
        sled["extra_stations"] = [draw.length(450, 1100)]
    saw: dict[str, Any] = {
        "blade_diameter": draw.text(diameter),
        "max_depth": draw.text(depth + 1),
        "blade_above_work": draw.text(above) if above else 0,
        "kerf": draw.text(kerf),
        "plate": draw.text(0.6 * kerf),
        "riving_knife": draw.text(0.8 * kerf),
        "fence_gap": draw.length(0.2, 1.2),
        "fence_side": draw.side,
        "fence_front": draw.length(120, 600),
        "fence_height": draw.length(40, 100),
        "end_of_cut": choice(["hold", "hold", "run_on", "run_on", "draw_back"]),
        "travel_margin": draw.length(1, 100),
        "side_clearance": draw.length(1, 20) if draw.chance(0.85) else 0,
        "clear_gap": draw.length(0.5, 10) if draw.chance(0.85) else 0,
    }
    stock: dict[str, Any] = {"thickness": draw.text(thickness), "height": draw.text(height)}
    if draw.chance(0.6):
        stock["length"] = draw.length(1200, 4000)
    reach = max(height, sled_thickness) - min(height, sled_thickness) + pad_height
    return {
        "units": "in" if draw.inch else "mm",
        "stock": stock,
        "joint": {"ratio": round(draw.random.uniform(8, 20), choice([0, 1]))},
        "saw": saw,
        "clamp": {
            "opening": draw.text(300),
            "throat": draw.text(reach + draw.value(1, 40)),
            "pad_width": draw.text(pad),
            "pad_height": draw.text(pad_height),
            "jaw_outer": draw.text(jaw),
            "jaw_inner": draw.text(inner),
        },
        "sled": sled,
        "files": {"machine": "laser"},  # the cheapest to check; no machine is this proof's subject
    }


def _measured(raw: dict[str, Any], work: Workup, draw: _Draw) -> dict[str, Any]:
    """The same job with the sled as somebody measured it: heel and nose a little off."""
    text = draw.text
    sled = raw["sled"] | {
        "length": text(work.way.sled.length),
        "heel_as_made": text(work.way.sled.heel + draw.random.uniform(-1.5, 1.5)),
        "nose_as_made": text(work.way.sled.nose + draw.random.uniform(-1.5, 1.5)),
        "nose_min": text(10.0),
    }
    return raw | {"sled": sled}


def faultless(seed: int) -> Workup:
    """The job of a seed, worked out. Raises AssertionError if none was found: the ranges need a look."""
    draw = _Draw(seed)
    for _ in range(MOST_TRIES):
        raw = _raw_job(draw)
        work = work_up(job_from_dict(raw))
        if faults(list(work.findings)):
            continue
        if draw.chance(0.15):
            measured = work_up(job_from_dict(_measured(raw, work, draw)))
            if not faults(list(measured.findings)):
                return measured
        return work
    raise AssertionError(f"seed {seed}: no job without faults in {MOST_TRIES}")


def write_job(work: Workup, folder: Path) -> Path:
    """Only what the proof reads, by the tool's own writers."""
    wanted = [item for item in items(work, {"cad"}) if item.path in FILES]
    assert len(wanted) == len(FILES)
    make_all(wanted, folder, lambda _: None)
    return folder


# jobs picked by hand, each for a corner that random jobs reach rarely
PICKED: dict[str, dict[str, Any]] = {
    "worked case": {
        "stock": {"thickness": "22 mm", "height": "60 mm"},
        "joint": {"ratio": 12},
        "saw": {"kerf": "2.5 mm", "plate": "1.8 mm", "riving_knife": "2.2 mm"},
        "clamp": {"opening": "120 mm", "pad_width": "30 mm"},
        "sled": {"plank": ["38 mm", "184 mm"], "length": "1500 mm", "round_marks": 0, "heel_station": "400 mm"},
    },
    "pads ride over a low fence": {
        "stock": {"thickness": "25 mm", "height": "70 mm"},
        "joint": {"ratio": 10},
        "saw": {"fence_height": "40 mm", "fence_side": "left"},
        "clamp": {"opening": "150 mm", "pad_height": "12 mm"},
        "sled": {"made_from": "sheet", "sheet_thickness": "15 mm", "layers": 4, "nose_flat": "40 mm"},
    },
    "blade level with the work, no clearances": {
        "stock": {"thickness": "30 mm", "height": "70 mm"},
        "joint": {"ratio": 8},
        "saw": {"blade_above_work": 0, "side_clearance": 0, "clear_gap": 0, "travel_margin": 0, "end_of_cut": "run_on"},
        "clamp": {"opening": "150 mm", "throat": "90 mm"},
        "sled": {"made_from": "sheet", "sheet_thickness": "18 mm", "layers": 2, "nose_flat": 0},
    },
    "sled higher than the work": {
        "units": "in",
        "stock": {"thickness": "3/4 in", "height": "1 in"},
        "joint": {"ratio": 15.5},
        "saw": {"side_clearance": "3/4 in"},
        "clamp": {"opening": "8 in", "pad_height": "1/4 in"},
        "sled": {"plank": ["2 1/4 in", "9 1/4 in"]},
    },
    "steep, a flat step higher than the jaw": {
        "stock": {"thickness": "20 mm", "height": "45 mm"},
        "joint": {"ratio": 5},
        "saw": {"fence_front": "150 mm"},
        "clamp": {"opening": "150 mm", "jaw": "5 mm"},
        "sled": {"made_from": "sheet", "nose_flat": "60 mm", "nose_min": "40 mm"},
    },
    "short board, held twice behind the taper": {
        "stock": {"thickness": "18 mm", "height": "50 mm", "length": "700 mm"},
        "joint": {"ratio": 12},
        "clamp": {"opening": "150 mm"},
        "sled": {"plank": ["40 mm", "200 mm"], "length": "1200 mm", "extra_stations": ["520 mm"]},
    },
}


def picked(name: str) -> Workup:
    """Raises AssertionError if the job has a fault after all."""
    work = work_up(job_from_dict(PICKED[name] | {"files": {"machine": "laser"}}))
    assert not faults(list(work.findings)), [f.text for f in faults(list(work.findings))]
    return work
