"""The chapters in working order, each a function of the worked-out job and its plan, which gives its blocks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scarfwright.models.planning.planned import Planned
from scarfwright.models.workup import Workup
from scarfwright.outputs.book import after_the_cut, at_the_saw, before_the_saw
from scarfwright.outputs.book.blocks import Block


@dataclass(frozen=True)
class Chapter:
    """`key`: what its ids begin with. `blocks`: for a job without faults; empty where the job has no use for it."""

    key: str
    title: str
    blocks: Callable[[Workup, Planned | None], list[Block]]


CHAPTERS: tuple[Chapter, ...] = (
    Chapter("first", "Read this first", before_the_saw.first),
    Chapter("joint", "The joint", before_the_saw.joint),
    Chapter("wood", "The wood", before_the_saw.wood),
    Chapter("sled", "Making the sled", before_the_saw.sled),
    Chapter("checking", "Checking the sled", before_the_saw.checking),
    Chapter("saw", "Setting the saw", at_the_saw.saw),
    Chapter("cut", "The cut", at_the_saw.cut),
    Chapter("testing", "The test joint", at_the_saw.testing),
    Chapter("gluing", "Gluing", after_the_cut.gluing),
    Chapter("planing", "Planing", after_the_cut.planing),
    Chapter("bending", "The bend test", after_the_cut.bending),
    Chapter("record", "Record", after_the_cut.to_record),
    Chapter("files", "What lies in which file", after_the_cut.files),
)
