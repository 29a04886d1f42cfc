"""The closed forms of blade and clamps against brute force: bodies sampled and pushed until they meet."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.joint.joint import Joint
from scarfwright.models.sled.blade import Blade, Jaw, travels
from scarfwright.models.sled.making import joint_of
from scarfwright.models.sled.sled import Sled

STEPS = 200  # of the grid of points

joints = st.builds(
    Joint, ratio=st.floats(2, 40), thickness=st.floats(4, 80), height=st.floats(15, 90), tip=st.floats(0.1, 2)
)


@st.composite
def cases(draw: st.DrawFn) -> tuple[Joint, Blade, Jaw]:
    joint = draw(joints)
    height = joint.height + draw(st.floats(0.5, 20))
    blade = Blade(
        2 * height + draw(st.floats(1, 200)), draw(st.floats(1, 4)), height, joint.tip * math.cos(joint.angle)
    )
    jaw = Jaw(
        lower_edge=draw(st.floats(0, joint.height)),
        reach_along=draw(st.floats(2, 60)),
        stand_off=draw(st.floats(2, 40)),
        side_clearance=draw(st.floats(0, 25)),
        bar_edge=joint.height + draw(st.one_of(st.just(math.inf), st.floats(0, 30))),
    )
    return joint, blade, jaw


def blade_front(blade: Blade, lower_edge: float) -> float:
    """How far ahead of the axis the circle stands at the jaw's lower edge or anywhere above it, by sampling it."""
    return max(
        blade.radius * math.cos(a)
        for a in (math.asin(max(min((lower_edge + blade.axis_depth) / blade.radius, 1), -1)),
                  *(math.pi / 2 * i / 2000 for i in range(2001)))
        if blade.radius * math.sin(a) - blade.axis_depth >= lower_edge - 1e-9
    )  # fmt: skip


def brute_limit(joint: Joint, blade: Blade, jaw: Jaw, station: float) -> float | None:
    """Travel at which the blade's front reaches the first point of jaw or bar that lies in its way.

    The jaw is a rectangle on the work's outer face, the bar one that crosses over work and sled; of each the lowest
    edge counts. Both are sampled, and each point is put in the fence's frame by turning it.
    """
    outer = joint.thickness + jaw.stand_off
    found = [
        front - blade_front(blade, low)
        for low, inner in ((jaw.lower_edge, joint.thickness), (jaw.bar_edge, -80.0))
        if low < blade.height and (front := brute_front(joint, blade.gap, jaw, station, inner, outer)) is not None
    ]
    return min(found, default=None)


def brute_front(joint: Joint, gap: float, jaw: Jaw, station: float, inner: float, outer: float) -> float | None:
    """Least X of the sampled points that lie beyond the blade plane less the side clearance."""
    cos, sin = math.cos(joint.angle), math.sin(joint.angle)
    least: float | None = None
    for i in range(STEPS + 1):
        u = station - jaw.reach_along + 2 * jaw.reach_along * i / STEPS
        for k in range(STEPS + 1):
            v = inner + (outer - inner) * k / STEPS
            beyond_heel = v * cos - u * sin  # Y less the heel's width
            if beyond_heel >= gap - jaw.side_clearance:
                x = u * cos + v * sin
                least = x if least is None or x < least else least
    return least


@settings(max_examples=30, deadline=None)
@given(cases(), st.floats(0, 1500))
def test_a_clamps_limit_against_sampled_bodies(case: tuple[Joint, Blade, Jaw], station: float) -> None:
    joint, blade, jaw = case
    exact = jaw.limit(station, joint, blade)
    found = brute_limit(joint, blade, jaw, station)
    grid = (2 * jaw.reach_along + joint.thickness + jaw.stand_off + 80) / STEPS + 0.01
    if exact is None:
        assert found is None
    elif found is None:  # less of the jaw lies in the way than the grid can see: the next station has no limit
        assert jaw.limit(station + grid * (1 + joint.ratio), joint, blade) is None
    else:
        assert exact - 1e-6 <= found <= exact + grid


@settings(max_examples=300)
@given(cases(), st.floats(-50, 1500), st.floats(0, 300))
def test_further_back_is_never_worse(case: tuple[Joint, Blade, Jaw], station: float, more: float) -> None:
    joint, blade, jaw = case
    here, there = jaw.limit(station, joint, blade), jaw.limit(station + more, joint, blade)
    if here is None:
        assert there is None
    else:
        assert there is None or there >= here - 1e-9


@settings(max_examples=300)
@given(cases(), st.floats(0, 1500))
def test_least_station_against_a_search(case: tuple[Joint, Blade, Jaw], travel: float) -> None:
    """Bisection for the least station whose limit serves; the jaw may not reach past the heel's end."""
    joint, blade, jaw = case

    def serves(station: float) -> bool:
        limit = jaw.limit(station, joint, blade)
        return limit is None or limit >= travel - 1e-9

    low = jaw.reach_along
    high = low + 1.0
    while not serves(high):
        high = low + 2 * (high - low)
        assert high < 1e6
    if serves(low):
        high = low
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (low, middle) if serves(middle) else (middle, high)
    assert jaw.least_station(travel, joint, blade) == pytest.approx(high, abs=1e-5)


def test_pads_above_the_blade_meet_nothing() -> None:
    joint, blade = Joint(12, 22, 60, 0.4), Blade(254, 2.5, 66, 0.4)
    assert Jaw(66.0, 25, 12, 10).limit(0, joint, blade) is None
    assert Jaw(65.9, 25, 12, 10).limit(0, joint, blade) is not None
    assert Jaw(66.0, 25, 12, 10).least_station(500, joint, blade) == 25


# -- the travels, by moving the blade through the board --------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(cases())
def test_travels_by_sweeping_the_taper_face(case: tuple[Joint, Blade, Jaw]) -> None:
    """Along the blade plane the face to be cut runs from the heel to X_exit, from the table to the work's top.

    Complete: the last uncut point (at the top, at X_exit) has been reached by the blade's front. The far side of the
    kerf leaves the board where its outer face crosses that plane, k / tan(theta) sooner.
    """
    joint, blade, _ = case
    t = travels(joint, blade, 5.0)
    cos, sin = math.cos(joint.angle), math.sin(joint.angle)

    def exit_at(offset: float) -> float:
        """X at which the outer face v = t crosses Y = heel + offset, found by bisection along the board."""
        low, high = -1e4, 1e5
        for _ in range(100):
            u = (low + high) / 2
            if joint.thickness * cos - u * sin > offset:
                low = u
            else:
                high = u
        return low * cos + joint.thickness * sin

    def front(z: float) -> float:
        """Ahead of the axis at height z, by bisection on the circle."""
        low, high = 0.0, blade.radius
        for _ in range(100):
            x = (low + high) / 2
            if x * x + (z + blade.axis_depth) ** 2 < blade.radius**2:
                low = x
            else:
                high = x
        return low

    assert t.exit_x == pytest.approx(exit_at(blade.gap), abs=1e-5)
    slowest = max(exit_at(blade.gap) - front(joint.height * i / 50) for i in range(51))
    assert t.done == pytest.approx(slowest, abs=1e-5)
    offcut = max(exit_at(blade.gap + blade.kerf) - front(joint.height * i / 50) for i in range(51))
    assert t.offcut_free == pytest.approx(offcut, abs=1e-5)
    assert t.done - t.offcut_free == pytest.approx(blade.kerf * joint.ratio)
    assert t.start == pytest.approx(-front(0) - 25)
    # clear: the blade's back, f(0) behind the axis at the table, stands a gap g off the taper's end
    back = t.clear - front(0)
    assert (back - exit_at(blade.gap)) * math.tan(joint.angle) == pytest.approx(5.0, abs=1e-4)


def test_end_of_cut() -> None:
    t = travels(Joint(12, 22, 60, 0.4), Blade(254, 2.5, 66, 0.4), 5)
    assert t.end("hold") == t.end("draw_back") == t.done
    assert t.end("run_on") == t.clear


@given(joints)
def test_joint_by_coordinates(joint: Joint) -> None:
    """The tapered board as a shape in its own frame (u along, v through): where the cut meets both faces."""
    assume(joint.thickness > 4 * joint.tip)
    tip = joint.tip
    # taper: v = tip + u / N reaches the thickness
    run = (joint.thickness - tip) * joint.ratio
    assert joint.taper_run == pytest.approx(run)
    # two mated at full thickness: the second is the first turned half round, its taper v = t - tip - (X - u) / N
    overlap = joint.overlap
    for u in (0.0, 0.3 * overlap, overlap):
        assert tip + u / joint.ratio == pytest.approx(joint.thickness - tip - (overlap - u) / joint.ratio)
    assert joint.glue_area == pytest.approx(math.hypot(overlap, joint.thickness - 2 * tip) * joint.height)
    assert joint.finished_run(joint.thickest_finish) == pytest.approx(overlap)


@given(st.floats(3, 40), st.floats(0.05, 2))
def test_the_tip_is_the_fence_gap_seen_through_the_board(ratio: float, gap: float) -> None:
    """The board's square end starts at the heel's corner, square to the work edge: where it crosses Y = heel + c."""
    angle = math.atan(1 / ratio)
    through = gap / math.cos(angle)  # v along the end at which its Y has grown by the gap: v cos = c
    found = job_from_dict(
        {"stock": {"thickness": 30, "height": 60}, "joint": {"ratio": ratio}, "saw": {"fence_gap": gap}}
    )
    sled = Sled(ratio, 900.0, 38.0, 100.0, 100.0 - 900.0 / ratio)
    assert joint_of(found, sled).tip == pytest.approx(through, rel=1e-9)
