"""The two text files that go with a job that is passed on."""

from __future__ import annotations

from scarfwright.models.words.passing_on.papers import licence_text, read_first
from scarfwright.models.workup import Workup
from scarfwright.outputs.formats.table import write
from scarfwright.outputs.make import Item

FIRST = "READ-FIRST.txt"
LICENCE = "LICENCE.txt"


def papers(work: Workup, licence: str | None) -> list[Item]:
    """READ-FIRST.txt with the cautions and whose saw it is for, and LICENCE.txt."""
    return [
        Item(FIRST, lambda path: write(read_first(work, licence), path)),
        Item(LICENCE, lambda path: write(licence_text(work.job.title, licence), path)),
    ]
