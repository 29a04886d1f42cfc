"""Labels on parts: what a part is made for, cut into its top where there is room."""

from __future__ import annotations

import re

from scarfwright.models.part import Mark, Part, Place
from scarfwright.models.say import say_in
from scarfwright.models.workup import Workup

LEAST_LETTER, LARGEST_LETTER = 3.0, 6.0  # letter heights [mm] that print legibly; common practice, no source
DEPTH = 0.4  # two usual layers


def letter_height(text: str, place: Place) -> float | None:
    """The largest letter height [mm] at which the text fits its place, or None."""
    widest = place.width / text_width(text, 1.0) if text else LARGEST_LETTER
    height = min(widest, place.height, LARGEST_LETTER)
    return height if height >= LEAST_LETTER else None


def engraved(part: Part, text: str, place: Place, depth: float = DEPTH) -> Part:
    """The part with the text cut into the middle of the place; as it was if the text is empty or too long."""
    height = letter_height(text, place) if text else None
    if height is None or depth >= part.thickness:
        return part
    x = place.x + (place.width - text_width(text, height)) / 2
    y = place.y + (place.height - height) / 2
    return lettered(part, text, x, y, height, depth)


def job_label(work: Workup, place: Place) -> str:
    """Title in short, slope and thickness, for a place: less of it where that does not fit, all where nothing does."""
    say = say_in(work.job.units)
    slope = f"1 in {work.nominal.ratio:.2f}".rstrip("0").rstrip(".")
    made_for = f"{slope}, {say(work.job.stock.thickness)}"
    short = short_title(work.job.title)
    choices = [f"{short}: {made_for}", made_for, slope] if short else [made_for, slope]
    return next((text for text in choices if letter_height(text, place) is not None), choices[0])


def short_title(title: str, longest: int = 16) -> str:
    """The title up to its first stop or comma, whole words, at most `longest` characters."""
    start = re.split(r"[,;:.(]", title.strip())[0].strip()
    if len(start) <= longest:
        return start
    cut = start[: longest + 1].rsplit(" ", 1)[0]
    return cut[:longest]


def text_width(text: str, height: float) -> float:
    return 0.8 * height * len(text)


def lettered(part: Part, text: str, x: float, y: float, height: float, depth: float = DEPTH) -> Part:
    from dataclasses import replace

    return replace(part, marks=(*part.marks, Mark(((x, y),), text, height, 0.0, "label")))


def replaced(text: str) -> tuple[str, str]:
    return text, ""
