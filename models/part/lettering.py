"""Lettering on parts: engraved, from our own letter set, so that no font of the machine shows.

Strokes are round and of one width, never less than two passes of a common nozzle, so that every letter prints.
"""

from __future__ import annotations

import math
import unicodedata
from dataclasses import replace
from functools import lru_cache

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.loop import Edge, Loop, Point, polygon
from scarfwright.models.flat.pen import pen_outline
from scarfwright.models.flat.room import distance
from scarfwright.models.part.letter_set import CAPITAL, GLYPHS, SPACE, TAIL, skeleton
from scarfwright.models.part.part import Feature, Mark, Operation, Part, Writing

LEAST_STROKE = 0.8  # two passes of a 0.4 mm nozzle [mm]; common practice, no source
STROKE_SHARE = 0.16  # of the height: the least stroke at the least height; wider ones fill the small letters
SCORED = 1.0  # pockets no deeper than this are there to be seen, not to take anything in [mm]
CHORDS = 16  # of half a turn, in lines to score
LEAST_HEIGHT = 5.0  # below this the openings of an e or an 8 are narrower than one pass [mm]


_SPELT = {
    "ß": "ss",
    "æ": "ae",
    "Æ": "AE",
    "œ": "oe",
    "Œ": "OE",
    "–": "-",
    "—": "-",
    "−": "-",
    "’": "'",
    "‘": "'",
    "′": "'",
    "“": '"',
    "”": '"',
    "″": '"',
    "…": "...",
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "·": ".",
}
Shape = tuple[Loop, tuple[Loop, ...]]


def stroke(height: float) -> float:
    """Width of the strokes [mm] of letters `height` [mm] high."""
    return max(STROKE_SHARE * height, LEAST_STROKE)


@lru_cache(maxsize=1024)
def replaced(text: str) -> tuple[str, tuple[str, ...]]:
    """The text in letters that there are, and the ones that had to be replaced, each once, as they come.

    An accented letter loses its accent, some are spelt out; what is left becomes a question mark.
    """
    out, missing = [], []
    for letter in " ".join(text.split()):
        if letter == " " or letter in GLYPHS:
            out.append(letter)
            continue
        base = unicodedata.normalize("NFD", letter)[0]
        out.append(_SPELT.get(letter) or (base if base in GLYPHS else "?"))
        missing.append(letter)
    return "".join(out), tuple(dict.fromkeys(missing))


@lru_cache(maxsize=4096)
def text_width(text: str, height: float) -> float:
    """Room the text takes along its line [mm], strokes included; capitals are `height` [mm] high."""
    places, end = _places(replaced(text)[0], height)
    return end if places else 0.0


def tail(height: float) -> float:
    """How far a g or a y reaches below the line [mm]."""
    return TAIL * _unit(height)


def lettered(
    part: Part, text: str, x: float, y: float, height: float, depth: float = 0.4, *, angle: float = 0.0
) -> Part:
    """The part with text engraved into its top.

    Parameters: x, y, lower left corner of the first capital [mm]; height of a capital [mm]; depth [mm]; angle of
    the line [rad]. Letters that the set lacks are replaced (see `label_findings`).
    """
    writing = _writing(text, x, y, height, angle)
    letters = tuple(
        Feature(Operation.POCKET, loop, f"letter {letter}", depth, islands, writing, strokes)
        for letter, (loop, islands), strokes in _set(text, x, y, height, angle)
    )
    return replace(part, features=(*part.features, *letters))


def scored_letters(part: Part) -> Part:
    """The part with engraved letters and scale marks as single lines to score: no cutter gets into a printed letter."""
    shallow = [f for f in part.features if (f.strokes or f.writing) and f.depth is not None and f.depth <= SCORED]
    lines = tuple(Mark(run, name=f.name, scored=True) for f in shallow for run in f.strokes)
    return replace(part, features=tuple(f for f in part.features if f not in shallow), marks=(*part.marks, *lines))


def label_findings(what: str, text: str, height: float, room: float) -> list[Finding]:
    """What is wrong with a label `height` high where there is `room` along its line, both [mm]."""
    found = []
    reads, missing = replaced(text)
    if missing:
        found.append(finding("label.replaced", what=what, missing="".join(missing), reads=reads))
    width = text_width(text, height)
    if width > room:
        found.append(finding("label.too_long", what=what, reads=reads, width_mm=width, room_mm=room))
    if height < LEAST_HEIGHT:
        found.append(finding("label.too_small", what=what, height_mm=height, needed_mm=LEAST_HEIGHT))
    return found


def _unit(height: float) -> float:
    """One unit of the letter set [mm]: a capital is `height` from edge to edge of its strokes."""
    return (height - stroke(height)) / CAPITAL


def _places(text: str, height: float) -> tuple[list[tuple[str, float]], float]:
    """Each letter and where its box begins from the left edge of the text [mm], and where the text ends."""
    pen, unit = stroke(height), _unit(height)
    gap = max(pen, LEAST_STROKE)  # material left between two letters
    places, at, end = [], 0.0, 0.0
    for letter in text:
        if letter == " ":
            at += SPACE * unit
            continue
        places.append((letter, at))
        end = at + skeleton(letter)[0] * unit + pen
        at = end + gap
    return places, end


def _set(
    text: str, x: float, y: float, height: float, angle: float
) -> list[tuple[str, Shape, tuple[tuple[Point, ...], ...]]]:
    """Every loop of the text with its letter, in place, and with a letter's first loop the strokes that make it."""

    def put(loop: Loop, at: float) -> Loop:
        there = loop.moved(x + at, y)
        return there.turned(angle, (x, y)) if angle else there

    found = []
    for letter, at in _places(replaced(text)[0], height)[0]:
        strokes = tuple(tuple(v.point for v in put(polygon(run), at).vertices) for run in _strokes(letter, height))
        for loop, islands in _letter(letter, height):
            found.append((letter, (put(loop, at), tuple(put(i, at) for i in islands)), strokes))
            strokes = ()
    return found


@lru_cache(maxsize=512)
def _strokes(letter: str, height: float) -> tuple[tuple[Point, ...], ...]:
    """The pen's middle as runs of points, arcs as chords; a dot as a short line [mm], placed as in `_letter`."""
    pen, unit = stroke(height), _unit(height)
    _, lines, dots = skeleton(letter)

    def at(point: Point) -> Point:
        return (point[0] * unit + pen / 2, point[1] * unit + pen / 2)

    runs: list[list[Point]] = []
    for line in lines:
        goes_on = False
        for edge in line:
            if any(_lies_on(edge, e) for other in lines if other is not line for e in other):
                goes_on = False  # the round back of an a has a side that its stem draws too
                continue
            if not goes_on:
                runs.append([at(edge.start)])
            chords = 1 if edge.bulge == 0 else math.ceil(abs(edge.bulge) * CHORDS)
            runs[-1] += [at(edge.point_at((i + 1) / chords)) for i in range(chords)]
            goes_on = True
    return (*map(tuple, runs), *(((x, y - pen / 4), (x, y + pen / 4)) for x, y in map(at, dots)))


def _lies_on(edge: Edge, other: Edge) -> bool:
    """Whether a straight edge is a part of another one."""
    straight = edge.bulge == 0 and other.bulge == 0
    return straight and all(distance(other, end) < 1e-6 for end in (edge.start, edge.end, edge.middle))


def _writing(text: str, x: float, y: float, height: float, angle: float) -> Writing:
    """Middle of the text, half way up its capitals."""
    across, up = text_width(text, height) / 2, height / 2
    c, s = math.cos(angle), math.sin(angle)
    return Writing(x + c * across - s * up, y + s * across + c * up, angle)


@lru_cache(maxsize=512)
def _letter(letter: str, height: float) -> tuple[Shape, ...]:
    """Outlines of a letter [mm], lower left corner of its box at the origin."""
    if height <= LEAST_HEIGHT:
        return _drawn(letter, height)
    # all heights from the least on have the same proportions
    scale = height / LEAST_HEIGHT
    return tuple(
        (loop.scaled(scale), tuple(i.scaled(scale) for i in islands)) for loop, islands in _letter(letter, LEAST_HEIGHT)
    )


def _drawn(letter: str, height: float) -> tuple[Shape, ...]:
    pen, unit = stroke(height), _unit(height)

    def at(point: Point) -> Point:
        return (point[0] * unit + pen / 2, point[1] * unit + pen / 2)

    _, strokes, dots = skeleton(letter)
    path = [Edge(at(e.start), at(e.end), e.bulge) for one in strokes for e in one]
    return tuple(pen_outline(path, [at(dot) for dot in dots], pen / 2))
