"""The page's own files, read once from the package: markup, styles and scripts, and what the shop book lends.

Nothing of jobs is loaded for them, so that the page can be painted while the rest is still loading.
"""

from __future__ import annotations

from functools import cache
from importlib.resources import files

OURS = ("page.html", "page.css", "form.js", "page.js", "files.js")
# what the pieces keep on the device they keep in the tab, as the page does
PRELUDE = """window.scarfwright = { pieces: {} };
Object.defineProperty(window, "localStorage", { value: window.sessionStorage });"""


@cache
def resource(name: str) -> str:
    """A file of the page by its name; "book.css" and "pieces.js" are put together from the book's."""
    if name == "book.css":
        return _styles()
    if name == "pieces.js":
        return _scripts()
    return files("scarfwright.outputs.page").joinpath(name).read_text(encoding="utf-8")


def _styles() -> str:
    """The book's style, then those of the pieces with a script."""
    from scarfwright.outputs.book.look import style
    from scarfwright.outputs.joint_form.packaged import packed
    from scarfwright.outputs.moving_cut.packaged import packaged

    return "\n".join([style(), packaged("cut.css"), packed("form.css")])


def _scripts() -> str:
    from scarfwright.outputs.joint_form.packaged import script
    from scarfwright.outputs.moving_cut.packaged import packaged

    return "\n".join([PRELUDE, packaged("cut.js"), script()])
