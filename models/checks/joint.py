"""Findings about the stock and the slope."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, Level, finding, register
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.joint.joint import MOST_OFF
from scarfwright.models.lengths.say import Say, slope
from scarfwright.models.lengths.slopes import degrees, ratio_of_degrees

register(
    {
        "stock.not_upright": Level.FAULT,
        "joint.gap_eats_joint": Level.FAULT,
        "joint.finish_too_thick": Level.FAULT,
        "joint.tips_stay": Level.CAUTION,
        "joint.slope_steep": Level.CAUTION,
        "joint.slope_flat": Level.CAUTION,
        "joint.slope_degrees": Level.CAUTION,
        "joint.slope_off": Level.CAUTION,
    }
)

STEEPEST = 8.0
FLATTEST = 20.0
SOURCE_SLOPE = (
    "USDA Technical Bulletin 1069 and the Wood Handbook give 90 % of clear-wood strength for 1 in 12 and flatter"
)


def check_joint(work: Groundwork, say: Say) -> Iterator[Finding]:
    yield from _stock(work, say)
    yield from _slope(work)


def _stock(work: Groundwork, say: Say) -> Iterator[Finding]:
    stock, joint = work.job.stock, work.joint
    if stock.thickness > stock.height:
        yield finding(
            "stock.not_upright",
            f"The stock is thicker ({say(stock.thickness)}) than it stands high ({say(stock.height)}): it would "
            "tip at the saw. Swap thickness and height, or taper it through its smaller side.",
            thickness_mm=stock.thickness,
            height_mm=stock.height,
        )
    if joint.overlap <= 0:
        yield finding(
            "joint.gap_eats_joint",
            f"The fence gap leaves tips {say(joint.tip)} thick, which is half the stock's {say(stock.thickness)} "
            f"or more, so no joint is left. Set fence_gap well under {say.down(stock.thickness / 4)}; "
            "0.4 mm or 1/64 in is common.",
            tip_mm=joint.tip,
            thickness_mm=stock.thickness,
        )
    finished = stock.finished_thickness
    if finished is None:
        return
    if finished >= stock.thickness:
        yield finding(
            "joint.finish_too_thick",
            f"The finished thickness {say(finished)} is not less than the stock's {say(stock.thickness)}. Plan for "
            f"{'less' if joint.overlap <= 0 else say.down(joint.thickest_finish) + ' or less'}.",
            finished_mm=finished,
            thickness_mm=stock.thickness,
            thickest_mm=joint.thickest_finish,
        )
    elif finished > joint.thickest_finish:
        yield finding(
            "joint.tips_stay",
            f"Planing to {say(finished)} takes {say((stock.thickness - finished) / 2)} off each face, less than the "
            f"groove {say(joint.tip)} deep that each tip leaves. Finish at {say.down(joint.thickest_finish)} or less, "
            f"or start from stock {say.up(finished + 2 * joint.tip)} thick.",
            finished_mm=finished,
            tip_mm=joint.tip,
            thickest_mm=joint.thickest_finish,
        )


def _slope(work: Groundwork) -> Iterator[Finding]:
    asked, real = work.job.joint.ratio, work.way.sled.ratio
    meant = ratio_of_degrees(asked) if asked < 45 else 0.0
    if asked < STEEPEST and STEEPEST - 0.9 <= meant <= FLATTEST + 0.5:
        yield finding(
            "joint.slope_degrees",
            f"A ratio of {asked:g} is a slope of {slope(asked)}. If {asked:g} degrees was meant, that is 1 in "
            f"{meant:.1f}: write ratio = {meant:.1f}. (1 in 10 is 5.71 degrees, not 10.)",
            ratio=asked,
            angle_deg=degrees(asked),
            ratio_if_degrees=meant,
        )
    if asked < STEEPEST:
        yield finding(
            "joint.slope_steep",
            f"{slope(asked)} is steeper than 1 in 8: {SOURCE_SLOPE}, and about 80 % for 1 in 8 (from memory). "
            "Take 12 unless little strength is asked of the joint.",
            ratio=asked,
            least=STEEPEST,
        )
    elif asked > FLATTEST:
        yield finding(
            "joint.slope_flat",
            f"{slope(asked)} is flatter than 1 in 20: {SOURCE_SLOPE}, and nothing published shows more for a "
            "flatter one; the joint only gets longer and its tips weaker. 12 to 16 is usual.",
            ratio=asked,
            most=FLATTEST,
        )
    off = real / asked - 1
    if abs(off) > MOST_OFF:
        yield finding(
            "joint.slope_off",
            f"The sled gives {slope(real)}, {100 * abs(off):.1f} % off the {slope(asked)} asked for. "
            "Both pieces off one sled still close; if the slope matters, make the sled longer, use finer round_marks, "
            "or cut heel and nose again.",
            ratio_asked=asked,
            ratio_realised=real,
            off_percent=100 * off,
        )
