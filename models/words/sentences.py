"""Findings as sentences: what is wrong, how much, and what to do, from the finding's numbers and the job's unit.

One function a code, each in the file of the room that raises it: `def _code(say, *, needed_mm, **_)`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from scarfwright.models.findings import Finding, Level
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words import plan
from scarfwright.models.words.at_the_saw import feed, knife_and_guard, saw, support, travel
from scarfwright.models.words.for_machines import gauges, machines, printing, shop
from scarfwright.models.words.sentence import Sentence
from scarfwright.models.words.the_joint import accuracy, bending, gluing, joint, risers, strength
from scarfwright.models.words.the_sled import aids, clamps, dividing, hands, margins, notches, sled
from scarfwright.models.words.the_sled.remedies import ways_out

_ROOMS = (
    accuracy,
    aids,
    bending,
    clamps,
    dividing,
    feed,
    gauges,
    gluing,
    hands,
    joint,
    knife_and_guard,
    machines,
    margins,
    notches,
    plan,
    printing,
    risers,
    saw,
    shop,
    sled,
    strength,
    support,
    travel,
)
SENTENCES: Mapping[str, Sentence] = {code: said for room in _ROOMS for code, said in room.SENTENCES.items()}


def worded(found: Iterable[Finding], units: Unit) -> tuple[Finding, ...]:
    """The findings with their sentences, in the same order; one that has its sentence keeps it."""
    say = say_in(units)
    return tuple(_worded(one, say) for one in found)


def _worded(found: Finding, say: Say) -> Finding:
    text = found.text or SENTENCES[found.code](say, **found.numbers) + ways_out(found)
    if found.part and found.level is Level.FAULT and "left out" not in text:
        are = "are" if found.part == "sheets" else "is"
        text = f"{text} The {found.part.replace('_', ' ')} {are} left out."
    return replace(found, text=text)
