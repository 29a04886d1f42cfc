"""Findings about the paper of the full-size templates."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.paper import FOOT, HEAD, LEAST_ROLL, MARGIN, MOST, OVERLAP, paper_of


def check_paper(work: Groundwork) -> Iterator[Finding]:
    """Sheets of a standard always do; a roll may not. Without paper the templates are not made."""
    width = paper_of(work.job.files, work.job.units).height
    taken = 2 * MARGIN + HEAD + FOOT + OVERLAP
    if width < LEAST_ROLL:
        yield finding("paper.roll_narrow", roll_width_mm=width, taken_mm=taken, needed_mm=LEAST_ROLL)
    if width > MOST:
        yield finding("paper.roll_wide", roll_width_mm=width, most_mm=MOST)
