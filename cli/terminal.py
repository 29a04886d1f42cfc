"""What a terminal can show: characters it lacks are spelled out, a reader that has gone is no failure of ours.

Light enough to be imported before anything else.
"""

from __future__ import annotations

import codecs
import os
import sys
from typing import TextIO

_HANDLER = "scarfwright.spelled_out"
_SPELLED = {
    "°": " degrees", "±": "+-", "×": "x", "·": ".", "–": "-", "—": "-", "−": "-", "≤": "<=", "≥": ">=", "→": "->",
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "″": '"', "′": "'",
    "’": "'", "‘": "'", "“": '"', "”": '"', "…": "...", "\u00a0": " ", "²": "2", "³": "3", "•": "-",
}  # fmt: skip


class ClosedPipeError(Exception):
    """Whoever read our output has stopped reading."""


class CannotPrintError(Exception):
    """The output can't be written; `str()` is the system's reason."""


def visible(text: str) -> str:
    """The text with control characters as the escapes they are typed as; line ends stay."""
    return "".join(c if c.isprintable() or c in "\n\u00a0" else repr(c)[1:-1] for c in text)


def spell_out() -> None:
    """Make standard output and error take any character, whatever their encoding (ASCII, cp1252)."""
    codecs.register_error(_HANDLER, _spelled)
    for stream in (sys.stdout, sys.stderr):
        change = getattr(stream, "reconfigure", None)
        if change is not None:
            change(errors=_HANDLER)


def _spelled(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    text = error.object[error.start : error.end]
    return "".join(_SPELLED.get(c) or c.encode("ascii", "backslashreplace").decode() for c in text), error.end


def out(text: str) -> None:
    """Print a line now. Raises ClosedPipeError or CannotPrintError."""
    try:
        print(text, flush=True)
    except OSError as error:
        raise given_up(error) from None


def given_up(error: OSError) -> ClosedPipeError | CannotPrintError:
    """What to raise for output that can't be written; what is still held back goes nowhere."""
    to_nowhere(sys.stdout)
    if isinstance(error, BrokenPipeError):
        return ClosedPipeError()
    return CannotPrintError(error.strerror or str(error))


def to_nowhere(stream: TextIO) -> None:
    """Point a stream at nothing, so that the interpreter's last flush finds no fault with it."""
    try:
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, stream.fileno())
        os.close(nothing)
    except (OSError, ValueError):  # a stream without a file behind it has nothing to flush to
        return


def json_out(data: object) -> None:
    """Print JSON: what the terminal can't show, and control characters, as JSON's own escapes."""
    from scarfwright.outputs.formats.text import as_json

    text = as_json(data).removesuffix("\n")
    plain = (getattr(sys.stdout, "encoding", None) or "ascii").lower().replace("-", "") == "utf8"
    out("".join(_escaped(c, plain) for c in text))


def _escaped(char: str, plain: bool) -> str:
    """One character outside JSON's own syntax as it may be printed."""
    import json

    if char == "\n" or (char.isprintable() and (plain or char.isascii())):
        return char
    return "\\u007f" if char == "\x7f" else json.dumps(char)[1:-1]
