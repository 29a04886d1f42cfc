"""What is measured on a test joint, in words; the figures that are to be expected come in."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.say import Say

STICKS = 300.0  # length of winding sticks suggested [mm]
NEAR, FAR = 0.2, 0.8  # of the taper run: where the two marks stand


@dataclass(frozen=True)
class Figure:
    """One figure: its letter in the pictures, what it is, how it is taken, what is planned, and whether each of the two
    boards has its own (else the joint has one)."""

    letter: str
    name: str
    how: str
    planned: str
    each: bool


def marks(joint: Joint, say: Say) -> tuple[float, float]:
    """Distances of the two marks from the tip, on marks of a rule [mm]."""
    step = 5.0 if say.units == "mm" else 12.7
    near, far = (max(round(share * joint.taper_run / step), 1) * step for share in (NEAR, FAR))
    return near, far


def sticks(say: Say) -> float:
    """Length of the winding sticks suggested [mm]."""
    return STICKS if say.units == "mm" else 12 * 25.4


def figures(joint: Joint, say: Say) -> list[Figure]:
    """Every figure that can be taken, in the order of doing it: boards first, then the pair."""
    near, far = marks(joint, say)
    at = [joint.tip + x / joint.ratio for x in (near, far)]
    mark = "Callipers on a squared mark: top edge, bottom edge."
    boards = (
        ("Board thickness", "Callipers, clear of the taper.", say(joint.thickness)),
        ("Tip thickness", "Callipers, halfway up.", say(joint.tip)),
        ("Taper run", "Rule along the board, tip to full thickness, halfway up.", say(joint.taper_run)),
        (f"Thickness {say(near)} from tip", mark, say(at[0])),
        (f"Thickness {say(far)} from tip", mark, say(at[1])),
        ("Line where the taper ends", "Try square: how far out over the height. Which end is nearer the tip?", "0"),
    )
    pair = (
        ("Gap, upper edge", "Joint held flat, tips to their marks. Feelers, widest place.", "0"),
        ("Gap, lower edge", "The same, at the edge that was down at the saw.", "0"),
        ("Twist", f"Joint closed tight. Winding sticks {say(sticks(say))} long: how far out at their ends?", "0"),
        ("Tip to tip", "Joint closed tight. Rule, from one tip to the other.", say(joint.overlap)),
        ("Joint thickness", "Callipers, in the middle of the joint just measured.", say(joint.thickness)),
    )
    listed = [(*row, True) for row in boards] + [(*row, False) for row in pair]
    return [Figure(letter, *row) for letter, row in zip("ABCDEFGHIJK", listed, strict=True)]


HAND = (
    "I: look along the joint from either end, the edge that was down still down, sticks across the upper edges. "
    "The near board's tip lies on one side. On the other side, is the end of the far stick higher (up) or lower (down)?"
)
ORDER = (
    "Cut both boards in one set-up and touch nothing between the cuts. Fill in what you can: the more boxes, the "
    "surer. B, D, E, G and H tell slope, fence gap and lean; the rest makes them surer and finds slips of the rule."
)
