"""Templates as a laser cuts them: in sections that fit the bed, kerf-compensated, each at the origin."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.part.part import Part
from scarfwright.models.printing.bed import angle_to_fit
from scarfwright.models.printing.sections import SplitError, split
from scarfwright.models.sheets.pieces import FlatPart
from scarfwright.models.templates.kerf import Lost, compensated, lost
from scarfwright.models.templates.naming import named, overhangs
from scarfwright.models.templates.shapes import sled_template, taper_template

PLAY = 0.0  # of the keys: shoulders and flanks meet on the line, for the kerf is taken care of
TEXT = 4.0  # height of a section's name [mm]


@dataclass(frozen=True)
class Cut:
    """One template: nominal and whole, the nominal pieces it is split into (none where the bed is too small), and
    what the kerf does away with."""

    whole: Part
    pieces: tuple[Part, ...]
    lost: tuple[Lost, ...]

    @property
    def closes(self) -> bool:
        """Whether an opening is narrower than the kerf, so that there is no path inside it."""
        return any(not gone.web for gone in self.lost)


def templates(work: Groundwork, pieces: Sequence[FlatPart]) -> list[Part]:
    """Every template of the job, nominal and whole: the sled's, the taper's, and the flat gauges."""
    return [sled_template(work), taper_template(work), *_flat(work, pieces)]


def cuts(work: Groundwork, pieces: Sequence[FlatPart]) -> Iterator[Cut]:
    """Each template split to the bed, nominal still."""
    return (_cut(whole, *_bed(work), float(work.job.laser.kerf)) for whole in templates(work, pieces))


@lru_cache(maxsize=32)  # a job that is worked out again has most of its templates as they were
def _cut(whole: Part, bed_x: float, bed_y: float, kerf: float) -> Cut:
    try:
        sections = split(whole, bed_x, bed_y, PLAY)
    except SplitError:
        sections = ()
    return Cut(whole, sections, tuple(lost(whole, kerf)))


def laser_templates(work: Groundwork, pieces: Sequence[FlatPart]) -> list[Part]:
    """The laser's paths, one part a file. What can't be cut is left out; the checks say so."""
    return [
        _on_bed(work, piece, number, len(cut.pieces))
        for cut in cuts(work, pieces)
        if not cut.closes
        for number, piece in enumerate(cut.pieces, 1)
    ]


def _bed(work: Groundwork) -> tuple[float, float]:
    """Room for a nominal piece: its path is half a kerf larger all round."""
    bed_x, bed_y = work.job.laser.bed
    return bed_x - work.job.laser.kerf, bed_y - work.job.laser.kerf


def _on_bed(work: Groundwork, piece: Part, number: int, count: int) -> Part:
    """The path of one section, turned to fit, its lower left corner at the origin, with its name and the words that a
    joint would have cut off."""
    angle = angle_to_fit(piece, *_bed(work)) or 0.0
    path = compensated(piece.turned(angle) if angle else piece, float(work.job.laser.kerf))
    x, y, _, _ = path.outline.bounds
    path = path.moved(-x, -y)
    over = [mark for mark in path.marks if mark.text and overhangs(path, mark)]
    path = replace(path, marks=tuple(mark for mark in path.marks if mark not in over))
    name = f"{path.name}, {number} of {count}" if count > 1 else path.name
    return replace(path, marks=(*path.marks, *named(path, [name, *(mark.text for mark in over)], TEXT)))


def _flat(work: Groundwork, pieces: Sequence[FlatPart]) -> Iterator[Part]:
    """Gauges that are plain plates, to size. What bears load is of wood, along its grain, and no template."""
    for piece in pieces:
        if not piece.along_grain:
            part = piece.part
            yield replace(part, name=f"template-{part.name}", thickness=float(work.job.laser.thickness), raised=())
