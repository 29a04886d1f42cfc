"""The bend test's beam against the differential equation of the elastic line, integrated by scipy; handbook formula
P L^3 / (48 E I) (seen). The stress against the section's moment by numerical integration over the depth."""

from __future__ import annotations

import numpy as np
import pytest
from scarfwright.models.strength.bend_test import Beam
from scipy.integrate import quad, solve_bvp


@pytest.mark.parametrize(("span", "width", "depth"), [(600.0, 40.0, 20.0), (900.0, 25.0, 35.0)])
def test_sag_against_the_elastic_line(span: float, width: float, depth: float) -> None:
    """Half the beam: y'' = -M / EI, M = P x / 2; held at the support, level in the middle."""
    load, modulus = 500.0, 11000.0
    stiffness = modulus * width * depth**3 / 12
    solved = solve_bvp(
        lambda x, y: np.vstack([y[1], -load * x / 2 / stiffness]),
        lambda a, b: np.array([a[0], b[1]]),
        np.linspace(0, span / 2, 50),
        np.zeros((2, 50)),
        tol=1e-9,
    )
    assert solved.success
    assert Beam(span, width, depth).sag(load, modulus) == pytest.approx(float(solved.sol(span / 2)[0]), rel=1e-6)


@pytest.mark.parametrize(("span", "width", "depth"), [(600.0, 40.0, 20.0), (900.0, 25.0, 35.0)])
def test_load_against_the_section(span: float, width: float, depth: float) -> None:
    """Stress rises straight from 0 in the middle of the depth to 80 MPa at the face: its moment is P L / 4."""
    moment, _ = quad(lambda z: 80.0 * z / (depth / 2) * z * width, -depth / 2, depth / 2)
    assert Beam(span, width, depth).load(80.0) == pytest.approx(4 * moment / span, rel=1e-9)
