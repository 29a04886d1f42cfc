"""The part of numbers.json about what comes after the saw: gluing, planing, boards, strength, bending."""

from __future__ import annotations

import math
from typing import Any

from scarfwright.models.bending.members import Member
from scarfwright.models.craft import Craft
from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.gluing.stations import clamp_order
from scarfwright.models.planing.boards import BoardNeeds
from scarfwright.models.planing.planing import Planing
from scarfwright.models.strength.bend_test import BendTest, Spread
from scarfwright.models.strength.strength import Strength
from scarfwright.models.strength.wood import SCATTER_MODULUS, SCATTER_RUPTURE, Wood

EVERY = 30  # of the samples along a curve: how many apart those are that are told


def craft_numbers(craft: Craft) -> dict[str, Any]:
    """Everything but the glue-up, which has a table of its own."""
    return {
        "strength": _strength(craft.strength),
        "planing": None if craft.planing is None else _planing(craft.planing),
        "boards": _boards(craft.boards),
        "bending": [_member(one) for one in craft.members],
    }


def glue_numbers(plan: GluePlan) -> dict[str, Any]:
    """What the glue-up needs beside the places of clamps and risers; null where the job is silent."""
    asked, amounts, wanted = plan.asked, plan.amounts, plan.asked.pressure_range
    kind = asked.kind
    return {
        "clamp_order": list(clamp_order(len(plan.places.clamps))),
        "lies": plan.lay.way,
        "clamps_close_on_mm": plan.lay.opening,
        "clamps_reach": plan.lay.opens,
        "area_mm2": amounts.area,
        "pressed_mm2": amounts.pressed,
        "kind": None if kind is None else kind.name,
        "kind_source": None if kind is None else kind.source,
        "kind_status": None if kind is None else kind.status,
        "spread_g_m2": _pair(asked.spread_range),
        "mass_g": _pair(amounts.mass),
        "pressure_wanted_mpa": _pair(wanted),
        "pressure_given_mpa": amounts.given,
        "clamps_counted": amounts.used,
        "force_each_n": _pair(amounts.force_each),
        "line_mm": None if kind is None else _pair(kind.line),
        "least_temperature_c": None if kind is None else kind.temperature,
        "moisture_percent": None if kind is None else _pair(kind.moisture),
        "open_time_min": asked.open_time,
        "clamp_time_min": asked.clamp_time,
        "time_needed_min": amounts.time_needed,
    }


def _pair(found: tuple[float, float] | None) -> list[float | None] | None:
    """Least and most; null for a most that is not bounded."""
    return None if found is None else [value if math.isfinite(value) else None for value in found]


def _strength(found: Strength) -> dict[str, Any]:
    return {
        "share": found.share,
        "share_source": None if found.row is None else found.row.source,
        "share_status": None if found.row is None else found.row.status,
        "plane_shear_share": found.shear,
        "plane_normal_share": found.normal,
        "glue_to_section": found.area_ratio,
        "flatter": [
            {"ratio": s.ratio, "share": s.share, "overlap_mm": s.overlap, "longer_mm": s.extra} for s in found.steps
        ],
        "wood": None if found.wood is None else _wood(found.wood),
        "bend_test": None if found.test is None else _test(found.test),
    }


def _wood(wood: Wood) -> dict[str, Any]:
    return {
        "name": wood.name,
        "kind": wood.kind,
        "rupture_mpa": wood.rupture,
        "modulus_mpa": wood.modulus,
        "compression_mpa": wood.compression,
        "shear_mpa": wood.shear,
        "rupture_scatter": SCATTER_RUPTURE,
        "modulus_scatter": SCATTER_MODULUS,
        "source": wood.source,
        "status": wood.status,
    }


def _spread(found: Spread) -> dict[str, float]:
    return {"low": found.low, "mean": found.mean, "high": found.high}


def _test(test: BendTest) -> dict[str, Any]:
    return {
        "width_mm": test.beam.width,
        "depth_mm": test.beam.depth,
        "span_mm": test.beam.span,
        "length_mm": test.length,
        "joint_mm": test.reach,
        "ripped": test.ripped,
        "breaks_n": _spread(test.breaks),
        "scale_reads_kg": _spread(test.scale_reads),
        "proof_n": test.proof,
        "proof_reads_kg": test.proof_reads,
        "sag_at_proof_mm": _spread(test.sag),
    }


def _planing(plane: Planing) -> dict[str, Any]:
    return {
        "each_face_mm": plane.each,
        "thickness_mm": plane.thickness,
        "run_mm": plane.run,
        "upper_feather_mm": plane.upper_feather,
        "lower_feather_mm": plane.lower_feather,
        "tips_gone": plane.tips_gone,
        "stiffness_share": plane.stiffness,
    }


def _boards(needs: BoardNeeds) -> dict[str, Any]:
    return {
        "clear_mm": needs.clear,
        "run_out_mm": needs.run_out,
        "run_out_length_mm": needs.run_out_length,
        "grain_share": needs.grain_share,
        "moisture_percent": list(needs.moisture),
        "moisture_alike_percent": needs.alike,
    }


def _member(one: Member) -> dict[str, Any]:
    curve, bend, made = one.curve, one.bend, one.laminations
    sharpest, at = curve.sharpest
    told: dict[str, Any] = {
        "name": one.name,
        "length_mm": one.length,
        "curve_length_mm": curve.length,
        "depth_mm": one.depth,
        "tightest_radius_mm": 1 / sharpest if sharpest > 0 else None,
        "tightest_at_mm": at,
        "reading_error_per_m": 1000 * curve.reading,
        "ends_change_share": curve.ends,
        "use": None,
        "laminations": None,
        "along": [
            {"place_mm": curve.arc[i], "curvature_per_m": 1000 * curve.curvature[i]}
            for i in range(0, len(curve.arc), EVERY)
        ],
    }
    if bend is None:
        return told
    for row, i in zip(told["along"], range(0, len(curve.arc), EVERY), strict=True):
        row["use"] = bend.use[i]
        row["use_in_joint"] = bend.use_joint[i] if bend.use_joint else None
    told["use"] = {
        "stress_mpa": bend.stress,
        "strain": bend.strain,
        "factor": bend.factor,
        "most": bend.most,
        "most_in_joint": bend.most_joint,
        "least_radius_mm": bend.least_radius,
        "least_radius_in_joint_mm": bend.least_radius_joint,
        "joint_mm": bend.joint_length,
        "joints_may_stand_mm": [list(stretch) for stretch in bend.allowed],
    }
    if made is not None:
        told["laminations"] = {
            "count": made.count,
            "thickness_mm": made.thickness,
            "radius_to_thickness": made.radius_to_thickness,
            "curvature_factor": made.factor,
            "tight": made.tight,
        }
    return told
