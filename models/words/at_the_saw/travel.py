"""What is said of clamps and boards that meet blade or fence before the cut has ended."""

from __future__ import annotations

from typing import Any

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.at_the_saw.endings import clamp, meeting
from scarfwright.models.words.at_the_saw.place import heel_at
from scarfwright.models.words.sentence import Sentence

ENDS = {
    "hold": "the taper is complete and the sled held there",
    "run_on": "the blade is clear of the work",
    "draw_back": "the taper is complete and the sled drawn back",
}


def _end(say: Say, limit: float, end: float, end_of_cut: str) -> str:
    when = "before" if limit < end else "within the margin after"
    return f"{when} the end of the cut {heel_at(end, say)} ({ENDS[end_of_cut]})"


def _clamp_meets(
    say: Say, what: str, *, where: str, station_mm: float, limit_mm: float, end_mm: float, end_of_cut: str, **_: float
) -> str:
    return (
        f"The {clamp(where)} at {say(station_mm)} from the heel meets {what} {meeting(limit_mm, say)}, "
        f"{_end(say, limit_mm, end_mm, end_of_cut)}."
    )


def _clamp_meets_fence(say: Say, **numbers: Any) -> str:
    return _clamp_meets(say, "the near end of the fence", **numbers)


def _clamp_meets_blade(say: Say, **numbers: Any) -> str:
    return _clamp_meets(say, "the blade", **numbers)


def _board_meets_fence(say: Say, *, limit_mm: float, end_mm: float, end_of_cut: str, **_: float) -> str:
    return (
        f"A long board's tail meets the near end of the fence {meeting(limit_mm, say)}, and the cut ends "
        f"{heel_at(end_mm, say)} ({ENDS[end_of_cut]})."
    )


SENTENCES: dict[str, Sentence] = {
    "clamp.meets_fence": _clamp_meets_fence,
    "clamp.meets_blade": _clamp_meets_blade,
    "board.meets_fence": _board_meets_fence,
}
