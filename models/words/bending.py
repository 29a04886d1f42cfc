"""Bending in words: what a curve asks of the wood, where joints may stand, laminations."""

from __future__ import annotations

import math

from scarfwright.models.bending.laminations import LEAST_HARDWOOD, LEAST_SOFTWOOD, Laminations, laminate
from scarfwright.models.bending.use import Bend
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.figures import Figures, percent


def stretches(found: tuple[tuple[float, float], ...], units: Unit) -> str:
    """ "0 mm to 812 mm, 1500 mm to 2400 mm", or "nowhere"; inwards to the rule's marks."""
    fig = Figures(units)
    return ", ".join(f"{fig.over(low)} to {fig.under(high)}" for low, high in found) or "nowhere"


def bend_rows(bend: Bend, units: Unit) -> list[tuple[str, str]]:
    """Label and figure of one bent member."""
    say, fig = say_in(units), Figures(units)
    sharpest, at = bend.curve.sharpest
    radius = "straight" if sharpest <= 0 else f"radius {fig.near(1 / sharpest)}, {fig.near(at)} along the curve"
    return [
        ("Wood", f"{bend.wood.name}: rupture {fig.stress(bend.wood.rupture)}, modulus {fig.stress(bend.wood.modulus)}"),
        ("Sharpest", radius),
        ("Stress there", f"{fig.stress(bend.stress)} at the faces, {say(bend.depth)} deep in the bend"),
        (
            "Use",
            f"{percent(max(bend.use))} of the wood's strength, {percent(max(bend.use_joint))} in a joint, factor "
            f"{bend.factor:g} in",
        ),
        (
            "Least radius",
            f"{fig.over(bend.least_radius)} in plain wood, {fig.over(bend.least_radius_joint)} in a joint",
        ),
        ("Joints may stand", stretches(bend.allowed, units)),
    ]


def lamination_words(found: Laminations, units: Unit, hardwood: bool) -> str:
    """What to glue up instead of a solid stick."""
    say = say_in(units)
    limit = LEAST_HARDWOOD if hardwood else LEAST_SOFTWOOD
    tight = ", which is tight" if found.tight else ""
    return (
        f"Glue it up bent from {found.count} laminations {say.down(found.thickness)} thick: radius "
        f"{found.radius_to_thickness:.0f} "
        f"times the thickness{tight} (at least {limit:.0f}); that leaves {percent(found.factor)} of the strength "
        "(National Design Specification 5.3.8; its limit is from memory)."
    )


def bend_advice(bend: Bend, units: Unit) -> list[str]:
    """What to do about this member: where to put joints, or how thin to make laminations."""
    radius = 1 / bend.curve.sharpest[0] if bend.curve.sharpest[0] > 0 else math.inf
    if max(bend.use) > 1:
        found = laminate(bend.depth, bend.wood, radius, bend.factor, bend.share)
        told = lamination_words(found, units, bend.wood.kind == "hardwood")
        return ["A solid stick is overstrained here and may break.", told]
    if max(bend.use_joint) <= 1:
        return ["A joint may stand anywhere along it. Keep joints out of the sharpest part where there is a choice."]
    if bend.allowed:
        return [f"Put joints wholly inside {stretches(bend.allowed, units)}, measured along the curve; nowhere else."]
    found = laminate(bend.depth, bend.wood, radius, bend.factor, bend.share)
    return [
        "No joint fits in a stretch where it is strong enough: use one board without a joint, or laminations.",
        lamination_words(found, units, bend.wood.kind == "hardwood"),
    ]


BEND_CAUTION = (
    "A bent stick that breaks or slips flies: bend it slowly, two people, fastened at one end, nobody in its plane, "
    "eyes "
    "protected."
)
