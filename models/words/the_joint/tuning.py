"""What a test joint said, in sentences: the set-up as it is, what to change, what to expect, what was not told."""

from __future__ import annotations

import math
from collections.abc import Callable

from scarfwright.models.lengths.length import Unit, show
from scarfwright.models.tuning.corrections import Correction, Expected
from scarfwright.models.tuning.fit import Residual, Value
from scarfwright.models.tuning.tune import Tuned
from scarfwright.models.words.the_joint.accuracy import hundred

NAMES = {
    "ratio": "slope",
    "tip_mm": "tip thickness",
    "fence_gap_mm": "gap between heel and blade",
    "lean_deg": "lean of the cut",
    "lean_sign": "which way the cut leans",
}
NO_TIP = "No tip was left: the blade ran at the heel or inside it, and no figure of the joint says how far."
HELD_BACK = "Measure these again. Until they fit, nothing is advised."
DEFER = "The saw maker's manual comes first. Unplug the saw before you touch blade or fence."


def set_up_lines(found: Tuned) -> list[tuple[str, str]]:
    """The set-up as the joint shows it: a name and a figure with its uncertainty (two standard deviations)."""
    units, plan = found.plan.units, found.plan
    rows = []
    if found.ratio is not None:
        rows.append(
            ("slope", f"{found.ratio.value:.2f}:1 ± {2 * found.ratio.sigma:.2f} (planned {1 / plan.slope:.2f}:1)")
        )
    if found.fit.tip is not None:
        rows.append(("tip", f"{_with(found.fit.tip, units)} (planned {fine(plan.tip, units)})"))
    if found.fence_gap is not None:
        rows.append(("gap, heel to blade", f"{_with(found.fence_gap, units)} (planned {fine(plan.gap, units)})"))
    lean = found.fit.lean
    if lean is not None:
        size = f"{abs(math.degrees(lean.value)):.2f} ± {2 * math.degrees(lean.sigma):.2f} degrees"
        rows.append(("lean", f"{size}, {_hand(lean, found.fit.signed)}"))
    return rows


def _hand(lean: Value, signed: bool) -> str:
    if not signed:
        return "which way not known"
    if abs(lean.value) <= 2 * lean.sigma:
        return "none to speak of"
    return "top of the cut away from the fence" if lean.value > 0 else "top of the cut towards the fence"


def fine(mm: float, units: Unit) -> str:
    """A gap or a shim: to 0.01 mm, or to a thousandth of an inch."""
    return show(mm, units, places=2, sixtyfourths=False)


def _with(value: Value, units: Unit) -> str:
    return f"{fine(value.value, units)} ± {fine(2 * value.sigma, units)}"


def correction_lines(found: Tuned) -> list[str]:
    """What to do, one act each, in order."""
    if not found.corrections:
        return []
    return [_SAY[one.what](one, found.plan.units) for one in found.corrections]


def _tilt(one: Correction, _units: Unit) -> str:
    side = "the fence" if one.towards == "fence" else "the free side"
    return f"Tilt the top of the blade {math.degrees(one.by or 0.0):.2f} degrees towards {side}."


def _half(_one: Correction, _units: Unit) -> str:
    return (
        "Or, instead of all of this, take the other half of the plank, if the plank was cut apart on this saw, set as "
        "it is now, and the half in use went through nose first (the free half beside a carrier): this one doubles the "
        "blade's tilt, that one cancels it. Set the fence to its heel as measured plus the gap, and cut a test joint."
    )


def _shim(one: Correction, units: Unit) -> str:
    where = "heel" if one.what == "heel_shim" else "nose"
    thick, at = fine(one.by or 0.0, units), show(one.at or 0.0, units)
    return f"Fix a shim {thick} thick to the fence edge near the {where}, its middle {at} from the heel."


def _fence(one: Correction, units: Unit) -> str:
    if one.by is None:
        return f"{NO_TIP} Measure the heel, add the gap, set the fence to that."
    way = "away from" if one.towards == "fence" else "towards"
    return f"Move the fence {fine(one.by, units)} {way} the blade."


def _recut(one: Correction, units: Unit) -> str:
    return (
        f"Cut both boards again, their tips standing {show(one.by or 0.0, units)} past the heel: the new cut takes "
        "the old face away. One board alone can't be mended: each holds half of the error."
    )


_SAY: dict[str, Callable[[Correction, Unit], str]] = {
    "blade_tilt": _tilt,
    "other_half": _half,
    "nose_shim": _shim,
    "heel_shim": _shim,
    "fence": _fence,
    "recut": _recut,
}


def expected_line(found: Tuned) -> str | None:
    """What the joint comes to now, and after the corrections."""
    if found.now is None:
        return None
    now = f"This joint: {_comes_to(found.now, found.plan.units)}."
    if found.after is None or not any(one.what == "blade_tilt" for one in found.corrections):
        return now
    return f"{now} After the corrections: {_comes_to(found.after, found.plan.units)}."


def _comes_to(one: Expected, units: Unit) -> str:
    gap, twist = fine(one.gap, units), f"{math.degrees(one.twist):.2f} degrees"
    inside = "inside the limits" if one.inside else "outside the limits"
    return (
        f"glue line open {gap} at one edge if held flat, or twisted {twist} if closed tight; {inside} (chance of being "
        f"inside: {hundred(one.chance)})"
    )


def untold_lines(found: Tuned) -> list[str]:
    """What the readings do not tell, and which further ones would."""
    lines = []
    for name in found.untold:
        ways = [" and ".join(_key(key) for key in keys) for keys in found.would_tell[name]]
        if name == "fence_gap_mm" and found.fit.tip is not None:
            lines.append(f"Not known: {NAMES[name]}. {NO_TIP}")
        elif ways:
            lines.append(f"Not known: {NAMES[name]}. One of these would tell: {'; '.join(ways)}.")
        else:
            lines.append(f"Not known: {NAMES[name]}. Measure more of the joint (sheet test-joint).")
    lines += [
        f"Not used: {_key(key)} of joint {number}, which tells nothing without {_key(needs)}."
        for number, key, needs in found.unused
    ]
    return lines


def _key(key: str) -> str:
    return key.replace("_", " ")


def contradiction_lines(found: Tuned) -> list[str]:
    """The readings that do not fit the others, with what would."""
    if not found.contradictions:
        return []
    return [*(_misfit(one, found.plan.units) for one in found.contradictions), HELD_BACK]


def _misfit(one: Residual, units: Unit) -> str:
    return (
        f"Does not fit the other readings: {one.row.key.replace('_', ' ')}, {fine(one.row.read, units)} where "
        f"{fine(one.expected, units)} would fit ({abs(one.out):.0f} times its usual error)."
    )


def asking(key: str, form: str) -> str:
    """The question for one figure on a terminal."""
    return f"{_key(key)} ({form}; Enter to skip): "
