"""What is said about how the clamps grip."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

_PLACES = {"nose_flat": "across the nose flat", "heel": "in the heel notch", "nose": "in the nose notch"}


def _no_grip(
    say: Say,
    *,
    where: str,
    station_mm: float,
    needed_mm: float,
    opening_mm: float,
    notch_needs_mm: float,
    web_at_most_mm: float | None,
) -> str:
    place = _PLACES.get(where, f"in the notch at {say(station_mm)}")
    other = ""
    if where == "nose_flat":
        notch = ", or a nose notch (nose_flat = 0)" if notch_needs_mm <= opening_mm else ""
        other = f", or a longer sled or a narrower plank (thinner nose){notch}"
    elif web_at_most_mm is not None:
        other = f", or set web to {say.down(web_at_most_mm)} or less"
    return (
        f"The clamp {place} must close on {say(needed_mm)} but opens only {say(opening_mm)}. "
        f"Use clamps that open {say.up(needed_mm)}{other}."
    )


def _grips_air(
    say: Say,
    *,
    length_mm: float,
    needed_length_mm: float | None,
    held: float,
    notch_from_mm: float | None,
    notch_to_mm: float | None,
    **_: object,
) -> str:
    longer = ""
    if needed_length_mm is not None:
        closer = ""
        if notch_from_mm is not None and notch_to_mm is not None:
            between = f"between {say.up(notch_from_mm)} and {say.down(notch_to_mm)}"
            closer = f", or give the sled a notch {between} (extra_stations)"
        longer = f" Take boards {say.up(needed_length_mm)} long or more{closer}."
    reaches = "only one clamp" if held else "no clamp"
    return f"A board {say(length_mm)} long reaches {reaches}: the others grip air, and two must hold it.{longer}"


def _past_board(say: Say, *, length_mm: float, station_mm: float) -> str:
    return f"A board {say(length_mm)} long does not reach the clamp at {say(station_mm)}: it is held by the others."


def _deep_meets_blade(say: Say, *, station_mm: float, limit_mm: float, end_mm: float, lower_edge_mm: float) -> str:
    return (
        f"The clamp at {say(station_mm)} is safe with its pads' lower edge {say(lower_edge_mm)} above the table, but "
        f"pushed down as far as it goes it would meet the blade at {say(limit_mm)}, before the end of the cut at "
        f"{say(end_mm)}. Keep its pads flush with the lower of sled and work, or put a packing piece under its bar."
    )


def _pad_overhangs(say: Say, *, pad_height_mm: float, lower_mm: float, height_mm: float, sled_mm: float) -> str:
    return (
        f"A pad {say(pad_height_mm)} high can't bear wholly on work {say(height_mm)} high and a "
        f"sled {say(sled_mm)} thick. Use pads of {say.down(lower_mm)} or less, or a thicker sled."
    )


def _throat_short(
    say: Say, *, swallowed_mm: float, throat_mm: float, height_mm: float, sled_mm: float, pad_height_mm: float
) -> str:
    apart, spare = abs(height_mm - sled_mm), throat_mm - pad_height_mm
    way = f", or pads {say.down(throat_mm - apart)} high or less" if throat_mm > apart else ""
    if spare >= 0 and sled_mm < height_mm:
        way += f", or a sled {say.up(height_mm - spare)} thick or more (not over the work's height)"
    elif spare >= 0:
        way += f", or a sled {say.down(height_mm + spare)} thick or less"
    return (
        f"To bear wholly on work and sled the clamp must reach {say(swallowed_mm)} down, and its throat is "
        f"{say(throat_mm)}. Use clamps that reach {say.up(swallowed_mm)}{way}."
    )


def _jaw_wont_enter(say: Say, *, notch_width_mm: float, jaw_mm: float, needed_mm: float) -> str:
    return (
        f"The notch is {say(notch_width_mm)} wide and the jaw stands off {say(jaw_mm)}: it won't go in. "
        f"Set notch_width to {say.up(needed_mm)} or more."
    )


def _pad_wont_enter(say: Say, *, pad_width_mm: float, notch_length_mm: float, needed_mm: float) -> str:
    return (
        f"The pad is {say(pad_width_mm)} wide, the notch {say(notch_length_mm)} long: it won't go in. "
        f"Set notch_length to {say.up(needed_mm)} or more."
    )


def _pad_bears_partly(say: Say, *, pad_width_mm: float, bearing_mm: float, needed_mm: float) -> str:
    return (
        f"The pad is {say(pad_width_mm)} wide, but between its round ends the notch is straight for only "
        f"{say(bearing_mm)}: the pad bears partly. Set notch_length to {say.up(needed_mm)}, or square the ends."
    )


SENTENCES: dict[str, Sentence] = {
    "clamp.no_grip": _no_grip,
    "clamp.grips_air": _grips_air,
    "clamp.past_board": _past_board,
    "clamp.deep_meets_blade": _deep_meets_blade,
    "clamp.pad_overhangs": _pad_overhangs,
    "clamp.throat_short": _throat_short,
    "notch.jaw_wont_enter": _jaw_wont_enter,
    "notch.pad_wont_enter": _pad_wont_enter,
    "notch.pad_bears_partly": _pad_bears_partly,
}
