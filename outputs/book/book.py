"""The whole book: chapters, one style, one script, and a content policy that allows nothing else."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Iterable, Sequence
from html import escape

from scarfwright.models.job.file import job_to_toml
from scarfwright.models.lengths.say import say_in
from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.the_book.findings import chapter_of, grouped, in_short, worst
from scarfwright.models.words.the_book.leads import NOTHING_FOUND
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.chapters import CHAPTERS
from scarfwright.outputs.book.look import style
from scarfwright.outputs.book.render import chapter_piece, environment
from scarfwright.outputs.book.resources import resource
from scarfwright.outputs.web.piece import Piece
from scarfwright.outputs.web.seen import seen

MOST_TITLE = 50  # characters of a job's title in the window's, as they are written there


def book(work: Workup, planned: Planned | None, leaves: Sequence[str], pieces: Iterable[Piece] = ()) -> str:
    """index.html of a job without faults.

    planned: which board goes where, if the job asks for it; leaves: paths of the files that lie beside it;
    pieces: made elsewhere, put where a chapter has a hole for them.
    """
    from markupsafe import Markup

    by_key = {piece.key: piece for piece in pieces}
    chapters = [
        (chapter, Markup(chapter_piece(chapter, work, planned, leaves=leaves, pieces=by_key).html))
        for chapter in CHAPTERS
    ]
    styles = "\n".join([style(), *(piece.style for piece in by_key.values() if piece.style)])
    script = "\n".join([resource("book.js"), *(piece.script for piece in by_key.values() if piece.script), START])
    return seen(
        environment()
        .get_template("page.html")
        .render(
            title=work.job.title,
            short=_shortened(work.job.title),
            chapters=chapters,
            sight=in_sight(work),
            worst=_worst(work),
            style=Markup(styles),
            script=Markup(script),
            style_hash=digest(styles),
            script_hash=digest(script),
            data=Markup(page_data({piece.key: piece.data for piece in by_key.values() if piece.script})),
            job_mark=hashlib.sha256(job_to_toml(work.job).encode()).hexdigest()[:12],
        )
    )


START = "scarfwright.start();"


def in_sight(work: Workup) -> tuple[tuple[str, str], ...]:
    """What stands in the line that is always in sight: a name and a figure each."""
    say = say_in(work.job.units)
    return (("Fence", say(work.way.fence)), ("Blade", say(work.way.blade.height)))


def _worst(work: Workup) -> tuple[str, str, str]:
    """Group, first sentence and the id of the worst finding; the id is empty where there is none."""
    found = worst(work.findings)
    if found is None:
        return ("", NOTHING_FOUND, "")
    group, one = found
    key = chapter_of(one)
    here = [each for _, those in grouped(f for f in work.findings if chapter_of(f) == key) for each in those]
    return (group, in_short(one.text), f"{key}-finding-{here.index(one) + 1}")


def _shortened(title: str) -> str:
    short = title
    while len(escape(short)) > MOST_TITLE:
        short = short[:-1].rstrip()
    return short if short == title else f"{short}…"


def digest(text: str) -> str:
    """What a content policy calls a script or style by."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")


def page_data(data: object) -> str:
    """JSON that can stand inside a script element: nothing in it ends the element or begins a comment."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    for letter in "<>&\u2028\u2029":
        text = text.replace(letter, f"\\u{ord(letter):04x}")
    return text
