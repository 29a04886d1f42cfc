"""How near a mesh keeps to what is round: the sagitta is an absolute length, whatever the radius."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scarfwright.models.flat.loop import circle
from scarfwright.models.solids.solids import Body, prism
from scarfwright.outputs.formats.mesh import SAGITTA, mesh_of


@pytest.mark.parametrize("radius", [0.5, 3.0, 8.0, 30.0, 127.0])
def test_chords_stay_within_the_sagitta(radius: float) -> None:
    mesh = mesh_of(Body("disc", prism(circle(0, 0, radius), 0.0, 5.0), "#808080"))
    rim = mesh.corners[mesh.corners[:, 2] < 1e-6]
    turns = np.sort(np.arctan2(rim[:, 1], rim[:, 0]))
    steps = np.diff([*turns, turns[0] + math.tau])
    assert radius * (1 - math.cos(max(steps) / 2)) <= SAGITTA
    assert np.hypot(rim[:, 0], rim[:, 1]) == pytest.approx(radius, abs=1e-5)


def test_a_coarse_mesh_from_before_is_not_taken_again_and_none_is_left_behind() -> None:
    solid = prism(circle(0, 0, 100.0), 0.0, 5.0)
    coarse, fine = (mesh_of(Body("disc", solid, "#808080"), sagitta) for sagitta in (1.0, 0.001))
    again = mesh_of(Body("disc", solid.copy(), "#808080"), 1.0)
    assert len(coarse.corners) == len(again.corners) < len(fine.corners)
    assert solid.BoundingBox().xmax == pytest.approx(100.0, abs=1e-4)
