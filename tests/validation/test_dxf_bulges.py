"""DXF reference, LWPOLYLINE: bulge = tan(included angle / 4), negative clockwise, 1 a half circle, 90 deg 0.414214.

Our loops carry the bulge themselves. Another reader of the format (ezdxf) tells the arc each bulge stands for.
"""

from __future__ import annotations

import math

import pytest
from ezdxf.math import bulge_center, bulge_radius
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.flat.loop import Edge, rounded, slot


def arc(angle: float, radius: float = 10.0) -> Edge:
    """From (radius, 0) about the origin."""
    end = (radius * math.cos(angle), radius * math.sin(angle))
    return Edge((radius, 0.0), end, math.tan(angle / 4))


@pytest.mark.parametrize(("degrees", "bulge"), [(90, 0.414214), (180, 1.0), (-90, -0.414214), (-180, -1.0)])
def test_figures_of_the_reference(degrees: float, bulge: float) -> None:
    edge = arc(math.radians(degrees))
    assert edge.bulge == pytest.approx(bulge, abs=5e-7)
    assert edge.length == pytest.approx(10 * math.radians(abs(degrees)))
    assert edge.centre == pytest.approx((0, 0), abs=1e-9)


@given(st.one_of(st.floats(0.05, 6.0), st.floats(-6.0, -0.05)), st.floats(0.5, 500))
def test_another_reader_sees_the_same_arc(angle: float, radius: float) -> None:
    edge = arc(angle, radius)
    assert bulge_radius(edge.start, edge.end, edge.bulge) == pytest.approx(radius)
    assert tuple(bulge_center(edge.start, edge.end, edge.bulge)) == pytest.approx((0, 0), abs=1e-6 * radius)
    assert edge.centre == pytest.approx((0, 0), abs=1e-6 * radius)


def test_slot_ends_are_half_circles_and_corners_quarters() -> None:
    half = math.tan(math.pi / 4)
    assert [v.bulge for v in slot((0, 0), (34, 0), 16).vertices] == pytest.approx([0, half, 0, half])
    square = rounded([(0, 0), (40, 0), (40, 40), (0, 40)], 5)
    assert [v.bulge for v in square.vertices][::2] == pytest.approx([math.tan(math.pi / 8)] * 4)
