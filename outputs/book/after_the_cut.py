"""Chapters of what comes after the cut: gluing, planing, the bend test, the record, the files."""

from __future__ import annotations

from scarfwright.models.planning.planned import Planned
from scarfwright.models.words.the_book.leads import NO_FINISH, NO_SAMPLE
from scarfwright.models.words.the_book.of_the_glue import gluing_figures, planing_figures, sample_figures
from scarfwright.models.words.the_book.record import record
from scarfwright.models.words.the_joint.bending import BEND_CAUTION, bend_advice, bend_rows
from scarfwright.models.words.the_joint.gluing import gluing_cautions, lay_words, order_of_gluing
from scarfwright.models.words.the_joint.planing import PLANER_CAUTION, planing_steps
from scarfwright.models.words.the_joint.strength import NOT_DESIGN, TEST_CAUTION, sample_steps
from scarfwright.models.workup import Workup
from scarfwright.outputs.book.blocks import Block, Cautions, Drawings, Facts, Leaves, Points, Record, Text, steps
from scarfwright.outputs.narrow.bend import bend_scenes, planing_scenes
from scarfwright.outputs.narrow.bent import bent_scenes
from scarfwright.outputs.narrow.glue import glue_scenes


def gluing(work: Workup, _planned: Planned | None) -> list[Block]:
    """Amounts, places, order."""
    if work.craft is None:
        return []
    plan, units = work.craft.gluing, work.job.units
    return [
        Cautions(tuple(gluing_cautions(plan.asked.kind))),
        Facts("Figures", gluing_figures(work, work.craft)),
        Text(lay_words(plan, units)),
        Drawings(tuple(glue_scenes(work)), "paper/glue-up.pdf"),
        steps("order", "Order of gluing", order_of_gluing(plan, units)),
    ]


def planing(work: Workup, _planned: Planned | None) -> list[Block]:
    """How much comes off, and which way."""
    if work.craft is None:
        return []
    plane, units = work.craft.planing, work.job.units
    if plane is None:
        return [Text(NO_FINISH)]
    return [
        Cautions((PLANER_CAUTION,)),
        Facts("After planing", planing_figures(work, work.craft)),
        Drawings(tuple(planing_scenes(work)), "paper/wood.pdf"),
        steps("order", "How to plane", planing_steps(plane, units)),
    ]


def bending(work: Workup, _planned: Planned | None) -> list[Block]:
    """A sample on a bathroom scale, and members that are bent."""
    if work.craft is None:
        return []
    test, wood, units = work.craft.strength.test, work.craft.strength.wood, work.job.units
    found: list[Block] = []
    if test is not None and wood is not None:
        found += [
            Cautions((TEST_CAUTION,)),
            Facts("What to expect", sample_figures(work, work.craft)),
            Drawings(tuple(bend_scenes(work)), "paper/wood.pdf"),
            steps("order", "The test", sample_steps(test, units)),
        ]
    else:
        found.append(Text(NO_SAMPLE))
    bent = bent_scenes(work)
    for member in work.craft.members:
        rows = [] if member.bend is None else [f"{name}: {text}" for name, text in bend_rows(member.bend, units)]
        found += [
            Points(f"Bent member: {member.name}", (*rows, *bend_advice(member, units))),
            Text(BEND_CAUTION, strong=True),
            Drawings(tuple(one for one in bent if one.name == f"bent-{member.number}"), "paper/bending.pdf"),
        ]
    return [*found, Text(NOT_DESIGN)]


def to_record(work: Workup, _planned: Planned | None) -> list[Block]:
    """What to write down."""
    return [Record(record(work))]


def files(_work: Workup, _planned: Planned | None) -> list[Block]:
    """Every file of the folder."""
    return [Leaves()]
