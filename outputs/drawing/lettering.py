"""Lettering: the font the PDF embeds, how wide a text comes out in it, and breaking texts into lines.

The font is DejaVu Sans: Latin, Greek and Cyrillic letters. Its licence (that of Bitstream Vera and Arev, the additions
in the public domain) lets anyone use, embed and pass it on. matplotlib brings it along; only its folder is looked up,
nothing of it is loaded. SVG asks for any sans-serif; most are narrower, so what fits here fits there.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Iterator
from functools import cache, lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any, TypeVar

REGULAR, BOLD = "DejaVuSans", "DejaVuSans-Bold"
LEAST_SIZE = 0.3  # smaller text is a smear [mm]
Made = TypeVar("Made")
_INSTEAD = {"′": "'", "″": '"', "→": "->", "⌀": "Ø", "⁄": "/", "‐": "-", "‑": "-", "−": "-", "\u202f": " "}


@cache
def font(name: str) -> Any:
    """The embedded font, read once."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    if name not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(name, str(_folder() / f"{name}.ttf")))
    return pdfmetrics.getFont(name)


@cache
def _folder() -> Path:
    found = find_spec("matplotlib")
    assert found is not None
    assert found.origin is not None
    return Path(found.origin).parent / "mpl-data" / "fonts" / "ttf"


def font_name(bold: bool) -> str:
    return BOLD if bold else REGULAR


def one_line(text: str) -> str:
    """Without line breaks and control characters, which no file format wants."""
    return "".join(" " if unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp") else c for c in text)


@lru_cache(maxsize=8192)
def in_font(text: str, bold: bool = False) -> str:
    """The text in letters the font has: else without its accents, else "?"."""
    known = font(font_name(bold)).face.charWidths
    out = []
    for letter in unicodedata.normalize("NFC", one_line(text)):
        if ord(letter) in known:
            out.append(letter)
            continue
        plain = "".join(_INSTEAD.get(c, c) for c in unicodedata.normalize("NFKD", letter))
        plain = "".join(c for c in plain if not unicodedata.combining(c))
        out.append(plain if plain and all(ord(c) in known for c in plain) else "?")
    return "".join(out)


def width(text: str, size: float, bold: bool = False) -> float:
    """Width of a line of text [in the unit of size]."""
    return 0.001 * size * _thousandths(text, bold)


def replaced(texts: Iterable[str]) -> dict[str, str]:
    """Letters that the font lacks, each with what is printed instead, in the order they come."""
    letters = dict.fromkeys(letter for text in texts for letter in unicodedata.normalize("NFC", one_line(text)))
    return {letter: shown for letter in letters if (shown := in_font(letter)) != letter}


@lru_cache(maxsize=8192)
def _thousandths(text: str, bold: bool) -> float:
    """Width of a text in thousandths of its size: the same texts are measured over and over at other sizes."""
    return float(font(font_name(bold)).stringWidth(in_font(text, bold), 1000.0))


def wrap(text: str, size: float, room: float, bold: bool = False) -> list[str]:
    """Break a text into lines no wider than `room`; a word that is wider by itself is broken too."""
    lines: list[str] = []
    current = ""
    for word in one_line(text).split():
        trial = f"{current} {word}" if current else word
        if width(trial, size, bold) <= room:
            current = trial
            continue
        if current:
            lines.append(current)
        while width(word, size, bold) > room and len(word) > 1:
            cut = len(word) - 1
            while cut > 1 and width(word[:cut], size, bold) > room:
                cut -= 1
            lines.append(word[:cut])
            word = word[cut:]
        current = word
    return [*lines, current] if current else lines


def largest_size(made_at: Callable[[float], tuple[bool, Made]], sizes: Iterable[float]) -> tuple[float, Made]:
    """The first of the sizes, largest first, at which something fits, and what it is there; the last as it comes.

    `made_at` gives for a size whether it fits and what was made. Raises ValueError where there is no size.
    """
    found: tuple[float, Made] | None = None
    for size in sizes:
        fits, made = made_at(size)
        found = size, made
        if fits:
            break
    if found is None:
        raise ValueError("no size to try")
    return found


def by_shares(size: float, share: float, least: float) -> Iterator[float]:
    """`size`, `size` x `share`, ... down to the first under `least`."""
    while size >= least:
        yield size
        size *= share
    yield size


def by_steps(size: float, step: float, least: float) -> Iterator[float]:
    """`size`, `size` - `step`, ... and `least` itself."""
    while size > least:
        yield size
        size -= step
    yield least


def fit(text: str, size: float, room: float, most_lines: int = 1, bold: bool = False) -> tuple[float, list[str]]:
    """The size, at most `size`, at which a text fits `most_lines` of `room`, and the lines."""

    def lines_at(trial: float) -> tuple[bool, list[str]]:
        lines = wrap(text, trial, room, bold)
        return len(lines) <= most_lines, lines

    return largest_size(lines_at, by_shares(size, 0.94, LEAST_SIZE))


def shortened(text: str, fits: Callable[[str], bool]) -> str:
    """A text that, if need be, is cut off with dots until it fits; the dots alone where nothing does."""
    short, left = text, text
    while left and not fits(short):
        left = left[:-1].rstrip()
        short = f"{left}…"
    return short
