"""What the person at any machine is told of the cut files: cut/README.txt.

Plain ASCII where the job's own texts are, so that any editor and any controller shows them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scarfwright.models.job.tables import Job
from scarfwright.models.sheets.pieces import file_units

R12 = "R12 files carry no unit that a machine must heed: set it by hand, then"
LAST = (
    "The machine maker's manual, local rules and competent instruction come before this note.",
    "Measure the first piece against the numbers before cutting the rest.",
)
UNIT_NAMES = {"mm": ("millimetres", "millimetre"), "in": ("inches", "inch")}


def unit_line(job: Job) -> str:
    """What one drawing unit is."""
    several, one = UNIT_NAMES[file_units(job)]
    return f"UNIT: {several}. One drawing unit is one {one}."


def plain_lines(job: Job, others: Mapping[str, str]) -> list[str]:
    """What the files of a folder hold, by name, where no machine of the job's cuts them."""
    return spaced(
        [
            [f"CUT FILES, FOR NO MACHINE IN PARTICULAR: {job.title or 'untitled'}"],
            [unit_line(job)],
            ["FILES:", *_named(others)],
        ]
    )


def other_files(others: Mapping[str, str]) -> list[str]:
    """The files that are not for this machine, each with what it is for."""
    return ["OTHER FILES, not for this machine:", *_named(others)]


def spaced(sections: Sequence[Sequence[str]]) -> list[str]:
    """The lines of the sections that have any, an empty line between them."""
    lines: list[str] = []
    for section in filter(None, sections):
        lines += [*([""] if lines else []), *section]
    return lines


def _named(files: Mapping[str, str]) -> list[str]:
    return [f"  {name}: {what}" for name, what in files.items()]
