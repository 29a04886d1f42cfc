"""What is said about the clamp notches."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _at(say: Say, where: str, station_mm: float) -> str:
    return f"The {where} notch at {say(station_mm)} from the heel"


def _longer_than_sled(say: Say, *, where: str, notch_length_mm: float, work_edge_mm: float, **_: object) -> str:
    return f"The {where} notch is {say(notch_length_mm)} long, the sled's work edge {say(work_edge_mm)}."


def _off_sled(
    say: Say, *, where: str, station_mm: float, least_mm: float, most_mm: float, work_edge_mm: float, **_: object
) -> str:
    from_nose = f"The nose notch at {say(work_edge_mm - station_mm)} from the nose end"
    at = from_nose if where == "nose" and station_mm <= work_edge_mm else _at(say, where, station_mm)
    wrong = f"{at} reaches past the end of the sled."
    if least_mm > most_mm:
        return wrong
    if where == "nose":
        nearest, furthest_in = max(work_edge_mm - most_mm, 0.0), work_edge_mm - least_mm
        return f"{wrong} Its middle can lie {say.up(nearest)} to {say.down(furthest_in)} from the nose end."
    return f"{wrong} Its middle can lie {say.up(least_mm)} to {say.down(most_mm)} from the heel."


def _breaks_fence_edge(say: Say, *, where: str, station_mm: float, **_: object) -> str:
    return f"{_at(say, where, station_mm)} breaks into the fence edge or the nose flat."


def _thin_left(say: Say, *, where: str, station_mm: float, left_mm: float, wanted_mm: float, **_: object) -> str:
    left, wanted = say.apart(left_mm, wanted_mm)
    return (
        f"{_at(say, where, station_mm)} leaves only {left} of wood to the fence edge: under {wanted} it is likely to "
        "break (common practice, no source)."
    )


def _overlap(
    say: Say, *, where: str, other_where: str, station_mm: float, other_station_mm: float, needed_mm: float
) -> str:
    return (
        f"The {where} notch at {say(station_mm)} and the {other_where} notch at {say(other_station_mm)} from the heel "
        f"run into each other. Keep them {say.up(needed_mm)} apart."
    )


SENTENCES: dict[str, Sentence] = {
    "notch.longer_than_sled": _longer_than_sled,
    "notch.off_sled": _off_sled,
    "notch.breaks_fence_edge": _breaks_fence_edge,
    "notch.thin_left": _thin_left,
    "notch.overlap": _overlap,
}
