"""Blocks to markup: a chapter as a piece of a page. Templates escape whatever they are given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from scarfwright.models.findings import Finding
from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.the_book.findings import chapter_of, group_of, grouped
from scarfwright.models.words.the_book.leads import NOT_HERE
from scarfwright.models.words.the_book.leaves import by_folder, told_of
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.blocks import Block
from scarfwright.outputs.book.chapters import Chapter
from scarfwright.outputs.book.resources import resource
from scarfwright.outputs.formats.svg import inline_svg
from scarfwright.outputs.narrow.scene import Scene
from scarfwright.outputs.web.piece import Piece
from scarfwright.outputs.web.seen import seen


@cache
def environment() -> Any:
    """The templates' environment; jinja2 is loaded with it."""
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    found = Environment(
        loader=FunctionLoader(resource),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.globals.update(told_of=told_of, by_folder=by_folder, group_of=group_of, not_here=NOT_HERE)
    return found


def chapter_piece(
    chapter: Chapter,
    work: Workup,
    planned: Planned | None = None,
    *,
    leaves: Sequence[str] = (),
    pieces: Mapping[str, Piece] | None = None,
) -> Piece:
    """One chapter: what goes below its heading.

    leaves: paths of the files that lie beside the page; nothing else is linked. pieces: what fills the chapter's holes.
    """
    found = [one for one in work.findings if chapter_of(one) == chapter.key]
    blocks = chapter.blocks(work, planned)
    return Piece(chapter.key, seen(_html(chapter.key, blocks, found, leaves, pieces or {})))


def _html(
    key: str, blocks: list[Block], found: list[Finding], leaves: Sequence[str], pieces: Mapping[str, Piece]
) -> str:
    from markupsafe import Markup

    def picture(scene: Scene) -> Markup:
        return Markup(inline_svg(scene.sheet, f"{key}-{scene.name}-", scene.caption))

    def inner(name: str) -> Markup:
        return Markup(pieces[name].html)

    return str(
        environment()
        .get_template("blocks.html")
        .render(
            key=key,
            blocks=blocks,
            findings=grouped(found),
            leaves=list(leaves),
            pieces=pieces,
            picture=picture,
            inner=inner,
        )
    )
