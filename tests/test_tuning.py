"""`tune` on random faulty shops: what it finds, how sure it says it is, and what the corrections do."""

from __future__ import annotations

import math
import random
from collections import defaultdict
from dataclasses import replace
from pathlib import Path

import pytest
from scarfwright.models.accuracy.verdict import Limits
from scarfwright.models.tuning.corrections import Plan
from scarfwright.models.tuning.measured import Reading, Skew, Station, TestJoint, Twist
from scarfwright.models.tuning.tune import Tuned, tune
from scarfwright.models.words.the_joint.accuracy import hundred

from tests.faulty_shops import Shop, corrected, faulty, measure, planned

README = Path(__file__).parent.parent / "README.md"
PLAN = Plan(1 / 12, 0.4, 60.0, 22.0, 1200.0, True, Limits(0.15))
SOME = (
    ("board_thickness", "taper_run", "tip", "gap"),
    ("thickness_at", "gap"),
    ("board_thickness", "taper_run", "thickness_at", "twist", "hand"),
    ("thickness_at", "joint_thickness", "line_skew"),
)


def told(found: Tuned, shop: Shop) -> dict[str, tuple[float, float]]:
    """By name: how far the estimate is out, and its standard deviation."""
    middle = shop.gap + shop.middle * math.tan(shop.lean)
    pairs = {
        "ratio": (found.ratio, shop.ratio),
        "tip": (found.fit.tip, shop.tip),
        "gap": (found.fence_gap, middle),
        "lean": (found.fit.lean, shop.lean),
    }
    return {name: (value.value - true, value.sigma) for name, (value, true) in pairs.items() if value is not None}


def run_shops(count: int, seed: int) -> dict[str, float]:
    """Shares over `count` shops, all measurements taken."""
    rng = random.Random(seed)
    tally: dict[str, int] = defaultdict(int)
    for _ in range(count):
        plan = planned(rng)
        shop = faulty(rng, plan)
        found = tune((measure(rng, shop),), plan)
        if found.contradictions:  # four standard deviations do happen: once in some thousand readings
            tally["contradicted"] += 1
            continue
        out = told(found, shop)
        tally["before"] += shop.glue_gap <= plan.limits.gap
        tally["after"] += corrected(shop, plan, found.corrections).glue_gap <= plan.limits.gap
        tally["ratio"] += abs(out["ratio"][0]) <= 0.01 * shop.ratio
        tally["lean"] += abs(out["lean"][0]) <= math.radians(0.05)
        for name, (miss, sigma) in out.items():
            tally[f"{name} told"] += 1
            tally[f"{name} covered"] += abs(miss) <= 1.96 * sigma
    shares = {key: tally[key] / count for key in ("before", "after", "contradicted")}
    for name in ("ratio", "tip", "gap", "lean"):
        shares[name] = tally[f"{name} covered"] / tally[f"{name} told"]
    return shares | {f"{name} right": tally[name] / count for name in ("ratio", "lean")}


def check_shops(shares: dict[str, float], cover: tuple[float, float]) -> None:
    assert shares["before"] <= 0.30
    assert shares["after"] >= 0.95
    assert shares["ratio right"] >= 0.98
    assert shares["lean right"] >= 0.98
    assert shares["contradicted"] <= 0.01
    for name in ("ratio", "tip", "gap", "lean"):
        assert cover[0] <= shares[name] <= cover[1], name


def test_faulty_shops() -> None:
    check_shops(run_shops(150, 11), (0.90, 0.995))


@pytest.mark.slow
def test_two_thousand_faulty_shops() -> None:
    shares = run_shops(2000, 12)
    check_shops(shares, (0.93, 0.97))
    before, after = (hundred(shares[key]).split()[0] for key in ("before", "after"))
    said = (
        f"On 2000 random faulty shops, {before} of 100 joints were inside the glue's gap limit before and {after} after"
    )
    assert said in README.read_text(encoding="utf-8")


@pytest.mark.parametrize("keys", SOME)
def test_from_some_of_the_readings(keys: tuple[str, ...]) -> None:
    """Fewer readings: less sure, and as right as it says. Tips are left, so that all is told."""
    rng = random.Random(5)
    hits: dict[str, list[bool]] = defaultdict(list)
    sure = []
    for _ in range(60):
        plan = planned(rng)
        shop = replace(faulty(rng, plan), gap=1.8)
        found = tune((measure(rng, shop, keys),), plan)
        assert not found.contradictions
        assert found.untold == ()
        for name, (miss, sigma) in told(found, shop).items():
            hits[name].append(abs(miss) <= 1.96 * sigma)
        full = tune((measure(rng, shop),), plan)
        assert found.ratio is not None
        assert full.ratio is not None
        sure.append(full.ratio.sigma <= found.ratio.sigma * 1.001)
    assert set(hits) == {"ratio", "tip", "gap", "lean"}
    assert all(sum(hit) / len(hit) >= 0.85 for hit in hits.values())
    assert all(sure)


@pytest.mark.parametrize(
    ("joint", "untold", "would"),
    [
        (TestJoint(1, tip=(Reading("tip", 0.5),)), {"ratio", "lean_deg"}, ("taper_run",)),
        (
            TestJoint(1, taper_run=(Reading("taper_run", 259.0),)),
            {"ratio", "tip_mm", "fence_gap_mm", "lean_deg"},
            ("tip",),
        ),
        (
            TestJoint(1, thickness_at=(Station("thickness_at", 100, 8.7),)),
            {"ratio", "tip_mm", "fence_gap_mm", "lean_deg"},
            ("thickness_at one mark",),
        ),
        (TestJoint(1, gap_top=0.0, gap_bottom=0.3), {"ratio", "tip_mm", "fence_gap_mm"}, ("thickness_at two marks",)),
        (TestJoint(1, gap_bottom=0.3), {"ratio", "tip_mm", "fence_gap_mm", "lean_deg"}, ("thickness_at two marks",)),
        (TestJoint(1, joint_thickness=22.0), {"ratio", "tip_mm", "fence_gap_mm", "lean_deg"}, ("tip", "taper_run")),
        (TestJoint(1, twist=Twist(2.0, 300.0)), {"ratio", "tip_mm", "fence_gap_mm", "lean_sign"}, ("tip", "taper_run")),
    ],
)
def test_untold_is_said_and_never_guessed(joint: TestJoint, untold: set[str], would: tuple[str, ...]) -> None:
    found = tune((joint,), PLAN)
    assert set(found.untold) == untold
    assert (found.ratio is None) == ("ratio" in untold)
    assert (found.fit.tip is None) == ("tip_mm" in untold)
    assert (found.fence_gap is None) == ("fence_gap_mm" in untold)
    assert (found.fit.lean is None) == ("lean_deg" in untold)
    assert would in found.would_tell["ratio"]
    if "lean_deg" in untold:
        assert ("gap_top", "gap_bottom") in found.would_tell["lean_deg"]
        assert found.after is None
    assert [one for one in found.corrections if one.what == "blade_tilt"] == (
        [] if "gap_top" not in _given(joint) else [one for one in found.corrections if one.what == "blade_tilt"]
    )


def _given(joint: TestJoint) -> set[str]:
    return {"gap_top"} if joint.gap_top is not None and joint.gap_bottom is not None else set()


def test_lone_readings_are_named() -> None:
    found = tune((TestJoint(1, gap_top=0.2), TestJoint(2, tip_to_tip=250.0)), PLAN)
    assert found.unused == ((1, "gap_top", "gap_bottom"), (2, "tip_to_tip", "joint_thickness"))


def test_what_would_tell_does_tell() -> None:
    """Every way named settles what it is named for, tried by taking that reading."""
    rng = random.Random(9)
    shop = Shop(math.atan(1 / 12.2), 0.5, math.radians(0.3), 60.0, 22.0)
    base = TestJoint(1, tip=(Reading("tip", shop.tip),))
    full = measure(rng, shop)
    found = tune((base,), PLAN)
    extra = {
        "taper_run": {"taper_run": full.taper_run},
        "thickness_at one mark": {"thickness_at": full.thickness_at[2:]},
        "gap_top": {"gap_top": full.gap_top, "gap_bottom": full.gap_bottom},
        "twist with its hand": {"twist": full.twist},
        "line_skew with its near end": {"line_skew": full.line_skew, "taper_run": full.taper_run},
        "thickness_at at both edges": {"thickness_at": full.thickness_at[1:]},
    }
    for name, ways in found.would_tell.items():
        assert ways
        for way in ways:
            if way[0] not in extra:
                continue
            more = tune((replace(base, **extra[way[0]]),), PLAN)  # type: ignore[arg-type]
            assert name not in more.untold, (name, way)


def test_contradiction_is_named() -> None:
    """One slip of the rule: the reading is named, and nothing is advised."""
    rng = random.Random(4)
    shop = Shop(math.atan(1 / 12.0), 0.8, math.radians(0.4), 60.0, 22.0)
    good = measure(rng, shop)
    assert not tune((good,), PLAN).contradictions
    slips = {
        "thickness_at": replace(good, thickness_at=(Station("thickness_at", 70, 9.0), *good.thickness_at)),
        "gap_top, gap_bottom": replace(good, gap_top=0.9, gap_bottom=0.0),
        "twist": replace(good, twist=Twist(9.0, 300.0, "up")),
        "line_skew": replace(good, line_skew=(Skew("line_skew", 20.0, "bottom"),)),
        "taper_run": replace(good, taper_run=(Reading("taper_run", 205.0),)),
    }
    for key, joint in slips.items():
        found = tune((joint,), PLAN)
        assert f"test_joint 1, {key}" in [one.row.key for one in found.contradictions]
        assert found.corrections == ()
        assert found.after is None


@pytest.mark.parametrize(
    "joint",
    [
        TestJoint(1, gap_top=0.0, gap_bottom=0.65, twist=Twist(3.2, 300.0, "down")),
        TestJoint(1, tip=(Reading("tip", 0.5),), gap_top=0.0, gap_bottom=0.65, twist=Twist(3.5, 300.0, "down")),
    ],
)
def test_what_is_told_to_no_use_is_not_told(joint: TestJoint) -> None:
    """Gap and twist differ by how steep the joint is, so little that no reading shows it: the slope stays unknown, the
    lean does not hang on it, and the boards are cut again by no more than the lean is worth."""
    found = tune((joint,), PLAN)
    assert "ratio" in found.untold
    assert found.fit.setup.slope == pytest.approx(PLAN.slope, rel=0.25)
    assert found.fit.lean is not None
    size = math.atan(((joint.gap_bottom or 0.0) - (joint.gap_top or 0.0)) / 120)
    assert found.fit.lean.value == pytest.approx(size, abs=math.radians(0.03))
    recut = next((one for one in found.corrections if one.what == "recut"), None)
    assert recut is not None
    assert recut.by is not None
    assert recut.by < 30


@pytest.mark.parametrize("degrees", [0.1, 0.5, 1.0, 3.0])
def test_winding_sticks_alone_tell_the_lean(degrees: float) -> None:
    """However much the joint twists, the slope as planned serves."""
    turn = 2 * math.atan(math.tan(math.radians(degrees)) / math.cos(PLAN.theta))
    found = tune((TestJoint(1, twist=Twist(300 * math.sin(turn), 300.0, "down")),), PLAN)
    assert found.fit.lean is not None
    assert found.fit.lean.value == pytest.approx(math.radians(degrees), rel=1e-6)


@pytest.mark.parametrize("far", [19.5, 2.6])
def test_a_slope_that_no_sled_has_is_a_slip(far: float) -> None:
    """Two marks alone fit any slope; one that is far from the planned one is a slip of rule or point, and no shim is
    advised for it."""
    marks = (Station("thickness_at", 60.0, 0.4 + 60 / 12), Station("thickness_at", 120.0, far))
    found = tune((TestJoint(1, thickness_at=marks, gap_top=0.0, gap_bottom=0.6),), PLAN)
    assert found.ratio is not None
    assert [one.row.read for one in found.contradictions] == [far]
    assert found.contradictions[0].expected == pytest.approx(0.4 + 120 / 12, abs=0.01)
    assert found.corrections == ()
    assert found.after is None


def test_sticks_without_a_hand_fit_either_way() -> None:
    """Where no reading knows the hand, the first is taken, so that the same readings always give the same figures."""
    found = tune((TestJoint(1, gap_top=0.0, gap_bottom=0.0, twist=Twist(0.6, 300.0)),), PLAN)
    assert found.fit.setup.lean > 0


def test_two_joints_are_surer_than_one() -> None:
    rng = random.Random(8)
    shop = Shop(math.atan(1 / 12.0), 0.8, math.radians(0.4), 60.0, 22.0)
    one, two = measure(rng, shop), measure(rng, shop, number=2)
    alone, both = tune((one,), PLAN), tune((one, two), PLAN)
    assert alone.ratio is not None
    assert both.ratio is not None
    assert both.ratio.sigma < 0.8 * alone.ratio.sigma


def test_a_good_shop_is_left_alone() -> None:
    rng = random.Random(2)
    for _ in range(20):
        shop = Shop(PLAN.theta, 0.4, math.radians(rng.uniform(-0.01, 0.01)), 60.0, 22.0)
        found = tune((measure(rng, shop),), PLAN)
        assert found.corrections == ()
        assert found.after is not None
        assert found.after.inside


def test_corrections_by_hand() -> None:
    """12.6:1 instead of 12:1, gap 0.9 instead of 0.4, the top 0.5 degrees away from the fence; read without error."""
    lean = math.radians(0.5)
    shop = Shop(math.atan(1 / 12.6), 0.9 - 30 * math.tan(lean), lean, 60.0, 22.0)
    joint = TestJoint(
        1,
        board_thickness=(Reading("board_thickness", 22.0),),
        taper_run=(Reading("taper_run", (22.0 - shop.tip) * 12.6),),
        tip=(Reading("tip", shop.tip),),
        gap_top=0.0,
        gap_bottom=2 * 60 * math.tan(lean),
    )
    found = tune((joint,), PLAN)
    by = {one.what: one for one in found.corrections}
    assert list(by) == ["blade_tilt", "other_half", "heel_shim", "fence", "recut"]
    assert by["blade_tilt"].by == pytest.approx(lean)
    assert by["blade_tilt"].towards == "fence"
    assert by["other_half"].instead_of == "blade_tilt"
    # d(1/N) x distance: (1/12 - 1/12.6) x 1190 = 4.72; the heel goes out by as much and the fence with it
    assert by["heel_shim"].by == pytest.approx(4.7)
    assert by["heel_shim"].at == 10
    # 0.4 - 0.9 + 30 tan 0.5 + 4.74: less the swing of the tilt at mid-height
    assert by["fence"].by == pytest.approx(0.4 - 0.9 + 0.2618 + 4.74, abs=0.06)
    assert by["fence"].towards == "fence"
    again = corrected(shop, PLAN, found.corrections)
    assert again.ratio == pytest.approx(12.0, rel=0.002)
    assert again.lean == pytest.approx(0.0, abs=1e-9)
    assert again.gap == pytest.approx(0.4, abs=0.06)


def test_no_tip_left_sets_the_fence_anew() -> None:
    shop = Shop(PLAN.theta, -0.5, 0.0, 60.0, 22.0)
    found = tune((measure(random.Random(1), shop),), PLAN)
    assert "fence_gap_mm" in found.untold
    fence = next(one for one in found.corrections if one.what == "fence")
    assert fence.by is None
    assert corrected(shop, PLAN, found.corrections).gap == PLAN.gap


def test_recut_takes_the_whole_old_face() -> None:
    """The same boards, tips past the heel as told: the corrected cut lies inside the old one everywhere."""
    rng = random.Random(6)
    for _ in range(60):
        plan = planned(rng)
        shop = faulty(rng, plan)
        shop = replace(shop, gap=abs(shop.gap) + 0.6)
        found = tune((measure(rng, shop),), plan)
        recut = next((one for one in found.corrections if one.what == "recut"), None)
        if recut is None:
            continue
        assert recut.by is not None
        new = corrected(shop, plan, found.corrections)
        run = shop.along(shop.thickness, shop.middle)
        for u in (0.0, run / 2, run):
            for z in (0.0, shop.height):
                assert new.over(u - recut.by, z) <= shop.over(u, z) + 0.12  # estimates are good to that
    assert recut is not None
