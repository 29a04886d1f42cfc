"""What `check` says of fit, strength, glue-up and bends."""

from __future__ import annotations

from scarfwright.cli.showing import say
from scarfwright.models.words.the_joint import accuracy
from scarfwright.models.words.the_joint.craft import bend_lines, craft_lines
from scarfwright.models.workup import Workup


def show_craft(work: Workup, out: say.Screen) -> None:
    """Fit, strength, glue-up and planing in a few lines; then each bent member. Nothing for a job with faults."""
    if work.outlook is not None:
        told = accuracy.outlook_lines(work.outlook, work.joint, work.job.units)
        out.print(say.pairs("How well it will fit, before a test joint", told))
    if work.craft is None:
        return
    out.print(say.pairs("Strength and glue-up", craft_lines(work.craft, work.joint, work.job.units)))
    for one in work.craft.members:
        out.print(say.pairs(f"Bent: {one.name}", bend_lines(one, work.job.units)))
