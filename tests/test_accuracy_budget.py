"""The budget against joints drawn at random, and the verdict's parts against hand figures."""

from __future__ import annotations

import math
import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from scarfwright.models.accuracy import effects
from scarfwright.models.accuracy.budget import SOURCES, Spreads, budget, careful
from scarfwright.models.accuracy.verdict import Errors, Limits, judge
from scarfwright.models.joint.joint import Joint

from tests.try_joints import try_joints

JOINTS = st.builds(
    lambda n, t, h, c: Joint(n, t, max(h, t), c),
    st.floats(8, 20),
    st.floats(12, 50),
    st.floats(20, 120),
    st.floats(0.1, 0.8),
)
SIZES = st.floats(0.0, 0.12)
SPREADS = st.builds(
    lambda tilt, edge, seat, bow, own, slide: Spreads(math.radians(tilt), math.radians(edge), seat, bow, own, slide),
    SIZES,
    SIZES,
    SIZES,
    SIZES,
    SIZES,
    st.floats(0.0, 2.0),
)
LIMITS = st.builds(
    lambda gap, twist, joints: Limits(gap, None if twist is None else math.radians(twist), joints),
    st.floats(0.05, 1.0),
    st.one_of(st.none(), st.floats(0.05, 3.0)),
    st.integers(1, 6),
)


# a failing case is not made smaller: each try draws 100 000 joints
ONCE = settings(max_examples=settings().max_examples // 2, phases=[Phase.explicit, Phase.reuse, Phase.generate])


@ONCE
@given(JOINTS, SPREADS, LIMITS)
def test_budget_is_what_trial_gives(joint: Joint, spreads: Spreads, limits: Limits) -> None:
    """One percent point, by 100 000 joints cut and mated: their own scatter is 0.16 of one."""
    trial = try_joints(joint, spreads, limits)
    assert budget(joint, spreads, limits).inside == pytest.approx(trial.inside, abs=0.01)
    assert trial.inside <= min(trial.gap_inside, trial.twist_inside)


@ONCE
@given(JOINTS, SPREADS, LIMITS)
def test_shares_and_what_to_better(joint: Joint, spreads: Spreads, limits: Limits) -> None:
    found = budget(joint, spreads, limits)
    assert [source.name for source in found.sources] == list(SOURCES)
    total = sum(source.share for source in found.sources)
    assert total == pytest.approx(1.0) or all(source.opening == 0 for source in found.sources)
    assert 0 <= found.inside <= 1
    if found.improve_first is not None:
        best = next(source for source in found.sources if source.name == found.improve_first)
        halved = replace(spreads, **{best.name: best.spread / 2})
        assert try_joints(joint, halved, limits).inside == pytest.approx(best.inside_if_halved, abs=0.01)
        assert best.inside_if_halved > found.inside
        assert all(best.inside_if_halved >= source.inside_if_halved for source in found.sources)


def test_sources_one_at_a_time() -> None:
    """Each source alone, against the normal distribution by hand: |x| within L in erf(L / (s sqrt 2)) of cases."""
    joint, limits = Joint(12, 22, 60, 0.4), Limits(0.15)
    nothing = Spreads(0, 0, 0, 0, 0, 0)
    by_hand = {
        "tilt": (math.radians(0.08), 2 * 60 * math.radians(0.08)),
        "edge_lean": (math.radians(0.08), 2 * 60 * math.radians(0.08)),
        "seat": (0.1, 0.1 * math.sqrt(2)),
        "edge_bow": (0.06, 0.12),
        "board_bow": (0.1, 0.1 * math.sqrt(2)),
    }
    for name, (spread, opening) in by_hand.items():
        found = budget(joint, replace(nothing, **{name: spread}), limits)
        assert found.inside == pytest.approx(math.erf(0.15 / opening / math.sqrt(2)), abs=0.003)
        assert found.improve_first == name
    # slide opens half of the joints only
    found = budget(joint, replace(nothing, slide=2.0), limits)
    wide = 2.0 / 12 * math.cos(math.atan(1 / 12))
    assert found.inside == pytest.approx(0.5 + 0.5 * math.erf(0.15 / wide / math.sqrt(2)), abs=0.003)
    assert budget(joint, nothing, limits).inside == 1.0
    assert budget(joint, nothing, limits).improve_first is None


def test_careful_follows_the_set_up() -> None:
    low, high = careful(40, 38), careful(80, 76)
    assert high.tilt == pytest.approx(low.tilt / 2, rel=1e-3)
    assert high.edge_lean == pytest.approx(low.edge_lean / 2, rel=1e-3)


def test_verdict_by_hand() -> None:
    """0.07 degrees at 60 mm and 12:1: 0.147 mm at one edge, 0.1405 degrees of twist, twice that over two joints."""
    joint = Joint(12, 22, 60, 0.4)
    lean = math.radians(0.07)
    one = judge(joint, Errors(lean=lean), Limits(0.15, math.radians(0.2)))
    assert one.gap == pytest.approx(0.14661, abs=1e-5)
    assert math.degrees(one.twist) == pytest.approx(0.140485, abs=1e-5)
    assert one.inside
    two = judge(joint, Errors(lean=lean), Limits(0.15, math.radians(0.2), 2))
    assert (two.gap_inside, two.twist_inside, two.inside) == (True, False, False)
    wide = judge(joint, Errors(lean=lean, bow=0.01), Limits(0.15))
    assert wide.gap == pytest.approx(0.16661, abs=1e-5)
    assert not wide.inside


def test_verdict_of_the_rest() -> None:
    joint = Joint(12, 22, 60, 0.4)
    found = judge(joint, Errors(thicknesses=(0.3, -0.1), slide=6.0, slope_difference=0.001), Limits(0.15))
    assert found.step == pytest.approx(0.4)
    assert found.thickness == pytest.approx(22.6)
    assert found.sound == pytest.approx(22.6 - 1.0)
    assert found.stiffness == pytest.approx((22.6 / 22) ** 3 - 1)
    assert found.gap == pytest.approx(0.001 * joint.overlap)
    assert math.degrees(found.kink) == pytest.approx(0.0569, abs=1e-4)
    apart = judge(joint, Errors(slide=-6.0), Limits(0.15))
    assert apart.gap == pytest.approx(0.5 * math.cos(math.atan(1 / 12)))
    assert apart.thickness == 22


def test_limits_turned_round() -> None:
    limits = Limits(0.15, math.radians(1.5), 3)
    assert effects.edge_gap(limits.lean_for_gap(60), 60) == pytest.approx(0.15)
    most = limits.lean_for_twist(math.atan(1 / 12))
    assert most is not None
    assert 3 * effects.twist(most, math.atan(1 / 12)) == pytest.approx(math.radians(1.5))


def test_budget_loads_no_array_library() -> None:
    code = (
        "import sys; from scarfwright.models.accuracy.budget import budget, careful;"
        "from scarfwright.models.accuracy.verdict import Limits; from scarfwright.models.joint.joint import Joint;"
        "budget(Joint(12, 22, 60, 0.4), careful(66, 38), Limits(0.15)); assert 'numpy' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
