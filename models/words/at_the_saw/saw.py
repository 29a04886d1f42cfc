"""What is said of the blade, its height and the fence."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _above_reach(say: Say, *, tall_mm: float, rise_mm: float, reach_mm: float | None) -> str:
    here = "" if reach_mm is None else f", {say.down(reach_mm)} high on this one"
    return (
        f"The board's larger side, {say(tall_mm)}, must stand up at the saw, and no common table saw raises its blade "
        f"over {say(rise_mm)} (common practice, no source). This sled is for sticks up to the saw's reach{here}, and "
        "for no panel or sheet. Rip the board into sticks."
    )


def _smaller_than_work(
    say: Say, *, diameter_mm: float, blade_height_mm: float, blade_above_work_mm: float, **_: float
) -> str:
    return (
        f"The whole blade ({say(diameter_mm)}) is smaller than it must rise above the table "
        f"({say(blade_height_mm)}: the board and {say(blade_above_work_mm)})."
    )


def _axis_above_table(say: Say, *, blade_height_mm: float, radius_mm: float, **_: float) -> str:
    return (
        f"A blade of {say(2 * radius_mm)} raised {say(blade_height_mm)} would have its centre "
        f"{say(blade_height_mm - radius_mm)} above the table, which no saw does."
    )


def _too_low(say: Say, *, blade_height_mm: float, max_depth_mm: float, blade_above_work_mm: float, **_: float) -> str:
    must, rises = say.apart(blade_height_mm, max_depth_mm)
    return (
        f"The blade must rise {must} above the table to clear the board by {say(blade_above_work_mm)}, and rises only "
        f"{rises}."
    )


def _max_depth_beyond(say: Say, *, max_depth_mm: float, radius_mm: float) -> str:
    return (
        f"max_depth ({say(max_depth_mm)}) is more than half the blade's diameter ({say(2 * radius_mm)}): no saw "
        f"raises a blade past its centre. Measure how far yours rises, less than {say.down(radius_mm)}."
    )


def _cuts_sled(say: Say, **_: float) -> str:
    usual = "0.4 mm" if say.units == "mm" else "1/64 in"
    return (
        f"With no fence gap the blade rubs along the sled's heel and cuts it. Set fence_gap to {usual} (common "
        "practice, "
        "no source)."
    )


def _dividing_too_low(
    say: Say, *, blade_height_mm: float, max_depth_mm: float, rail_mm: float, carrier_most_mm: float | None
) -> str:
    thinner = (
        ""
        if carrier_most_mm is None
        else f", or use a carrier {say.down(carrier_most_mm)} thick or less (sheet_thickness)"
    )
    return (
        f"The dividing cut through carrier and plank needs the blade {say(blade_height_mm)} up, and it rises "
        f"only {say(max_depth_mm)}. Divide the plank along a guide rail {say(rail_mm)} from the line{thinner}."
    )


SENTENCES: dict[str, Sentence] = {
    "stock.above_reach": _above_reach,
    "blade.smaller_than_work": _smaller_than_work,
    "blade.axis_above_table": _axis_above_table,
    "blade.too_low": _too_low,
    "blade.max_depth_beyond": _max_depth_beyond,
    "fence.cuts_sled": _cuts_sled,
    "dividing.blade_too_low": _dividing_too_low,
}
