"""Labels on parts: what a part is made for, cut into its top where there is room."""

from __future__ import annotations

import re
from functools import lru_cache

from scarfwright.models.findings import Finding
from scarfwright.models.job.tables import Job
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.lettering import LEAST_HEIGHT, label_findings, lettered, replaced, tail, text_width
from scarfwright.models.part.part import Part, Place

LARGEST = 7.0  # letter height [mm]; a label needs no larger ones
DEPTH = 0.4  # two usual layers [mm]
BELOW_LINE = frozenset("gjpqy,;Q()[]_")


@lru_cache(maxsize=1024)
def letter_height(text: str, place: Place) -> float:
    """The largest height of capitals [mm] at which the text fits its place, in steps of 0.1 mm and at most `LARGEST`.

    What is under `LEAST_HEIGHT` does not print.
    """
    steps = range(round(LARGEST * 10), round(LEAST_HEIGHT * 10) - 1, -1)
    return next((n / 10 for n in steps if _fits(text, n / 10, place)), 0.0)


def _fits(text: str, height: float, place: Place) -> bool:
    return height + _tail(text, height) <= place.height and text_width(text, height) <= place.width


def _tail(text: str, height: float) -> float:
    return tail(height) if BELOW_LINE & set(text) else 0.0


def engraved(part: Part, text: str, place: Place, depth: float = DEPTH) -> Part:
    """The part with the text cut into the middle of the place; as it was if the text is empty or does not fit."""
    height = letter_height(text, place) if text.strip() else 0.0
    if height < LEAST_HEIGHT or depth >= part.thickness:
        return part
    below = _tail(text, height)
    x = place.x + (place.width - text_width(text, height)) / 2
    y = place.y + (place.height - height - below) / 2 + below
    return lettered(part, text, x, y, height, depth)


def place_findings(what: str, text: str, place: Place) -> list[Finding]:
    """What is wrong with a text at a place; a place too low for letters counts as one with no room."""
    low = place.height < LEAST_HEIGHT + _tail(text, LEAST_HEIGHT)
    return label_findings(what, text, LEAST_HEIGHT, 0.0 if low else place.width)


def job_label(job: Job, joint: Joint, place: Place) -> str:
    """Title in short, slope and thickness, for a place: less of it where that does not fit, all where nothing does."""
    say = say_in(job.units)
    slope = f"{joint.ratio:.2f}".rstrip("0").rstrip(".") + ":1"
    made_for = f"{slope}, {say(joint.thickness)}"
    short = short_title(replaced(job.title)[0])
    choices = [f"{short}: {made_for}", made_for, slope] if short else [made_for, slope]
    return next((text for text in choices if letter_height(text, place) > 0), choices[0])


def short_title(title: str, longest: int = 16) -> str:
    """The title up to its first stop or comma, whole words, at most `longest` characters."""
    start = re.split(r"[,;:.(]", title.strip())[0].strip()
    if len(start) <= longest:
        return start
    return start[: longest + 1].rsplit(" ", 1)[0][:longest]
