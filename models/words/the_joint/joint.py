"""What is said about the stock and the slope."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say, slope
from scarfwright.models.words.sentence import Sentence

SOURCE_SLOPE = (
    "USDA Technical Bulletin 1069 and the Wood Handbook give 90 % of clear-wood strength for 12:1 and flatter"
)


def _gap_eats_joint(say: Say, *, tip_mm: float, thickness_mm: float) -> str:
    return (
        f"The fence gap leaves tips {say(tip_mm)} thick, half the board's {say(thickness_mm)} or more, so no joint is "
        "left."
    )


def _finish_too_thick(say: Say, *, finished_mm: float, thickness_mm: float, **_: object) -> str:
    return f"The finished thickness {say(finished_mm)} is not less than the board's {say(thickness_mm)}."


def _tips_stay(say: Say, *, finished_mm: float, thickness_mm: float, tip_mm: float, **_: object) -> str:
    off, deep = say.apart((thickness_mm - finished_mm) / 2, tip_mm)
    return (
        f"Planing to {say(finished_mm)} takes {off} off each face, less than the groove {deep} deep that each tip "
        "leaves."
    )


def _slope_degrees(_say: Say, *, ratio: float, ratio_if_degrees: float, **_: object) -> str:
    return (
        f"A ratio of {ratio:g} is a slope of {slope(ratio)}. If {ratio:g} degrees was meant, that is a slope of "
        f"{ratio_if_degrees:.1f}:1."
    )


def _slope_steep(_say: Say, *, ratio: float, least: float) -> str:
    return (
        f"A slope of {slope(ratio)} is steeper than {least:g}:1. {SOURCE_SLOPE}, and about 80 % for 8:1 (from memory)."
    )


def _slope_flat(_say: Say, *, ratio: float, most: float) -> str:
    return (
        f"A slope of {slope(ratio)} is flatter than {most:g}:1. {SOURCE_SLOPE}, and nothing published shows more for a "
        "flatter one; the joint only gets longer and its tips weaker. 12:1 to 16:1 is usual."
    )


def _slope_off(_say: Say, *, ratio_asked: float, ratio_realised: float, off_percent: float) -> str:
    return (
        f"The sled gives a slope of {slope(ratio_realised)}, {abs(off_percent):.1f} % off the {ratio_asked:g}:1 in the "
        "job. Both boards off one sled still close. If the slope matters, correct the sled."
    )


SENTENCES: dict[str, Sentence] = {
    "joint.gap_eats_joint": _gap_eats_joint,
    "joint.finish_too_thick": _finish_too_thick,
    "joint.tips_stay": _tips_stay,
    "joint.slope_degrees": _slope_degrees,
    "joint.slope_steep": _slope_steep,
    "joint.slope_flat": _slope_flat,
    "joint.slope_off": _slope_off,
}
