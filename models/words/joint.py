"""What is said about the stock and the slope."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say, slope
from scarfwright.models.words.sentence import Sentence

SOURCE_SLOPE = (
    "USDA Technical Bulletin 1069 and the Wood Handbook give 90 % of clear-wood strength for 1 in 12 and flatter"
)


def _not_upright(say: Say, *, thickness_mm: float, height_mm: float) -> str:
    return (
        f"The stock is thicker ({say(thickness_mm)}) than it stands high ({say(height_mm)}): it would "
        "tip at the saw. Swap thickness and height, or taper it through its smaller side."
    )


def _gap_eats_joint(say: Say, *, tip_mm: float, thickness_mm: float) -> str:
    return (
        f"The fence gap leaves tips {say(tip_mm)} thick, which is half the stock's {say(thickness_mm)} "
        f"or more, so no joint is left. Set fence_gap well under {say.down(thickness_mm / 4)}; "
        "0.4 mm or 1/64 in is common."
    )


def _finish_too_thick(say: Say, *, finished_mm: float, thickness_mm: float, thickest_mm: float) -> str:
    plan = f"{say.down(thickest_mm)} or less" if thickest_mm > 0 else "less"
    return (
        f"The finished thickness {say(finished_mm)} is not less than the stock's {say(thickness_mm)}. Plan for {plan}."
    )


def _tips_stay(say: Say, *, finished_mm: float, thickness_mm: float, tip_mm: float, thickest_mm: float) -> str:
    return (
        f"Planing to {say(finished_mm)} takes {say((thickness_mm - finished_mm) / 2)} off each face, less than the "
        f"groove {say(tip_mm)} deep that each tip leaves. Finish at {say.down(thickest_mm)} or less, "
        f"or start from stock {say.up(finished_mm + 2 * tip_mm)} thick."
    )


def _slope_degrees(_say: Say, *, ratio: float, ratio_if_degrees: float, **_: object) -> str:
    return (
        f"A ratio of {ratio:g} is a slope of {slope(ratio)}. If {ratio:g} degrees was meant, that is 1 in "
        f"{ratio_if_degrees:.1f}: write ratio = {ratio_if_degrees:.1f}. (1 in 10 is 5.71 degrees, not 10.)"
    )


def _slope_steep(_say: Say, *, ratio: float, least: float) -> str:
    return (
        f"{slope(ratio)} is steeper than 1 in {least:g}: {SOURCE_SLOPE}, and about 80 % for 1 in 8 (from memory). "
        "Take 12 unless little strength is asked of the joint."
    )


def _slope_flat(_say: Say, *, ratio: float, most: float) -> str:
    return (
        f"{slope(ratio)} is flatter than 1 in {most:g}: {SOURCE_SLOPE}, and nothing published shows more for a "
        "flatter one; the joint only gets longer and its tips weaker. 12 to 16 is usual."
    )


def _slope_off(_say: Say, *, ratio_asked: float, ratio_realised: float, off_percent: float) -> str:
    return (
        f"The sled gives {slope(ratio_realised)}, {abs(off_percent):.1f} % off the {slope(ratio_asked)} asked for. "
        "Both pieces off one sled still close; if the slope matters, make the sled longer, use finer round_marks, "
        "or cut heel and nose again."
    )


SENTENCES: dict[str, Sentence] = {
    "stock.not_upright": _not_upright,
    "joint.gap_eats_joint": _gap_eats_joint,
    "joint.finish_too_thick": _finish_too_thick,
    "joint.tips_stay": _tips_stay,
    "joint.slope_degrees": _slope_degrees,
    "joint.slope_steep": _slope_steep,
    "joint.slope_flat": _slope_flat,
    "joint.slope_off": _slope_off,
}
