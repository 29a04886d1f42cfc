"""Findings about plate, riving knife and hood guard. Limits: EN 1870 series, see models/riving.py."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.cut.knife_and_guard import OVER_PLATE
from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say


def check_riving(work: Groundwork, say: Say) -> Iterator[Finding]:
    knife = work.cut.knife
    if knife.plate >= knife.kerf:
        yield finding(
            "blade.plate_too_thick",
            f"The blade's plate ({say.fine(knife.plate)}) is as thick as its kerf ({say.fine(knife.kerf)}) or thicker: "
            "it would rub and burn, and no riving knife can fit. Measure both again ([saw] kerf, plate).",
            plate_mm=knife.plate,
            kerf_mm=knife.kerf,
        )
    if not knife.fitted:
        yield finding(
            "knife.none",
            f"A saw without riving knife (riving_knife = 0) can throw the work. {knife.text} Fit one, or a splitter "
            "where the saw takes no other.",
            least_mm=knife.least,
            under_mm=knife.most,
        )
    elif not knife.thinner_than_kerf:
        yield finding(
            "knife.thicker_than_kerf",
            f"The riving knife ({say.fine(knife.thickness)}) does not go into a kerf of {say.fine(knife.kerf)}: the "
            f"work jams on it, and a through cut must not be made without it. {_other(work, say)} Measure yours: the "
            "figures may be defaults.",
            knife_mm=knife.thickness,
            kerf_mm=knife.kerf,
            least_mm=knife.least,
        )
    elif not knife.thick_enough:
        yield finding(
            "knife.too_thin",
            f"The riving knife ({say.fine(knife.thickness)}) is less than {say.fine(OVER_PLATE)} thicker than the "
            f"blade's plate ({say.fine(knife.plate)}; EN 1870 series): a kerf that closes would pinch the blade. "
            f"{_other(work, say)} Measure yours: the figures may be defaults.",
            knife_mm=knife.thickness,
            plate_mm=knife.plate,
            least_mm=knife.least,
        )
    yield from _guard(work, say)


def _other(work: Groundwork, say: Say) -> str:
    """What would do, only what would: another knife where one fits this blade, another blade else."""
    knife = work.cut.knife
    if knife.least < knife.most:
        return f"Fit a knife of {say.fine(knife.least)} or more and under {say.fine(knife.most)}."
    return f"No knife fits this blade; take one whose kerf is more than {say.fine(OVER_PLATE)} over its plate."


def _guard(work: Groundwork, say: Say) -> Iterator[Finding]:
    hood = work.cut.guard
    if hood.passes is not False:
        return
    yield finding(
        "guard.cannot_pass",
        f"The hood guard can't pass: it lifts {say(work.job.saw.guard_height or 0.0)} and reaches "
        f"{say(work.job.saw.guard_front or 0.0)} ahead of the axis. {hood.text}",
        guard_height_mm=work.job.saw.guard_height,
        guard_front_mm=work.job.saw.guard_front,
        over_mm=hood.over,
        free_ahead_mm=hood.free_ahead,
    )
