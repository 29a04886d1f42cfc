"""The pieces of the shop book that the page shows of a job, and its figures in one row after the other."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from functools import cache

from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.planning.planned import Planned
from scarfwright.models.solve import work_up
from scarfwright.models.words.the_book.figure import Figure
from scarfwright.models.words.the_book.of_the_joint import joint_figures
from scarfwright.models.words.the_book.of_the_saw import setting_figures, travel_figures
from scarfwright.models.words.the_book.of_the_sled import sled_figures
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.chapters import CHAPTERS, Chapter
from scarfwright.outputs.book.look import style
from scarfwright.outputs.book.render import chapter_piece
from scarfwright.outputs.web.piece import Piece

MOVING, FORM = "moving_cut", "tune"  # pieces with a script, which the page shows by themselves
FIRST = (MOVING, "first", "joint", "sled")  # what one looks at while one types
REST = ("wood", "checking", "saw", "cut", "testing", FORM, "gluing", "planing", "bending")
# a record is written at the saw; of files the page has a list of its own
OF_A_FAULTY_JOB = (MOVING, "joint")  # nothing of what to do at the saw
_PRELUDE = """window.scarfwright = { pieces: {} };
Object.defineProperty(window, "localStorage", { value: window.sessionStorage });"""


@dataclass(frozen=True)
class Shown:
    """A piece under its heading."""

    key: str
    title: str
    piece: Piece


def figures(work: Workup) -> list[Figure]:
    """Those that set the saw and the sled first, then the rest in working order."""
    ways: tuple[Callable[[Workup], tuple[Figure, ...]], ...] = (
        joint_figures, sled_figures, setting_figures, travel_figures,
    )  # fmt: skip
    found = {one.key: one for way in ways for one in way(work) if one.key}
    return sorted(found.values(), key=lambda one: not one.main)


def pieces(work: Workup, keys: Collection[str], planned: Planned | None = None) -> list[Shown]:
    """Those of `keys` that the job has, in working order; of a job with faults nothing to work by."""
    bad = bool(faults(list(work.findings)))
    wanted = [key for key in keys if key in OF_A_FAULTY_JOB or not bad]
    found = [
        *(_moving(work) if MOVING in wanted else []),
        *(_chapter(one, work, planned) for one in CHAPTERS if one.key in wanted),
        *(_form(work) if FORM in wanted else []),
    ]
    return [shown for shown in found if shown.piece.html.strip()]


def _chapter(chapter: Chapter, work: Workup, planned: Planned | None) -> Shown:
    found = chapter_piece(chapter, work, planned)
    return Shown(chapter.key, chapter.title, found)


def _moving(work: Workup) -> list[Shown]:
    """The cut in motion; none of a faulty job whose shapes can't be drawn: the findings say what is wrong with them."""
    from scarfwright.outputs.moving_cut.piece import piece

    try:
        found = piece(work)
    except ValueError:
        if not faults(list(work.findings)):
            raise
        return []
    return [Shown(MOVING, "The cut, moment by moment", found)]


def _form(work: Workup) -> list[Shown]:
    """What a test joint says of the set-up."""
    from scarfwright.outputs.joint_form.piece import piece

    found = piece(work)
    return [Shown(FORM, "What your test joint says", found)]


@cache
def _samples() -> tuple[Piece, ...]:
    """The pieces with a script, of some job: scripts and styles are the same for every one."""
    job = job_from_dict({"stock": {"thickness": "22 mm", "height": "60 mm"}, "joint": {"ratio": 12}})
    work = work_up(job)
    return tuple(shown.piece for shown in (*_moving(work), *_form(work)))


def scripts() -> str:
    """The scripts of all pieces, each once. What they keep on the device they keep in the tab, as the page does."""
    return "\n".join([_PRELUDE, *(one.script for one in _samples())])


def styles() -> str:
    """The styles of all pieces, each once, after the book's own."""
    return "\n".join([style(), *(one.style for one in _samples())])
