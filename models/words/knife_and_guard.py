"""What is said of riving knife and hood guard, and of what was found about them."""

from __future__ import annotations

from scarfwright.models.cut.knife_and_guard import GAP, OVER_PLATE, Guard, Knife
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def knife(one: Knife, say: Say) -> str:
    """The knife that is there, and between what limits; or which one to fit."""
    if one.fitted:
        return (
            f"The riving knife stays on, this is a through cut: {say.fine(one.thickness)} thick, "
            f"{_rule(say, one.least, one.most)}; {_place(say, one.top)}"
        )
    return _wanted(say, one.least, one.most, one.top)


def _wanted(say: Say, least: float, most: float, top: float) -> str:
    return f"A through cut wants a riving knife: {_rule(say, least, most)}, {_place(say, top)}"


def _rule(say: Say, least: float, most: float) -> str:
    return f"between {say.fine(least)} (plate + {say.fine(OVER_PLATE)}) and under {say.fine(most)} (kerf)"


def _place(say: Say, top: float) -> str:
    return (
        f"{say.fine(GAP[0])} to {say.fine(GAP[1])} behind the teeth, its top {say.down(top)} above the table or less "
        "(EN 1870 series)."
    )


def guard(hood: Guard, say: Say) -> str:
    """Where the hood may stay on, and what to do where it can't."""
    return _hood(say, hood.over, hood.over_clamps, hood.free_ahead)


def _hood(say: Say, over: float, over_clamps: float, ahead: float | None) -> str:
    told = f"Keep the hood guard on where it passes: it must lift over {say.up(over)} (work and sled)"
    if ahead is not None:
        told += (
            f" and reach no further than {say.down(ahead)} from the blade's axis towards you, where the nearest clamp "
            f"(its bar over {say(over_clamps)} up) comes at the end of the cut"
        )
    return (
        f"{told}. Pawls must not catch if the sled is drawn back. Where it can't pass: riving knife on, work clamped "
        "to the sled, hands behind the line, a guard on an arm of its own above the clamps if there is one, and first "
        "what the saw maker's manual and local rules say of jigs."
    )


def _plate_too_thick(say: Say, *, plate_mm: float, kerf_mm: float) -> str:
    return (
        f"The blade's plate ({say.fine(plate_mm)}) is as thick as its kerf ({say.fine(kerf_mm)}) or thicker: "
        "it would rub and burn, and no riving knife can fit. Measure both again ([saw] kerf, plate)."
    )


def _none(say: Say, *, least_mm: float, under_mm: float, top_mm: float) -> str:
    return (
        f"A saw without riving knife (riving_knife = 0) can throw the work. {_wanted(say, least_mm, under_mm, top_mm)} "
        "Fit one, or a splitter where the saw takes no other."
    )


def _thicker_than_kerf(say: Say, *, knife_mm: float, kerf_mm: float, least_mm: float) -> str:
    return (
        f"The riving knife ({say.fine(knife_mm)}) does not go into a kerf of {say.fine(kerf_mm)}: the "
        f"work jams on it, and a through cut must not be made without it. {_other(say, least_mm, kerf_mm)} "
        "Measure yours: the figures may be defaults."
    )


def _too_thin(say: Say, *, knife_mm: float, plate_mm: float, kerf_mm: float, least_mm: float) -> str:
    return (
        f"The riving knife ({say.fine(knife_mm)}) is less than {say.fine(OVER_PLATE)} thicker than the "
        f"blade's plate ({say.fine(plate_mm)}; EN 1870 series): a kerf that closes would pinch the blade. "
        f"{_other(say, least_mm, kerf_mm)} Measure yours: the figures may be defaults."
    )


def _other(say: Say, least: float, kerf: float) -> str:
    """What would do, only what would: another knife where one fits this blade, another blade else."""
    if least < kerf:
        return f"Fit a knife of {say.fine(least)} or more and under {say.fine(kerf)}."
    return f"No knife fits this blade; take one whose kerf is more than {say.fine(OVER_PLATE)} over its plate."


def _cannot_pass(
    say: Say,
    *,
    guard_height_mm: float,
    guard_front_mm: float,
    over_mm: float,
    over_clamps_mm: float,
    free_ahead_mm: float | None,
) -> str:
    return (
        f"The hood guard can't pass: it lifts {say(guard_height_mm)} and reaches {say(guard_front_mm)} ahead of the "
        f"axis. {_hood(say, over_mm, over_clamps_mm, free_ahead_mm)}"
    )


SENTENCES: dict[str, Sentence] = {
    "blade.plate_too_thick": _plate_too_thick,
    "knife.none": _none,
    "knife.thicker_than_kerf": _thicker_than_kerf,
    "knife.too_thin": _too_thin,
    "guard.cannot_pass": _cannot_pass,
}
