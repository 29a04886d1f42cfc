"""Where the figures of joint, wood and strength come from."""

from __future__ import annotations

from scarfwright.models.craft import Craft
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.job.board import board_length
from scarfwright.models.lengths.say import say_in, slope
from scarfwright.models.strength.slope import row_behind
from scarfwright.models.strength.wood import Wood
from scarfwright.models.words.the_book.figure import Figure, Origin
from scarfwright.models.words.the_joint.figures import Figures, percent
from scarfwright.models.words.the_joint.planing import board_words, moisture_source
from scarfwright.models.words.the_joint.strength import step_words


def joint_figures(work: Groundwork) -> tuple[Figure, ...]:
    """Slope, board, tip, taper, overlap."""
    say, joint, sled, saw = say_in(work.job.units), work.joint, work.way.sled, work.job.saw
    angle = f"{slope(sled.ratio).rpartition(' ')[2]}"
    board = Origin(
        "job", "Measure the boards themselves with callipers; where they differ, put your figure into the job."
    )
    found = [
        Figure(
            "joint.ratio_realised",
            "Slope",
            slope(sled.ratio),
            Origin(
                "formula",
                f"What the sled gives: its length over heel less nose, {say(sled.length)} / ({say(sled.heel)} - "
                f"{say(sled.nose)}). The job says {work.job.joint.ratio:g}:1.",
            ),
            main=True,
        ),
        Figure("joint.thickness_mm", "Board, thickness", say(joint.thickness), board),
        Figure("joint.height_mm", "Board, height at the saw", say(joint.height), board),
        Figure(
            "joint.tip_mm",
            "Tip at the feather end",
            say(joint.tip),
            Origin(
                "formula",
                f"The gap between heel and blade, {say(saw.fence_gap)}, over the cosine of {angle}. "
                "The tip planes away.",
            ),
        ),
        Figure(
            "joint.taper_run_mm",
            "Taper, along the board",
            say(joint.taper_run),
            Origin(
                "formula",
                f"Thickness less tip, times the slope: ({say(joint.thickness)} - {say(joint.tip)}) x "
                f"{joint.ratio:.2f}.",
            ),
        ),
        Figure(
            "joint.overlap_mm",
            "Overlap per joint",
            say(joint.overlap),
            Origin(
                "formula",
                f"Thickness less two tips, times the slope: ({say(joint.thickness)} - 2 x {say(joint.tip)}) x "
                f"{joint.ratio:.2f}. Each joint takes so much off the summed length of the boards.",
            ),
            main=True,
        ),
    ]
    return (*found, *_finish(work))


def _finish(work: Groundwork) -> list[Figure]:
    say, joint = say_in(work.job.units), work.joint
    told = f"Thickness less two tips: {say(joint.thickness)} - 2 x {say(joint.tip)}. Thicker, and a groove stays."
    found = [
        Figure("joint.thickest_finish_mm", "Plane to at most", say.down(joint.thickest_finish), Origin("formula", told))
    ]
    finished = work.job.stock.finished_thickness
    if finished is not None:
        run = joint.finished_run(finished)
        told = f"Finished thickness times the slope: {say(finished)} x {joint.ratio:.2f}."
        found.append(Figure("joint.finished_run_mm", "Glue line after planing", say(run), Origin("formula", told)))
    return found


def strength_figures(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """What the slope keeps, and what the glue carries."""
    found, strength = [], craft.strength
    if strength.share is not None:
        row = row_behind(work.joint.ratio)
        told = f"{row.source}: strength of the joint as a share of clear wood, {row.status}. Not a design value."
        found.append(Figure("strength.share", "Keeps of clear wood", percent(strength.share), Origin("source", told)))
    told = "Sine times cosine of the slope's angle: the share of the wood's stress that the glue line bears as shear."
    value = f"{100 * strength.shear:.1f} %"
    found.append(Figure("strength.plane_shear_share", "Shear on the glue line", value, Origin("formula", told)))
    if strength.wood is not None:
        wood, fig = strength.wood, Figures(work.job.units)
        own = wood.source == Wood.source
        kind = Origin("job" if own else "source", f"{wood.source}; mean of clear wood, {wood.status}.")
        found += [
            Figure("strength.wood.rupture_mpa", f"{wood.name}, rupture", fig.stress(wood.rupture), kind),
            Figure("strength.wood.modulus_mpa", f"{wood.name}, modulus", fig.stress(wood.modulus), kind),
        ]
    return tuple(found)


def flatter_figures(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """What flatter slopes keep and cost, in the very lines that tell it."""
    lines = step_words(craft.strength, work.job.units)
    row = row_behind(work.joint.ratio)
    told = (
        f"{row.source}: strength of the joint as a share of clear wood, {row.status}. Longer: thickness less two tips, "
        "times what the slope is flatter by."
    )
    return (Figure("", "Flatter slopes", "; ".join(lines), Origin("source", told)),) if lines else ()


def told_of_boards(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """What is told of knots, in the very line that tells it."""
    told = "The taper and one thickness beyond it (common practice, no source)."
    lines = board_words(work.joint, craft.boards, work.job.units)
    return tuple(Figure("", "Free of knots", one, Origin("practice", told)) for one in lines if "(taper" in one)


def wood_figures(work: Groundwork, craft: Craft) -> tuple[Figure, ...]:
    """How long boards must be, and what they must be like."""
    say, needs, joint = say_in(work.job.units), craft.boards, work.joint
    length = board_length(work.job)
    assumed = work.job.stock.length is None
    return (
        Figure(
            "",
            "Shortest board that every clamp holds",
            say.up(work.least_board),
            Origin(
                "formula",
                "Every clamp's pad bears wholly on it, wherever the clamp slides: counted from the "
                "heel along the work edge.",
            ),
            main=True,
        ),
        Figure(
            "saw.support.board_length_mm",
            "Longest board",
            say(length),
            Origin("yours", "The job gives no length, so a common one is taken for stand and balance.")
            if assumed
            else Origin("job", "Stand and balance at the saw are worked out for it."),
        ),
        Figure(
            "boards.clear_mm",
            "Free of knots from the end",
            say.up(needs.clear),
            Origin(
                "practice",
                f"The taper, {say(joint.taper_run)}, and one thickness beyond, {say(joint.thickness)}.",
            ),
        ),
        Figure(
            "boards.run_out_mm",
            f"Grain runs out at most, over {say(needs.run_out_length)}",
            say.down(needs.run_out),
            Origin("source", f"FAA AC 43.13-1B: one in 15, which leaves {percent(needs.grain_share)} (Hankinson)."),
        ),
        Figure(
            "boards.moisture_percent",
            "Moisture of the wood",
            f"{needs.moisture[0]:g} to {needs.moisture[1]:g} %",
            Origin(
                "source",
                f"From {moisture_source(needs)}. Measure yours with a meter; mates within {needs.alike:g} % (common "
                "practice, no source).",
            ),
        ),
    )
