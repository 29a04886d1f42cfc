"""Ways out as sentences: what to do, in whole phrases."""

from __future__ import annotations

import pytest
from scarfwright.models.findings import Finding, Level, Remedy
from scarfwright.models.words.the_sled.remedies import said, ways_out

WAYS: list[tuple[Remedy, str]] = [
    ((("stock.thickness", "24 mm"),), "start from a board 24 mm thick"),
    ((("stock.thickness", "24 mm"), ("stock.height", "55 mm")),
     "start from a board 24 mm thick and stand it 55 mm high"),
    ((("stock.height", "55 mm"), ("clamp.opening", "80 mm")),
     "use a board 55 mm high (rip it) and use clamps that open 80 mm"),
    ((("stock.length", "900 mm"), ("clamp.throat", "70 mm"), ("saw.max_depth", "80 mm")),
     "use boards 900 mm long, use clamps that reach 70 mm down and use a saw whose blade rises 80 mm"),
    ((("sled.plank", ["38 mm", "220 mm"]),), "use a plank 220 mm wide and 38 mm thick"),
    ((("sled.extra_stations", ["500 mm", "620 mm"]),), "set extra_stations to 500 mm, 620 mm"),
    ((("sled.extra_stations", []),), "leave out the extra notches"),
    ((("sled.extra_stations", "500 mm"),), "set extra_stations to 500 mm"),
    ((("sled.layers", 3),), "glue the sled from 3 layers"),
    ((("joint.ratio", 14),), "set ratio = 14"),
    ((("sled.nose_flat", 0),), "hold the nose in a notch (nose_flat = 0)"),
    ((("sled.nose_flat", "40 mm"),), "set nose_flat to 40 mm"),
    ((("saw.kerf", 0),), "set kerf to 0"),
    ((("sled.length", "auto"),), 'set length to "auto"'),
    ((("sled.length", "950 mm"),), "make the sled 950 mm long"),
    ((("stock.finished_thickness", "20 mm"),), "plan for a finished thickness of 20 mm"),
    ((("clamp.pad_height", "15 mm"),), "use pads 15 mm high"),
    ((("saw.blade_diameter", "300 mm"),), "use a blade of 300 mm"),
    ((("sled.heel_station", "400 mm"),), "put the heel notch 400 mm from the heel"),
    ((("sled.nose_station", "20 mm"),), "put the nose clamp 20 mm from the nose end"),
    ((("sled.hand_line", "540 mm"),), "put the hand line 540 mm from the heel"),
    ((("saw.fence_front", "300 mm"),), "slide the fence until its near end is 300 mm from the blade's centre"),
]  # fmt: skip


@pytest.mark.parametrize(("remedy", "words"), WAYS)
def test_a_way_out_whole(remedy: Remedy, words: str) -> None:
    assert said(remedy) == words


def test_ways_out_are_one_sentence_of_choices() -> None:
    bare = Finding("sled.too_short", Level.FAULT, "", {})
    assert ways_out(bare) == ""
    both = Finding("sled.too_short", Level.FAULT, "", {}, remedies=(WAYS[14][0], WAYS[9][0]))
    assert ways_out(both) == " Make the sled 950 mm long; or set ratio = 14."
