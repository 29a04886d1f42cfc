"""The part of numbers.json about errors: what is allowed, what is to be expected, and how the pair lies."""

from __future__ import annotations

import math
from typing import Any

from scarfwright.models.accuracy.effects import edge_gap, twist
from scarfwright.models.accuracy.halves import Lay, Leads, half_lean, turn
from scarfwright.models.accuracy.outlook import Outlook
from scarfwright.models.joint.joint import Joint
from scarfwright.models.pair.marks import closed, most_slide
from scarfwright.models.pair.turns import Side, cuts_of, stick_of

HALVES: tuple[tuple[Lay, Leads], ...] = (("fence", "heel"), ("fence", "nose"), ("free", "heel"), ("free", "nose"))
ONE_DEGREE = math.radians(1.0)


def accuracy_numbers(ahead: Outlook, joint: Joint, *, halves: bool) -> dict[str, Any]:
    """Limits, what a lean does, the budget with its sources; halves: the sled is one of two halves of a plank."""
    limits, found = ahead.limits, ahead.budget
    return {
        "gap_limit_mm": limits.gap,
        "twist_limit_deg": None if limits.twist is None else math.degrees(limits.twist),
        "joints": limits.joints,
        "lean_allowed_deg": math.degrees(ahead.lean_allowed),
        "gap_per_degree_mm": edge_gap(ONE_DEGREE, joint.height),
        "twist_per_degree_deg": math.degrees(twist(ONE_DEGREE, joint.angle)),
        "halves": [_half(lay, led) for lay, led in HALVES] if halves else None,
        "inside_share": found.inside,
        "improve_first": found.improve_first,
        "sources": [
            {
                "name": one.name,
                **_spread(one.name, one.spread),
                "opening_mm": one.opening,
                "share": one.share,
                "inside_if_halved_share": one.inside_if_halved,
            }
            for one in found.sources
        ],
        "step_sigma_mm": found.step,
        "kink_sigma_deg": math.degrees(found.kink),
        "thickness_sigma_mm": found.thickness,
        "stiffness_sigma_share": found.stiffness,
        "tip_sigma_mm": found.tip,
    }


def _half(lay: Lay, led: Leads) -> dict[str, Any]:
    """A half of the plank: how it lay and went through the blade, how it is turned, how many tilts its joints lean."""
    return {
        "lay": lay,
        "led": led,
        "turn": turn(lay, led),
        "lean_per_tilt": half_lean(ONE_DEGREE, led) / ONE_DEGREE,
    }


def _spread(name: str, spread: float) -> dict[str, float]:
    if name in ("tilt", "edge_lean"):
        return {"sigma_deg": math.degrees(spread)}
    return {"sigma_mm": spread}


def pair_numbers(joint: Joint, planed: float, fence_side: Side) -> dict[str, Any]:
    """How the ends of a stick of three boards lie at the saw, and where its marks stand; planed: to this [mm]."""
    boards = stick_of(3, fence_side)
    return {
        "overlap_mark_mm": joint.overlap,
        "taper_ends_mm": joint.taper_run,
        "groove_mm": joint.tip * joint.ratio,
        "thicker_per_mm_together_mm": closed(joint, 1.0).thickness - joint.thickness,
        "most_slide_mm": most_slide(joint, planed),
        "cuts": [
            {"board": number, "end": cut.end, "sled_face": cut.sled_face, "edge_down": cut.edge_down}
            for number, board in enumerate(boards, 1)
            for cut in cuts_of(board, fence_side)
        ],
    }
