"""Strength, glue-up, planing and bends in the few lines that `check` shows."""

from __future__ import annotations

from scarfwright.models.bending.members import Member
from scarfwright.models.craft import Craft
from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.words.the_joint.bending import bend_advice, bend_rows
from scarfwright.models.words.the_joint.figures import Figures, slope_text
from scarfwright.models.words.the_joint.gluing import amount_rows
from scarfwright.models.words.the_joint.strength import NOT_DESIGN, keeps, step_words


def craft_lines(craft: Craft, joint: Joint, units: Unit) -> list[tuple[str, str]]:
    """Label and text: what the slope keeps, a flatter one's cost, the sample, the glue-up, planing."""
    say, fig, strength = drawn_in(units), Figures(units), craft.strength
    own = slope_text(joint.ratio)
    if strength.share is None:
        rows = [("strength", f"slope {own}: steeper than 5:1, nothing is known of its strength")]
    else:
        rows = [("strength", f"slope {own} keeps {keeps(joint.ratio)}")]
    rows += [("a flatter slope", text) for text in step_words(strength, units)]
    shear, pull = f"{100 * strength.shear:.1f} %", f"{100 * strength.normal:.1f} %"
    rows.append(("glue plane", f"{shear} of the wood's stress along the grain as shear, {pull} as pull"))
    if strength.test is not None:
        test = strength.test
        proof = f"{fig.weight(test.proof_reads)} on a scale under one support, sag {say.rule(test.sag.mean)}"
        rows.append(("bend test", f"sample {say(test.beam.width)} wide, span {say(test.beam.span)}: holds {proof}"))
    wanted = {"Spread", "Pressure", "Each clamp", "Yours give", "Clamps"}
    rows += [(name.lower(), text) for name, text in amount_rows(craft.gluing, units) if name in wanted]
    if craft.planing is not None:
        plane_off = say(craft.planing.each)
        rows.append(
            ("planing", f"{plane_off} off each face, glue line then {say(craft.planing.run)} from face to face")
        )
    if strength.wood is not None:
        rows.append(("note", NOT_DESIGN))
    return rows


def bend_lines(one: Member, units: Unit) -> list[tuple[str, str]]:
    """Label and text of a bent member, with what to do."""
    rows = [] if one.bend is None else [(name.lower(), text) for name, text in bend_rows(one.bend, units)]
    told = bend_advice(one, units)
    if one.bend is not None:
        told.append(NOT_DESIGN)
    return [*rows, ("what to do", " ".join(told))]
