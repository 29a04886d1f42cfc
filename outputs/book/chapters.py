"""The chapters in working order, each a function of the worked-out job and its plan, which gives its blocks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.the_book.figure import Figure
from scarfwright.models.workup import Workup
from scarfwright.outputs.book import after_the_cut, at_the_saw, before_the_saw, told
from scarfwright.outputs.book.blocks import Block, with_origins

Known = Callable[[Workup, Planned | None], tuple[Figure, ...]]


@dataclass(frozen=True)
class Chapter:
    """`key`: what its ids begin with. `made`: its blocks, for a job without faults; empty where the job has no use for
    it. `known`: the figures that its sentences may tell."""

    key: str
    title: str
    made: Callable[[Workup, Planned | None], list[Block]]
    known: Known = lambda _work, _planned: ()

    def blocks(self, work: Workup, planned: Planned | None) -> list[Block]:
        """Its blocks, each with where its numbers come from."""
        return with_origins(self.made(work, planned), self.known(work, planned))


CHAPTERS: tuple[Chapter, ...] = (
    Chapter("first", "Read this first", before_the_saw.first, told.first),
    Chapter("joint", "The joint", before_the_saw.joint, told.joint),
    Chapter("wood", "The wood", before_the_saw.wood, told.wood),
    Chapter("sled", "Making the sled", before_the_saw.sled, told.sled),
    Chapter("checking", "Checking the sled", before_the_saw.checking, told.checking),
    Chapter("saw", "Setting the saw", at_the_saw.saw, told.saw),
    Chapter("cut", "The cut", at_the_saw.cut, told.cut),
    Chapter("testing", "The test joint", at_the_saw.testing, told.testing),
    Chapter("gluing", "Gluing", after_the_cut.gluing, told.gluing),
    Chapter("planing", "Planing", after_the_cut.planing, told.planing),
    Chapter("bending", "The bend test", after_the_cut.bending, told.bending),
    Chapter("record", "Record", after_the_cut.to_record),
    Chapter("files", "What lies in which file", after_the_cut.files),
)
