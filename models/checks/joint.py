"""Findings about the stock and the slope."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.joint.joint import MOST_OFF
from scarfwright.models.lengths.slopes import degrees, ratio_of_degrees

STEEPEST = 8.0
FLATTEST = 20.0


def check_joint(work: Groundwork) -> Iterator[Finding]:
    yield from _stock(work)
    yield from _slope(work)


def _stock(work: Groundwork) -> Iterator[Finding]:
    stock, joint = work.job.stock, work.joint
    if joint.overlap <= 0:
        yield finding("joint.gap_eats_joint", tip_mm=joint.tip, thickness_mm=stock.thickness)
    finished = stock.finished_thickness
    if finished is None:
        return
    if finished >= stock.thickness:
        yield finding(
            "joint.finish_too_thick",
            finished_mm=finished,
            thickness_mm=stock.thickness,
            thickest_mm=joint.thickest_finish,
        )
    elif finished > joint.thickest_finish:
        yield finding(
            "joint.tips_stay",
            finished_mm=finished,
            thickness_mm=stock.thickness,
            tip_mm=joint.tip,
            thickest_mm=joint.thickest_finish,
        )


def _slope(work: Groundwork) -> Iterator[Finding]:
    asked, real = work.job.joint.ratio, work.joint.ratio
    meant = ratio_of_degrees(asked) if asked < 45 else 0.0
    if asked < STEEPEST and STEEPEST - 0.9 <= meant <= FLATTEST + 0.5:
        yield finding("joint.slope_degrees", ratio=asked, angle_deg=degrees(asked), ratio_if_degrees=meant)
    if asked < STEEPEST:
        yield finding("joint.slope_steep", ratio=asked, least=STEEPEST)
    elif asked > FLATTEST:
        yield finding("joint.slope_flat", ratio=asked, most=FLATTEST)
    off = real / asked - 1
    if abs(off) > MOST_OFF:
        yield finding("joint.slope_off", ratio_asked=asked, ratio_realised=real, off_percent=100 * off)
