"""What is said about hands, the line they stay behind, and the handle."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

_FIGURES = "published figures disagree, and none is for a sled with handles"


def _clear_short(say: Say, *, hands_clear_mm: float, least_mm: float) -> str:
    asked, least = say.apart(hands_clear_mm, least_mm)
    return f"Hands {asked} from the blade is too near: {least} is the least this tool accepts ({_FIGURES})."


def _line_too_near(say: Say, *, hand_line_mm: float, clear_mm: float, least_clear_mm: float, **_: object) -> str:
    where = f"only {say.down(clear_mm)} from" if clear_mm > 0 else "past"
    return (
        f"With the hand line {say(hand_line_mm)} from the heel, hands at the end of the cut and its margin would be "
        f"{where} the blade's front; {say(least_clear_mm)} is the least ({_FIGURES})."
    )


def _line_near(say: Say, *, hand_line_mm: float, clear_mm: float, hands_clear_mm: float, **_: object) -> str:
    return (
        f"With the hand line {say(hand_line_mm)} from the heel, hands come {say.down(clear_mm)} from the blade's front "
        f"at the end of the cut and its margin, nearer than hands_clear {say(hands_clear_mm)} ({_FIGURES})."
    )


def _no_room(say: Say, *, hand_line_mm: float, length_mm: float, room_mm: float, **_: object) -> str:
    return (
        f"Hands must stay {say(hand_line_mm)} or more from the heel, and a hand or a handle needs {say(room_mm)} more; "
        f"the sled is {say(length_mm)} long. Do not push it with a hand past the line."
    )


def _handle_no_room(say: Say, *, hand_line_mm: float, spacing_mm: float) -> str:
    return (
        f"No handle holes: two of them {say(spacing_mm)} apart fit nowhere on your side of the hand line, "
        f"{say(hand_line_mm)} from the heel."
    )


def _handle_overlap(say: Say, *, spacing_mm: float, hole_mm: float, **_: object) -> str:
    return f"Handle holes {say(hole_mm)} wide and {say(spacing_mm)} apart run into each other."


def _handle_breaks_out(
    say: Say, *, from_heel_mm: float, room_mm: float | None = None, hand_line_mm: float | None = None
) -> str:
    if room_mm is not None or hand_line_mm is None:
        return f"The handle hole {say(from_heel_mm)} from the heel runs into a notch or off the sled."
    return (
        f"The handle hole {say(from_heel_mm)} from the heel is on the blade's side of the hand line, "
        f"{say(hand_line_mm)} from the heel: the hand on it would come too near the blade."
    )


SENTENCES: dict[str, Sentence] = {
    "hands.clear_short": _clear_short,
    "hands.line_too_near": _line_too_near,
    "hands.line_near": _line_near,
    "sled.hands_have_no_room": _no_room,
    "handle.no_room": _handle_no_room,
    "handle.overlap": _handle_overlap,
    "handle.breaks_out": _handle_breaks_out,
}
