"""What the person at the laser has to know: the lines of cut/README.txt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in
from scarfwright.models.part.part import Operation, Part
from scarfwright.models.sheets.pieces import file_units
from scarfwright.models.words.for_machines.cut_note import LAST, R12, UNIT_NAMES, other_files, spaced, unit_line


def laser_lines(work: Groundwork, parts: Sequence[Part], others: Mapping[str, str]) -> list[str]:
    """The operator's summary for a laser; `parts` are the templates' sections as they are cut, `others` what the other
    files of the folder hold, by name."""
    sections = [
        [f"CUT FILES FOR A LASER: {work.job.title or 'untitled'}", "The template-*.dxf files are for the laser."],
        list(_unit(work)),
        list(_files(work, parts)),
        other_files(others),
        list(_kerf(work)),
        list(_layers(parts)),
        ["ORDER: score, then inside cuts, and the outlines last; the files hold them in this order."],
        list(_hold_down()),
        list(_assembly(parts)),
        list(_cautions()),
    ]
    return spaced(sections)


def piece_notes(work: Groundwork, part: Part) -> tuple[str, ...]:
    """The lines beside one piece in its file."""
    say, laser = say_in(work.job.units), work.job.laser
    unit, _ = UNIT_NAMES[file_units(work.job)]
    _, _, wide, tall = part.outline.bounds
    return (
        f"{part.name}: {part.title}",
        f"UNIT: {unit}; {say(wide)} x {say(tall)} over the lines",
        f"LASER: kerf {float(laser.kerf):.2f} mm is taken care of, the beam runs on the lines",
        f"Sheet {say(part.thickness)} thick; inside cuts before the outline",
    )


def _unit(work: Groundwork) -> Iterator[str]:
    yield f"{unit_line(work.job)} Origin: the lower left corner of each piece."
    if work.job.files.dxf == "r12":
        yield f"{R12} check a length."


def _files(work: Groundwork, parts: Sequence[Part]) -> Iterator[str]:
    say, laser = say_in(work.job.units), work.job.laser
    bed = f"{say(laser.bed[0])} x {say(laser.bed[1])}"
    yield f"PIECES: once each, of sheet {say(laser.thickness)} thick, on a bed of {bed}."
    if not parts:
        yield "  none: no template of this job can be cut on this machine."
    for part in parts:
        _, _, wide, tall = part.outline.bounds
        yield f"  {part.name}.dxf: {part.title}, {say(wide)} x {say(tall)}"


def _kerf(work: Groundwork) -> Iterator[str]:
    kerf = float(work.job.laser.kerf)
    yield (
        f"KERF: {kerf:.2f} mm ([laser] kerf, measure yours). The lines are where the beam's middle runs: half a kerf "
        "outside outlines, half a kerf inside openings. Switch off any compensation of the machine's own."
    )
    yield "Scored lines (SCORE) stand where they are to be seen, not moved."


def _layers(parts: Sequence[Part]) -> Iterator[str]:
    scored = any(cut.operation is Operation.SCORE for part in parts for cut in part.cuts())
    yield "LAYERS:"
    if scored or any(mark.scored for part in parts for mark in part.marks):
        yield "  SCORE: line to score lightly, not through"
    if any(cut.operation is Operation.CUT_INSIDE for part in parts for cut in part.cuts()):
        yield "  CUT_INSIDE: opening, right through: run the beam on the line"
    yield "  CUT_OUTSIDE: edge of a piece, right through: run the beam on the line"
    yield "  NOTES: text for people: not cut"


def _hold_down() -> Iterator[str]:
    yield (
        "HOLD-DOWN: sheet flat on the bed, weights or pins clear of every line; small pieces may fall or tilt into the "
        "beam: stop before you take one out."
    )


def _assembly(parts: Sequence[Part]) -> Iterator[str]:
    names = [part.name for part in parts]
    split = [list(run) for _, run in groupby(names, key=_stem)]
    for run in (run for run in split if len(run) > 1):
        yield (
            f"JOINING: {', '.join(run)} in this order, key into socket, all the same side up, on a flat board "
            "against a straightedge; glue or tape them, shoulders closed. Keys loose: "
            "the kerf is wider than said; tight: narrower."
        )


def _stem(name: str) -> str:
    stem, _, number = name.rpartition("-")
    return stem if number.isdigit() else name


def _cautions() -> Iterator[str]:
    yield (
        "CAUTIONS: never leave a laser running alone; enclosure closed, fumes drawn off, a fire blanket at hand. Only "
        "material you know: no PVC or other chlorinated plastic, its fumes harm people and machine."
    )
    yield from LAST
