"""Lettering: the font the PDF embeds, how wide a text comes out in it, and breaking texts into lines.

The font is Bitstream Vera Sans, which reportlab brings along; it covers the Latin letters of western and central
Europe. SVG asks for any sans-serif; most are narrower, so what fits here fits there.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from typing import Any

REGULAR, BOLD = "Vera", "VeraBd"
_INSTEAD = {"′": "'", "″": '"', "→": "->", "⌀": "Ø", "⁄": "/", "‐": "-", "‑": "-", "−": "-", "\u202f": " "}


@cache
def font(name: str) -> Any:
    """The embedded font, read once."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    if name not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(name, f"{name}.ttf"))
    return pdfmetrics.getFont(name)


def font_name(bold: bool) -> str:
    return BOLD if bold else REGULAR


def one_line(text: str) -> str:
    """Without line breaks and control characters, which no file format wants."""
    return "".join(" " if unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp") else c for c in text)


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
    return float(font(font_name(bold)).stringWidth(in_font(text, bold), size))


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


def fit(text: str, size: float, room: float, most_lines: int = 1, bold: bool = False) -> tuple[float, list[str]]:
    """The size, at most `size`, at which a text fits `most_lines` of `room`, and the lines."""
    while True:
        lines = wrap(text, size, room, bold)
        if len(lines) <= most_lines or size < 0.3:
            return size, lines
        size *= 0.94
