"""What comes after the saw, worked out once: gluing, planing, boards, strength, bent members."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.bending.members import Member, member
from scarfwright.models.gluing.plan import GluePlan, glue_plan
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.planing.boards import BoardNeeds, board_needs
from scarfwright.models.planing.planing import Planing, planing
from scarfwright.models.strength.strength import Strength, strength_of
from scarfwright.models.strength.wood import Wood, wood_of


@dataclass(frozen=True)
class Craft:
    """Numbers of the shop's work after the cut. `planing`: None where the job gives no finished thickness."""

    strength: Strength
    gluing: GluePlan
    planing: Planing | None
    boards: BoardNeeds
    members: tuple[Member, ...]


def craft_of(work: Groundwork) -> Craft:
    """The craft of a job that has no fault. numpy and scipy are loaded only for blanks with a curve."""
    job, joint = work.job, work.joint
    stock = job.stock
    wood = wood_of(stock.species, stock.modulus, stock.rupture)
    finished = None if stock.finished_thickness is None else float(stock.finished_thickness)
    strength = strength_of(joint, wood, finished, job.units)
    glue = glue_plan(job, joint, work.glue, None if wood is None else wood.kind)
    return Craft(
        strength=strength,
        gluing=glue,
        planing=None if finished is None else planing(joint, finished),
        boards=board_needs(joint, job.units, None if glue.asked.kind is None else glue.asked.kind.moisture),
        members=_members(work, wood, strength.share),
    )


def _members(work: Groundwork, wood: Wood | None, share: float | None) -> tuple[Member, ...]:
    stock, joint = work.job.stock, work.joint
    thickness = float(stock.thickness if stock.finished_thickness is None else stock.finished_thickness)
    return tuple(
        member(
            number=number,
            name=blank.name or f"blank {number}",
            points=[(float(station), float(offset)) for station, offset in blank.curve],
            depth=thickness if blank.bend == "thickness" else joint.height,
            length=None if blank.length is None else float(blank.length),
            wood=wood,
            factor=work.job.limits.bend_factor,
            share=share,
            joint_length=joint.overlap,
        )
        for number, blank in enumerate(work.job.blank, 1)
        if blank.curve is not None
    )
