"""What numbers.json says of the cut that divides the plank."""

from __future__ import annotations

from typing import Any

from scarfwright.models.flat.loop import Loop
from scarfwright.models.sled.dividing import Dividing
from scarfwright.models.sled.rail import Rail
from scarfwright.models.sled.screws import ScrewLength


def dividing_numbers(cut: Dividing) -> dict[str, Any]:
    """The table dividing: the carrier's frame is x along the feed from its trailing end, y from its fence edge."""
    return {
        "carrier_length_mm": cut.carrier_length,
        "carrier_width_mm": cut.carrier_width,
        "carrier_thickness_mm": cut.carrier_thickness,
        "fence_mm": cut.fence,
        "fence_to_plate_mm": cut.fence_to_plate,
        "blade_height_mm": cut.blade_height,
        "screws_mm": [list(p) for p in cut.screws],
        "screws_on_plank_mm": [list(p) for p in cut.screws_on_plank],
        "screw_to_kerf_mm": cut.screw_to_kerf,
        "screw_length_mm": _screw(cut.screw),
        "batten_ends_mm": [list(p) for p in cut.batten_ends],
        "batten_height_mm": cut.batten_height,
        "batten_screws_mm": [list(p) for p in cut.batten_screws],
        "batten_screw_length_mm": _screw(cut.batten_screw),
        "rail_offset_mm": cut.rail_offset,
        "line_beyond_mm": cut.line_beyond,
        "support_strip_mm": cut.support_strip,
        "strip": {
            "length_mm": cut.free.length,
            "width_mm": cut.free.width,
            "thickness_mm": cut.support_strip,
            "corners_mm": _corners(cut.free.loop),
            "screws_mm": [list(p) for p in cut.free.screws],
        },
        "run": {
            "start_mm": cut.run.start,
            "end_mm": cut.run.end,
            "infeed_mm": cut.run.infeed,
            "outfeed_mm": cut.run.outfeed,
            "push_stick_from_mm": cut.run.stick_from,
            "guard_over_mm": cut.run.guard_at,
        },
        "handle_mm": None if cut.handle is None else list(cut.handle),
        "rail": _rail(cut.rail),
    }


def _rail(rail: Rail) -> dict[str, Any]:
    return {
        "kerf_mm": rail.kerf,
        "heel_mm": rail.heel,
        "nose_mm": rail.nose,
        "at_nose_mm": rail.at_nose,
        "at_heel_mm": rail.at_heel,
        "length_mm": rail.length,
        "saw_depth_mm": rail.saw_depth,
        "pieces": [{"from_heel_mm": [p.start, p.end], "width_mm": p.width} for p in rail.pieces],
    }


def _screw(length: ScrewLength | None) -> dict[str, float] | None:
    return None if length is None else {"least_mm": length.least, "most_mm": length.most, "sunk_mm": length.sunk}


def _corners(loop: Loop) -> list[list[float]]:
    return [list(v.point) for v in loop.vertices]
