"""Chapters of what is done before the saw is set: cautions, joint, wood, sled, checking."""

from __future__ import annotations

from scarfwright.models.lengths.say import say_in
from scarfwright.models.pair.turns import stick_of
from scarfwright.models.planning.planned import Planned
from scarfwright.models.words import plan as plan_words
from scarfwright.models.words.at_the_saw.procedure import cautions
from scarfwright.models.words.the_book.checking import gauges_made, measured_sled
from scarfwright.models.words.the_book.leads import ASSUMED
from scarfwright.models.words.the_book.of_the_joint import joint_figures, strength_figures, wood_figures
from scarfwright.models.words.the_book.of_the_saw import assumed_sizes
from scarfwright.models.words.the_book.of_the_sled import dividing_figures, sled_figures
from scarfwright.models.words.the_joint.planing import board_words
from scarfwright.models.words.the_joint.strength import NOT_DESIGN, step_words
from scarfwright.models.words.the_sled import dividing as dividing_words
from scarfwright.models.words.the_sled.material import sled_list
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.blocks import Block, Cautions, Drawings, Facts, Points, Table, Text, steps
from scarfwright.outputs.joint_sheet.texts import marking_rows
from scarfwright.outputs.narrow.boards import plan_scenes
from scarfwright.outputs.narrow.joint import joint_scenes
from scarfwright.outputs.narrow.plank import dividing_scenes, plank_scenes
from scarfwright.outputs.narrow.sled import sled_scenes
from scarfwright.outputs.plan_sheet.codes import pieces, strip_name


def first(work: Workup, _planned: Planned | None) -> list[Block]:
    """What can hurt, and what is only assumed."""
    found: list[Block] = [Cautions(cautions(work))]
    assumed = assumed_sizes(work)
    if assumed:
        found += [
            Text(ASSUMED, strong=True),
            Points("Measure yours", assumed),
            Drawings((), "paper/measure-me.pdf"),
        ]
    return found


def joint(work: Workup, _planned: Planned | None) -> list[Block]:
    """What is going to be made."""
    found: list[Block] = [
        Drawings(tuple(joint_scenes(work)), "paper/joint.pdf"),
        Facts("The joint", joint_figures(work)),
    ]
    if work.craft is not None:
        found.append(Facts("Its strength", strength_figures(work, work.craft)))
        flatter = step_words(work.craft.strength, work.job.units)
        if flatter:
            found.append(Points("A flatter slope", tuple(flatter)))
        found.append(Text(NOT_DESIGN))
    return found


def wood(work: Workup, planned: Planned | None) -> list[Block]:
    """Which boards, and which piece from which board."""
    found: list[Block] = []
    if work.craft is not None:
        found.append(Facts("What the boards must be", wood_figures(work, work.craft)))
        found.append(Points("Choosing boards", tuple(board_words(work.joint, work.craft.boards, work.job.units))))
    if planned is not None:
        found += _plan(work, planned)
    found.append(Drawings((), "paper/wood.pdf"))
    return found


def _plan(work: Workup, planned: Planned) -> list[Block]:
    """The plan: what is proved, what to cut, what is missing and what would mend it."""
    say, request, plan = say_in(work.job.units), planned.request, planned.plan
    told = [plan_words.verdict(plan), plan_words.joints_line(plan), plan_words.wood_line(say, plan)]
    if plan.bound_row is not None:
        told.append(plan_words.row_line(say, request, plan))
    told += [f"{request.blanks[m.blank].name} {m.copy}: {plan_words.why_missing(m.why)}." for m in plan.missing]
    told += [f"Way out: {plan_words.remedy_line(say, request, remedy)}" for remedy in plan.remedies]
    told += [f"Test joint: {plan_words.spare_line(say, strip_name(request, cut), cut)}." for cut in plan.spare]
    if plan.spare_short:
        told.append("No offcut is long enough for the test joint: set a board aside.")
    return [
        Points("Which board goes where", tuple(told)),
        Drawings(tuple(plan_scenes(work, planned)), "paper/plan.pdf"),
        Table("Cutting list", ("Piece", "Board", "From", "To", "Length"), _cutting_list(work, planned)),
        Cautions(plan_words.CAUTIONS),
    ]


def _cutting_list(work: Workup, planned: Planned) -> tuple[tuple[str, ...], ...]:
    """One row a piece, in cutting order."""
    say = say_in(work.job.units)
    return tuple(
        (
            piece.code,
            strip_name(planned.request, piece.cut),
            say(float(piece.cut.start)),
            say(float(piece.cut.end)),
            say(float(piece.cut.length)),
        )
        for piece in pieces(planned.request, planned.plan)
    )


def sled(work: Workup, _planned: Planned | None) -> list[Block]:
    """Material, marking, dividing, sizes."""
    found: list[Block] = [
        Drawings(tuple(sled_scenes(work)), "paper/sled.pdf"),
        Facts("Sizes of the sled", sled_figures(work)),
        Points("Have at hand", tuple(f"{e.label}: {e.text}" for e in sled_list(work))),
    ]
    cut = work.way.dividing
    if cut is None:
        return found
    found += [
        Drawings(tuple(plank_scenes(work))),
        steps("marking", "Marking the plank", [e.text for e in dividing_words.marking(work)]),
        Cautions(tuple(e.text for e in dividing_words.rail_cautions()), "Before the plank is divided"),
        Facts("Dividing it", dividing_figures(work)),
        Drawings(tuple(dividing_scenes(work))),
        Points(
            "On a carrier at the table saw", tuple(f"{e.label}: {e.text}" for e in dividing_words.settings(work, cut))
        ),
        Points(
            "What the carrier is made of", tuple(f"{e.label}: {e.text}" for e in dividing_words.material(work, cut))
        ),
        Text(dividing_words.screwing(work)),
        Cautions(tuple(e.text for e in dividing_words.carrier_cautions(work, cut)), "For this cut"),
        steps("dividing", "The dividing cut", [e.text for e in dividing_words.order(work, cut)]),
        Points(
            "Or along a guide rail",
            tuple(f"{e.label}: {e.text}" if e.label else e.text for e in dividing_words.rail_way(work, cut)),
        ),
    ]
    return found


def checking(work: Workup, _planned: Planned | None) -> list[Block]:
    """The sled as made: what it came to goes into the job."""
    found: list[Block] = [steps("measure", "Measure what it came to", measured_sled(work), numbered=False)]
    made = gauges_made(work.wanted)
    if made:
        found.append(Points("Gauges that this job makes", made))
    return [*found, Drawings((), "paper/gauges.pdf"), steps("mark", "Mark the boards", _marks(work))]


def _marks(work: Workup) -> list[str]:
    """What to pencil on the boards, so that every cut is made with the same edge down."""
    near = stick_of(2, work.job.saw.fence_side)[0].right
    assert near is not None  # the first board of two is tapered at its right end
    joint = work.joint
    return [row.text for row in marking_rows(near, say_in(work.job.units), joint.overlap, joint.taper_run)]
