"""What is said about how the clamps grip."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.at_the_saw.place import heel_at
from scarfwright.models.words.sentence import Sentence

_PLACES = {"nose_flat": "across the nose flat", "heel": "in the heel notch", "nose": "in the nose notch"}


def _no_grip(say: Say, *, where: str, station_mm: float, needed_mm: float, opening_mm: float) -> str:
    place = _PLACES.get(where, f"in the notch at {say(station_mm)}")
    needed, has = say.apart(needed_mm, opening_mm)
    return f"The clamp {place} must close on {needed} and opens only {has}."


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
    reaches = "only one clamp" if held else "no clamp"
    wrong = f"A board {say(length_mm)} long reaches {reaches}: the others grip air, and two must hold it."
    if needed_length_mm is not None:
        wrong += f" The second clamp needs boards of {say.up(needed_length_mm)}."
    if notch_from_mm is not None and notch_to_mm is not None:
        wrong += f" A further notch may lie {say.up(notch_from_mm)} to {say.down(notch_to_mm)} from the heel."
    return wrong


def _past_board(say: Say, *, length_mm: float, station_mm: float) -> str:
    return f"A board {say(length_mm)} long does not reach the clamp at {say(station_mm)}: it is held by the others."


def _deep_meets_blade(
    say: Say, *, where: str, station_mm: float, limit_mm: float, end_mm: float, spare_mm: float, lower_edge_mm: float
) -> str:
    place = _PLACES.get(where, f"in the notch at {say(station_mm)}")
    when = f"after {say.down(limit_mm)} of travel" if limit_mm > 0 else "before the heel has reached its centre"
    return (
        f"The clamp {place} is safe with the lower edge of its pads {say(lower_edge_mm)} above the table. Pushed down "
        f"until it bottoms it would meet the blade {when}; the cut ends {heel_at(end_mm, say)}, and {say(spare_mm)} "
        "more must be free (common practice, no source)."
    )


def _deep_meets_fence(
    say: Say,
    *,
    limit_mm: float,
    end_mm: float,
    spare_mm: float,
    lower_edge_mm: float,
    fence_height_mm: float,
    **_: object,
) -> str:
    when = f"after {say.down(limit_mm)} of travel" if limit_mm > 0 else "before the heel has reached the blade's centre"
    return (
        f"The clamp across the nose flat rides over the fence ({say(fence_height_mm)}) with the lower edge of its pads "
        f"{say(lower_edge_mm)} above the table. Pushed down until it bottoms its jaw would meet the near end of the "
        f"fence {when}, with the blade in the work; the cut ends {heel_at(end_mm, say)}, and {say(spare_mm)} more "
        "must be free (common practice, no source)."
    )


def _pad_overhangs(say: Say, *, pad_height_mm: float, height_mm: float, sled_mm: float, **_: object) -> str:
    return (
        f"A pad {say(pad_height_mm)} high can't bear wholly on work {say(height_mm)} high and a sled {say(sled_mm)} "
        "thick."
    )


def _throat_short(say: Say, *, swallowed_mm: float, throat_mm: float, **_: object) -> str:
    deep, throat = say.apart(swallowed_mm, throat_mm)
    return f"To bear wholly on work and sled the clamp must reach {deep} down, and its throat is {throat}."


def _jaw_wont_enter(say: Say, *, notch_width_mm: float, jaw_mm: float, **_: object) -> str:
    notch, jaw = say.apart(notch_width_mm, jaw_mm)
    return f"The inner jaw stands off {jaw} and does not go into a notch {notch} wide."


def _pad_wont_enter(say: Say, *, pad_width_mm: float, notch_length_mm: float, **_: object) -> str:
    pad, notch = say.apart(pad_width_mm, notch_length_mm)
    return f"The pad is {pad} wide and does not go into a notch {notch} long."


def _pad_bears_partly(say: Say, *, pad_width_mm: float, bearing_mm: float, **_: object) -> str:
    pad, straight = say.apart(pad_width_mm, bearing_mm)
    return (
        f"The pad is {pad} wide, but between its round ends the notch is straight for only {straight}: the pad bears "
        "partly. Square the ends, or make the notch longer."
    )


def _backing_low(say: Say, *, unbacked_mm: float, height_mm: float, sled_mm: float, wanted_mm: float) -> str:
    return (
        f"Of a board {say(height_mm)} high the sled backs only {say(sled_mm)}: the {say(unbacked_mm)} above it stand "
        f"free beside the blade and can tip or chatter. A sled {say.up(wanted_mm)} thick is the least (common "
        "practice, no source); best is one as thick as the board is high."
    )


def _backing_partial(say: Say, *, unbacked_mm: float, **_: object) -> str:
    return (
        f"The sled leaves the upper {say(unbacked_mm)} of the board unbacked beside the blade. Best is a sled as thick "
        "as the board is high (common practice, no source)."
    )


SENTENCES: dict[str, Sentence] = {
    "clamp.no_grip": _no_grip,
    "clamp.grips_air": _grips_air,
    "clamp.past_board": _past_board,
    "clamp.deep_meets_blade": _deep_meets_blade,
    "clamp.deep_meets_fence": _deep_meets_fence,
    "clamp.pad_overhangs": _pad_overhangs,
    "clamp.throat_short": _throat_short,
    "backing.low": _backing_low,
    "backing.partial": _backing_partial,
    "notch.jaw_wont_enter": _jaw_wont_enter,
    "notch.pad_wont_enter": _pad_wont_enter,
    "notch.pad_bears_partly": _pad_bears_partly,
}
