"""Findings about cutting on a router: what does not fit the sheet, what the cutter does not get into."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from scarfwright.models.findings import Finding, Level, finding
from scarfwright.models.flat.round_cutter import widest_cutter
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.tables import Job
from scarfwright.models.sheets.pieces import (
    TAB_CUTTERS,
    FlatPart,
    fits_sheet,
    needed_sheet,
    sheet_of,
    spacing_of,
    tabs_of,
    too_tight,
)

SHEETS = "sheets"  # the part of a job that such a fault leaves out


def check_router(work: Groundwork, pieces: Sequence[FlatPart]) -> Iterator[Finding]:
    """Asked only where a router is to cut. A flat part that can't be cut is left off the sheets. Without the sled's own
    layers there is nothing to cut: those are faults of the sheets, and all else is made."""
    for found in _of_router(work.job, pieces):
        yield replace(found, part=SHEETS) if found.level is Level.FAULT else found


def _of_router(job: Job, pieces: Sequence[FlatPart]) -> Iterator[Finding]:
    if spacing_of(job) < job.router.cutter:
        yield finding(
            "router.spacing_small",
            spacing_mm=spacing_of(job),
            cutter_mm=job.router.cutter,
            needed_mm=2 * job.router.cutter,
        )
        return
    for piece in pieces:
        if not fits_sheet(piece, job):
            yield _too_large(piece, job)
        else:
            yield from _too_tight(piece, job)
            yield from _tabs(piece, job)


def _too_large(piece: FlatPart, job: Job) -> Finding:
    length, width = needed_sheet(piece, job)
    has_length, has_width = sheet_of(job)
    return finding(
        "router.sled_too_large" if piece.needed else "router.part_too_large",
        part=piece.part.name,
        title=piece.part.title,
        grain=job.router.grain if piece.along_grain else "",
        spacing_mm=spacing_of(job),
        needed_length_mm=length,
        needed_width_mm=width,
        sheet_length_mm=has_length,
        sheet_width_mm=has_width,
    )


def _too_tight(piece: FlatPart, job: Job) -> Iterator[Finding]:
    cutter = float(job.router.cutter)
    for name, loop, void in too_tight(piece.part, cutter):
        yield finding(
            "router.sled_too_tight" if piece.needed else "router.part_too_tight",
            part=piece.part.name,
            title=piece.part.title,
            feature=name,
            cutter_mm=cutter,
            widest_mm=widest_cutter(loop, void=void, limit=cutter),
            opening=float(void),
        )


def _tabs(piece: FlatPart, job: Job) -> Iterator[Finding]:
    cutter = float(job.router.cutter)
    found = len(tabs_of(piece.part, job.router.tabs, cutter))
    if found < job.router.tabs:
        yield finding(
            "router.few_tabs",
            part=piece.part.name,
            title=piece.part.title,
            asked=float(job.router.tabs),
            found=float(found),
            wide_mm=TAB_CUTTERS * cutter,
        )
