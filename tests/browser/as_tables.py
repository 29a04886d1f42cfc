"""Test joints as the form's script has them: tables as in joints.toml, their lengths numbers in mm."""

from __future__ import annotations

from typing import Any

from scarfwright.models.tuning.measured import TestJoint


def as_table(joint: TestJoint) -> dict[str, Any]:
    """Only what was measured."""
    table: dict[str, Any] = {"number": joint.number}
    for key in ("board_thickness", "taper_run", "tip"):
        table[key] = [_given(value=r.value, top=r.top, bottom=r.bottom, piece=r.piece) for r in getattr(joint, key)]
    table["thickness_at"] = [
        _given(at=at.distance, thickness=at.value, top=at.top, bottom=at.bottom, piece=at.piece)
        for at in joint.thickness_at
    ]
    table["line_skew"] = [_given(value=s.offset, nearer=s.nearer, piece=s.piece) for s in joint.line_skew]
    if joint.twist is not None:
        table["twist"] = [joint.twist.difference, joint.twist.length, joint.twist.hand]
    pair = {key: getattr(joint, key) for key in ("gap_top", "gap_bottom", "joint_thickness", "tip_to_tip")}
    return {key: value for key, value in (table | _given(**pair)).items() if value != []}


def _given(**values: Any) -> dict[str, Any]:
    return {key: value for key, value in values.items() if value is not None}
