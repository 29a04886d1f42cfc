"""Findings about the templates a laser cuts: what does not go on the bed, what the kerf does away with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.printing.bed import size
from scarfwright.models.sheets.pieces import FlatPart
from scarfwright.models.templates.laser import Cut, cuts


def check_laser(work: Groundwork, pieces: Sequence[FlatPart]) -> Iterator[Finding]:
    """A template that can't be cut is left out; one with a web thinner than the kerf is cut, without the web."""
    kerf = float(work.job.laser.kerf)
    for cut in cuts(work, pieces):
        if not cut.pieces:
            yield _bed_small(work, cut)
        for gone in cut.lost:
            if gone.web:
                yield finding(
                    "template.web_burns", part=cut.whole.name, place=gone.what, width_mm=gone.width, kerf_mm=kerf
                )
            else:
                yield finding(
                    "template.kerf_closes", part=cut.whole.name, feature=gone.what, width_mm=gone.width, kerf_mm=kerf
                )


def _bed_small(work: Groundwork, cut: Cut) -> Finding:
    long, wide = sorted(size(cut.whole), reverse=True)
    kerf = float(work.job.laser.kerf)
    bed_x, bed_y = (float(side) for side in work.job.laser.bed)
    too_wide = wide + kerf > min(bed_x, bed_y)
    return finding(
        "template.bed_small",
        part=cut.whole.name,
        length_mm=long,
        width_mm=wide,
        bed_x_mm=bed_x,
        bed_y_mm=bed_y,
        needed_mm=wide + kerf if too_wide else max(bed_x, bed_y),
        too_wide=float(too_wide),
    )
