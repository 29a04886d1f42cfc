"""Findings about the cut that divides the plank."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork

LEAST_SCREWS = 2  # one screw is an axle; common practice, no source


def check_dividing(work: Groundwork) -> Iterator[Finding]:
    """Whether the plank can be screwed to the carrier at all."""
    cut = work.way.dividing
    if cut is not None and (cut.screw is None or len(cut.screws) < LEAST_SCREWS):
        yield finding(
            "dividing.no_screws",
            thickness_mm=work.way.nominal.thickness,
            screws=float(len(cut.screws)),
            rail_offset_mm=cut.rail_offset,
        )
