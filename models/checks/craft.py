"""Findings about what comes after the saw: the wood's figures, the glue-up, the bent members."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.bending.members import Member
from scarfwright.models.craft import Craft
from scarfwright.models.findings import Finding, finding
from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.job.tables import Job
from scarfwright.models.strength.wood import find_species, nearest_species

LOST = 5.0  # mm by which a bent piece and its curve may differ in length and nobody minds; common practice, no source


def check_craft(job: Job, craft: Craft) -> list[Finding]:
    """Every finding about gluing, strength and bending of a job that can be built."""
    return [*_wood(job, craft), *_gluing(craft.gluing), *(f for one in craft.members for f in _member(one))]


def _wood(job: Job, craft: Craft) -> Iterator[Finding]:
    """A wood that is named, or needed for a bend, and has no figures."""
    name = job.stock.species.strip()
    if craft.strength.wood is None and (name or craft.members) and find_species(name) is None:
        near = ", ".join(nearest_species(name))
        yield finding("wood.unknown", name=name, nearest=near, bends=len(craft.members))


def _gluing(plan: GluePlan) -> Iterator[Finding]:
    asked, amounts = plan.asked, plan.amounts
    if asked.count is not None and asked.count < amounts.needed:
        yield finding(
            "gluing.too_few_clamps",
            count=asked.count,
            needed=amounts.needed,
            overlap_mm=plan.joint.overlap,
        )
    if not plan.lay.opens:
        yield finding(
            "gluing.clamps_too_small",
            opening_mm=plan.clamp.opening,
            needed_mm=plan.lay.opening,
            between_mm=plan.lay.between,
            way=plan.lay.way,
        )
    yield from _pressure(plan)
    if asked.open_time is not None and asked.open_time < amounts.time_needed:
        yield finding("gluing.open_time_short", open_time_min=asked.open_time, needed_min=amounts.time_needed)


def _pressure(plan: GluePlan) -> Iterator[Finding]:
    """What the clamps give against what the adhesive asks for."""
    asked, amounts = plan.asked, plan.amounts
    wanted, given, force = asked.pressure_range, amounts.given, asked.force
    if wanted is None or given is None or force is None or amounts.force_each is None:
        return
    facts: dict[str, float | str | None] = {
        "count": amounts.used,
        "force_n": force,
        "given_mpa": given,
        "least_mpa": wanted[0],
        "most_mpa": wanted[1],
        "kind": "the glue" if asked.kind is None else asked.kind.name,
    }
    if given < wanted[0] * (1 - 1e-9):
        yield finding("gluing.pressure_low", "", **facts, needed_n=amounts.force_each[0], room=plan.places.room)
    elif given > wanted[1] * (1 + 1e-9):
        yield finding("gluing.pressure_high", "", **facts, needed_n=amounts.force_each[1])


def _member(one: Member) -> Iterator[Finding]:
    name = one.name
    if one.length is not None and one.length > one.curve.length + LOST:
        yield finding("bending.curve_short", name=name, length_mm=one.length, curve_mm=one.curve.length)
    elif one.length is not None and one.length < one.curve.length - LOST:
        yield finding("bending.blank_short", name=name, length_mm=one.length, curve_mm=one.curve.length)
    if one.coarse:
        sharpest = one.curve.sharpest[0]
        yield finding("bending.offsets_coarse", name=name, off_percent=100 * one.curve.reading / sharpest)
    if one.loose:
        yield finding("bending.ends_loose", name=name, off_percent=50 * one.curve.ends)
    bend = one.bend
    if bend is None:
        return
    if bend.most > 1:
        made = one.laminations
        yield finding(
            "bending.overstrained",
            name=name,
            use_percent=100 * bend.most,
            radius_mm=1 / bend.curve.sharpest[0],
            least_mm=bend.least_radius,
            stress_mpa=bend.stress,
            rupture_mpa=bend.wood.rupture,
            factor=bend.factor,
            depth_mm=bend.depth / bend.most,
            count=None if made is None else made.count,
            lamination_mm=None if made is None else made.thickness,
        )
    elif bend.most_joint is None:
        yield finding("bending.joint_unknown", name=name)
    elif not bend.allowed:
        yield finding(
            "bending.no_joint",
            name=name,
            joint_mm=bend.joint_length,
            depth_mm=bend.depth / bend.most_joint,
            use_percent=100 * bend.most_joint,
        )
    elif bend.most_joint > 1:
        places = "; ".join(f"{low:.6f} {high:.6f}" for low, high in bend.allowed)
        yield finding("bending.joint_places", name=name, use_percent=100 * bend.most_joint, allowed_mm=places)
