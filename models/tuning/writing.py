"""Test joints as TOML text in mm, so that a log of them can be read again."""

from __future__ import annotations

from scarfwright.models.tuning.measured import Reading, Skew, Station, TestJoint


def joint_to_toml(joint: TestJoint) -> str:
    """One [[test_joint]] table; reading it gives the same joint."""
    lines = ["[[test_joint]]"]
    for key, readings in (
        ("board_thickness", joint.board_thickness),
        ("taper_run", joint.taper_run),
        ("tip", joint.tip),
    ):
        if readings:
            lines.append(f"{key} = [{', '.join(_reading(one) for one in readings)}]")
    if joint.thickness_at:
        lines.append(f"thickness_at = [{', '.join(_station(one) for one in joint.thickness_at)}]")
    for key in ("gap_top", "gap_bottom", "joint_thickness", "tip_to_tip"):
        length = getattr(joint, key)
        if length is not None:
            lines.append(f"{key} = {_mm(length)}")
    if joint.twist is not None:
        hand = [] if joint.twist.hand is None else [f'"{joint.twist.hand}"']
        lines.append(f"twist = [{', '.join([_mm(joint.twist.difference), _mm(joint.twist.length), *hand])}]")
    if joint.line_skew:
        lines.append(f"line_skew = [{', '.join(_skew(one) for one in joint.line_skew)}]")
    return "\n".join(lines) + "\n"


def _mm(length: float) -> str:
    text = f"{length:.4f}".rstrip("0").rstrip(".")
    return f'"{text} mm"'


def _table(values: dict[str, float | None], piece: int | None, extra: str = "") -> str:
    given = [f"{name} = {_mm(value)}" for name, value in values.items() if value is not None]
    given += [extra] if extra else []
    given += [f"piece = {piece}"] if piece is not None else []
    return f"{{ {', '.join(given)} }}"


def _reading(one: Reading) -> str:
    return _table({"value": one.value, "top": one.top, "bottom": one.bottom}, one.piece)


def _station(one: Station) -> str:
    values = {"at": one.distance, "thickness": one.value, "top": one.top, "bottom": one.bottom}
    return _table(values, one.piece)


def _skew(one: Skew) -> str:
    return _table({"value": one.offset}, one.piece, f'nearer = "{one.nearer}"' if one.nearer else "")
