"""What is said about margins that a shop can't keep."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.at_the_saw.endings import meeting
from scarfwright.models.words.at_the_saw.place import OF, heel_at
from scarfwright.models.words.sentence import Sentence

_OURS = "(common practice, no source)"


def _stop_beyond(say: Say, *, stop_mm: float, limit_mm: float, spare_mm: float) -> str:
    return (
        f"The stop block stops the sled {heel_at(stop_mm, say, OF)}, and a clamp or the board meets blade or fence "
        f"{meeting(limit_mm, say)}: less than the {say(spare_mm)} between them that a shop can keep {_OURS}."
    )


def _travel(say: Say, *, value_mm: float, least_mm: float) -> str:
    return (
        f"A travel margin of {say(value_mm)} is passed before anyone can stop: a second of feed is more {_OURS}; "
        f"{say(least_mm)} is little."
    )


def _side(say: Say, *, value_mm: float, **_: object) -> str:
    return (
        f"Clamps may come within {say(value_mm)} of the blade's side: a clamp set a little aslant touches the "
        f"teeth {_OURS}."
    )


def _blade(say: Say, *, value_mm: float, **_: object) -> str:
    return (
        f"The blade reaches only {say(value_mm)} above the work: a board a little high is not cut through, and breaks "
        f"off {_OURS}."
    )


def _gap(say: Say, *, value_mm: float, **_: object) -> str:
    return f"A fence gap of {say.fine(value_mm)} is less than a tooth's run-out: the blade may cut the sled {_OURS}."


SENTENCES: dict[str, Sentence] = {
    "margin.stop_beyond": _stop_beyond,
    "margin.travel_small": _travel,
    "margin.side_small": _side,
    "margin.blade_small": _blade,
    "margin.gap_small": _gap,
}
