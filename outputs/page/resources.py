"""The page's own files, read once from the package: markup, styles and scripts, and what the shop book lends."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

OURS = ("page.html", "page.css", "form.js", "page.js", "files.js")


@cache
def resource(name: str) -> str:
    """A file of the page by its name; "book.css" and "pieces.js" are put together from the book's."""
    if name == "book.css":
        from scarfwright.outputs.page.pieces import styles

        return styles()
    if name == "pieces.js":
        from scarfwright.outputs.page.pieces import scripts

        return scripts()
    return files("scarfwright.outputs.page").joinpath(name).read_text(encoding="utf-8")
