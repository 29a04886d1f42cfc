"""What is said of the sled, its clamps and its aids when something is wrong: whole sentences, mm and inches.

The figures given lie between two marks wherever a sentence must go to the safe side: at least up, at most down.
"""

from __future__ import annotations

from typing import Any

from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.the_sled import aids, clamps, dividing, sled

MM, IN = say_in("mm"), say_in("in")
INCH = 25.4
SAID = {code: sentence for room in (aids, clamps, dividing, sled) for code, sentence in room.SENTENCES.items()}

OURS = "(common practice, no source)"
FORK = "which planes away, and printed slots are out by"
CALLIPERS = "Use callipers on the joint, and overlap marks on both boards."
DEEP: dict[str, Any] = {"station_mm": 394.98, "end_mm": 220.93, "spare_mm": 50, "lower_edge_mm": 18}
HIGH: dict[str, Any] = {"height_mm": 60, "sled_mm": 38}
FLAT: dict[str, Any] = {"end_mm": 220.93, "spare_mm": 50, "lower_edge_mm": 18, "fence_height_mm": 65, "where": "nose"}

FOUND: list[tuple[str, Say, dict[str, Any], str]] = [
    # -- wedge, hand stop, fork
    (
        "nose_wedge.no_grip", MM, {"needed_mm": 71.03, "opening_mm": 70.97},
        "Over the nose wedge a clamp must close on 71.03 mm and opens 70.97 mm. Use clamps that open 71.1 mm there, or "
        "clamp on a nose flat or in a nose notch.",
    ),
    (
        "nose_wedge.meets_fence", MM, {"limit_mm": 0.57, "needed_mm": 270.93},
        "A clamp over the nose wedge would meet fence or blade after 0.5 mm of travel, and 271 mm must be free. Clamp "
        "on the nose flat or in a nose notch.",
    ),
    (
        "nose_wedge.meets_fence", IN, {"limit_mm": 0.0, "needed_mm": 10.51 * INCH},
        "A clamp over the nose wedge would meet fence or blade before the heel has reached the blade's centre, and "
        "10 33/64 in must be free. Clamp on the nose flat or in a nose notch.",
    ),
    (
        "hand_stop.sticks_out", MM, {"width_mm": 58.47, "stop_mm": 80},
        "The sled is 58.4 mm wide at the hand line, and a hand stop 80 mm long would stick out over its edge. Screw on "
        "a narrower strip.",
    ),
    (
        "thickness_fork.slots_alike", MM, {"allowed_mm": 0.3456, "tolerance_mm": 0.2},
        f"The joint may be 0.346 mm thicker than the board, {FORK} 0.2 mm: the fork's two slots can't be kept apart. "
        f"{CALLIPERS}",
    ),
    (
        "thickness_fork.coarse", IN, {"allowed_mm": 0.5, "tolerance_mm": 0.2},
        f"The joint may be 0.020 in thicker than the board, {FORK} 0.008 in: the fork's two slots are hard to tell "
        f"apart. {CALLIPERS}",
    ),
    # -- clamps
    (
        "clamp.no_grip", MM, {"where": "nose_flat", "station_mm": 837.5, "needed_mm": 77.1, "opening_mm": 70},
        "The clamp across the nose flat must close on 77.1 mm and opens only 70 mm.",
    ),
    (
        "clamp.no_grip", MM, {"where": "heel", "station_mm": 394.98, "needed_mm": 47.04, "opening_mm": 46.96},
        "The clamp in the heel notch must close on 47.04 mm and opens only 46.96 mm.",
    ),
    (
        "clamp.no_grip", IN, {"where": "extra", "station_mm": 20.5 * INCH, "needed_mm": 2 * INCH, "opening_mm": 38.1},
        "The clamp in the notch at 20 1/2 in must close on 2 in and opens only 1 1/2 in.",
    ),
    (
        "clamp.grips_air", MM,
        {"length_mm": 500, "needed_length_mm": None, "held": 0, "notch_from_mm": None, "notch_to_mm": None},
        "A board 500 mm long reaches no clamp: the others grip air, and two must hold it.",
    ),
    (
        "clamp.grips_air", MM,
        {"length_mm": 500, "needed_length_mm": 852.52, "held": 1, "notch_from_mm": 435.02, "notch_to_mm": 479.98},
        "A board 500 mm long reaches only one clamp: the others grip air, and two must hold it. The second clamp needs "
        "boards of 852.6 mm. A further notch may lie 435.1 mm to 479.9 mm from the heel.",
    ),
    (
        "clamp.grips_air", IN,
        {"length_mm": 508, "needed_length_mm": None, "held": 1, "notch_from_mm": 435.0, "notch_to_mm": None},
        "A board 20 in long reaches only one clamp: the others grip air, and two must hold it.",
    ),
    (
        "clamp.grips_air", IN,
        {"length_mm": 508, "needed_length_mm": 30.01 * INCH, "held": 1, "notch_from_mm": None, "notch_to_mm": 480.0},
        "A board 20 in long reaches only one clamp: the others grip air, and two must hold it. The second clamp needs "
        "boards of 30 1/64 in.",
    ),
    (
        "clamp.past_board", MM, {"length_mm": 700, "station_mm": 837.46},
        "A board 700 mm long does not reach the clamp at 837.5 mm: it is held by the others.",
    ),
    (
        "clamp.deep_meets_blade", MM, {"where": "heel", "limit_mm": 231.68, **DEEP},
        "The clamp in the heel notch is safe with the lower edge of its pads 18 mm above the table. Pushed down until "
        "it bottoms it would meet the blade after 231.6 mm of travel; the cut ends at 220.9 mm, and 50 mm more must be "
        f"free {OURS}.",
    ),
    (
        "clamp.deep_meets_blade", MM, {"where": "extra", "limit_mm": 0.57, **DEEP, "end_mm": -12.3},
        "The clamp in the notch at 395 mm is safe with the lower edge of its pads 18 mm above the table. Pushed down "
        "until it bottoms it would meet the blade after 0.5 mm of travel; the cut ends with the heel 12.3 mm short of "
        f"the blade's centre, and 50 mm more must be free {OURS}.",
    ),
    (
        "clamp.deep_meets_blade", IN, {"where": "nose", "limit_mm": 0.0, **DEEP, "spare_mm": 2 * INCH},
        "The clamp in the nose notch is safe with the lower edge of its pads 45/64 in above the table. Pushed down "
        "until it bottoms it would meet the blade before the heel has reached its centre; the cut ends at 8 45/64 in, "
        f"and 2 in more must be free {OURS}.",
    ),
    (
        "clamp.deep_meets_fence", MM, {"limit_mm": 0.57, **FLAT},
        "The clamp across the nose flat rides over the fence (65 mm) with the lower edge of its pads 18 mm above the "
        "table. Pushed down until it bottoms its jaw would meet the near end of the fence after 0.5 mm of travel, with "
        f"the blade in the work; the cut ends at 220.9 mm, and 50 mm more must be free {OURS}.",
    ),
    (
        "clamp.deep_meets_fence", MM, {"limit_mm": 0.0, **FLAT},
        "The clamp across the nose flat rides over the fence (65 mm) with the lower edge of its pads 18 mm above the "
        "table. Pushed down until it bottoms its jaw would meet the near end of the fence before the heel has reached "
        "the blade's centre, with the blade in the work; the cut ends at 220.9 mm, and 50 mm more must be free "
        f"{OURS}.",
    ),
    (
        "clamp.pad_overhangs", MM, {"pad_height_mm": 50, **HIGH, "where": "heel"},
        "A pad 50 mm high can't bear wholly on work 60 mm high and a sled 38 mm thick.",
    ),
    (
        "clamp.throat_short", MM, {"swallowed_mm": 62.03, "throat_mm": 61.98, "where": "heel"},
        "To bear wholly on work and sled the clamp must reach 62.03 mm down, and its throat is 61.98 mm.",
    ),
    (
        "notch.jaw_wont_enter", MM, {"notch_width_mm": 15.96, "jaw_mm": 16.04, "where": "heel"},
        "The inner jaw stands off 16.04 mm and does not go into a notch 15.96 mm wide.",
    ),
    (
        "notch.pad_wont_enter", MM, {"pad_width_mm": 50.04, "notch_length_mm": 49.96, "where": "heel"},
        "The pad is 50.04 mm wide and does not go into a notch 49.96 mm long.",
    ),
    (
        "notch.pad_bears_partly", MM, {"pad_width_mm": 34.04, "bearing_mm": 33.96, "where": "heel"},
        "The pad is 34.04 mm wide, but between its round ends the notch is straight for only 33.96 mm: the pad bears "
        "partly. Square the ends, or make the notch longer.",
    ),
    (
        "backing.low", MM, {"unbacked_mm": 42, "wanted_mm": 29.92, "height_mm": 60, "sled_mm": 18},
        "Of a board 60 mm high the sled backs only 18 mm: the 42 mm above it stand free beside the blade and can tip "
        f"or chatter. A sled 30 mm thick is the least {OURS}; best is one as thick as the board is high.",
    ),
    (
        "backing.partial", MM, {"unbacked_mm": 22, **HIGH},
        "The sled leaves the upper 22 mm of the board unbacked beside the blade. Best is a sled as thick as the board "
        f"is high {OURS}.",
    ),
    # -- dividing
    (
        "dividing.no_screws", MM, {"thickness_mm": 15, "screws": 2, "rail_offset_mm": 131.14},
        "The plank (15 mm) is too thin for screws that hold, so it can't be fixed to the carrier. Divide it along a "
        "guide rail, its edge 131.1 mm from the line.",
    ),
    (
        "dividing.no_screws", MM, {"thickness_mm": 38, "screws": 1, "rail_offset_mm": 131.14},
        "The half of the plank has wood for one screw only, so it can't be fixed to the carrier. Divide it along a "
        "guide rail, its edge 131.1 mm from the line.",
    ),
    (
        "dividing.no_screws", MM, {"thickness_mm": 38, "screws": 0, "rail_offset_mm": 131.14},
        "The half of the plank has wood for no screw, so it can't be fixed to the carrier. Divide it along a guide "
        "rail, its edge 131.1 mm from the line.",
    ),
    # -- the sled
    (
        "stock.not_upright", MM, {"thickness_mm": 22.04, "height_mm": 21.96},
        "The board is thicker (22.04 mm) than it is high (21.96 mm): it would tip at the saw. Taper it through its "
        "smaller side.",
    ),
    (
        "sled.as_made_reversed", MM, {"heel_mm": 100, "nose_mm": 110},
        "The heel as measured (100 mm) is not wider than the nose (110 mm): that is no taper. Measure again, square to "
        "the fence edge, the heel at the wide end.",
    ),
    (
        "sled.as_made_needs_length", MM, {"length_mm": 850},
        "Measured sizes belong to a sled that exists: say which length it was planned with. Before anything was "
        'measured, "auto" came to 850 mm.',
    ),
    (
        "plank.kerf_too_wide", MM, {"kerf_mm": 190, "plank_width_mm": 184},
        "The kerf (190 mm) is as wide as the plank (184 mm) or wider. Check [saw] kerf and [sled] plank.",
    ),
    (
        "plank.too_narrow", MM, {"plank_width_mm": 120, "length_mm": 1500, "needed_mm": 178},
        "A plank 120 mm wide has no room for two halves 1500 mm long at this slope.",
    ),
    (
        "sled.nose_thin", MM, {"nose_mm": 24.96, "nose_min_mm": 25},
        "The nose is 24.96 mm wide, less than nose_min 25 mm: it breaks or bends.",
    ),
    (
        "sled.too_short", MM, {"station_mm": 700, "length_mm": 650, "needed_mm": 723},
        "The heel notch belongs 700 mm from the heel to keep its clamp off the blade; the sled, 650 mm long, ends "
        "before it.",
    ),
    (
        "nose.no_clamp", IN, {"needed_left_mm": 0.75 * INCH},
        "Nothing holds the board at the nose: a notch there would leave less than 3/4 in of wood to the fence edge, "
        "and there is no nose flat.",
    ),
    (
        "nose.pad_off_flat", MM,
        {"nose_station_mm": 40, "least_mm": 15.02, "most_mm": 24.98, "pad_width_mm": 30, "nose_flat_mm": 42},
        "A pad 30 mm wide at 40 mm from the nose end does not bear wholly on the nose flat, 42 mm long: its middle "
        "must be between 15.1 mm and 24.9 mm.",
    ),
    (
        "nose.flat_too_long", MM, {"nose_flat_mm": 430, "length_mm": 850, "most_mm": 425},
        "The nose flat (430 mm) is longer than half the sled (850 mm).",
    ),
    (
        "nose.flat_short", MM, {"nose_flat_mm": 29.96, "pad_width_mm": 30.04},
        "The nose flat (29.96 mm) is shorter than the clamp's pad (30.04 mm), which then bears only partly.",
    ),
    (
        "dowel.no_room", IN, {"dowel_mm": 0.375 * INCH},
        "There are no two places for dowels of 3/8 in clear of notches and edges. Register the layers by their edges "
        "instead, or use thinner dowels.",
    ),
]  # fmt: skip
