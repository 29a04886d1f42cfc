"""What is said about wedge, hand stop and thickness fork."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def _wedge_no_grip(say: Say, *, needed_mm: float, opening_mm: float) -> str:
    needed, has = say.apart(needed_mm, opening_mm)
    return (
        f"Over the nose wedge a clamp must close on {needed} and opens {has}. Use clamps that open "
        f"{say.up(needed_mm)} there, or clamp on a nose flat or in a nose notch."
    )


def _wedge_meets_fence(say: Say, *, limit_mm: float, needed_mm: float) -> str:
    when = f"after {say.down(limit_mm)} of travel" if limit_mm > 0 else "before the heel has reached the blade's centre"
    return (
        f"A clamp over the nose wedge would meet fence or blade {when}, and {say.up(needed_mm)} must be free. Clamp on "
        "the nose flat or in a nose notch."
    )


def _stop_sticks_out(say: Say, *, width_mm: float, stop_mm: float) -> str:
    return (
        f"The sled is {say.down(width_mm)} wide at the hand line, and a hand stop {say(stop_mm)} long would stick out "
        "over its edge. Screw on a narrower strip."
    )


def _slots_alike(say: Say, *, allowed_mm: float, tolerance_mm: float, **_: object) -> str:
    return (
        f"{_fork(say, allowed_mm, tolerance_mm)} can't be kept apart. Use callipers on the joint, and overlap marks on "
        "both boards."
    )


def _coarse(say: Say, *, allowed_mm: float, tolerance_mm: float, **_: object) -> str:
    return (
        f"{_fork(say, allowed_mm, tolerance_mm)} are hard to tell apart. Use callipers on the joint, and overlap marks "
        "on both boards."
    )


def _fork(say: Say, allowed_mm: float, tolerance_mm: float) -> str:
    return (
        f"The joint may be {say.fine(allowed_mm)} thicker than the board, which planes away, and printed slots are out "
        f"by {say.fine(tolerance_mm)}: the fork's two slots"
    )


SENTENCES: dict[str, Sentence] = {
    "nose_wedge.no_grip": _wedge_no_grip,
    "nose_wedge.meets_fence": _wedge_meets_fence,
    "hand_stop.sticks_out": _stop_sticks_out,
    "thickness_fork.slots_alike": _slots_alike,
    "thickness_fork.coarse": _coarse,
}
