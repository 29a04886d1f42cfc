"""What the form's script needs to know of the rooms it mirrors: their constants, signs and sentences, as plain data."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from scarfwright.models.lengths import length
from scarfwright.models.lengths.length import Unit
from scarfwright.models.tuning import corrections, fit, measured, model, plausible, tune
from scarfwright.models.tuning.corrections import Plan


def of_lengths() -> dict[str, Any]:
    """How lengths are read: units by their names and in mm as [over, under], signs, and why a text is refused."""
    return {
        "number": length.NUMBER,
        "names": length.UNIT_NAMES,
        "mm": {unit: list(mm.as_integer_ratio()) for unit, mm in length.UNIT_MM.items()},
        "vulgar": length.VULGAR,
        "refused": length.REFUSED,
        "longest_text": length.LONGEST_TEXT,
        "longest_mm": length.LONGEST_MM,
    }


def of_tuning(units: Unit) -> dict[str, Any]:
    """Errors of readings, steps of hands, and how sure is sure enough; lengths in mm, angles in radians."""
    return {
        "CALLIPER": measured.CALLIPER,
        "RULE": measured.RULE,
        "FEELER": measured.FEELER,
        "STICKS": measured.STICKS,
        "PLANED": measured.PLANED,
        "NOTHING": model.NOTHING,
        "SIGNS": {end or "none": sign for end, sign in model.SIGNS.items()},
        "STEPS": fit.STEPS,
        "SETTLED": fit.SETTLED,
        "WITHIN": fit.WITHIN,
        "SURE_TO": fit.SURE_TO,
        "STEP": fit.STEP,
        "SCALE": fit.SCALE,
        "ALIKE_HANDS": fit.ALIKE,
        "TILT_STEP": corrections.TILT_STEP,
        "SHIM_STEP": corrections.SHIM_STEP[units],
        "CUT_STEP": corrections.CUT_STEP[units],
        "PLACE_STEP": corrections.PLACE_STEP[units],
        "SURE": corrections.SURE,
        "SHIM_WIDTH": corrections.SHIM_WIDTH,
        "MOST_OFF": corrections.MOST_OFF,
        "FENCE": corrections.FENCE,
        "NO_SLED": tune.NO_SLED,
        "TOO_FAR": tune.TOO_FAR,
        "COARSE": tune.COARSE,
        "COARSE_LEAN": tune.COARSE_LEAN,
        "ALIKE": tune.ALIKE,
        "PAIRS": tune.PAIRS,
        "SHOW_A_HAND": tune.SHOW_A_HAND,
    }


def of_plan(plan: Plan) -> dict[str, Any]:
    """The set-up as it was meant to be, and between which lengths each figure is believed [mm]."""
    return {**asdict(plan), "spans": plausible.spans(plan), "full": plausible.FULL * plan.thickness}
