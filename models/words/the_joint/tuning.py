"""What a test joint said, in sentences: the set-up as it is, what to change, what to expect, what was not told."""

from __future__ import annotations

import math

from scarfwright.models.lengths.length import Unit, show
from scarfwright.models.tuning.corrections import Correction, Expected
from scarfwright.models.tuning.fit import Residual, Value
from scarfwright.models.tuning.tune import Tuned
from scarfwright.models.words.the_joint.accuracy import hundred

# {name}: a figure or a word that is filled in; the joint's form on a page fills in the same ones
SAY = {
    "slope": "{found}:1 ± {sure} (planned {planned}:1)",
    "length": "{found} ± {sure} (planned {planned})",
    "lean": "{found} ± {sure} degrees, {hand}",
    "hand_unknown": "which way not known",
    "hand_none": "none to speak of",
    "hand_away": "top of the cut away from the fence",
    "hand_towards": "top of the cut towards the fence",
    "blade_tilt": "Tilt the top of the blade {by} degrees towards {side}.",
    "side_fence": "the fence",
    "side_free": "the free side",
    "other_half": "Or, instead of all of this, take the other half of the plank, if the plank was cut apart on this "
    "saw, set as it is now, and the half in use went through nose first (the free half beside a carrier): this one "
    "doubles the blade's tilt, that one cancels it. Set the fence to its heel as measured plus the gap, and cut a test "
    "joint.",
    "heel_shim": "Fix a shim {by} thick to the fence edge near the heel, its middle {at} from the heel.",
    "nose_shim": "Fix a shim {by} thick to the fence edge near the nose, its middle {at} from the heel.",
    "fence_towards_fence": "Move the fence {by} away from the blade.",
    "fence_towards_free": "Move the fence {by} towards the blade.",
    "fence_anew": "{no_tip} Measure the heel, add the gap, set the fence to that.",
    "recut": "Cut both boards again, their tips standing {by} past the heel: the new cut takes the old face away. One "
    "board alone can't be mended: each holds half of the error.",
    "no_tip": "No tip was left: the blade ran at the heel or inside it, and no figure of the joint says how far.",
    "comes_to": "glue line open {gap} at one edge if held flat, or twisted {twist} degrees if closed tight; {inside} "
    "the limits (chance of being inside: {chance})",
    "now": "This joint: {now}.",
    "now_and_after": "This joint: {now}. After the corrections: {after}.",
    "not_known": "Not known: {what}. {way}",
    "would_tell": "One of these would tell: {ways}.",
    "measure_more": "Measure more of the joint (sheet test-joint).",
    "not_used": "Not used: {key} of joint {number}, which tells nothing without {needs}.",
    "misfit": "Does not fit the other readings: {reading}, {read} where {expected} would fit ({times} times its usual "
    "error).",
    "held_back": "Measure these again. Until they fit, nothing is advised.",
    "nothing": "Nothing to correct.",
    "defer": "The saw maker's manual comes first. Unplug the saw before you touch blade or fence.",
    "what_ratio": "slope",
    "what_tip_mm": "tip thickness",
    "what_fence_gap_mm": "gap between heel and blade",
    "what_lean_deg": "lean of the cut",
    "what_lean_sign": "which way the cut leans",
}
ROWS = {"slope": "slope", "tip": "tip", "gap": "gap, heel to blade", "lean": "lean"}


def say(what: str, /, **figures: object) -> str:
    """One sentence with its figures."""
    return SAY[what].format(**figures)


def set_up_lines(found: Tuned) -> list[tuple[str, str]]:
    """The set-up as the joint shows it: a name and a figure with its uncertainty (two standard deviations)."""
    units, plan, lean = found.plan.units, found.plan, found.fit.lean
    rows = []
    if found.ratio is not None:
        sure, planned = f"{2 * found.ratio.sigma:.2f}", f"{1 / plan.slope:.2f}"
        rows.append((ROWS["slope"], say("slope", found=f"{found.ratio.value:.2f}", sure=sure, planned=planned)))
    for row, value, meant in (("tip", found.fit.tip, plan.tip), ("gap", found.fence_gap, plan.gap)):
        if value is not None:
            read, sure, planned = (fine(mm, units) for mm in (value.value, 2 * value.sigma, meant))
            rows.append((ROWS[row], say("length", found=read, sure=sure, planned=planned)))
    if lean is not None:
        size, sure = (f"{math.degrees(angle):.2f}" for angle in (abs(lean.value), 2 * lean.sigma))
        rows.append((ROWS["lean"], say("lean", found=size, sure=sure, hand=say(_hand(lean, found.fit.signed)))))
    return rows


def _hand(lean: Value, signed: bool) -> str:
    if not signed:
        return "hand_unknown"
    if abs(lean.value) <= 2 * lean.sigma:
        return "hand_none"
    return "hand_away" if lean.value > 0 else "hand_towards"


def fine(mm: float, units: Unit) -> str:
    """A gap or a shim: to 0.01 mm, or to a thousandth of an inch."""
    return show(mm, units, places=2, sixtyfourths=False)


def correction_lines(found: Tuned) -> list[str]:
    """What to do, one act each, in order."""
    return [_correction(one, found.plan.units) for one in found.corrections]


def _correction(one: Correction, units: Unit) -> str:
    by = one.by or 0.0
    if one.what == "blade_tilt":
        return say("blade_tilt", by=f"{math.degrees(by):.2f}", side=say(f"side_{one.towards}"))
    if one.what == "fence" and one.by is None:
        return say("fence_anew", no_tip=say("no_tip"))
    what = f"fence_towards_{one.towards}" if one.what == "fence" else one.what
    return say(what, by=show(by, units) if what == "recut" else fine(by, units), at=show(one.at or 0.0, units))


def expected_line(found: Tuned) -> str | None:
    """What the joint comes to now, and after the corrections."""
    if found.now is None:
        return None
    now, units = _comes_to(found.now, found.plan.units), found.plan.units
    if found.after is None or not any(one.what == "blade_tilt" for one in found.corrections):
        return say("now", now=now)
    return say("now_and_after", now=now, after=_comes_to(found.after, units))


def _comes_to(one: Expected, units: Unit) -> str:
    gap, twist = fine(one.gap, units), f"{math.degrees(one.twist):.2f}"
    inside = "inside" if one.inside else "outside"
    return say("comes_to", gap=gap, twist=twist, inside=inside, chance=hundred(one.chance))


def untold_lines(found: Tuned) -> list[str]:
    """What the readings do not tell, and which further ones would."""
    lines = []
    for name in found.untold:
        ways = "; ".join(" and ".join(_plain(key) for key in keys) for keys in found.would_tell[name])
        way = say("would_tell", ways=ways) if ways else say("measure_more")
        if name == "fence_gap_mm" and found.fit.tip is not None:
            way = say("no_tip")
        lines.append(say("not_known", what=say(f"what_{name}"), way=way))
    for number, key, needs in found.unused:
        lines.append(say("not_used", key=_plain(key), number=number, needs=_plain(needs)))
    return lines


def _plain(key: str) -> str:
    return key.replace("_", " ")


def contradiction_lines(found: Tuned) -> list[str]:
    """The readings that do not fit the others, with what would."""
    if not found.contradictions:
        return []
    return [*(_misfit(one, found.plan.units) for one in found.contradictions), say("held_back")]


def _misfit(one: Residual, units: Unit) -> str:
    read, expected = fine(one.row.read, units), fine(one.expected, units)
    return say("misfit", reading=_plain(one.row.key), read=read, expected=expected, times=f"{abs(one.out):.0f}")


def nothing_to_correct(found: Tuned) -> bool:
    """All is told that would have to be corrected, and nothing has to be."""
    return not found.corrections and not found.contradictions and not {"lean_deg", "lean_sign"} & set(found.untold)
