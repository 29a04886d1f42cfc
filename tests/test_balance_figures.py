"""Balance and stand of one cut, each figure again from drawn bodies and the moments about the table's edges."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scarfwright.models.cut.balance import Stand, centre_of_mass, far_handle, support
from scarfwright.models.sled.way import SledWay
from shapely import LineString, Polygon

from tests.cut_jobs import worked

N = 850 / 71  # of the quiet job: mark 127.5 on a plank of 184
SLANT = math.hypot(1, N)
SIN, COS = 1 / SLANT, N / SLANT
HALF_KERF = 1.25 * SLANT / N
HEEL, NOSE = 127.5 - HALF_KERF, 56.5 - HALF_KERF
TIP = 0.4 * SLANT / N
DONE = 22 * SLANT - 0.4 * N - math.sqrt(127**2 - 121**2)
CLEAR = 22 * SLANT - 0.4 * N + math.sqrt(127**2 - 61**2) + 5 * N
START = -(math.sqrt(127**2 - 61**2) + 25)


def from_work_edge(u: float, v: float) -> tuple[float, float]:
    """X from the heel and Y from the fence of a point u along the work edge and v out of it."""
    return (u * COS + v * SIN, HEEL - u * SIN + v * COS)


def bodies(way: SledWay, board: float, *, cut: bool) -> list[tuple[Polygon, float]]:
    """Sled and board as seen from above, each with its height."""
    flat = way.sled.nose_flat
    sled = Polygon([(0, 0), (850 - flat, 0), (850 - flat, flat / N), (850, 0), (850, NOSE), (0, HEEL)])
    for notch in way.layout.notches:  # slots of 50 x 16 behind a web of 25
        ends = [from_work_edge(notch.station + side * (50 - 16) / 2, -(25 + 8)) for side in (-1, 1)]
        sled = sled.difference(LineString(ends).buffer(8, quad_segs=400))
    corners = [(0.0, 0.0), (board, 0.0), (board, 22.0), (0.0, 22.0)]
    if cut:
        corners = [(0.0, 0.0), (board, 0.0), (board, 22.0), ((22 - TIP) * N, 22.0), (0.0, TIP)]
    return [(sled, 38.0), (Polygon([from_work_edge(u, v) for u, v in corners]), 60.0)]


def weighed(found: list[tuple[Polygon, float]]) -> tuple[float, float]:
    """Weight [N] in a wood of 320 kg/m3, and X of the centre [mm]."""
    volume = sum(shape.area * high for shape, high in found)
    centre = sum(shape.area * high * shape.centroid.x for shape, high in found) / volume
    return volume * 1e-9 * 320 * 9.81, centre


@pytest.mark.parametrize("board", [900, 2400, 4000])
@pytest.mark.parametrize("handles", ["auto", "none"])
def test_every_balance_against_drawn_bodies(board: int, handles: str) -> None:
    changes = {} if handles == "auto" else {"handle_hole": "0 mm"}
    work = worked(stock={"length": f"{board} mm"}, saw={"table_back": "300 mm"}, sled=changes)
    way = work.way
    found = support(way)
    handle = max((850 - x for x, _ in way.layout.handle_holes), default=min(way.layout.hand_line + 100, 850))
    assert far_handle(way) == found.handle == pytest.approx(handle)
    for balance, (name, travel) in zip(
        found.balances, (("start", START), ("done", DONE), ("clear", CLEAR)), strict=True
    ):
        assert balance.name == name
        assert balance.travel == pytest.approx(travel)
        weight, centre = weighed(bodies(way, board, cut=name != "start"))
        assert balance.centre == pytest.approx(centre, abs=1e-3)
        assert balance.over_front == pytest.approx(centre - travel - 800, abs=1e-3)
        assert balance.over_back == pytest.approx(travel - 300 - centre, abs=1e-3)
        both = (weight * centre + 100 * handle) / (weight + 100)
        assert balance.hand_over == pytest.approx(both - travel - 800, abs=1e-3)
        assert balance.carried is (
            centre - travel - 800 <= -50 and travel - 300 - centre <= -50 and both <= travel + 800
        )
    assert centre_of_mass(way, board, cut=True) == pytest.approx(found.balances[1].centre)


def test_a_hand_line_near_the_nose_is_pressed_at_the_nose() -> None:
    way = worked(sled={"handle_hole": "0 mm", "hand_line": "700 mm"}).way
    assert far_handle(way) == 800
    assert far_handle(worked(sled={"handle_hole": "0 mm", "hand_line": "790 mm"}).way) == 850


@pytest.mark.parametrize("end", ["hold", "run_on"])
@pytest.mark.parametrize("board", [1500, 2400, 4000])
@pytest.mark.parametrize("front", [350, 500])
def test_the_stand_against_drawn_bodies(end: str, board: int, front: int) -> None:
    """Beyond the centre and the handle at the start, under the tail until the table carries both or the cut ends."""
    work = worked(stock={"length": f"{board} mm"}, saw={"table_front": f"{front} mm", "end_of_cut": end})
    way, found = work.way, support(work.way)
    whole, cut = (weighed(bodies(way, board, cut=c)) for c in (False, True))
    handle = found.handle
    pressed = max((weight * centre + 100 * handle) / (weight + 100) for weight, centre in (whole, cut))
    carried_at = max(whole[1] + 50, cut[1] + 50, pressed) - front
    last = min(carried_at, CLEAR if end == "run_on" else DONE)
    nearest = max(whole[1] - START - front + 50, handle - START - front, 50)
    tail = max(board * COS, 850)
    stand = found.stand
    assert stand is not None
    assert stand.nearest == pytest.approx(math.ceil(nearest / 10) * 10)
    assert stand.furthest == pytest.approx(math.floor((tail - last - front) / 10) * 10)
    assert abs(stand.best - (stand.nearest + stand.furthest) / 2) <= 5
    assert stand.best % 10 == pytest.approx(0)
    places = [HEEL - (travel + front + stand.best) / N for travel in (START, last)]
    assert stand.across == pytest.approx((min(places), max(places) + 22 * SLANT / N))


def test_one_stand_serves_as_long_as_near_is_not_beyond_far() -> None:
    stand = Stand(500.0, 500.0, 500.0, (0.0, 22.0))
    assert stand.fits
    assert not replace(stand, nearest=500.1).fits


@pytest.mark.parametrize(("board", "centre_governs"), [(900, False), (4000, True)])
def test_no_stand_just_where_the_table_carries_centre_and_hand(board: int, centre_governs: bool) -> None:
    """The table's front edge moved to where the start is just carried by 50, and by a hair less."""
    length = {"length": f"{board} mm"}
    way = worked(stock=length).way
    weight, centre = weighed(bodies(way, board, cut=False))
    handle = far_handle(way)
    assert (centre + 50 > (weight * centre + 100 * handle) / (weight + 100)) is centre_governs
    least = max(centre + 50, (weight * centre + 100 * handle) / (weight + 100)) - START
    for front, needed in ((least + 0.01, False), (least - 0.01, True)):
        found = support(worked(stock=length, saw={"table_front": f"{front:.3f} mm"}).way)
        assert (found.stand is not None) is needed
        assert found.balances[0].carried is not needed


@pytest.mark.parametrize("end", ["hold", "run_on"])
def test_outfeed_support_just_where_the_centre_comes_within_50_of_the_far_edge(end: str) -> None:
    way = worked().way
    _, centre = weighed(bodies(way, 900, cut=True))
    travel = CLEAR if end == "run_on" else DONE
    far = travel - centre + 50
    # this board balances well before the blade: the far edge would lie before the axis, so only the rule is tried
    for back, needed in ((far - 0.01, True), (far + 0.01, False)):
        saw = way.job.saw.model_copy(update={"table_back": back, "end_of_cut": end})
        found = support(replace(way, job=way.job.model_copy(update={"saw": saw})))
        assert found.outfeed is needed


def test_taking_off_behind_the_saw_wants_1200() -> None:
    assert support(worked(saw={"table_back": "1199.9 mm"}).way).short_table
    assert not support(worked(saw={"table_back": "1200 mm"}).way).short_table


def test_how_far_the_heel_runs_past_the_table() -> None:
    """The block stands on the next mm from the front edge, 800 + travel: past a table of 300 behind the axis by so "
    "much."""
    past = math.ceil(800 + CLEAR) - 800 - 300
    assert past > 0
    assert support(worked(saw={"table_back": "300 mm", "end_of_cut": "run_on"}).way).past_back == pytest.approx(past)
    assert support(worked(saw={"table_back": "600 mm", "end_of_cut": "run_on"}).way).past_back == 0


def test_what_is_told_of_the_infeed_support() -> None:
    found = support(worked(stock={"length": None}, saw={"table_front": "400 mm"}).way)
    assert found.assumed
    assert found.board_length == 2400
    assert found.stand is not None
    assert found.infeed_numbers() == {
        "over_front_mm": found.balances[0].over_front,
        "hand_over_mm": found.balances[0].hand_over,
        "nearest_mm": found.stand.nearest,
        "furthest_mm": found.stand.furthest,
        "best_mm": found.stand.best,
        "across_from_mm": found.stand.across[0],
        "across_to_mm": found.stand.across[1],
        "board_length_mm": 2400,
        "board_length_is": "assumed",
    }
    given = support(worked(stock={"length": "2.4 m"}, saw={"table_front": "400 mm"}).way)
    assert given.infeed_numbers()["board_length_is"] == "given"


def test_a_stand_has_room_before_the_table() -> None:
    """4 m of board balance 20 inside the edge: 30 outside would steady them, and a stand wants 50."""
    way = worked(stock={"length": "4 m"}).way
    _, centre = weighed(bodies(way, 4000, cut=False))
    found = support(worked(stock={"length": "4 m"}, saw={"table_front": f"{centre - START + 20:.4f} mm"}).way)
    assert found.balances[0].over_front == pytest.approx(-20, abs=1e-3)
    assert found.stand is not None
    assert found.stand.nearest == 50
