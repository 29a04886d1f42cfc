"""The book's style: book.css, and what the drawings' colours become on a dark screen."""

from __future__ import annotations

from functools import cache

from scarfwright.outputs.book.resources import resource
from scarfwright.outputs.narrow.colours import NIGHT

DRAWINGS = "/* drawings at night */"  # where their rules belong in book.css


@cache
def style() -> str:
    """The style sheet, for any page that shows chapters."""
    rules = [
        f'  svg [{what}="{day}"] {{ {what}: {night}; }}' for day, night in NIGHT.items() for what in ("fill", "stroke")
    ]
    return resource("book.css").replace(DRAWINGS, "\n".join(rules).strip())
