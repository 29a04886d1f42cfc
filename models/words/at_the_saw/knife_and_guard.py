"""What is said of riving knife and crown guard, and of what was found about them. Sources: cut/knife_and_guard.py."""

from __future__ import annotations

from scarfwright.models.cut.knife_and_guard import GAP, OVER_PLATE, Guard, Knife
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

STANDARD = "EN 1870-19"
NEAR = {"mm": "6 mm", "in": "1/4 in"}  # hood over the work: California T8 4300.1, WAC 296-806-48012 (1/4 in)


def knife(one: Knife, say: Say) -> str:
    """The knife that is there, and between what limits; or which one to fit."""
    if not one.fitted:
        return _fit(say, one.least, one.most, one.top)
    return (
        f"Keep it fitted, the cut goes right through: {say.fine(one.thickness)} thick "
        f"({say.fine(one.least)} or more, less than the {say.fine(one.most)} kerf). {_place(say, one.top)}"
    )


def _fit(say: Say, least: float, most: float, top: float) -> str:
    if least >= most:
        return f"Fit one: {_no_knife(say)}"
    return (
        f"Fit one, the cut goes right through: {say.fine(least)} thick or more, less than the {say.fine(most)} kerf. "
        f"{_place(say, top)}"
    )


def _place(say: Say, top: float) -> str:
    return f"Set it {knife_gap(say)} from the teeth, its top {say.down(top)} above the table or lower ({STANDARD})."


def knife_gap(say: Say) -> str:
    """How far the knife stands from the teeth."""
    low, high = (f"{gap:g} mm" for gap in GAP) if say.units == "mm" else ("1/8 in", "5/16 in")
    return f"{low} to {high}"


def guard(hood: Guard, say: Say) -> str:
    """Where the guard may stay on, and what to do where it can't."""
    return _hood(say, hood.over, hood.free_ahead)


def _hood(say: Say, over: float, ahead: float | None) -> str:
    told = f"Keep the crown guard (US blade guard) on where it passes: it must lift {say.up(over)} (board and sled)"
    if ahead is not None and ahead <= 0:
        told += (
            f", and nothing of it may reach down where the clamps run: at the end of the cut the nearest is "
            f"{say.up(-ahead)} past the blade's centre, beside the blade"
        )
    elif ahead is not None:
        told += f" and reach no further than {say.down(ahead)} from the blade's centre towards you (the nearest clamp)"
    return (
        f"{told}. It rides on the work, or within {NEAR[say.units]} of it. Where it can't: riving "
        "knife on, hands on your side of the line, a guard on an arm of its own above the clamps, and first what the "
        "saw maker's manual and local rules say of jigs. Pawls must not catch when the sled comes back. Put the guard "
        "back after the cut."
    )


def _plate_too_thick(say: Say, *, plate_mm: float, kerf_mm: float) -> str:
    return (
        f"The blade's plate ({say.fine(plate_mm)}) is as thick as its kerf ({say.fine(kerf_mm)}) or thicker: "
        "it would rub and burn, and no riving knife can fit. Measure both again ([saw] kerf, plate)."
    )


def _none(say: Say, *, least_mm: float, under_mm: float, top_mm: float) -> str:
    return (
        f"A saw without riving knife (riving_knife = 0) can throw the work. {_fit(say, least_mm, under_mm, top_mm)} "
        "Where the saw has no place for a riving knife fit a splitter."
    )


def _thicker_than_kerf(say: Say, *, knife_mm: float, kerf_mm: float, least_mm: float) -> str:
    return (
        f"The riving knife ({say.fine(knife_mm)}) does not go into the {say.fine(kerf_mm)} kerf: the work jams on it, "
        f"and a through cut must not be made without it. {_other(say, least_mm, kerf_mm)} Measure yours: the figures "
        "may be defaults."
    )


def _too_thin(say: Say, *, knife_mm: float, plate_mm: float, kerf_mm: float, least_mm: float) -> str:
    return (
        f"The riving knife ({say.fine(knife_mm)}) is less than {say.fine(OVER_PLATE)} thicker than the blade's plate "
        f"({say.fine(plate_mm)}; {STANDARD}): a kerf that closes would pinch the blade. "
        f"{_other(say, least_mm, kerf_mm)} Measure yours: the figures may be defaults."
    )


def _other(say: Say, least: float, kerf: float) -> str:
    """What would do, only what would: another knife where one fits this blade, another blade else."""
    if least < kerf:
        return f"Fit a knife {say.fine(least)} thick or more, less than the {say.fine(kerf)} kerf."
    return f"No knife fits this blade: {_no_knife(say)}"


def _no_knife(say: Say) -> str:
    return f"change the blade for one whose kerf is more than {say.fine(OVER_PLATE)} wider than its plate."


def _cannot_pass(
    say: Say,
    *,
    guard_height_mm: float,
    guard_front_mm: float,
    over_mm: float,
    free_ahead_mm: float | None,
    **_: float | None,
) -> str:
    return (
        f"The crown guard can't pass: it lifts {say(guard_height_mm)} and reaches {say(guard_front_mm)} from the "
        f"blade's centre towards you. {_hood(say, over_mm, free_ahead_mm)}"
    )


SENTENCES: dict[str, Sentence] = {
    "blade.plate_too_thick": _plate_too_thick,
    "knife.none": _none,
    "knife.thicker_than_kerf": _thicker_than_kerf,
    "knife.too_thin": _too_thin,
    "guard.cannot_pass": _cannot_pass,
}
