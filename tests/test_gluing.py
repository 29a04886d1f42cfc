"""Glue-up: amounts, clamps and how the work lies under them."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.adhesives.kinds import adhesive_kinds, find_kind, nearest_kinds
from scarfwright.models.gluing.amounts import Asked, amounts
from scarfwright.models.gluing.stations import clamp_order, clamp_stations, clamps_needed, lay
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import LengthError
from scarfwright.models.quantities.quantity import FORCE, SPREAD, TIME, parse_quantity

JOINT = Joint(12, 22, 60, 0.4 * math.hypot(1, 1 / 12))  # fence gap 0.4


def test_clamps_of_a_foot_long_joint() -> None:
    """12 in joint, 3/4 x 2 1/2 in, 1 in pads: 12 to 14 spring clamps, common practice, no source."""
    assert 12 <= 2 * clamps_needed(12 * 25.4, 25.4, 0.75 * 25.4) <= 14


@given(st.floats(20, 2000), st.floats(5, 80), st.floats(5, 60))
def test_pads_reach_both_tips_and_cover_the_joint(overlap: float, pad: float, thickness: float) -> None:
    count = clamps_needed(overlap, pad, thickness)
    stations = clamp_stations(overlap, pad, count)
    assert len(stations) == count
    if count == 1 or pad >= overlap:
        assert set(stations) == {overlap / 2}
        return
    over = max(count * pad - overlap, 0) / 2  # side by side over both tips where there is no room between them
    assert stations[0] - pad / 2 == pytest.approx(-over, abs=1e-9)
    assert stations[-1] + pad / 2 == pytest.approx(overlap + over)
    gaps = [b - a for a, b in pairwise(stations)]
    assert min(gaps) >= pad - 1e-6
    assert max(gaps) - min(gaps) < 1e-6
    # to each side of a pad the pressure spreads by the strip's 6 mm and on average half the thickness
    assert max(gaps) <= pad + thickness + 12 + 1e-6


@given(st.integers(1, 40))
def test_the_middle_first_then_the_tips(count: int) -> None:
    order = clamp_order(count)
    assert sorted(order) == list(range(1, count + 1))
    if count >= 3:
        assert order[(count - 1) // 2] == 1
        assert {order[0], order[-1]} == {2, 3}


def test_amounts_by_hand() -> None:
    """Area 15314.9 mm2 (cut solids); overlap x height 254.3667 x 60 = 15262.0; PVA 150 to 250 g/m2."""
    asked = Asked(find_kind("PVA"), "hardwood", force=800.0, count=12)
    found = amounts(JOINT, asked, 10, 12)
    assert found.area == pytest.approx(15314.9, abs=0.05)
    assert found.mass == pytest.approx((2.29723, 3.82872), abs=1e-4)
    assert found.given == pytest.approx(12 * 800 / 15262.0, rel=1e-5)
    assert found.force_each == pytest.approx((1.21 * 15262.0 / 12, 1.72 * 15262.0 / 12), rel=1e-5)
    assert found.time_needed == pytest.approx(2 + 12 / 3)


def test_the_makers_figures_go_first() -> None:
    asked = Asked(find_kind("PVA"), "softwood", spread=200.0, pressure=0.4)
    assert asked.spread_range == (200.0, 200.0)
    assert asked.pressure_range == (0.4, 1.03)
    assert Asked(pressure=0.4).pressure_range == (0.4, math.inf)
    assert Asked().pressure_range is None
    assert amounts(JOINT, Asked(), 10, 10).mass is None


def test_every_kind_makes_sense() -> None:
    for kind in adhesive_kinds():
        for low, high in (kind.spread, kind.softwood, kind.hardwood, kind.line, kind.moisture):
            assert 0 <= low < high
        assert kind.fills == (kind.softwood[0] == 0), "what fills gaps needs contact only"
        assert kind.source
        assert kind.status
        assert find_kind(kind.name.upper()) == kind


def test_kinds_by_other_names() -> None:
    kind = find_kind("white glue")
    assert kind is not None
    assert kind.name == "PVA"
    assert find_kind("hide") is None
    assert nearest_kinds("epoxi") == ["epoxy"]
    assert len(nearest_kinds("xyz")) == 5


def test_flat_where_the_throat_reaches_else_on_edge() -> None:
    flat = lay(22, 60, 100, 60, 20, "mm")
    assert (flat.way, flat.opening, flat.batten, flat.opens) == ("flat", 34.0, 0.0, True)
    edge = lay(22, 130, 100, 60, 20, "mm")
    assert (edge.way, edge.opening, edge.batten, edge.opens) == ("edge", 62.0, 170.0, True)
    assert lay(22, 120, 33.9, 60, 20, "mm").way == "flat"
    assert not lay(22, 120, 33.9, 60, 20, "mm").opens


@pytest.mark.parametrize(
    ("text", "kind"),
    [("12 stones", FORCE), ("-3 N", FORCE), (0, FORCE), (True, TIME), ("soon", TIME), ("1e99 h", TIME), ([1], SPREAD),
     ("inf", FORCE), (float("nan"), FORCE), (10**400, FORCE)],
)  # fmt: skip
def test_quantities_refused(text: object, kind: object) -> None:
    with pytest.raises(LengthError, match="expected"):
        parse_quantity(text, kind)  # type: ignore[arg-type]
