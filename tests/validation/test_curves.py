"""Curvature from offsets, against curves whose curvature is known: circles in closed form, and a clamped, pinned
elastica (large bending of a slender stick), its differential equation solved by scipy."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.bending.curve import CurveError, curve_through
from scipy.integrate import solve_bvp


@given(
    radius=st.floats(500, 50_000),
    reach=st.floats(0.05, 0.75),
    lean=st.floats(-0.1, 0.1),
    count=st.integers(4, 15),
    up=st.sampled_from([1, -1]),
)
def test_a_circle_gives_its_radius(radius: float, reach: float, lean: float, count: int, up: int) -> None:
    stations = np.linspace((lean - reach) * radius, (lean + reach) * radius, count)
    points = [(float(x), float(up * math.sqrt(radius**2 - x**2))) for x in stations]
    curve = curve_through(points)
    assert all(abs(k) * radius == pytest.approx(1, abs=0.001) for k in curve.curvature)
    assert all(k * up < 0 for k in curve.curvature)
    angle = math.asin(points[-1][0] / radius) - math.asin(points[0][0] / radius)
    assert curve.length == pytest.approx(radius * angle, rel=1e-4)


def elastica(length: float, x_end: float, y_end: float) -> Any:
    """Clamped level at the origin, pinned at (x_end, y_end). State: angle, curvature, x, y; unknown: the pin's forces
    over EI."""
    grid = np.linspace(0, length, 200)
    share = grid / length
    guess = np.vstack([2.4 * y_end / length * share, np.full(200, 1 / length), grid, y_end * share**2])
    solved = solve_bvp(
        lambda _, u, p: np.vstack([u[1], p[0] * np.sin(u[0]) - p[1] * np.cos(u[0]), np.cos(u[0]), np.sin(u[0])]),
        lambda a, b, _: np.array([a[0], a[2], a[3], b[1], b[2] - x_end, b[3] - y_end]),
        grid,
        guess,
        p=np.array([0.0, 1e-7]),
        tol=1e-8,
        max_nodes=20000,
    )
    assert solved.success
    return solved.sol


def test_large_bend_of_a_clamped_pinned_stick() -> None:
    """2 m of stick, its end 0.8 m off: offsets every 100 mm or so give curvature within 1 % of the greatest,
    5 % in the first and last interval, where a spline has neighbours on one side only."""
    length = 2000.0
    stick = elastica(length, 1740.0, 800.0)
    s = np.linspace(0, length, 4001)
    angle, bend, x, y = stick(s)
    assert abs(angle).max() > math.radians(30)  # a large bend, far from y'' alone
    stations = np.linspace(0, x[-1], 19)
    curve = curve_through([(float(u), float(np.interp(u, x, y))) for u in stations])
    assert curve.length == pytest.approx(length, rel=1e-4)
    told = np.array(curve.curvature)
    true = np.interp(curve.arc, s, bend)
    out = abs(told - true) / abs(bend).max()
    inside = (np.array(curve.arc) > 110) & (np.array(curve.arc) < length - 110)
    assert inside.sum() > 500
    assert out[inside].max() < 0.01
    assert out.max() < 0.05


@pytest.mark.parametrize(
    ("points", "index"),
    [
        ([(0, 0), (100, 5), (90, 7), (200, 0)], 2),
        ([(0, 0), (100, 5), (100, 7), (200, 0)], 2),
        ([(0, 0), (100, 5), (200, 0)], None),
        ([], None),
    ],
)
def test_offsets_that_make_no_curve(points: list[tuple[float, float]], index: int | None) -> None:
    with pytest.raises(CurveError) as caught:
        curve_through(points)
    assert caught.value.index == index


def test_a_straight_stick_has_no_curvature() -> None:
    curve = curve_through([(x, 0.1 * x) for x in (0.0, 300.0, 500.0, 900.0, 1300.0)])
    assert curve.sharpest[0] < 1e-12
    assert curve.length == pytest.approx(1300 * math.hypot(1, 0.1))


def test_an_s_curve_changes_sign_in_the_middle() -> None:
    """y = a sin(2 pi x / L): the arc through first, middle and last is none (in line), the spline does it all."""
    points = [(x, 60 * math.sin(2 * math.pi * x / 2000)) for x in np.linspace(0, 2000, 21)]
    curve = curve_through([(float(x), float(y)) for x, y in points])
    quarter = min(range(len(curve.station)), key=lambda i: abs(curve.station[i] - 500))
    assert curve.curvature[quarter] == pytest.approx(-60 * (2 * math.pi / 2000) ** 2, rel=0.01)
    assert curve.curvature[quarter] * curve.curvature[-quarter] < 0
