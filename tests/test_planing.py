"""Planing over a scarf, and what a board must be like."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scarfwright.models.joint.joint import Joint
from scarfwright.models.planing.boards import board_needs
from scarfwright.models.planing.planing import planing
from scarfwright.models.words.the_joint.planing import board_words

JOINT = Joint(12, 22, 60, 0.4 * math.hypot(1, 1 / 12))  # fence gap 0.4


@given(ratio=st.floats(5, 20), thickness=st.floats(10, 60), gap=st.floats(0, 1), off=st.floats(0, 0.3))
def test_feathers_lie_where_the_glue_line_meets_the_faces(
    ratio: float, thickness: float, gap: float, off: float
) -> None:
    """By the line through the glue: depth b + s / N under the upper face."""
    joint = Joint(ratio, thickness, thickness, gap)
    plane = planing(joint, thickness * (1 - off))

    def depth(s: float) -> float:
        return joint.tip + s / ratio

    assert depth(plane.upper_feather) == pytest.approx(plane.each, abs=1e-9)
    assert depth(plane.lower_feather) == pytest.approx(thickness - plane.each)
    assert plane.lower_feather - plane.upper_feather == pytest.approx(plane.run)
    assert plane.tips_gone == (plane.upper_feather >= 0)


def test_by_hand() -> None:
    """22 to 20 at 12:1 with tips of 0.4014: 1 off each face, feathers at (1 - 0.4014) 12 = 7.183 and 240 further."""
    plane = planing(JOINT, 20)
    assert plane.each == 1
    assert plane.upper_feather == pytest.approx(7.1834, abs=1e-4)
    assert plane.lower_feather == pytest.approx(247.1834, abs=1e-4)
    assert plane.stiffness == pytest.approx(0.7513, abs=1e-4)


def test_boards() -> None:
    """20 in 300 is 1 in 15; the taper of the worked case is 259.1834 long, a thickness more is clear of knots."""
    needs = board_needs(JOINT, "mm")
    assert needs.run_out / needs.run_out_length == pytest.approx(1 / 15)
    assert needs.clear == pytest.approx(259.1834 + 22, abs=1e-4)
    assert needs.moisture == (8, 12)
    dry = board_needs(JOINT, "mm", (6.0, 10.0))
    assert dry.moisture == (6.0, 10.0)
    assert "Moisture 6 to 10 % (from the job's kind of glue), mates" in " ".join(board_words(JOINT, dry, "mm"))
    assert "Moisture 8 to 12 % (from FAA-H-8083-31), mates" in " ".join(board_words(JOINT, needs, "mm"))
