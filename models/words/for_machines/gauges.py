"""What is said about gauges: how well they read, what reads better, why one is of no use."""

from __future__ import annotations

from collections.abc import Callable

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

LEAST_TOLERANCE = 0.05  # no printer of this kind holds less [mm]; common practice, no source


def use_instead(reads: float, others: list[tuple[str, float]], show: Callable[[float], str]) -> str:
    """First what to use in the gauge's stead, best first; or that nothing simpler reads better, and what does help.

    others: how one measures without the gauge, and how well that reads
    """
    better = sorted((value, name) for name, value in others if value < reads)
    if better:
        return "Use " + ", or ".join(f"{name} (reads to ±{show(value)})" for value, name in better) + "."
    tried = "; ".join(f"{name} would read to ±{show(value)}" for name, value in others)
    return f"Measure what the printer holds and set [printer] tolerance to that. Nothing simpler is better: {tried}."


def _to_hundredths(value: float) -> str:
    return f"{value:.2f}"


def _millimetres(value: float) -> str:
    return f"{value:.2f} mm"


def _of_slope(ratio: float, reads: float) -> str:
    return f"±{reads:.2f} ({ratio - reads:.1f}:1 to {ratio + reads:.1f}:1)"


def _by_rule(say: Say, sled_length_mm: float, by_rule_ratio: float) -> tuple[str, float]:
    return f"a rule on heel and nose, {say(sled_length_mm)} apart", by_rule_ratio


def _slope_gauge_no_room(say: Say, *, length_mm: float, room_mm: float) -> str:
    return (
        f"Measure heel and nose with a rule. A slope gauge {say(length_mm)} long finds only "
        f"{say(max(room_mm, 0.0))} of fence edge."
    )


def _slope_gauge_reads(
    say: Say,
    *,
    ratio: float,
    resolution_ratio: float,
    needed_ratio: float,
    by_rule_ratio: float,
    length_mm: float,
    sled_length_mm: float,
) -> str:
    verdict = f"and ±{needed_ratio:.2f} (2 %) is wanted" if resolution_ratio > needed_ratio else "which is enough"
    return (
        use_instead(resolution_ratio, [_by_rule(say, sled_length_mm, by_rule_ratio)], _to_hundredths)
        + f" The slope gauge, {say(length_mm)} long, reads the slope to {_of_slope(ratio, resolution_ratio)}, "
        f"{verdict}."
    )


def _taper_fork_alike(say: Say, *, difference_mm: float, tolerance_mm: float) -> str:
    return (
        f"Measure the taper's thickness at two lines with callipers. The taper fork's slots differ by "
        f"{say(difference_mm)} and the printer is out by {say(tolerance_mm)}: they can't be kept apart."
    )


def _taper_fork_tip(say: Say, *, tip_mm: float, slot_mm: float, tolerance_mm: float) -> str:
    return (
        f"Measure the taper at two lines with callipers, or set a smaller fence_gap. The taper's tip is {say(tip_mm)} "
        f"thick and the fork's narrowest slot {say(slot_mm)} (±{say(tolerance_mm)}): it would not go on."
    )


def _taper_fork_coarse(
    _say: Say,
    *,
    ratio: float,
    resolution_ratio: float,
    needed_ratio: float,
    needed_tolerance_mm: float,
    by_calliper_ratio: float,
    by_rule_ratio: float,
) -> str:
    others = [
        ("callipers at two pencil lines as far apart as the fork's stops", by_calliper_ratio),
        ("a rule on the sled's heel and nose", by_rule_ratio),
    ]
    true_to = needed_tolerance_mm
    printer = f" A printer true to {true_to:.2f} mm would do." if true_to >= LEAST_TOLERANCE else ""
    return (
        use_instead(resolution_ratio, others, _to_hundredths)
        + f" The taper fork reads the slope to {_of_slope(ratio, resolution_ratio)}; ±{needed_ratio:.2f} (2 %) is "
        f"wanted.{printer}"
    )


def _scale_too_many(_say: Say, *, slopes: float, most: float, first: float, last: float) -> str:
    return (
        f"Show fewer slopes, about the one that is cut: from {first:g}:1 to {last:g}:1 are {slopes:g}, and the scale "
        f"has room for {most:g}."
    )


def _scale_crowds(say: Say, *, step_mm: float, least_mm: float) -> str:
    return (
        f"On boards this thin measure the taper with callipers at two pencil lines: the scale's marks would lie "
        f"{say(step_mm)} apart, under the {say(least_mm)} that can be read."
    )


def _block_leans(
    _say: Say, *, top_mm: float, height_mm: float, base_mm: float, angle_deg: float, least_mm: float
) -> str:
    return (
        f"Give the square block a longer base, more height or a smaller angle: {height_mm:g} mm high on a base of "
        f"{base_mm:g} mm, leaning {angle_deg:g} degrees, it has {top_mm:g} mm left at its top, and {least_mm:g} mm "
        "every way is the least."
    )


def _test_tapers(by_test_joint_deg: float) -> str:
    return (
        "For the final check put two test tapers together, one turned end for end, and measure the gap at top and "
        f"bottom with feeler gauges ({by_test_joint_deg:.2f} degrees)."
    )


def _block_angle_lost(
    _say: Say, *, angle_deg: float, resolution_deg: float, by_test_joint_deg: float, **_: float
) -> str:
    return (
        f"{_test_tapers(by_test_joint_deg)} The square block's faces lean by {angle_deg:.2f} degrees, and printed they "
        f"are only sure to ±{resolution_deg:.2f}: give it a larger angle, or more height."
    )


def _block_coarse(
    _say: Say, *, angle_deg: float, resolution_deg: float, needed_deg: float, by_test_joint_deg: float
) -> str:
    return (
        f"The square block shows only errors over about {max(angle_deg, resolution_deg):.1f} degrees; this joint needs "
        f"{needed_deg:.2f}. {_test_tapers(by_test_joint_deg)}"
    )


def _height_step_coarse(say: Say, *, resolution_mm: float, needed_mm: float, by_rule_mm: float) -> str:
    return (
        f"Set blade_above_work to {say.up(2 * resolution_mm)} or more. The height step sets the blade only to "
        f"±{_millimetres(resolution_mm)}, and half of how far the blade reaches above the work, "
        f"{_millimetres(needed_mm)}, may be lost. "
        + use_instead(resolution_mm, [("a rule stood on the table", by_rule_mm)], _millimetres)
    )


def _guide_drill_wide(_say: Say, *, hole_mm: float, notch_width_mm: float) -> str:
    return (
        f"Take a drill of at most half the notch's width: the guide's hole ({hole_mm:g} mm) is wider than the notch "
        f"({notch_width_mm:g} mm)."
    )


def _guide_one_hole(_say: Say, *, apart_mm: float, needed_mm: float) -> str:
    return (
        f"Mark the notch's second hole by rule, or make the notch longer: its end holes lie only {apart_mm:g} mm "
        f"apart, two guides need {needed_mm:g} mm, so the guide has one hole, in between."
    )


def _guide_coarse(say: Say, *, resolution_mm: float, needed_mm: float, by_rule_mm: float, jaw_mm: float) -> str:
    return (
        f"Set notch_width to {say.up(jaw_mm + 2 * resolution_mm)} or more. The notch guide sets holes to "
        f"±{_millimetres(resolution_mm)} and the notch is only {say(2 * needed_mm)} wider than the jaw: the jaw may "
        "stick. " + use_instead(resolution_mm, [("a rule to mark out by", by_rule_mm)], _millimetres)
    )


def _shim_layer_thick(_say: Say, *, layer_mm: float, gap_mm: float, needed_layer_mm: float) -> str:
    return (
        f"Print layers of {_millimetres(needed_layer_mm)} or less, widen fence_gap, or use steel feeler strips. One "
        f"printed layer ({_millimetres(layer_mm)}) is over twice the fence gap ({_millimetres(gap_mm)}): there is no "
        "shim for it."
    )


def _shim_off(
    say: Say, *, thickness_mm: float, gap_mm: float, layers: int, layer_mm: float, fence_mm: float, overlap_mm: float
) -> str:
    return (
        f"The nearest shim of whole layers is {_millimetres(thickness_mm)} ({layers} of {_millimetres(layer_mm)}), "
        f"the fence gap {_millimetres(gap_mm)}. Set with it the fence stands at {say(fence_mm)} and the overlap is "
        f"{say(overlap_mm)}; set by the fence number it stays as drawn."
    )


def _shim_coarse(_say: Say, *, thickness_mm: float, resolution_mm: float, needed_mm: float, by_feeler_mm: float) -> str:
    return (
        use_instead(resolution_mm, [("steel feeler strips", by_feeler_mm)], _millimetres)
        + f" A printed shim of {_millimetres(thickness_mm)} is sure only to ±{_millimetres(resolution_mm)}, more than "
        f"half of it (±{_millimetres(needed_mm)}): the blade could touch the sled."
    )


SENTENCES: dict[str, Sentence] = {
    "slope_gauge.no_room": _slope_gauge_no_room,
    "slope_gauge.coarse": _slope_gauge_reads,
    "slope_gauge.rule_better": _slope_gauge_reads,
    "taper_fork.slots_alike": _taper_fork_alike,
    "taper_fork.tip_too_thick": _taper_fork_tip,
    "taper_fork.coarse": _taper_fork_coarse,
    "taper_scale.too_many": _scale_too_many,
    "taper_scale.marks_crowd": _scale_crowds,
    "square_block.leans_too_far": _block_leans,
    "square_block.angle_lost": _block_angle_lost,
    "square_block.coarse": _block_coarse,
    "gap_shim.layer_thick": _shim_layer_thick,
    "gap_shim.off": _shim_off,
    "gap_shim.coarse": _shim_coarse,
    "height_step.coarse": _height_step_coarse,
    "notch_guide.drill_wide": _guide_drill_wide,
    "notch_guide.one_hole": _guide_one_hole,
    "notch_guide.coarse": _guide_coarse,
}
