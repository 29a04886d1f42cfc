"""Bending in words: what a curve asks of the wood, where joints may stand, laminations."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.bending.laminations import LEAST_HARDWOOD, LEAST_SOFTWOOD, Laminations
from scarfwright.models.bending.members import Member
from scarfwright.models.bending.use import Bend
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit, round_up
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence
from scarfwright.models.words.the_joint.figures import Figures, percent
from scarfwright.models.words.the_joint.strength import NOT_DESIGN


def stretches(found: Sequence[tuple[float, float]], say: Say) -> str:
    """ "0 mm to 812 mm, 1500 mm to 2400 mm", or "nowhere"; inwards to a rule's marks."""
    mark = Figures(say.units).coarse
    return ", ".join(f"{say(round_up(low, mark))} to {say(-round_up(-high, mark))}" for low, high in found) or "nowhere"


def bend_rows(bend: Bend, units: Unit) -> list[tuple[str, str]]:
    """Label and figure of one bent member."""
    say, fig = drawn_in(units), Figures(units)
    sharpest, at = bend.curve.sharpest
    radius = "straight" if sharpest <= 0 else f"radius {say.rule(1 / sharpest)}, {say.rule(at)} along the curve"
    joint, least = bend.most_joint, say.rule_up(bend.least_radius)
    in_joint = "" if joint is None else f", {percent(joint)} in a joint"
    also = "" if bend.least_radius_joint is None else f", {say.rule_up(bend.least_radius_joint)} in a joint"
    return [
        ("Wood", f"{bend.wood.name}: rupture {fig.stress(bend.wood.rupture)}, modulus {fig.stress(bend.wood.modulus)}"),
        ("Sharpest", radius),
        ("Stress there", f"{fig.stress(bend.stress)} at the faces, {say(bend.depth)} deep in the bend"),
        ("Use", f"{percent(bend.most)} of the wood's strength{in_joint}, with a factor of {bend.factor:g} in it"),
        ("Least radius", f"{least} in plain wood{also}"),
        ("Joints may stand", stretches(bend.allowed, drawn_in(units))),
    ]


def lamination_words(found: Laminations, units: Unit, hardwood: bool) -> str:
    """What to glue up instead of a solid stick."""
    say = drawn_in(units)
    limit = LEAST_HARDWOOD if hardwood else LEAST_SOFTWOOD
    tight = ", which is tight" if found.tight else ""
    return (
        f"Glue it up bent from {found.count} laminations {say.down(found.thickness)} thick: the radius is then "
        f"{found.radius_to_thickness:.0f} times the thickness{tight} (at least {limit:.0f}), which leaves "
        f"{percent(found.factor)} of the strength (National Design Specification 5.3.8; its limit is from memory)."
    )


def bend_advice(member: Member, units: Unit) -> list[str]:
    """What to do about this member: where to put joints, or how thin to make laminations."""
    bend, found = member.bend, member.laminations
    if bend is None:
        return ["No figures for this wood: name a wood of the table, or give its modulus and rupture."]
    told = [] if found is None else [lamination_words(found, units, bend.wood.kind == "hardwood")]
    if bend.most > 1:
        return [f"A solid stick is bent further here than a factor of {bend.factor:g} allows.", *told]
    if bend.most_joint is None:
        return ["No strength is known for a joint this steep: keep joints out of it."]
    if not bend.allowed:
        return ["No stretch for a joint is easy enough: use one board without a joint, or laminations.", *told]
    if bend.most_joint <= 1:
        return ["A joint may stand anywhere along it. Keep joints out of the sharpest part where there is a choice."]
    places = stretches(bend.allowed, drawn_in(units))
    return [f"Put joints wholly inside {places}, measured along the curve; nowhere else."]


BEND_CAUTION = (
    "A bent stick that breaks or slips flies: bend it slowly, two people, fastened at one end, nobody in its plane, "
    "eyes "
    "protected."
)


def _curve_short(say: Say, *, name: str, length_mm: float, curve_mm: float) -> str:
    return (
        f"The curve of {name} is {say(curve_mm)} long, the blank {say(length_mm)}: nothing is known of the last "
        f"{say(length_mm - curve_mm)}. Add offsets up to its end, or make the blank {say.down(curve_mm)} long."
    )


def _blank_short(say: Say, *, name: str, length_mm: float, curve_mm: float) -> str:
    return (
        f"{name} ends {say(curve_mm - length_mm)} before its last offset: its curve is {say.down(curve_mm)} long, "
        f"measured along the wood, the blank {say(length_mm)}. Make the blank {say.down(curve_mm)} long, or leave out "
        "offsets past its end."
    )


def _offsets_coarse(_say: Say, *, name: str, off_percent: float) -> str:
    return (
        f"The offsets of {name} stand too close for how coarsely they were read: their rounding alone puts the "
        "curvature out "
        f"by {off_percent:.0f} %. Leave out every other one, or read them finer off a fair batten."
    )


def _ends_loose(_say: Say, *, name: str, off_percent: float) -> str:
    return (
        f"The offsets of {name} stand too far apart for its bends: the curvature at its ends may be out by "
        f"{off_percent:.0f} "
        "% of the greatest. Take offsets half as far apart."
    )


def _overstrained(say: Say, *, name: str, count: float | None, lamination_mm: float | None, **told: float) -> str:
    fig = Figures(say.units)
    bent = (
        ""
        if count is None or lamination_mm is None
        else f"of {count:g} laminations {say.down(lamination_mm)} thick, glued up bent, or "
    )
    return (
        f"{name} is bent to a radius of {fig.near(told['radius_mm'])}: {fig.stress(told['stress_mpa'])} at its faces, "
        f"{told['use_percent']:.0f} % of what the wood bears on average ({fig.stress(told['rupture_mpa'])}) with a "
        "factor "
        f"of {told['factor']:g} in it. Make it {bent}at most {say.down(told['depth_mm'])} deep in the bend, or ease "
        "the "
        f"curve to a radius of {fig.over(told['least_mm'])} or more. {NOT_DESIGN}"
    )


def _joint_unknown(_say: Say, *, name: str) -> str:
    return (
        f"{name} is bent, and no strength is known for a joint steeper than 5:1. Take a slope of 12:1, or keep "
        "joints out of "
        "it."
    )


def _no_joint(say: Say, *, name: str, joint_mm: float, use_percent: float, depth_mm: float) -> str:
    return (
        f"No stretch of {name} long enough for a joint of {say(joint_mm)} is bent easily enough: a joint would bear "
        f"{use_percent:.0f} % of its strength. Make it of one board, of laminations, or at most {say.down(depth_mm)} "
        "deep in "
        f"the bend. {NOT_DESIGN}"
    )


def _joint_places(say: Say, *, name: str, use_percent: float, allowed_mm: str) -> str:
    pairs = [tuple(map(float, pair.split())) for pair in allowed_mm.split("; ")]
    return (
        f"Joints of {name} may stand only inside {stretches([(low, high) for low, high in pairs], say)}, along "
        "the "
        f"curve; in its sharpest part a joint would bear {use_percent:.0f} % of its strength. {NOT_DESIGN}"
    )


SENTENCES: dict[str, Sentence] = {
    "bending.blank_short": _blank_short,
    "bending.curve_short": _curve_short,
    "bending.offsets_coarse": _offsets_coarse,
    "bending.ends_loose": _ends_loose,
    "bending.overstrained": _overstrained,
    "bending.joint_unknown": _joint_unknown,
    "bending.no_joint": _no_joint,
    "bending.joint_places": _joint_places,
}
