"""What is said about the sled's size, its nose and what is cut into it."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _as_made_reversed(say: Say, *, heel_mm: float, nose_mm: float) -> str:
    return (
        f"The heel as measured ({say(heel_mm)}) is not wider than the nose ({say(nose_mm)}): that is no taper. "
        "Measure again, square to the fence edge, the heel at the wide end."
    )


def _as_made_needs_length(say: Say, *, length_mm: float) -> str:
    return (
        "Measures heel_as_made and nose_as_made belong to a sled that exists: give its measured length too "
        f'([sled] length = "{say(length_mm)}" is what "auto" would have made).'
    )


def _kerf_too_wide(say: Say, *, kerf_mm: float, plank_width_mm: float) -> str:
    return (
        f"The kerf ({say(kerf_mm)}) is as wide as the plank ({say(plank_width_mm)}) or wider. "
        "Check [saw] kerf and [sled] plank."
    )


def _too_narrow(say: Say, *, plank_width_mm: float, length_mm: float, needed_width_mm: float, longest_mm: float) -> str:
    way = f"a sled no longer than {say.down(longest_mm)}, " if longest_mm > 0 else ""
    return (
        f"A plank {say(plank_width_mm)} wide has no room for two halves {say(length_mm)} long at this slope. "
        f"Take {way}a plank at least {say.up(needed_width_mm)} wide, or a flatter slope."
    )


def _nose_thin(
    say: Say,
    *,
    nose_mm: float,
    nose_min_mm: float,
    needed_width_mm: float | None,
    longest_mm: float | None,
    nose_min_at_most_mm: float | None,
) -> str:
    way = " Make a sled with a wider nose"
    if needed_width_mm is not None and longest_mm is not None:
        way = f" Take a plank {say.up(needed_width_mm)} wide, a sled no longer than {say.down(longest_mm)}"
    lower = f", or set nose_min to {say.down(nose_min_at_most_mm)}" if nose_min_at_most_mm is not None else ""
    return f"The nose is {say(nose_mm)} wide, less than nose_min {say(nose_min_mm)}: it breaks or bends.{way}{lower}."


def _too_short(say: Say, *, station_mm: float, length_mm: float, needed_length_mm: float) -> str:
    return (
        f"The heel clamp belongs at {say(station_mm)} from the heel to stay off the blade, but the sled is "
        f"only {say(length_mm)} long. Make it at least {say.up(needed_length_mm)} long."
    )


def _hands_have_no_room(say: Say, *, hand_line_mm: float, length_mm: float, needed_length_mm: float) -> str:
    return (
        f"The hand line belongs {say(hand_line_mm)} from the heel, which leaves no room for a hand on a sled "
        f"{say(length_mm)} long. Make the sled {say.up(needed_length_mm)} long, or push with a "
        "screwed-on handle and a push stick, never with a hand past the line."
    )


def _no_clamp(say: Say, *, needed_left_mm: float) -> str:
    return (
        f"No nose notch leaves {say(needed_left_mm)} of wood to the fence edge, and there is no nose flat: the heel "
        'clamp alone would hold the board. Set nose_flat to "auto", or make the sled longer and wider.'
    )


def _pad_off_flat(
    say: Say, *, nose_station_mm: float, least_mm: float, most_mm: float, pad_width_mm: float, nose_flat_mm: float
) -> str:
    return (
        f"A pad {say(pad_width_mm)} wide at {say(nose_station_mm)} from the nose end does not bear wholly on the nose "
        f"flat ({say(nose_flat_mm)}). Set nose_station between {say.up(least_mm)} and {say.down(most_mm)}, or to "
        '"auto".'
    )


def _flat_too_long(say: Say, *, nose_flat_mm: float, length_mm: float, pad_width_mm: float) -> str:
    pad, half = pad_width_mm, length_mm / 2
    way = f"Make the sled {say.up(2 * pad)} long or more and set nose_flat to {say(pad)}, one pad"
    if pad <= half:
        way = f"Set nose_flat to {say.down(half)} or less; {say.up(pad)} is one pad"
    return f"The nose flat ({say(nose_flat_mm)}) is longer than half the sled ({say(length_mm)}). {way}."


def _flat_short(say: Say, *, nose_flat_mm: float, pad_width_mm: float) -> str:
    return (
        f"The nose flat ({say(nose_flat_mm)}) is shorter than the clamp's pad ({say(pad_width_mm)}), "
        f"which then bears only partly. Set nose_flat to {say.up(pad_width_mm)} or more."
    )


def _flat_leaves_sliver(say: Say, *, nose_flat_mm: float, cleared_mm: float, kerf_mm: float) -> str:
    return (
        f"Cut on the saw, a kerf of {say(kerf_mm)} clears only {say(cleared_mm)} of the nose flat's "
        f"{say(nose_flat_mm)}: saw the sliver off by hand, or use the printed nose wedge instead of a flat."
    )


def _handle_no_room(say: Say, *, hand_line_mm: float, spacing_mm: float) -> str:
    return (
        f"No place behind the hand line ({say(hand_line_mm)} from the heel) takes two handle holes "
        f"{say(spacing_mm)} apart, so there are none. A longer sled or a smaller handle_spacing "
        "would do; set handle_hole = 0 if no handle is wanted."
    )


def _dowel_no_room(say: Say, *, dowel_mm: float) -> str:
    return (
        f"No two places take dowels of {say(dowel_mm)} clear of notches and edges: register the layers by "
        "their edges instead, or use thinner dowels."
    )


def _handle_overlap(say: Say, *, spacing_mm: float, needed_mm: float, hole_mm: float) -> str:
    return (
        f"Handle holes {say(hole_mm)} wide, {say(spacing_mm)} apart, run into each "
        f"other. Set handle_spacing to {say.up(needed_mm)} or more."
    )


def _handle_breaks_out(
    say: Say, *, from_heel_mm: float, room_mm: float | None = None, hand_line_mm: float | None = None
) -> str:
    wrong = f"lies before the hand line at {say(hand_line_mm or 0.0)}: the hand on it would come too near the blade"
    if room_mm is not None:
        wrong = f"runs into a notch or off the sled ({say(room_mm)} of wood left)"
    return f'The handle hole {say(from_heel_mm)} from the heel {wrong}. Move handle_station, or set it to "auto".'


SENTENCES: dict[str, Sentence] = {
    "sled.as_made_reversed": _as_made_reversed,
    "sled.as_made_needs_length": _as_made_needs_length,
    "plank.kerf_too_wide": _kerf_too_wide,
    "plank.too_narrow": _too_narrow,
    "sled.nose_thin": _nose_thin,
    "sled.too_short": _too_short,
    "sled.hands_have_no_room": _hands_have_no_room,
    "nose.no_clamp": _no_clamp,
    "nose.pad_off_flat": _pad_off_flat,
    "nose.flat_too_long": _flat_too_long,
    "nose.flat_short": _flat_short,
    "nose.flat_leaves_sliver": _flat_leaves_sliver,
    "handle.no_room": _handle_no_room,
    "dowel.no_room": _dowel_no_room,
    "handle.overlap": _handle_overlap,
    "handle.breaks_out": _handle_breaks_out,
}
