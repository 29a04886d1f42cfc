"""What is said about the clamp notches."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _at(say: Say, where: str, station_mm: float) -> str:
    return f"The {where} notch at {say(station_mm)} from the heel"


def _longer_than_sled(
    say: Say, *, where: str, notch_length_mm: float, work_edge_mm: float, enough_mm: float | None
) -> str:
    way = f"Make the sled longer than {say.up(notch_length_mm)}."
    if enough_mm is not None:
        way = f"Set notch_length to {say.up(enough_mm)}, the pad and the round ends."
    return f"The {where} notch is {say(notch_length_mm)} long, the sled's work edge {say(work_edge_mm)}. {way}"


def _off_sled(
    say: Say,
    *,
    where: str,
    station_mm: float,
    least_mm: float,
    most_mm: float,
    notch_length_mm: float,
    work_edge_mm: float,
) -> str:
    if least_mm > most_mm:
        way = f"Make the sled longer or the notch ({say(notch_length_mm)}) shorter."
    elif where == "nose":
        nearest, furthest_in = work_edge_mm - most_mm, work_edge_mm - least_mm
        way = f"Keep nose_station between {say.up(max(nearest, 0.0))} and {say.down(furthest_in)}."
    else:
        way = f"Keep its middle between {say.up(least_mm)} and {say.down(most_mm)} from the heel."
    return f"{_at(say, where, station_mm)} reaches past the end of the sled. {way}"


def _towards_heel(say: Say, most_mm: float, least_mm: float) -> str:
    """Where the notch would do, only if it may lie there; else what else would help."""
    if most_mm >= least_mm:
        return f"Put it {say.down(most_mm)} or less from the heel, or take a wider plank."
    return "Make web or notch_width smaller, or take a wider plank and a longer sled."


def _breaks_fence_edge(
    say: Say, *, where: str, station_mm: float, left_mm: float, most_mm: float, least_mm: float
) -> str:
    return (
        f"{_at(say, where, station_mm)} breaks into the fence edge or the nose flat: {say(left_mm)} of wood would be "
        f"left to the fence edge. {_towards_heel(say, most_mm, least_mm)}"
    )


def _thin_left(
    say: Say, *, where: str, station_mm: float, left_mm: float, wanted_mm: float, most_mm: float, least_mm: float
) -> str:
    return (
        f"{_at(say, where, station_mm)} leaves only {say(left_mm)} of wood to the fence edge (under {say(wanted_mm)} "
        f"it is likely to break; common practice, no source). {_towards_heel(say, most_mm, least_mm)}"
    )


def _overlap(
    say: Say, *, where: str, other_where: str, station_mm: float, other_station_mm: float, needed_mm: float
) -> str:
    return (
        f"The {where} notch at {say(station_mm)} and the {other_where} notch at {say(other_station_mm)} "
        f"run into each other. Keep them {say.up(needed_mm)} apart, or take a longer sled."
    )


SENTENCES: dict[str, Sentence] = {
    "notch.longer_than_sled": _longer_than_sled,
    "notch.off_sled": _off_sled,
    "notch.breaks_fence_edge": _breaks_fence_edge,
    "notch.thin_left": _thin_left,
    "notch.overlap": _overlap,
}
