"""Findings about the templates a laser cuts: what does not go on the bed, what the kerf does away with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say
from scarfwright.models.printing.bed import size
from scarfwright.models.sheets.pieces import Piece
from scarfwright.models.templates.kerf import Lost
from scarfwright.models.templates.laser import Cut, cuts


def check_laser(work: Groundwork, pieces: Sequence[Piece], say: Say) -> Iterator[Finding]:
    """A template that can't be cut is left out; one with a web thinner than the kerf is cut, without the web."""
    for cut in cuts(work, pieces):
        if not cut.pieces:
            yield _bed_small(work, cut, say)
        for gone in cut.lost:
            yield _web_burns(work, cut, gone) if gone.web else _kerf_closes(work, cut, gone)


def _bed_small(work: Groundwork, cut: Cut, say: Say) -> Finding:
    long, wide = sorted(size(cut.whole), reverse=True)
    kerf = float(work.job.laser.kerf)
    bed_x, bed_y = (float(side) for side in work.job.laser.bed)
    longer, shorter = max(bed_x, bed_y), min(bed_x, bed_y)
    if wide + kerf > shorter:
        why = f"cut across it is still {say(wide)} wide"
        way = f"a bed of {say.up(wide + kerf)} or more both ways"
    else:
        why = "there is no stretch of it free of holes and wide enough for a keyed joint where one is needed"
        way = f"a bed longer than {say(longer)}"
    return finding(
        "template.bed_small",
        f"{cut.whole.name} is not cut: it is {say(long)} by {say(wide)}, the bed {say(bed_x)} by {say(bed_y)}, and "
        f"{why}. Use {way}, or the template on paper.",
        part=cut.whole.name,
        length_mm=long,
        width_mm=wide,
        bed_x_mm=bed_x,
        bed_y_mm=bed_y,
    )


def _kerf_closes(work: Groundwork, cut: Cut, gone: Lost) -> Finding:
    kerf = float(work.job.laser.kerf)
    return finding(
        "template.kerf_closes",
        f"{cut.whole.name} is not cut: {gone.what} is {gone.width:.2f} mm wide, narrower than the kerf of "
        f"{kerf:.2f} mm, so half a kerf inside its edges nothing is left. Set [laser] kerf to what it measures, "
        f"less than {gone.width:.2f} mm, or use the template on paper.",
        part=cut.whole.name,
        feature=gone.what,
        width_mm=gone.width,
        kerf_mm=kerf,
    )


def _web_burns(work: Groundwork, cut: Cut, gone: Lost) -> Finding:
    kerf = float(work.job.laser.kerf)
    return finding(
        "template.web_burns",
        f"{cut.whole.name}: {gone.what} only {max(gone.width, 0.0):.2f} mm is left, no more than the kerf of "
        f"{kerf:.2f} mm, and burns away. Set [laser] kerf to what it measures, or use the template on paper.",
        part=cut.whole.name,
        place=gone.what,
        width_mm=gone.width,
        kerf_mm=kerf,
    )
