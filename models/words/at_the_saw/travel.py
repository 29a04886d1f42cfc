"""What is said of clamps and boards that meet blade or fence before the cut has ended."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.at_the_saw.endings import clamp, meeting
from scarfwright.models.words.sentence import Sentence

ENDS = {
    "hold": "the taper is complete and the sled held there",
    "run_on": "the blade is clear of the work",
    "draw_back": "the taper is complete and the sled drawn back",
}


def _end(say: Say, limit: float, end: float, end_of_cut: str) -> str:
    when = "before" if limit < end else "within the margin after"
    return f"{when} the end of the cut at {say(end)} ({ENDS[end_of_cut]})"


def _clamp_meets_fence(
    say: Say,
    *,
    where: str,
    station_mm: float,
    limit_mm: float,
    end_mm: float,
    end_of_cut: str,
    needed_mm: float,
    needed_length_mm: float,
) -> str:
    return (
        f"The {clamp(where)} at {say(station_mm)} from the heel meets the near end of the fence "
        f"{meeting(limit_mm, say)}, {_end(say, limit_mm, end_mm, end_of_cut)}. Make the sled "
        f"{say.up(needed_length_mm)} long or more, or hold the nose in a notch (nose_flat = 0), or slide the fence "
        f"{say.up(needed_mm - limit_mm)} away from you."
    )


def _clamp_meets_blade(
    say: Say,
    *,
    where: str,
    station_mm: float,
    limit_mm: float,
    end_mm: float,
    end_of_cut: str,
    least_station_mm: float,
    **_: float,
) -> str:
    least = say.up(least_station_mm)
    way_out = (
        f"Make the sled longer, so that its nose lies {least} or more from the heel."
        if where == "nose_flat"
        else f"Put it {least} or more from the heel."
    )
    return (
        f"The {clamp(where)} at {say(station_mm)} from the heel meets the blade {meeting(limit_mm, say)}, "
        f"{_end(say, limit_mm, end_mm, end_of_cut)}. {way_out}"
    )


def _board_meets_fence(
    say: Say, *, limit_mm: float, end_mm: float, end_of_cut: str, needed_mm: float, longest_board_mm: float
) -> str:
    return (
        f"A long board's tail meets the near end of the fence {meeting(limit_mm, say)}, and the cut ends at "
        f"{say(end_mm)} ({ENDS[end_of_cut]}). Slide the fence {say.up(needed_mm - limit_mm)} away from you, or cut "
        f"shorter boards (up to {say.down(longest_board_mm)})."
    )


SENTENCES: dict[str, Sentence] = {
    "clamp.meets_fence": _clamp_meets_fence,
    "clamp.meets_blade": _clamp_meets_blade,
    "board.meets_fence": _board_meets_fence,
}
