"""What the way of a sled says of itself as a whole, by hand: fence, limits, lengths, and when a sled is too short.

A plank of 200 x 40 at 1 in 10, kerf 3, 1000 long: mark 150, so N is 10 and nothing is rounded. All sizes are invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.sled.layout import ClampPlace
from scarfwright.models.sled.making import joint_of, sled_way
from scarfwright.models.sled.sled import Notch
from scarfwright.models.sled.way import SledWay

SLANT = math.hypot(1, 10)
COS, SIN = 10 / SLANT, 1 / SLANT
HEEL = 150 - 1.5 / COS

TABLES: dict[str, Any] = {
    "stock": {"thickness": "20 mm", "height": "50 mm"},
    "joint": {"ratio": 10},
    "saw": {"kerf": "3 mm", "fence_gap": "0.5 mm", "fence_front": "400 mm", "travel_margin": "45 mm"},
    "clamp": {"pad_width": "30 mm", "throat": "70 mm", "opening": "120 mm"},
    "sled": {"plank": ["40 mm", "200 mm"], "round_marks": "1 mm"},
}


def way_of(length: float = 1000, **tables: dict[str, Any]) -> SledWay:
    raw = {name: {**table, **tables.get(name, {})} for name, table in TABLES.items()}
    return sled_way(job_from_dict(raw), length)[0]


def clamp(where: str, limit: float | None, at_fence: float | None = None, least_board: float = 0.0) -> ClampPlace:
    meets = None if limit is None else "blade"
    return ClampPlace(where, 300, 45, 40, limit, meets, at_fence, None, None, least_board)


def with_clamps(way: SledWay, *clamps: ClampPlace) -> SledWay:
    return replace(way, layout=replace(way.layout, clamps=clamps))


def test_the_fence_stands_a_gap_over_the_heel_as_it_is() -> None:
    assert way_of().fence == pytest.approx(HEEL + 0.5)
    assert way_of(sled={"heel_as_made": "151 mm"}).fence == 151.5
    assert way_of(saw={"fence_gap": "0 mm"}).fence == pytest.approx(HEEL)


def test_a_long_board_meets_the_fence_where_its_inner_face_crosses_the_fence_line() -> None:
    """At heel x N from the heel; a board whose far end does not reach so far along the fence never does."""
    crossing = HEEL * 10
    assert way_of().board_limit == pytest.approx(crossing - 400)
    for length, limit in ((1480.0, None), (1500.0, crossing - 400)):
        assert (length * COS > crossing) is (limit is not None)
        found = way_of(stock={"length": f"{length} mm"}).board_limit
        assert found == (None if limit is None else pytest.approx(limit))


def test_what_ends_the_travel_is_whatever_comes_first() -> None:
    short, long = way_of(stock={"length": "900 mm"}), way_of()
    assert with_clamps(short).travel_limit is None
    assert with_clamps(short, clamp("heel", None)).travel_limit is None
    assert with_clamps(short, clamp("heel", 500), clamp("extra", None), clamp("nose", 480)).travel_limit == 480
    tail = HEEL * 10 - 400
    assert with_clamps(long).travel_limit == pytest.approx(tail)
    assert with_clamps(long, clamp("heel", 500)).travel_limit == 500
    assert with_clamps(long, clamp("heel", 5000)).travel_limit == pytest.approx(tail)


def test_a_sled_is_too_short_where_its_heel_notch_is_off_it_or_something_stops_it() -> None:
    way = with_clamps(way_of(stock={"length": "900 mm"}))
    edge = 1000 / COS
    for length, width, half in ((50.0, 16.0, 25.0), (16.0, 50.0, 25.0)):
        for station, short in ((edge - half, False), (edge - half + 0.001, True), (edge - half - 1, False)):
            notch = Notch("heel", station, 25, length, width)
            assert replace(way, layout=replace(way.layout, notches=(notch,))).too_short is short
    extra = Notch("extra", 5000, 25, 50, 16)
    assert not replace(way, layout=replace(way.layout, notches=(extra,))).too_short
    assert not replace(way, layout=replace(way.layout, notches=())).too_short
    need = way.travel.done + 45
    assert way.travel_needed == pytest.approx(need)
    for limit, short in ((need, False), (need - 0.0005, False), (need - 0.002, True), (need + 0.5, False)):
        assert with_clamps(way, clamp("heel", limit)).too_short is short


@pytest.mark.parametrize("end", ["hold", "draw_back", "run_on"])
def test_the_travel_ends_as_asked(end: str) -> None:
    way = way_of(saw={"end_of_cut": end})
    exit_x = 20 * SLANT - 0.5 * 10
    radius = float(way.job.saw.blade_diameter) / 2
    assert way.blade.height == 56
    at_table, at_top = (math.sqrt(radius**2 - (radius - 56 + z) ** 2) for z in (0, 50))
    wanted = exit_x + at_table + 5 * 10 if end == "run_on" else exit_x - at_top
    assert way.travel_end == pytest.approx(wanted)
    assert way.travel_needed == pytest.approx(wanted + 45)


def test_the_least_length_is_the_worst_of_notch_and_nose_clamps() -> None:
    """A notch of 50 at 600 ends at 625; a clamp that meets the fence at 300 on a sled of 1000, where 345 is needed,
    meets it there on one of 1045."""
    way = way_of()
    assert with_clamps(way).shortest_for(345, 600) == pytest.approx(625 * COS)
    assert with_clamps(way, clamp("heel", 100), clamp("nose_flat", 300, 300)).shortest_for(345, 600) == 1045
    assert with_clamps(way, clamp("nose_flat", 290, 290), clamp("nose", 310, 310)).shortest_for(345, 600) == 1055
    assert with_clamps(way, clamp("nose_flat", 300, 300)).shortest_for(345, 1100) == pytest.approx(1125 * COS)
    asked = way.shortest_for(way.travel.done + 45, way.layout.least_station)
    assert way.shortest == asked
    assert way.layout.least_station > 0


def test_a_longer_sled_may_be_flatter_by_its_rounded_mark() -> None:
    """1000 tapers by 100; marks of 1 may take 1 of it, so what is told for another length grows by 100 / 99."""
    way = way_of()
    assert way.sled.ratio == pytest.approx(10)
    assert way.stretch == pytest.approx(100 / 99)
    assert way.length_for(60) == pytest.approx((1000 + 60 - 400) * 100 / 99 + 400)
    sheet = way_of(sled={"made_from": "sheet"})
    assert sheet.stretch == 1
    assert sheet.length_for(60) == pytest.approx(1060)
    assert way_of(sled={"round_marks": "0 mm"}).stretch == pytest.approx(1)
    # 1008 at 1 in 10 wants 150.4: marked at 150, the sled is flatter already, 1 in 10.08, and at most 1 in 10.1
    assert way_of(1008).stretch == pytest.approx(1008 / 99.8 / 10.08)
    # 992 wants 149.6, marked 150: steeper, 1 in 9.92
    assert way_of(992).stretch == pytest.approx(992 / 98.2 / 9.92)
    # measured flatter than any rounding would make it: what is told is not scaled down
    assert way_of(sled={"heel_as_made": "140 mm"}).stretch == 1


def test_the_least_board_is_held_by_every_clamp() -> None:
    way = way_of()
    assert with_clamps(way).least_board == 0
    assert with_clamps(way, clamp("heel", 1, least_board=400), clamp("nose", 1, least_board=900)).least_board == 900


def test_the_cut_that_divides_is_the_planks_alone() -> None:
    way = way_of(sled={"heel_as_made": "140 mm", "nose_as_made": "47 mm"})
    assert way.dividing is not None
    assert way.dividing == way_of().dividing  # what was measured since does not move it
    assert way_of(sled={"made_from": "sheet"}).dividing is None


def test_the_tip_is_the_gap_square_to_the_board() -> None:
    """The joint is that of the sled as measured: 1000 in 150 - 40 is 1 in 9.09."""
    way = way_of(sled={"heel_as_made": "150 mm", "nose_as_made": "40 mm"})
    assert way.joint.ratio == pytest.approx(1000 / 110)
    assert way.joint.tip == pytest.approx(0.5 * math.hypot(110, 1000) / 1000)
    assert joint_of(way.job, way.nominal).tip == pytest.approx(0.5 / COS)
    assert (way.joint.thickness, way.joint.height) == (20, 50)
