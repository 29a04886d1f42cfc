"""One case for each finding: a job just on the wrong side of its limit, the same job just on the good side, the
figures worked by hand, and the changes its text tells.

The base job is a metric one that has no finding at all. A case names what differs from it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

Change = dict[str, Any]

# 1500 of 184 x 38 plank with kerf 2.5 at 1 in 12: M 154.5, heel 153.2457, nose 28.2457 (the worked case)
BASE: Change = {
    "stock.thickness": "22 mm",
    "stock.height": "60 mm",
    "joint.ratio": 12,
    "saw.kerf": "2.5 mm",
    "saw.plate": "2 mm",
    "saw.riving_knife": "2.2 mm",
    "saw.blade_above_work": "6 mm",
    "clamp.opening": "60 mm",
    "clamp.pad_width": "30 mm",
    "sled.plank": ["38 mm", "184 mm"],
    "sled.length": "1500 mm",
}


@dataclass(frozen=True)
class Case:
    """`wrong` raises `code` with `numbers`; `good`, on top of it, does not. `ways`: pairs of a pattern and a key.

    A way's pattern finds, in the finding's text, the figure the user is told to set the key to.
    """

    code: str
    wrong: Change
    good: Change
    numbers: dict[str, float] = field(default_factory=dict)
    ways: tuple[tuple[str, str], ...] = ()


COS = 0.9965457582  # cos(atan(1/12)) = 12 / sqrt(145)
SIN = 0.0830454799

CASES: list[Case] = [
    # -- stock and slope
    Case(
        "stock.not_upright",
        {"stock.height": "21.9 mm", "clamp.throat": "90 mm", "clamp.pad_height": "10 mm"},
        {"stock.height": "22 mm"},
        {"thickness_mm": 22, "height_mm": 21.9},
    ),
    Case(
        "stock.above_reach",  # 125 of rise and 6 above the board leave 119; the saw itself rises 79
        {"stock.height": "119.1 mm"},
        {"stock.height": "119 mm"},
        {"tall_mm": 119.1, "rise_mm": 125, "reach_mm": 73},
    ),
    Case(
        "joint.gap_eats_joint",  # tip = gap / cos reaches t / 2 = 11 at a gap of 10.962
        {"saw.fence_gap": "10.97 mm"},
        {"saw.fence_gap": "10.96 mm"},
        {"tip_mm": 10.97 / COS, "thickness_mm": 22},
    ),
    Case(
        "joint.finish_too_thick",
        {"stock.finished_thickness": "22 mm"},
        {"stock.finished_thickness": "21.9 mm"},
        {"finished_mm": 22, "thickest_mm": 22 - 0.8 / COS},
    ),
    Case(
        "joint.tips_stay",  # 22 - 2 x 0.401386 = 21.1972
        {"stock.finished_thickness": "21.2 mm"},
        {"stock.finished_thickness": "21.19 mm"},
        {"tip_mm": 0.4 / COS, "thickest_mm": 21.1972275},
    ),
    Case(
        "joint.slope_steep",
        {"joint.ratio": 7.99, "sled.length": "990 mm"},
        {"joint.ratio": 8},
        {"ratio": 7.99, "least": 8},
    ),
    Case("joint.slope_flat", {"joint.ratio": 20.01}, {"joint.ratio": 20}, {"ratio": 20.01, "most": 20}),
    Case(
        "joint.slope_degrees",  # cot(5 degrees) = 11.43
        {"joint.ratio": 5, "sled.length": "600 mm"},
        {"joint.ratio": 2.7},  # cot(2.7 degrees) = 21.2, no slope anybody means
        {"ratio_if_degrees": 11.4300523, "angle_deg": 11.3099325},
    ),
    Case(
        "joint.slope_off",  # exact M 113.5 for L 516: rounded to 10 it is 110, L / N 36 instead of 43
        {"sled.length": "516 mm", "sled.round_marks": "10 mm", "sled.plank": ["38 mm", "184 mm"]},
        {"sled.round_marks": "0.5 mm"},
        {"ratio_asked": 12, "ratio_realised": 516 / 36, "off_percent": 100 * (516 / 36 / 12 - 1)},
    ),
    # -- plank and sled
    Case(
        "plank.too_narrow",  # L / N + k / cos + 2 x nose 0 = 125 + 2.5087; told: with nose_min and half a mark
        {"sled.plank": ["38 mm", "127.5 mm"], "sled.round_marks": 0},
        {"sled.plank": ["38 mm", "127.6 mm"]},
        {"needed_width_mm": 125 + 2.5 / COS + 50, "longest_mm": 12 * (127.5 - 2.5 / COS - 50)},
    ),
    Case(
        "plank.kerf_too_wide",
        {"saw.kerf": "184 mm", "saw.blade_diameter": "400 mm"},
        {"saw.kerf": "183.9 mm"},
        {"kerf_mm": 184, "plank_width_mm": 184},
    ),
    Case(
        "sled.nose_thin",  # nose 28.2457
        {"sled.nose_min": "28.3 mm"},
        {"sled.nose_min": "28.2 mm"},
        {"nose_mm": 28.245668, "nose_min_mm": 28.3},
    ),
    Case(
        "sled.too_short",  # (700 + 25) cos = 722.4957
        {"sled.heel_station": "700 mm", "sled.length": "722 mm", "saw.fence_front": "100 mm"},
        {"sled.length": "723 mm"},
        {"station_mm": 700, "length_mm": 722},
    ),
    Case(
        "sled.as_made_reversed",
        {"sled.heel_as_made": "100 mm", "sled.nose_as_made": "100 mm"},
        {"sled.heel_as_made": "153 mm", "sled.nose_as_made": "28 mm"},
        {"heel_mm": 100, "nose_mm": 100},
    ),
    Case(
        "sled.as_made_needs_length",
        {"sled.length": "auto", "sled.heel_as_made": "153.2 mm", "sled.nose_as_made": "28.2 mm"},
        {"sled.length": "1500 mm"},
        {},
    ),
    Case(
        "sled.hands_have_no_room",  # 221.54 + 50 + 111.39 + 300 = 682.9, to the next ten: 690, and 100 behind it
        {"sled.length": "780 mm", "saw.fence_front": "100 mm"},
        {"sled.length": "792 mm"},
        {"hand_line_mm": 690, "length_mm": 780},
    ),
    # -- hands
    Case("hands.clear_short", {"saw.hands_clear": "149.9 mm"}, {"saw.hands_clear": "150 mm"}, {"least_mm": 150}),
    Case(
        "hands.line_too_near",  # 221.5405 + 50 + 111.3912 + 150
        {"sled.hand_line": "532.9 mm"},
        {"sled.hand_line": "533 mm"},
        {"needed_mm": 532.9317, "hand_line_mm": 532.9},
    ),
    Case(
        "hands.line_near",  # 682.93 with the 300 asked for, and a mark of 10 less is no caution
        {"sled.hand_line": "672.9 mm"},
        {"sled.hand_line": "673 mm"},
        {"needed_mm": 682.9317, "clear_mm": 672.9 - 382.9317},
    ),
    # -- margins
    Case("margin.travel_small", {"saw.travel_margin": "24.9 mm"}, {"saw.travel_margin": "25 mm"}, {"value_mm": 24.9}),
    Case("margin.side_small", {"saw.side_clearance": "4.9 mm"}, {"saw.side_clearance": "5 mm"}, {"least_mm": 5}),
    Case("margin.blade_small", {"saw.blade_above_work": "2.9 mm"}, {"saw.blade_above_work": "3 mm"}, {"least_mm": 3}),
    Case("margin.gap_small", {"saw.fence_gap": "0.19 mm"}, {"saw.fence_gap": "0.2 mm"}, {"value_mm": 0.19}),
    Case(
        "margin.stop_beyond",  # the stop at 222, on a whole mm: the limit, 276.09 at 400, must be 232 or more
        {"saw.travel_margin": 0, "sled.heel_station": "350 mm"},
        {"sled.heel_station": "360 mm"},
        {"stop_mm": 222, "spare_mm": 10, "limit_mm": 226.2659},
    ),
    # -- backing
    Case(
        "backing.low",  # half of 60, and the pads' middle, 10 under the sled's top, a third up: both 30
        {"sled.plank": ["29.9 mm", "184 mm"]},
        {"sled.plank": ["30 mm", "184 mm"]},
        {"wanted_mm": 30, "unbacked_mm": 30.1, "height_mm": 60},
    ),
    Case("backing.partial", {}, {"sled.plank": ["60 mm", "184 mm"]}, {"unbacked_mm": 22}),
    # -- nose
    Case(
        "nose.no_clamp",  # no notch 25 + 16 wide leaves 25 where the sled is under 66 wide
        {"sled.nose_flat": 0, "sled.plank": ["38 mm", "127 mm"], "sled.length": "500 mm", "saw.fence_front": "50 mm",
         "sled.web": "40 mm"},
        {"sled.nose_flat": "auto"},
        {"needed_left_mm": 40},
    ),
    Case(
        "nose.pad_off_flat",  # flat: pad 26 and 5 each side: from 13 to 23
        {"clamp.pad_width": "26 mm", "sled.nose_station": "23.1 mm"},
        {"sled.nose_station": "23 mm"},
        {"least_mm": 13, "most_mm": 23, "nose_station_mm": 23.1},
    ),
    Case(
        "nose.flat_too_long",
        {"sled.nose_flat": "750.1 mm", "sled.heel_station": "400 mm"},
        {"sled.nose_flat": "750 mm"},
        {"nose_flat_mm": 750.1, "length_mm": 1500},
    ),
    Case(
        "nose.flat_short",
        {"sled.nose_flat": "29.9 mm"},
        {"sled.nose_flat": "30 mm"},
        {"nose_flat_mm": 29.9, "pad_width_mm": 30},
    ),
    # -- notches
    Case(
        "notch.longer_than_sled",  # work edge 1500 / cos = 1505.199
        {"sled.notch_length": "1505.2 mm"},
        {"sled.notch_length": "1505.1 mm"},
        {"work_edge_mm": 1505.1993},
    ),
    Case(
        "notch.off_sled",  # heel side: (33 sin + 8) / cos + 17 = 27.7777
        {"sled.extra_stations": ["27.7 mm"]},
        {"sled.extra_stations": ["27.8 mm"]},
        {"station_mm": 27.7, "least_mm": (33 * SIN + 8) / COS + 17, "most_mm": (1500 + 33 * SIN - 8) / COS - 17},
    ),
    Case(
        "notch.breaks_fence_edge",  # left = 153.2457 - (s + 17) sin - 33 cos - 8 is 0 at 1336.02
        {"sled.heel_station": "1336.1 mm", "sled.nose_flat": 0, "sled.nose_station": "700 mm"},
        {"sled.heel_station": "1335.9 mm"},
        {"left_mm": 153.2456682 - 1353.1 * SIN - 33 * COS - 8},
    ),
    Case(
        "notch.thin_left",  # left is 10 at 1215.6
        {"sled.heel_station": "1215.7 mm"},
        {"sled.heel_station": "1215.5 mm"},
        {"left_mm": 153.2456682 - 1232.7 * SIN - 33 * COS - 8},
    ),
    Case(
        "notch.overlap",  # two slots 50 long meet at 50 apart
        {"sled.heel_station": "500 mm", "sled.extra_stations": ["550 mm"]},
        {"sled.extra_stations": ["550.1 mm"]},
        {"station_mm": 500, "other_station_mm": 550, "needed_mm": 60},
    ),
    # -- handle and dowels
    Case(
        "handle.no_room",
        {"sled.length": "792 mm", "sled.handle_spacing": "200 mm", "saw.fence_front": "100 mm"},
        {"sled.handle_hole": 0},
        {"hand_line_mm": 690, "spacing_mm": 200},
    ),
    Case(
        "handle.breaks_out",  # hand line 690: the near hole's edge is at s - 48 - 2.5
        {"sled.handle_station": "740.4 mm"},
        {"sled.handle_station": "740.6 mm"},
        {"from_heel_mm": 692.4, "hand_line_mm": 690},
    ),
    Case(
        "handle.overlap",
        {"sled.handle_station": "800 mm", "sled.handle_spacing": "3 mm", "sled.handle_hole": "5 mm"},
        {"sled.handle_spacing": "5.1 mm"},
        {"spacing_mm": 3, "needed_mm": 13},
    ),
    Case(
        "dowel.no_room",  # the middle is at most (25 + 600 / 12) / 2 = 37.5 from an edge: 30 + 8 is too much
        {"sled.made_from": "sheet", "sled.length": "600 mm", "sled.dowel": "60 mm", "saw.fence_front": "80 mm",
         "sled.layers": 3},
        {"sled.dowel": "8 mm"},
        {"dowel_mm": 60},
    ),
    # -- clamps
    Case(
        "clamp.no_grip",  # nose cos + t = 28.2457 cos + 22 = 50.1481
        {"clamp.opening": "50.1 mm"},
        {"clamp.opening": "50.2 mm"},
        {"needed_mm": 28.2456682 * COS + 22, "opening_mm": 50.1},
    ),
    Case(
        "clamp.pad_overhangs",  # sled 38 thick
        {"clamp.pad_height": "38.1 mm", "clamp.throat": "100 mm"},
        {"clamp.pad_height": "38 mm"},
        {"pad_height_mm": 38.1, "lower_mm": 38},
    ),
    Case(
        "clamp.throat_short",  # 60 - (38 - 20) = 42
        {"clamp.throat": "41.9 mm"},
        {"clamp.throat": "42 mm"},
        {"swallowed_mm": 42, "throat_mm": 41.9},
    ),
    Case(
        "clamp.deep_meets_blade",  # the throat of 60 lets it down to the table: f(0) - f(18) = 11.9528 sooner
        {"saw.travel_margin": "15 mm", "sled.heel_station": "364 mm"},
        {"sled.heel_station": "372 mm"},
        {"end_mm": 221.5405, "spare_mm": 10, "lower_edge_mm": 18},
    ),
    Case(
        # pads 18 up ride over a fence of 18; on the table their jaw, 1500 - 40 - 12 sin from the heel, meets its end
        "clamp.deep_meets_fence",
        {"saw.fence_height": "18 mm", "saw.fence_front": "1227.5 mm"},
        {"saw.fence_front": "1227.4 mm"},
        {"limit_mm": 1459.0035 - 1227.5, "end_mm": 221.5405, "spare_mm": 10, "lower_edge_mm": 18},
    ),
    Case(
        "notch.jaw_wont_enter",
        {"clamp.jaw_inner": "16.1 mm"},
        {"clamp.jaw_inner": "16 mm"},
        {"notch_width_mm": 16, "jaw_mm": 16.1},
    ),
    Case(
        "notch.pad_wont_enter",
        {"clamp.pad_width": "50.1 mm"},
        {"clamp.pad_width": "50 mm"},
        {"needed_mm": 66.1},
    ),
    Case(
        "notch.pad_bears_partly",  # 50 - 16 = 34 straight
        {"clamp.pad_width": "34.1 mm"},
        {"clamp.pad_width": "34 mm"},
        {"bearing_mm": 34, "needed_mm": 50.1},
    ),
    # -- saw and fence
    Case(
        "blade.axis_above_table",  # R 66 for a height of 66
        {"saw.blade_diameter": "131.9 mm"},
        {"saw.blade_diameter": "132 mm"},
        {"blade_height_mm": 66, "radius_mm": 65.95},
        (
            (r"a board ([\d.]+ mm) high", "stock.height"),
            (r"blade_above_work to ([\d.]+ mm)", "saw.blade_above_work"),
            (r"use a blade of ([\d.]+ mm)", "saw.blade_diameter"),
        ),
    ),
    Case(
        "blade.too_low",
        {"saw.max_depth": "65.9 mm"},
        {"saw.max_depth": "66 mm"},
        {"blade_height_mm": 66, "max_depth_mm": 65.9},
        (
            (r"a board ([\d.]+ mm) high", "stock.height"),
            (r"blade_above_work to ([\d.]+ mm)", "saw.blade_above_work"),
            (r"blade rises ([\d.]+ mm)", "saw.max_depth"),
        ),
    ),
    Case("fence.cuts_sled", {"saw.fence_gap": 0}, {"saw.fence_gap": "0.1 mm"}, {"fence_gap_mm": 0},
         ((r"fence_gap to ([\d.]+ mm)", "saw.fence_gap"),)),
    Case(
        "dividing.blade_too_low",  # 18 + 38 + 6 = 62
        {"saw.max_depth": "61.9 mm"},
        {"saw.max_depth": "62 mm"},
        {"blade_height_mm": 62},
        ((r"carrier ([\d.]+ mm) thick", "sled.sheet_thickness"),),
    ),
    # -- what meets what
    Case(
        "clamp.meets_blade",  # the worked case: least 395.4315
        {"sled.heel_station": "395.4 mm"},
        {"sled.heel_station": "395.5 mm"},
        {"least_station_mm": 395.4315, "end_mm": 221.5405, "needed_mm": 271.5405, "limit_mm": 271.5091},
        ((r"Put the heel notch ([\d.]+ mm) from", "sled.heel_station"),),
    ),
    Case(
        "clamp.meets_fence",  # L - f - jaw sin - fence_front = 812.5 - 40 - 0.9965 - 500 < 271.5405
        {"saw.fence_front": "500 mm", "sled.length": "812.5 mm", "sled.round_marks": 0},
        {"sled.length": "812.6 mm"},
        {"limit_mm": 812.5 - 40 - 12 * SIN - 500, "needed_mm": 271.5405, "needed_length_mm": 771.5405 + 40 + 12 * SIN},
        ((r"Make the sled ([\d.]+ mm) long", "sled.length"), (r"near end is ([\d.]+ mm) from", "saw.fence_front")),
    ),
    Case(
        "board.meets_fence",  # heel N - fence_front = 1838.948 - 1567.5 = 271.448
        {"saw.fence_front": "1567.5 mm", "sled.nose_flat": 0},
        {"saw.fence_front": "1567.4 mm"},
        {"limit_mm": 271.4480, "needed_mm": 271.5405},
        ((r"near end is ([\d.]+ mm) from", "saw.fence_front"), (r"boards ([\d.]+ mm) long", "stock.length")),
    ),
]  # fmt: skip
CASES.append(
    Case(
        "dividing.no_screws",  # 10 of bite and 2 above the point on either side of nothing: 14 mm at least
        {"sled.plank": ["13.9 mm", "184 mm"], "clamp.pad_height": "10 mm"},
        {"sled.plank": ["14 mm", "184 mm"]},
        {"thickness_mm": 13.9, "screws": 3, "rail_offset_mm": 131.1},
    )
)
