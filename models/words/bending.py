"""Bending in words: what a curve asks of the wood, where joints may stand, laminations."""

from __future__ import annotations

from scarfwright.models.bending.laminations import LEAST_HARDWOOD, LEAST_SOFTWOOD, Laminations
from scarfwright.models.bending.use import Bend
from scarfwright.models.say import say_in
from scarfwright.models.units import Unit
from scarfwright.models.words.figures import Figures, percent


def stretches(found: tuple[tuple[float, float], ...], units: Unit) -> str:
    """ "0 mm to 812 mm, 1500 mm to 2400 mm", or "nowhere"; inwards to the rule's marks."""
    say = say_in(units)
    return ", ".join(f"{say.up(low)} to {say.down(high)}" for low, high in found) or "nowhere"


def bend_rows(bend: Bend, units: Unit) -> list[tuple[str, str]]:
    """Label and figure of one bent member."""
    say, fig = say_in(units), Figures(units)
    sharpest, at = bend.curve.sharpest
    radius = "straight" if sharpest <= 0 else f"radius {say(1 / sharpest)}, {say(at)} along the curve"
    return [
        ("Wood", f"{bend.wood.name}: rupture {fig.stress(bend.wood.rupture)}, modulus {fig.stress(bend.wood.modulus)}"),
        ("Sharpest", radius),
        ("Stress there", f"{fig.stress(bend.stress)} at the faces, {say(bend.depth)} deep in the bend"),
        (
            "Use",
            f"{percent(max(bend.use))} of the wood's strength, {percent(max(bend.use_joint))} in a joint, factor "
            f"{bend.factor:g} in",
        ),
        ("Least radius", f"{say.up(bend.least_radius)} in plain wood, {say.up(bend.least_radius_joint)} in a joint"),
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
