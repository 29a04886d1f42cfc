"""The pieces of the shop book that the page shows of a job, and its figures in one row after the other."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass

from scarfwright.models.cut.bodies import drawable
from scarfwright.models.findings import faults
from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.the_book.figure import Figure
from scarfwright.models.words.the_book.of_the_joint import joint_figures
from scarfwright.models.words.the_book.of_the_saw import setting_figures, travel_figures
from scarfwright.models.words.the_book.of_the_sled import sled_figures
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.chapters import CHAPTERS, Chapter
from scarfwright.outputs.book.render import chapter_piece
from scarfwright.outputs.page.order import FORM, MOVING, OF_A_FAULTY_JOB
from scarfwright.outputs.web.piece import Piece


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
    """The cut in motion; none of a faulty job whose shapes are no bodies: the findings say what is wrong with them."""
    from scarfwright.outputs.moving_cut.piece import piece

    return [Shown(MOVING, "The cut, moment by moment", piece(work))] if drawable(work.way) else []


def _form(work: Workup) -> list[Shown]:
    """What a test joint says of the set-up."""
    from scarfwright.outputs.joint_form.piece import piece

    found = piece(work)
    return [Shown(FORM, "What your test joint says", found)]
