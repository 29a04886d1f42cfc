"""Findings about cutting on a router: what does not fit the sheet, what the cutter does not get into."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scarfwright.models.findings import Finding, finding
from scarfwright.models.flat.round_cutter import widest_cutter
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.say import Say
from scarfwright.models.sheets.pieces import (
    Piece,
    fits_sheet,
    needed_sheet,
    sheet_of,
    spacing_of,
    tabs_of,
    too_tight,
)


def check_router(work: Groundwork, pieces: Sequence[Piece], say: Say) -> Iterator[Finding]:
    """Asked only where a router is to cut. A flat part that can't be cut is left off the sheets; without the sled's
    own layers there is nothing to cut, so those are faults."""
    job = work.job
    if spacing_of(job) < job.router.cutter:
        yield finding(
            "router.spacing_small",
            f"Pieces {say(spacing_of(job))} apart and a cutter of {say(job.router.cutter)}: cutting one piece would "
            f'cut into the next. Set [router] spacing to {say.up(2 * job.router.cutter)} ("auto").',
            spacing_mm=spacing_of(job),
            cutter_mm=job.router.cutter,
            needed_mm=2 * job.router.cutter,
        )
        return
    for piece in pieces:
        if not fits_sheet(piece, job):
            yield _too_large(piece, job, say)
        else:
            yield from _too_tight(piece, job, say)
            yield from _tabs(piece, job, say)


def _too_large(piece: Piece, job: Job, say: Say) -> Finding:
    length, width = needed_sheet(piece, job)
    has_length, has_width = sheet_of(job)
    grain = f" with its length along the grain ({job.router.grain})" if piece.along_grain else ""
    left_out = "" if piece.needed else " It is left off the sheets."
    shorter = ", or a shorter sled ([sled] length), or a plank" if piece.needed else ""
    return finding(
        "router.sled_too_large" if piece.needed else "router.part_too_large",
        f"{piece.part.title} ({piece.part.name}){grain} needs a sheet of {say.up(length)} x {say.up(width)}, "
        f"{say(spacing_of(job))} round it included; the sheet is {say(has_length)} x {say(has_width)}.{left_out} "
        f"Use a larger sheet ([router] sheet){shorter}.",
        part=piece.part.name,
        needed_length_mm=length,
        needed_width_mm=width,
        sheet_length_mm=has_length,
        sheet_width_mm=has_width,
    )


def _too_tight(piece: Piece, job: Job, say: Say) -> Iterator[Finding]:
    cutter = float(job.router.cutter)
    for name, loop, void in too_tight(piece.part, cutter):
        widest = widest_cutter(loop, void=void, limit=cutter)
        left_out = "" if piece.needed else " The part is left off the sheets."
        yield finding(
            "router.sled_too_tight" if piece.needed else "router.part_too_tight",
            f"{piece.part.title} ({piece.part.name}), {name}: a cutter of {say(cutter)} does not get in, only one "
            f"under {say.down(widest)}.{left_out} Use a narrower cutter ([router] cutter)"
            f"{', or make the notch wider ([sled] notch_width)' if piece.needed and void else ''}.",
            part=piece.part.name,
            feature=name,
            cutter_mm=cutter,
            widest_mm=widest,
        )


def _tabs(piece: Piece, job: Job, say: Say) -> Iterator[Finding]:
    found = len(tabs_of(piece.part.outline, job.router.tabs, float(job.router.cutter)))
    if found < job.router.tabs:
        yield finding(
            "router.few_tabs",
            f"{piece.part.title} ({piece.part.name}) has straight runs for {found} of the {job.router.tabs} tabs "
            f"asked for, each {say(2 * job.router.cutter)} wide. Hold it down besides.",
            part=piece.part.name,
            asked=float(job.router.tabs),
            found=float(found),
        )
