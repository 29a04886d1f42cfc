"""What is said about the sled's size, its nose and its dowels. The ways out are said with the remedies."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _not_upright(say: Say, *, thickness_mm: float, height_mm: float) -> str:
    thick, high = say.apart(thickness_mm, height_mm)
    return (
        f"The board is thicker ({thick}) than it is high ({high}): it would tip at the saw. Taper it through its "
        "smaller side."
    )


def _as_made_reversed(say: Say, *, heel_mm: float, nose_mm: float) -> str:
    return (
        f"The heel as measured ({say(heel_mm)}) is not wider than the nose ({say(nose_mm)}): that is no taper. "
        "Measure again, square to the fence edge, the heel at the wide end."
    )


def _as_made_needs_length(say: Say, *, length_mm: float) -> str:
    return (
        "Measured sizes belong to a sled that exists: say which length it was planned with. Before anything was "
        f'measured, "auto" came to {say(length_mm)}.'
    )


def _kerf_too_wide(say: Say, *, kerf_mm: float, plank_width_mm: float) -> str:
    return (
        f"The kerf ({say(kerf_mm)}) is as wide as the plank ({say(plank_width_mm)}) or wider. "
        "Check [saw] kerf and [sled] plank."
    )


def _too_narrow(say: Say, *, plank_width_mm: float, length_mm: float, **_: object) -> str:
    return f"A plank {say(plank_width_mm)} wide has no room for two halves {say(length_mm)} long at this slope."


def _nose_thin(say: Say, *, nose_mm: float, nose_min_mm: float) -> str:
    nose, least = say.apart(nose_mm, nose_min_mm)
    return f"The nose is {nose} wide, less than nose_min {least}: it breaks or bends."


def _too_short(say: Say, *, station_mm: float, length_mm: float, **_: object) -> str:
    return (
        f"The heel notch belongs {say(station_mm)} from the heel to keep its clamp off the blade; the sled, "
        f"{say(length_mm)} long, ends before it."
    )


def _no_clamp(say: Say, *, needed_left_mm: float) -> str:
    return (
        f"Nothing holds the board at the nose: a notch there would leave less than {say(needed_left_mm)} of wood to "
        "the fence edge, and there is no nose flat."
    )


def _pad_off_flat(
    say: Say, *, nose_station_mm: float, least_mm: float, most_mm: float, pad_width_mm: float, nose_flat_mm: float
) -> str:
    return (
        f"A pad {say(pad_width_mm)} wide at {say(nose_station_mm)} from the nose end does not bear wholly on the nose "
        f"flat, {say(nose_flat_mm)} long: its middle must be between {say.up(least_mm)} and {say.down(most_mm)}."
    )


def _flat_too_long(say: Say, *, nose_flat_mm: float, length_mm: float, **_: object) -> str:
    return f"The nose flat ({say(nose_flat_mm)}) is longer than half the sled ({say(length_mm)})."


def _flat_short(say: Say, *, nose_flat_mm: float, pad_width_mm: float) -> str:
    flat, pad = say.apart(nose_flat_mm, pad_width_mm)
    return f"The nose flat ({flat}) is shorter than the clamp's pad ({pad}), which then bears only partly."


def _dowel_no_room(say: Say, *, dowel_mm: float) -> str:
    return (
        f"There are no two places for dowels of {say(dowel_mm)} clear of notches and edges. Register the layers by "
        "their edges instead, or use thinner dowels."
    )


SENTENCES: dict[str, Sentence] = {
    "stock.not_upright": _not_upright,
    "sled.as_made_reversed": _as_made_reversed,
    "sled.as_made_needs_length": _as_made_needs_length,
    "plank.kerf_too_wide": _kerf_too_wide,
    "plank.too_narrow": _too_narrow,
    "sled.nose_thin": _nose_thin,
    "sled.too_short": _too_short,
    "nose.no_clamp": _no_clamp,
    "nose.pad_off_flat": _pad_off_flat,
    "nose.flat_too_long": _flat_too_long,
    "nose.flat_short": _flat_short,
    "dowel.no_room": _dowel_no_room,
}
