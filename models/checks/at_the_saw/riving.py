"""Findings about plate, riving knife and hood guard. Limits and their source: cut/knife_and_guard.py."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork


def check_riving(work: Groundwork) -> Iterator[Finding]:
    knife = work.cut.knife
    if knife.plate >= knife.kerf:
        yield finding("blade.plate_too_thick", plate_mm=knife.plate, kerf_mm=knife.kerf)
    if not knife.fitted:
        yield finding("knife.none", least_mm=knife.least, under_mm=knife.most, top_mm=knife.top)
    elif not knife.thinner_than_kerf:
        yield finding("knife.thicker_than_kerf", knife_mm=knife.thickness, kerf_mm=knife.kerf, least_mm=knife.least)
    elif not knife.thick_enough:
        yield finding(
            "knife.too_thin",
            knife_mm=knife.thickness,
            plate_mm=knife.plate,
            kerf_mm=knife.kerf,
            least_mm=knife.least,
        )
    yield from _guard(work)


def _guard(work: Groundwork) -> Iterator[Finding]:
    hood = work.cut.guard
    if hood.passes is not False:
        return
    yield finding(
        "guard.cannot_pass",
        guard_height_mm=work.job.saw.guard_height,
        guard_front_mm=work.job.saw.guard_front,
        over_mm=hood.over,
        over_clamps_mm=hood.over_clamps,
        free_ahead_mm=hood.free_ahead,
    )
