"""The glue-up in words: amounts, order of work, squeeze-out, cautions."""

from __future__ import annotations

import math

from scarfwright.models.adhesives.kinds import AdhesiveKind
from scarfwright.models.gluing.amounts import Asked
from scarfwright.models.gluing.plan import GluePlan
from scarfwright.models.lengths.drawn import drawn_in
from scarfwright.models.lengths.length import Unit
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence
from scarfwright.models.words.the_joint.figures import Figures, duration

MAKER_FIRST = "The adhesive maker's instructions come before every figure here."
FINGER_ROOM = 25.0  # under a clamp when the work stands on edge; common practice, no source


def amount_rows(plan: GluePlan, units: Unit) -> list[tuple[str, str]]:
    """Label and figure: glue, pressure, clamps, warmth, moisture, times."""
    fig, asked, amounts = Figures(units), plan.asked, plan.amounts
    rows = [("Glue", _kind(asked))]
    spread = asked.spread_range
    if amounts.mass is not None and spread is not None:
        told = f"{fig.mass_range(*amounts.mass)} for both faces together ({fig.spread_range(*spread)} of joint)"
        rows.append(("Spread", told))
    rows += _pressing(plan, fig)
    each, close = len(plan.places.clamps), drawn_in(units).rule_up(plan.lay.opening)
    rows.append(("Clamps", f"{2 * each}, {each} on each long edge, closing on {close}"))
    if asked.kind is not None:
        rows.append(("Warmth", f"{fig.warmth(asked.kind.temperature)} or more until it has set, wood and glue alike"))
        rows.append(
            ("Moisture", f"wood at {asked.kind.moisture[0]:g} to {asked.kind.moisture[1]:g} %, both boards alike")
        )
    rows.append(("Open time", _open(plan)))
    left = "as the maker says" if asked.clamp_time is None else f"{duration(asked.clamp_time)} or as the maker says"
    rows.append(("In clamps", left))
    return rows


def _kind(asked: Asked) -> str:
    if asked.kind is None:
        return "of your choice; name its kind in the job for figures"
    memory = "; some figures here are from memory" if "from memory" in asked.kind.status else ""
    return f"{asked.kind.name}; the maker's instructions come first{memory}"


def _open(plan: GluePlan) -> str:
    needed = f"about {duration(plan.amounts.time_needed)} to spread and clamp (common practice, no source)"
    if plan.asked.open_time is None:
        return f"see the maker's; {needed}"
    return f"{duration(plan.asked.open_time)}; {needed}"


def _pressing(plan: GluePlan, fig: Figures) -> list[tuple[str, str]]:
    asked, amounts = plan.asked, plan.amounts
    wanted = asked.pressure_range
    rows = []
    if wanted is not None:
        rows.append(("Pressure", fig.stress_range(*wanted)))
        low, high = amounts.force_each or (0.0, 0.0)
        if wanted[0] > 0:
            rows.append(("Each clamp", f"{fig.force_up(low)} or more, with {amounts.used} clamps"))
        elif high > 0:
            rows.append(("Each clamp", f"{fig.force_down(high)} at most, with {amounts.used} clamps"))
    if amounts.given is not None and asked.force is not None:
        rows.append(("Yours give", f"{amounts.used} x {fig.force(asked.force)} = {fig.stress(amounts.given)}"))
    return rows


def lay_words(plan: GluePlan, units: Unit) -> str:
    """How the work lies, in a sentence or two."""
    say, between = drawn_in(units), plan.lay.between
    if plan.lay.way == "flat":
        return (
            f"Lay the boards flat on risers {say.rule_up(plan.places.riser_height)} high. Put a strip of scrap about "
            f"{say(between)} thick, wrapped in tape that glue lets go of, under both rows of pads, over the whole "
            "joint."
        )
    blocks = say.rule_up(plan.clamp.pad_height + plan.clamp.jaw_outer + FINGER_ROOM)
    return (
        f"The clamps' throat ({say(plan.clamp.throat)}) does not reach the middle of a board {say(plan.joint.height)} "
        f"high. Stand the boards on edge on blocks {blocks} high. At each station stand a pair of battens, "
        f"{say(plan.lay.batten)} long, {say(between)} thick and a pad wide, one on each face, and set one clamp on "
        "their upper ends and one on their lower ends."
    )


def order_of_gluing(plan: GluePlan, units: Unit) -> list[str]:
    """The order of work, one act a step."""
    say, fig, amounts = drawn_in(units), Figures(units), plan.amounts
    joint, middle = plan.joint, plan.places.clamps[len(plan.places.clamps) // 2]
    thicker = 1.0 if units == "mm" else 25.4 / 32
    glue = "" if amounts.mass is None else f": {fig.mass_range(*amounts.mass)} in all"
    return [
        "Fit it dry with every clamp. Look for light along the glue line from both edges; mend the cut, not the glue.",
        f"Mark the overlap: square a line over both boards at each tip, {say(joint.overlap)} apart, and check marks "
        "across the joint.",
        f"Measure the thickness over the joint with callipers: {say(joint.thickness)}. Boards slid "
        f"{say(joint.ratio * thicker)} together are {say(thicker)} thicker.",
        "Stop it from sliding: two thin pins through each tip into the mate, heads left proud, or a block against "
        "each board's far end.",
        f"Spread glue on both faces{glue}. Wet every part of the tips.",
        "Lay together, bring the marks in line, push the pins in.",
        "Sight along face and edge: one straight line. Align now, not after clamping.",
        f"Clamp: one lightly near the middle ({say.rule(middle)} from the first tip), then one at each tip, then the "
        "rest, an edge in turn. Tighten in two rounds.",
        "Sight again, and look at the marks. If it slid, loosen, bring it back, tighten.",
        "Look at the squeeze-out: small beads all along both edges are right. A dry stretch: open it, spread more, "
        "close again within the open time. A flood: less glue next time, not less pressure.",
        "Pull the pins before the glue is hard. Leave it alone until the clamp time is over; load it only when cured.",
    ]


_BY_KIND = {
    "isocyanate": "ISOCYANATE in this glue can sensitise lungs and skin for life: gloves, eyes covered, air moving. "
    "Never heat or sand it before it is cured.",
    "epoxy": "EPOXY sensitises skin for life: gloves that resist it, long sleeves, no solvent on skin. A pot of "
    "mixed epoxy heats up: mix small, spread at once.",
    "formaldehyde": "FORMALDEHYDE comes off this glue: work in moving air, gloves on. Its hardener dust must not be "
    "breathed.",
}


def gluing_cautions(kind: AdhesiveKind | None) -> list[str]:
    """What can hurt while gluing, what the kind adds."""
    own = [] if kind is None or not kind.gives_off else [_BY_KIND[kind.gives_off]]
    return [
        *own,
        "Wear gloves and eye protection; keep the air moving; keep flames away from solvents.",
        "Scrape hardened glue; its edges cut like glass. Sand only cured glue, with a dust mask and dust drawn off.",
        MAKER_FIRST,
    ]


def _too_few_clamps(say: Say, *, count: float, needed: float, overlap_mm: float) -> str:
    return (
        f"{count:g} clamps do not press the whole joint of {say(overlap_mm)}: with these pads {needed:g} are needed, "
        f"half on each long edge. Borrow clamps until there are {needed:g}, or glue with wider pads."
    )


def _clamps_too_small(say: Say, *, opening_mm: float, needed_mm: float, between_mm: float, way: str) -> str:
    pair = "two strips of scrap" if way == "flat" else "two battens, for the throat does not reach the middle"
    return (
        f"To glue up, a clamp closes on {say.up(needed_mm)}: the board and {pair}, {say(between_mm)} thick each. Yours "
        f"open {say(opening_mm)}. Use clamps that open {say.up(needed_mm)} or more for gluing."
    )


def _pressure_facts(say: Say, count: float, force_n: float, given_mpa: float) -> str:
    fig = Figures(say.units)
    return f"{count:g} clamps of {fig.force(force_n)} press this joint with {fig.stress(given_mpa)}"


def _pressure_low(
    say: Say,
    *,
    count: float,
    force_n: float,
    given_mpa: float,
    least_mpa: float,
    most_mpa: float,
    kind: str,
    needed_n: float,
    room: float,
) -> str:
    fig = Figures(say.units)
    more = 2 * math.ceil(count * needed_n / force_n / 2 - 1e-9)  # as many on each edge
    of_yours = f", or {more} of yours" if more <= room else f" ({room:g} of yours, side by side, are not enough)"
    return (
        f"{_pressure_facts(say, count, force_n, given_mpa)}; {kind} needs {fig.stress_range(least_mpa, most_mpa)}. Use "
        f"clamps that give {fig.force_up(needed_n)} each{of_yours}. The adhesive maker's figure comes first."
    )


def _pressure_high(
    say: Say,
    *,
    count: float,
    force_n: float,
    given_mpa: float,
    least_mpa: float,
    most_mpa: float,
    kind: str,
    needed_n: float,
) -> str:
    fig = Figures(say.units)
    return (
        f"{_pressure_facts(say, count, force_n, given_mpa)}; {kind} needs {fig.stress_range(least_mpa, most_mpa)}, and "
        f"more squeezes the glue out. Tighten each to {fig.force_down(needed_n)} or less. The adhesive maker's figure "
        "comes first."
    )


def _open_time_short(_say: Say, *, open_time_min: float, needed_min: float) -> str:
    return (
        f"Spreading and setting the clamps lasts about {duration(math.ceil(needed_min))} (common practice, no source), "
        f"longer than the glue's open time of {duration(open_time_min)}. Have a helper set clamps, or take a glue with "
        f"an open time of {duration(math.ceil(needed_min))} or more."
    )


SENTENCES: dict[str, Sentence] = {
    "gluing.too_few_clamps": _too_few_clamps,
    "gluing.clamps_too_small": _clamps_too_small,
    "gluing.pressure_low": _pressure_low,
    "gluing.pressure_high": _pressure_high,
    "gluing.open_time_short": _open_time_short,
}
