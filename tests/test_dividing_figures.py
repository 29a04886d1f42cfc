"""The dividing cut on its carrier, the guide rail and the screws: every figure by hand, by turning a drawn plank."""

from __future__ import annotations

import math
from typing import Any

import pytest
from scarfwright.models.flat.loop import Loop
from scarfwright.models.flat.room import Capsule
from scarfwright.models.sled.dividing import Dividing, _screw_places
from scarfwright.models.sled.making import sled_way
from scarfwright.models.sled.rail import RailPiece
from scarfwright.models.sled.screws import ScrewLength, has_wood, screw_length
from scarfwright.models.sled.way import SledWay

from tests.cut_jobs import job

# plank 184 x 38, sled 1000, mark 133.5, kerf 2.5, plate 1.8, gap 0.4, carrier 18 thick
N = 1000 / (2 * 133.5 - 184)
SLANT = math.hypot(1, N)
SIN, COS = 1 / SLANT, N / SLANT
HALF_KERF = 1.25 / COS
HEEL, NOSE = 133.5 - HALF_KERF, 184 - 133.5 - HALF_KERF


def way_of(length: float = 1000, units: str = "mm", **tables: dict[str, Any]) -> SledWay:
    return sled_way(job(**tables).model_copy(update={"units": units}), length)[0]


def cut_of(length: float = 1000, units: str = "mm", **tables: dict[str, Any]) -> Dividing:
    found = way_of(length, units, **tables).dividing
    assert found is not None
    return found


def points(loop: Loop) -> list[tuple[float, float]]:
    return [v.point for v in loop.vertices]


def near(found: list[tuple[float, float]], wanted: list[tuple[float, float]]) -> bool:
    return len(found) == len(wanted) and all(math.dist(a, b) < 1e-6 for a, b in zip(found, wanted, strict=True))


def turned(x: float, y: float) -> tuple[float, float]:
    """From the plank (x from its nose end, y from the half's straight edge) to the carrier.

    The nose end of the dividing edge lies on the blade's line, 190.4 from the fence; the batten's outer corner, 40
    outside the straight edge at the nose, lies 15 from the carrier's end. Turned clockwise by theta about it.
    """
    angle = -math.atan(1 / N)
    left = (NOSE + 40) * SIN + 15
    dx, dy = x, y - NOSE
    return (
        left + dx * math.cos(angle) - dy * math.sin(angle),
        190.4 + dx * math.sin(angle) + dy * math.cos(angle),
    )


def test_the_dividing_edge_lies_along_the_feed() -> None:
    assert turned(0, NOSE)[1] == pytest.approx(190.4)
    assert turned(1000, HEEL)[1] == pytest.approx(190.4)


def test_carrier_fence_and_blade() -> None:
    cut = cut_of()
    assert (cut.carrier_width, cut.carrier_thickness, cut.support_strip) == (190, 18, 18)
    # the dividing edge, the heel's end leaning over it, and 15 of edge: past every corner of the plank
    end = (NOSE + 40) * SIN + 15 + 1000 / COS + HEEL * SIN + 15
    assert cut.carrier_length == math.ceil(end / 10) * 10
    assert cut.carrier_length > max(turned(1000, y)[0] for y in (-40, 0, 184)) + 15
    assert cut.fence == pytest.approx(190.4)
    assert cut.fence_to_plate == pytest.approx(190.4 + 0.35)
    assert cut.blade_height == 18 + 38 + 6
    assert cut.line_beyond == pytest.approx(0.4 + 1.25)


def test_in_inches_boards_come_in_halves() -> None:
    cut = cut_of(units="in")
    width = HEEL * COS + 55
    assert cut.carrier_width == pytest.approx(math.ceil(width / 12.7) * 12.7)
    assert (cut.carrier_length / 12.7) == pytest.approx(round(cut.carrier_length / 12.7))
    assert cut.free.width / 12.7 == pytest.approx(round(cut.free.width / 12.7))
    assert cut.rail.length == pytest.approx(math.ceil(1400 / 12.7) * 12.7)
    for station, depth in cut.screws_on_plank:
        for at in (station, depth):
            marks = at / (25.4 / 16)
            assert marks == pytest.approx(round(marks))


def test_batten_and_its_screws() -> None:
    cut = cut_of()
    assert near(points(cut.batten), [turned(0, -40), turned(1000, -40), turned(1000, 0), turned(0, 0)])
    assert near(list(cut.batten_ends), [turned(0, 0), turned(1000, 0)])
    assert cut.batten_height == 18
    assert near(list(cut.batten_screws), [turned(x, -20) for x in (60, 500, 940)])
    assert cut_of(sled={"plank": ["15 mm", "184 mm"]}).batten_height == 15
    # through 18 into 18: 10 to bite less the head's 3, and 4 of the other 8 left above the point
    assert cut.batten_screw == ScrewLength(18 + 10 - 3, 18 + 18 - 4 - 3)


def test_the_screws_of_the_plank() -> None:
    cut = cut_of()
    places = [(s, round((NOSE + (1000 - s) / N) / 2)) for s in (60, 500, 940)]
    assert cut.screws_on_plank == tuple(places)
    assert near(list(cut.screws), [turned(1000 - s, y) for s, y in places])
    assert cut.screw_to_kerf == pytest.approx(min(190.4 - turned(1000 - s, y)[1] for s, y in places))
    assert cut.screw == ScrewLength(18 + 10 - 3, 18 + 38 - 10 - 3)


def test_a_screw_gives_way_to_a_notch_to_the_nearest_mark_with_wood() -> None:
    """A notch in the plank's middle: the second screw moves by fives, or to another depth, and keeps 10 of wood."""
    way = way_of(sled={"extra_stations": ["505 mm"], "web": "40 mm"})
    cut = way.dividing
    assert cut is not None
    stations = [s for s, _ in cut.screws_on_plank]
    assert len(stations) == 3
    openings = [c for _, c in way.layout.capsules(way.nominal)]
    for station, depth in cut.screws_on_plank:
        assert has_wood((1000 - station, depth), way.nominal.corners(), openings)

    def any_depth(station: float) -> float | None:
        wide = NOSE + (1000 - station) / N
        depths = (math.floor(share * wide + 0.5) for share in (0.5, 0.4, 0.6, 0.7))
        return next((y for y in depths if has_wood((1000 - station, y), way.nominal.corners(), openings)), None)

    middle, depth = cut.screws_on_plank[1]
    nearer = [s for s in range(5, 1000, 5) if abs(s - 500) < abs(middle - 500)]
    assert all(any_depth(s) is None for s in nearer)
    assert depth == any_depth(middle)


def test_a_short_plank_has_its_screws_in_its_quarters() -> None:
    cut = cut_of(length=200, sled={"plank": ["38 mm", "184 mm"], "heel_station": "100 mm", "handle_hole": "0 mm"})
    ends = [x for x, _ in cut.batten_screws]
    assert len(ends) == 3
    apart = [ends[i] - ends[i + 1] for i in (0, 1)]
    assert [abs(a) for a in apart] == pytest.approx([50 * abs(apart[0]) / 50, abs(apart[0])])
    assert abs(ends[0] - ends[2]) == pytest.approx(100 * cut_slant(200))


def cut_slant(length: float) -> float:
    """cos(theta) of the sled of this length: along the carrier."""
    return math.cos(way_of(length=length).nominal.angle)


def test_the_strip_under_the_free_half() -> None:
    """The other half is the first turned half round about the plank's middle; its strip starts 5 beyond the kerf."""
    cut = cut_of()
    wide, narrow = HEEL * COS, NOSE * COS
    assert cut.free.width == math.ceil(wide * 2 / 3 / 10) * 10
    assert cut.free.length == math.ceil(1000 / COS / 10) * 10
    # trapezium on the kerf: its centre from the long side, by its two triangles
    triangles = ((wide / 2, wide / 3), (narrow / 2, narrow / 3))
    by_triangles = (wide * wide + wide * narrow + narrow * narrow) / (3 * (wide + narrow))
    steps = 20_000
    widths = [narrow + (wide - narrow) * (i + 0.5) / steps for i in range(steps)]
    assert cut.free.centre == pytest.approx(sum(w * w / 2 for w in widths) / sum(widths), rel=1e-6)
    assert by_triangles == pytest.approx(cut.free.centre)
    assert triangles[0][0] > triangles[1][0]
    low = turned(0, NOSE)[0] + 2.5 * SIN / COS
    y = 190.4 + 2.5 + 5
    corners = [
        (low, y),
        (low + cut.free.length, y),
        (low + cut.free.length, y + cut.free.width),
        (low, y + cut.free.width),
    ]
    assert near(points(cut.free.loop), corners)
    # its screws: s from its own heel, at the plank's other end, and y from its own edge, the plank's other edge
    assert near(list(cut.free.screws), [turned(s, 184 - y) for s, y in cut.screws_on_plank])


def test_a_narrow_taper_makes_the_strip_as_wide_as_the_nose() -> None:
    """Heel 104.1, nose 77.4: two thirds of the heel are less than the nose."""
    cut = cut_of(length=320, sled={"handle_hole": "0 mm"})
    sled = way_of(length=320, sled={"handle_hole": "0 mm"}).nominal
    assert sled.heel * 2 / 3 < sled.nose
    assert cut.free.width == math.ceil(sled.nose * math.cos(sled.angle) / 10) * 10


# -- how it runs -----------------------------------------------------------------------------------------------


def test_the_carriers_run_past_the_blade() -> None:
    """Blade 62 up, its axis 65 under the table: it stands sqrt(127^2 - 65^2) ahead of it there."""
    cut = cut_of(saw={"table_front": "500 mm", "table_back": "400 mm", "clear_gap": "7 mm"})
    reach = math.sqrt(127**2 - 65**2)
    run = cut.run
    assert run.start == pytest.approx(reach + 25)
    assert run.end == pytest.approx(reach + 7)
    assert run.infeed == pytest.approx(cut.carrier_length + reach + 25 - 500)
    assert run.outfeed == pytest.approx(cut.carrier_length + reach + 7 - 400)
    assert cut.handle is not None
    assert run.stick_from == pytest.approx(cut.handle[0] + reach + 300)
    assert run.guard_at == 18 + 38
    long = cut_of(saw={"table_front": "3 m", "table_back": "3 m"}).run
    assert (long.infeed, long.outfeed) == (0, 0)


def test_the_handle_in_the_middle_of_what_is_free() -> None:
    """Its middle 40 + 60 from the trailing end; free down to the batten at its far end, 160 from there."""
    cut = cut_of()
    (x0, y0), (x1, y1) = turned(0, -40), turned(1000, -40)
    free = y0 + (y1 - y0) * (160 - x0) / (x1 - x0)
    assert free >= 80
    assert cut.handle == pytest.approx((100, free / 2))
    loop = cut.handle_loop
    assert loop is not None
    assert near(points(loop), [(40, free / 2 - 20), (160, free / 2 - 20), (160, free / 2 + 20), (40, free / 2 + 20)])


def test_no_handle_where_a_hand_has_no_room() -> None:
    """A short carrier of little taper: less than 80 between its fence edge and the batten."""
    cut = cut_of(length=320, sled={"handle_hole": "0 mm"})
    (x0, y0), (x1, y1) = (points(cut.batten)[i] for i in (0, 1))
    assert y0 + (y1 - y0) * (160 - x0) / (x1 - x0) < 80
    assert cut.handle is None
    assert cut.handle_loop is None
    reach = math.sqrt(127**2 - 65**2)
    assert cut.run.stick_from == pytest.approx(reach + 300)


# -- the guide rail --------------------------------------------------------------------------------------------


def test_the_rail_by_hand() -> None:
    """Base 130 to the blade, kerf 2.2: its edge 131.1 from the line, square to it."""
    rail = cut_of().rail
    assert (rail.kerf, rail.saw_depth, rail.length) == (2.2, 41, 1400)
    assert rail.offset == cut_of().rail_offset == pytest.approx(131.1)
    assert rail.at_nose == pytest.approx(184 - 133.5 - 131.1 / COS)
    assert rail.at_heel == pytest.approx(133.5 - 131.1 / COS)
    assert (rail.heel, rail.nose) == pytest.approx((133.5 - 1.1 / COS, 184 - 133.5 - 1.1 / COS))

    def edge(x: float) -> float:
        return rail.at_nose + x / N

    beyond = 100 / COS
    assert near(points(rail.outline), [(-200, edge(-200)), (-200, edge(-200) - beyond),
                                       (1200, edge(1200) - beyond), (1200, edge(1200))])  # fmt: skip
    # pieces of 200 beside the plank: the rail's far side is furthest out at their narrow ends
    at_heel, at_nose = (math.ceil((beyond - edge(x)) / 10) * 10 for x in (800, 0))
    assert rail.pieces == (RailPiece(0, 200, at_heel), RailPiece(800, 1000, at_nose))


def test_a_rail_that_lies_wholly_on_the_plank_has_no_piece_there() -> None:
    """A base of 20 puts the rail on the plank at its wide end: the heel's piece goes, the nose's stays."""
    rail = cut_of(saw={"base_to_blade": "20 mm"}).rail
    edge = 184 - 133.5 - 21.1 / COS
    assert 100 / COS - (edge + 800 / N) > 0  # still a little out at 800
    assert [p.start for p in rail.pieces] == [0, 800]
    nearer = cut_of(saw={"base_to_blade": "2 mm"}).rail
    assert 100 / COS - (184 - 133.5 - 3.1 / COS + 800 / N) < 0
    assert [p.start for p in nearer.pieces] == [800]


# -- screws ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("into", "most"), [(38, 18 + 38 - 10 - 3), (30, 18 + 30 - 10 - 3), (20, 18 + 20 - 5 - 3),
                                            (14, 18 + 14 - 2 - 3), (13.9, None)])  # fmt: skip
def test_how_long_a_screw(into: float, most: float | None) -> None:
    """Bites 10; 10 stay above its point, in a thin piece half of what is over; under 2 of that there is none."""
    found = screw_length(18, into)
    assert found == (None if most is None else ScrewLength(25, most, 3))


def test_a_screw_keeps_10_of_wood() -> None:
    square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
    hole = Capsule((50.0, 50.0), (50.0, 50.0), 5.0)
    assert has_wood((12.25, 50.0), square, [])
    assert not has_wood((12.2, 50.0), square, [])
    assert has_wood((50.0, 67.25), square, [hole])
    assert not has_wood((50.0, 67.2), square, [hole])


def test_pieces_of_a_short_plank_are_a_third_of_it() -> None:
    rail = cut_of(length=450, sled={"handle_hole": "0 mm"}).rail
    assert [(p.start, p.end) for p in rail.pieces] == [(0, 150), (300, 450)]


def test_a_piece_reaches_to_the_rails_far_side_as_it_slants() -> None:
    """The rail 100 wide is 100 / cos across the plank: 180.3 wanted at the nose, which 100 cos would call 179.6."""
    offset = (180.3 + 184 - 133.5) * COS - 100
    rail = cut_of(saw={"base_to_blade": f"{offset - 1.1:.3f} mm"}).rail
    assert rail.pieces[1].width == 190
    offset = (0.5 + 184 - 133.5 + 800 / N) * COS - 100  # and half a millimetre at the heel's piece
    rail = cut_of(saw={"base_to_blade": f"{offset - 1.1:.3f} mm"}).rail
    assert (rail.pieces[0].start, rail.pieces[0].width) == (0, 10)


def test_the_carrier_is_as_wide_as_the_heel_lies_on_it() -> None:
    """Plank 190, mark 136.5: the heel is 134.8 across the carrier and 55 beside it, 189.8; not heel / cos."""
    n = 1000 / (2 * 136.5 - 190)
    heel = 136.5 - 1.25 * math.hypot(1, n) / n
    assert heel * n / math.hypot(1, n) + 55 < 190 < heel * math.hypot(1, n) / n + 55
    assert cut_of(sled={"plank": ["38 mm", "190 mm"]}).carrier_width == 190


def test_a_half_too_narrow_for_a_screw_has_none() -> None:
    cut = cut_of(length=60, sled={"plank": ["38 mm", "30 mm"], "handle_hole": "0 mm"})
    assert cut.screws == cut.screws_on_plank == ()
    assert cut.screw_to_kerf == 0


def across(start: float, end: float) -> Capsule:
    """An opening through the whole width, from one station to the other (of 1000, from the heel)."""
    middle, radius = 1000 - (start + end) / 2, (end - start) / 2
    return Capsule((middle, -300.0), (middle, 400.0), radius)


@pytest.mark.parametrize(("openings", "stations"), [
    ([], [60, 500, 940]),
    # 10 of wood and half a screw of 4.5 beside the opening, on fives
    ([across(450, 720)], [60, 435, 940]),
    ([across(200, 520)], [60, 535, 940]),
    # the first must go past it, the second keeps 60 from the first
    ([across(0, 480)], [495, 555, 940]),
    ([across(0, 482)], [495, 555, 940]),
    ([across(520, 1000)], [60, 500, 440]),
    # no two places 60 apart: only as many as there is wood for
    ([across(0, 520), across(560, 1000)], [535]),
    ([across(0, 900), across(916, 1000)], []),
    ([across(28, 1000)], [15]),
    ([across(0, 972)], [985]),
])  # fmt: skip
def test_screws_go_to_the_nearest_fives_with_wood(openings: list[Capsule], stations: list[float]) -> None:
    sled = way_of().nominal
    found = list(_screw_places(sled, openings, 1.0))
    assert [s for s, _ in found] == pytest.approx(stations)
    assert [y for _, y in found] == [round(sled.width_at(1000 - s) / 2) for s in stations]


@pytest.mark.parametrize(("at", "radius", "share"), [(0.6, 3, 0.4), (0.4, 3, 0.6), (0.42, 11, 0.7)])
def test_screws_give_way_in_depth_first(at: float, radius: float, share: float) -> None:
    """Middle of the width, then 0.4, 0.6 and 0.7 of it: at the middle station it is 90.7 wide."""
    sled = way_of().nominal
    wide = sled.width_at(500)
    slot = Capsule((400.0, at * wide), (600.0, at * wide), radius)
    places = dict(_screw_places(sled, [slot], 1.0))
    assert places[500] == round(share * wide)


def test_on_a_short_plank_screws_keep_a_fifth_of_it_apart() -> None:
    """Of 200: 40. An opening from 80 to 130 sends the second to 145 (65 is too near the first), and so the third on."""
    sled = way_of(length=200, sled={"handle_hole": "0 mm"}).nominal
    opening = Capsule((95.0, -300.0), (95.0, 400.0), 25.0)
    assert [s for s, _ in _screw_places(sled, [opening], 1.0)] == [50, 145, 185]
