"""Which figures the sentences of a chapter may tell: the models' words say where each comes from."""

from __future__ import annotations

from scarfwright.models.lengths.say import say_in
from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.the_book.figure import Figure
from scarfwright.models.words.the_book.of_the_glue import planing_figures, sample_figures
from scarfwright.models.words.the_book.of_the_joint import (
    flatter_figures,
    joint_figures,
    strength_figures,
    told_of_boards,
    wood_figures,
)
from scarfwright.models.words.the_book.of_the_plan import plan_figures
from scarfwright.models.words.the_book.of_the_sled import sled_figures
from scarfwright.models.words.the_book.told_at_the_saw import told_of_the_cut, told_of_the_saw
from scarfwright.models.words.the_book.told_elsewhere import (
    told_of_a_bend,
    told_of_checking,
    told_of_gluing,
    told_of_the_sled,
    told_of_the_test,
)
from scarfwright.models.words.the_joint.bending import bend_advice
from scarfwright.models.workup import Workup
from scarfwright.outputs.test_joint_sheet.texts import marks, sticks


def first(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """The hand line; what is assumed says so where it stands."""
    return sled_figures(work)


def joint(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """The joint, its strength, and what flatter slopes keep."""
    if work.craft is None:
        return joint_figures(work)
    return (*joint_figures(work), *strength_figures(work, work.craft), *flatter_figures(work, work.craft))


def wood(work: Workup, planned: Planned | None) -> tuple[Figure, ...]:
    """What boards must be, and what the plan counts."""
    craft = work.craft
    of_boards = () if craft is None else (*wood_figures(work, craft), *told_of_boards(work, craft))
    return (*of_boards, *(() if planned is None else plan_figures(work, planned.request, planned.plan)))


def sled(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """Sled, plank, carrier and rail."""
    return told_of_the_sled(work)


def checking(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """Sled and joint."""
    return told_of_checking(work)


def saw(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """Setting the saw."""
    return told_of_the_saw(work)


def cut(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """The cut."""
    return told_of_the_cut(work)


def testing(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """What is measured on the test joint."""
    say, one = say_in(work.job.units), work.joint
    return told_of_the_test(work, [(at, one.tip + at / one.ratio) for at in marks(one, say)], sticks(say))


def gluing(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """The glue-up."""
    return () if work.craft is None else told_of_gluing(work, work.craft)


def planing(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """What comes off."""
    return () if work.craft is None else planing_figures(work, work.craft)


def bending(work: Workup, _planned: Planned | None) -> tuple[Figure, ...]:
    """The sample, and members that are bent."""
    if work.craft is None:
        return ()
    found = list(sample_figures(work, work.craft))
    for member in work.craft.members:
        if member.bend is not None:
            found += told_of_a_bend(member.bend, bend_advice(member, work.job.units), work)
    return tuple(found)
