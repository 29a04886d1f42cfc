"""What is said of notches, hands and margins when something is wrong: whole sentences, mm and inches.

The figures given lie between two marks wherever a sentence must go to the safe side: at least up, at most down.
"""

from __future__ import annotations

from typing import Any

from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.the_sled import hands, margins, notches

MM, IN = say_in("mm"), say_in("in")
INCH = 25.4
SAID = {code: sentence for room in (hands, margins, notches) for code, sentence in room.SENTENCES.items()}

DISAGREE = "(published figures disagree, and none is for a sled with handles)"
OURS = "(common practice, no source)"
AT: dict[str, Any] = {"where": "heel", "station_mm": 394.98}
OFF: dict[str, Any] = {"work_edge_mm": 852.95, "least_mm": 39.96, "most_mm": 811.04}

FOUND: list[tuple[str, Say, dict[str, Any], str]] = [
    # -- hands
    (
        "hands.clear_short", MM, {"hands_clear_mm": 149.96, "least_mm": 150},
        f"Hands 149.96 mm from the blade is too near: 150 mm is the least this tool accepts {DISAGREE}.",
    ),
    (
        "hands.line_too_near", MM,
        {"hand_line_mm": 500, "clear_mm": 0.57, "least_clear_mm": 150, "needed_mm": 650},
        "With the hand line 500 mm from the heel, hands at the end of the cut and its margin would be only 0.5 mm from "
        f"the blade's front; 150 mm is the least {DISAGREE}.",
    ),
    (
        "hands.line_too_near", MM, {"hand_line_mm": 300, "clear_mm": 0.0, "least_clear_mm": 150},
        "With the hand line 300 mm from the heel, hands at the end of the cut and its margin would be past the blade's "
        f"front; 150 mm is the least {DISAGREE}.",
    ),
    (
        "hands.line_near", MM, {"hand_line_mm": 600, "clear_mm": 217.09, "hands_clear_mm": 300, "needed_mm": 683},
        "With the hand line 600 mm from the heel, hands come 217 mm from the blade's front at the end of the cut and "
        f"its margin, nearer than hands_clear 300 mm {DISAGREE}.",
    ),
    (
        "sled.hands_have_no_room", MM, {"hand_line_mm": 690, "length_mm": 780, "room_mm": 100, "needed_mm": 790},
        "Hands must stay 690 mm or more from the heel, and a hand or a handle needs 100 mm more; the sled is 780 mm "
        "long. Do not push it with a hand past the line.",
    ),
    (
        "handle.no_room", MM, {"hand_line_mm": 540, "spacing_mm": 96},
        "No handle holes: two of them 96 mm apart fit nowhere on your side of the hand line, 540 mm from the heel.",
    ),
    (
        "handle.overlap", MM, {"spacing_mm": 8, "hole_mm": 8.5, "where": "handle"},
        "Handle holes 8.5 mm wide and 8 mm apart run into each other.",
    ),
    (
        "handle.breaks_out", MM, {"from_heel_mm": 612, "room_mm": 14.5},
        "The handle hole 612 mm from the heel runs into a notch or off the sled.",
    ),
    (
        "handle.breaks_out", MM, {"from_heel_mm": 612, "room_mm": 14.5, "hand_line_mm": 540},
        "The handle hole 612 mm from the heel runs into a notch or off the sled.",
    ),
    (
        "handle.breaks_out", MM, {"from_heel_mm": 612},
        "The handle hole 612 mm from the heel runs into a notch or off the sled.",
    ),
    (
        "handle.breaks_out", IN, {"from_heel_mm": 20 * INCH, "hand_line_mm": 21 * INCH},
        "The handle hole 20 in from the heel is on the blade's side of the hand line, 21 in from the heel: the hand on "
        "it would come too near the blade.",
    ),
    # -- margins
    (
        "margin.stop_beyond", MM, {"stop_mm": 221, "limit_mm": 225.98, "spare_mm": 10},
        "The stop block stops the sled at 221 mm of travel, and a clamp or the board meets blade or fence at 225.9 mm "
        f"of travel: less than the 10 mm between them that a shop can keep {OURS}.",
    ),
    (
        "margin.stop_beyond", MM, {"stop_mm": -12, "limit_mm": -8.02, "spare_mm": 10},
        "The stop block stops the sled with the heel 12 mm short of the blade's centre, and a clamp or the board meets "
        "blade or fence 8.1 mm before the heel reaches the blade's centre: less than the 10 mm between them that a "
        f"shop can keep {OURS}.",
    ),
    (
        "margin.travel_small", MM, {"value_mm": 20, "least_mm": 25},
        f"A travel margin of 20 mm is passed before anyone can stop: a second of feed is more {OURS}; 25 mm is little.",
    ),
    (
        "margin.side_small", MM, {"value_mm": 4, "least_mm": 5},
        f"Clamps may come within 4 mm of the blade's side: a clamp set a little aslant touches the teeth {OURS}.",
    ),
    (
        "margin.blade_small", MM, {"value_mm": 2, "least_mm": 3},
        "The blade reaches only 2 mm above the work: a board a little high is not cut through, and breaks off "
        f"{OURS}.",
    ),
    (
        "margin.gap_small", MM, {"value_mm": 0.1875, "least_mm": 0.2},
        f"A fence gap of 0.188 mm is less than a tooth's run-out: the blade may cut the sled {OURS}.",
    ),
    # -- notches
    (
        "notch.longer_than_sled", MM, {"notch_length_mm": 900, "work_edge_mm": 852.95, **AT},
        "The heel notch is 900 mm long, the sled's work edge 853 mm.",
    ),
    (
        "notch.off_sled", MM, {**AT, **OFF},
        "The heel notch at 395 mm from the heel reaches past the end of the sled. Its middle can lie 40 mm to 811 mm "
        "from the heel.",
    ),
    (
        "notch.off_sled", MM, {"where": "nose", "station_mm": 843, **OFF},
        "The nose notch at 10 mm from the nose end reaches past the end of the sled. Its middle can lie 42 mm to "
        "812.9 mm from the nose end.",
    ),
    (
        "notch.off_sled", MM, {"where": "nose", "station_mm": 843, **OFF, "most_mm": 853.2},
        "The nose notch at 10 mm from the nose end reaches past the end of the sled. Its middle can lie 0 mm to "
        "812.9 mm from the nose end.",
    ),
    (  # beyond the nose end there is no figure from it
        "notch.off_sled", MM, {"where": "nose", "station_mm": 853.3, **OFF},
        "The nose notch at 853.3 mm from the heel reaches past the end of the sled. Its middle can lie 42 mm to "
        "812.9 mm from the nose end.",
    ),
    (
        "notch.off_sled", MM, {**AT, **OFF, "least_mm": 420, "most_mm": 420},
        "The heel notch at 395 mm from the heel reaches past the end of the sled. Its middle can lie 420 mm to 420 mm "
        "from the heel.",
    ),
    (
        "notch.off_sled", MM, {**AT, **OFF, "least_mm": 421, "most_mm": 420},
        "The heel notch at 395 mm from the heel reaches past the end of the sled.",
    ),
    (
        "notch.breaks_fence_edge", MM, {**AT, "left_mm": -2},
        "The heel notch at 395 mm from the heel breaks into the fence edge or the nose flat.",
    ),
    (
        "notch.thin_left", MM, {**AT, "left_mm": 14.96, "wanted_mm": 15},
        "The heel notch at 395 mm from the heel leaves only 14.96 mm of wood to the fence edge: under 15 mm it is "
        f"likely to break {OURS}.",
    ),
    (
        "notch.overlap", MM, {**AT, "other_where": "extra", "other_station_mm": 430, "needed_mm": 53.01},
        "The heel notch at 395 mm and the extra notch at 430 mm from the heel run into each other. Keep them 53.1 mm "
        "apart.",
    ),
]  # fmt: skip
