"""The content of numbers.json: every number, SI-mm, the unit in the key; floats rounded to 6 decimals."""

from __future__ import annotations

from typing import Any

from scarfwright.models.craft import Craft
from scarfwright.models.lengths.slopes import degrees
from scarfwright.models.numbers.accuracy import accuracy_numbers, pair_numbers
from scarfwright.models.numbers.craft import craft_numbers, glue_numbers
from scarfwright.models.numbers.cut import cut_numbers
from scarfwright.models.numbers.dividing import dividing_numbers
from scarfwright.models.parts.kind import PartKind
from scarfwright.models.sled.sled import longest_from_plank
from scarfwright.models.workup import Workup

FORMAT = 1


def numbers(work: Workup, plan: dict[str, Any] | None = None) -> dict[str, Any]:
    """All numbers of a job as plain data, in the order of the file contract; null where one does not apply.

    plan: which board goes where, where that was worked out.
    """
    data = {
        "format": FORMAT,
        "title": work.job.title,
        "units": work.job.units,
        "joint": _joint(work),
        "sled": _sled(work),
        "saw": _saw(work),
        "dividing": None if work.way.dividing is None else dividing_numbers(work.way.dividing),
        **_made(work),
        "plan": plan,
        "findings": [f.as_json() for f in work.findings],
    }
    return {key: rounded(value) for key, value in data.items()}


def _joint(work: Workup) -> dict[str, Any]:
    joint, finished = work.joint, work.job.stock.finished_thickness
    return {
        "ratio": work.job.joint.ratio,
        "ratio_realised": work.way.sled.ratio,
        "angle_deg": degrees(work.way.sled.ratio),
        "thickness_mm": joint.thickness,
        "height_mm": joint.height,
        "tip_mm": joint.tip,
        "taper_run_mm": joint.taper_run,
        "overlap_mm": joint.overlap,
        "finished_run_mm": None if finished is None else joint.finished_run(finished),
        "thickest_finish_mm": joint.thickest_finish,
        "glue_area_mm2": joint.glue_area,
    }


def _sled(work: Workup) -> dict[str, Any]:
    sled, layout, job = work.way.sled, work.way.layout, work.job
    longest = None
    if sled.plank_width is not None:
        longest = longest_from_plank(sled.plank_width, job.joint.ratio, job.saw.kerf, job.sled.nose_min)
    return {
        "made_from": job.sled.made_from,
        "length_mm": sled.length,
        "thickness_mm": sled.thickness,
        "heel_mm": sled.heel,
        "nose_mm": sled.nose,
        "angle_deg": degrees(sled.ratio),
        "mark_mm": sled.mark,
        "plank_width_mm": sled.plank_width,
        "longest_mm": longest,
        "shortest_mm": work.way.shortest,
        "nose_flat_mm": sled.nose_flat,
        "nose_flat_step_mm": sled.flat_step,
        "hand_line_mm": layout.hand_line,
        "handle_holes_mm": [[sled.length - x, y] for x, y in layout.handle_holes],
        "dowels_mm": [[sled.length - x, y] for x, y in layout.dowels],
        "notches": [
            {
                "where": n.where,
                "station_mm": n.station,
                "web_mm": n.web,
                "length_mm": n.length,
                "width_mm": n.width,
                "left_mm": n.left(sled),
            }
            for n in layout.notches
        ],
        "clamps": [
            {
                "where": c.where,
                "station_mm": c.station,
                "opening_mm": c.opening,
                "swallowed_mm": c.swallowed,
                "limit_mm": c.limit,
                "meets": c.meets,
                "limit_pushed_down_mm": c.pushed_down,
                "least_board_mm": c.least_board,
            }
            for c in layout.clamps
        ],
    }


def _saw(work: Workup) -> dict[str, Any]:
    travel, blade = work.way.travel, work.way.blade
    return {
        "fence_mm": work.way.fence,
        "fence_side": work.job.saw.fence_side,
        "blade_height_mm": blade.height,
        "axis_depth_mm": blade.axis_depth,
        "reach_at_table_mm": blade.reach(0.0),
        "reach_at_work_mm": blade.reach(work.joint.height),
        "start_mm": travel.start,
        "exit_mm": travel.exit_x,
        "travel_offcut_free_mm": travel.offcut_free,
        "travel_done_mm": travel.done,
        "travel_clear_mm": travel.clear,
        "travel_end_mm": work.way.travel_end,
        "travel_limit_mm": work.way.travel_limit,
        "board_limit_mm": work.way.board_limit,
        "least_station_mm": work.way.layout.least_station,
        "end_of_cut": work.job.saw.end_of_cut,
        **cut_numbers(work),
    }


def _made(work: Workup) -> dict[str, Any]:
    """Glue-up, parts, accuracy and the rest of the craft; null for a job with faults, of which nothing is made."""
    if work.craft is None or work.outlook is None:
        return dict.fromkeys(("gluing", "parts", "accuracy", "pair", "strength", "planing", "boards", "bending"))
    return {
        "gluing": _gluing(work, work.craft),
        "parts": _parts(work),
        "accuracy": accuracy_numbers(work.outlook, work.joint, halves=work.job.sled.made_from == "plank"),
        "pair": pair_numbers(work.joint, _planed(work), work.job.saw.fence_side),
        **craft_numbers(work.craft),
    }


def _planed(work: Workup) -> float:
    """The thickness the joint is planed to: as asked, at most what takes the tips away [mm]."""
    finished = work.job.stock.finished_thickness
    most = work.joint.thickest_finish
    return most if finished is None else min(float(finished), most)


def _gluing(work: Workup, craft: Craft) -> dict[str, Any]:
    glue = work.glue
    return {
        "clamps": glue.clamp_count,
        "clamp_stations_mm": list(glue.clamps),
        "board_length_mm": glue.board_length,
        "span_mm": glue.span,
        "riser_height_mm": glue.riser_height,
        "risers": [{"place_mm": s.place, "width_mm": s.width, "lip": s.lip} for s in glue.supports],
        **glue_numbers(craft.gluing),
    }


def _parts(work: Workup) -> dict[str, Any]:
    """Parameters and resolution of every gauge and aid that is made."""
    found = {}
    for one in work.wanted:
        kind = one.kind
        if kind.resolution is None or one.left_out:
            continue
        sizes = {_key(kind, name): value for name, value in one.parameters.items()}
        found[kind.name] = {**sizes, **one.reads}
    return found


def _key(kind: PartKind, name: str) -> str:
    """A parameter's key with its unit: mm unless the part says otherwise."""
    unit = kind.units.get(name, "mm") if name in kind.ranges else ""
    return f"{name}_{unit}" if unit else name


def rounded(value: Any) -> Any:
    """Floats to 6 decimals all through plain data, and no negative zero."""
    if isinstance(value, float):
        return round(float(value), 6) + 0.0
    if isinstance(value, dict):
        return {key: rounded(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [rounded(item) for item in value]
    return value
