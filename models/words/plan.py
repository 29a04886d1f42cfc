"""What is said about boards, blanks and the plan."""

from __future__ import annotations

from collections.abc import Iterable

from scarfwright.models.findings import Finding, Level
from scarfwright.models.job.tables import Limits
from scarfwright.models.lengths.say import Say
from scarfwright.models.plan.data import Cut, JointPlace, Plan, Remedy, Request, Row
from scarfwright.models.words.sentence import Sentence

CAUTIONS = (
    "Sawing can maim: the saw maker's manual, local rules and competent instruction come before this plan.",
    "Grading, class rules and licensed practice decide what wood may carry.",
    "Look at every board before you cut: a defect that is not in the job is not in the plan.",
)


def twists_add(limits: Limits, request: Request, plan: Plan) -> str | None:
    """That a twist is held against fewer joints than a blank of the plan has, or nothing."""
    return None if limits.twist is None else joints_of_a_blank(request, plan, limits.joints)


def needs_care(found: Iterable[Finding]) -> list[Finding]:
    """What a plan says beside its cuts: the cautions about boards, blanks and their bends."""
    return [f for f in found if f.level is Level.CAUTION and f.code.split(".")[0] in ("plan", "bending")]


def _no_blanks(_: Say, *, boards: float) -> str:
    return (
        f"There are {boards:.0f} boards and nothing to make of them. Add a [[blank]] with a length, "
        "or leave [[board]] out."
    )


def _no_board(_: Say, **_numbers: str | None) -> str:
    return "No board is thick and wide enough for the stick. Add one, or make [stock] thickness or height smaller."


def _does_not_fit(
    say: Say, *, name: str, width_mm: float, thickness_mm: float, height_mm: float, stock_thickness_mm: float
) -> str:
    return (
        f"{name} is {say(thickness_mm)} thick and {say(width_mm)} wide; the stick needs "
        f"{say.up(stock_thickness_mm)} and {say.up(height_mm)}. "
        "It is left out of the plan: take it off the list."
    )


def _defect_outside(say: Say, *, name: str, from_mm: float, to_mm: float, length_mm: float) -> str:
    return (
        f"{name}: a defect from {say(from_mm)} to {say(to_mm)} is not on the board, which is {say(length_mm)} long. "
        f"Measure it again; end it at {say.down(length_mm)} or before."
    )


def _defects_overlap(say: Say, *, name: str, from_mm: float, to_mm: float) -> str:
    return f"{name}: two defects overlap from {say(from_mm)} to {say(to_mm)}. Write them as one."


def _blank_short(say: Say, *, name: str, length_mm: float, overlap_mm: float) -> str:
    return (
        f"{name} is {say(length_mm)} long, shorter than one overlap of {say(overlap_mm)}. "
        f"Make it {say.up(overlap_mm)} or longer, or leave it out."
    )


def _zone_outside(say: Say, *, name: str, from_mm: float, to_mm: float, length_mm: float) -> str:
    return (
        f"{name}: the stretch to keep clear from {say(from_mm)} to {say(to_mm)} reaches past the blank, which is "
        f"{say(length_mm)} long. End it at {say.down(length_mm)}."
    )


def _members(say: Say, *, name: str, height_mm: float, lost_mm: float) -> str:
    return (
        f"{name}: the saw cuts between its members lose {say(lost_mm)}, and it is {say(height_mm)} high: nothing is "
        "left. Ask for fewer members, or a narrower rip_kerf."
    )


def _mirrored_odd(_: Say, *, name: str, count: float) -> str:
    return f"{name}: {count:.0f} mirrored blanks leave one without its pair. Make the count {count + 1:.0f}."


def _too_many(_: Say, *, name: str | None, count: float, most: float) -> str:
    del name
    return f"{count:.0f} are more than can be planned at once ({most:.0f}). Plan them in parts."


def _mark_fine(say: Say, *, name: str, length_mm: float, mark_mm: float) -> str:
    return f"{name}: {say(length_mm)} in marks of {say.fine(mark_mm)} is finer than any saw. Make mark 0.1 mm or more."


SENTENCES: dict[str, Sentence] = {
    "plan.blank_short": _blank_short,
    "plan.defect_outside": _defect_outside,
    "plan.defects_overlap": _defects_overlap,
    "plan.does_not_fit": _does_not_fit,
    "plan.mark_fine": _mark_fine,
    "plan.members": _members,
    "plan.mirrored_odd": _mirrored_odd,
    "plan.no_blanks": _no_blanks,
    "plan.no_board": _no_board,
    "plan.too_many_blanks": _too_many,
    "plan.too_many_boards": _too_many,
    "plan.zone_outside": _zone_outside,
}


# -- the plan itself ----------------------------------------------------------------------------------------


def verdict(plan: Plan) -> str:
    """What has come out, in a line."""
    if plan.verdict == "made":
        return "Every blank is made."
    missing = f"{len(plan.missing)} of {len(plan.missing) + len(plan.blanks)} blanks are not made"
    if plan.verdict == "impossible":
        how = "a count shows it" if plan.impossible == "count" else "all ways were ruled out"
        return f"Impossible with these boards ({how}). {missing} in the best plan so far."
    return f"Not found in the time; a plan may exist. {missing} in the best plan so far."


def joints_line(plan: Plan) -> str:
    """How sure the number of joints is."""
    told = _many(plan.joints, "joint")
    if plan.verdict != "made":
        return f"{told} in the blanks that are made."
    if plan.joints_proved == "count":
        return f"{told}: the fewest there can be, proved by count."
    if plan.joints_proved == "search":
        return f"{told}: the fewest there can be, proved by search (fewer were ruled out one by one)."
    over = plan.joints - (plan.bound_joints or 0)
    return f"{told}: at most {over} too many (no plan has fewer than {plan.bound_joints})."


def wood_line(say: Say, plan: Plan) -> str:
    """How sure the wood or the price is."""
    told = f"{_many(plan.boards_used, 'board')} cut into; {say(float(plan.consumed))} of wood used up"
    if plan.price is not None:
        told += f", price {float(plan.price):.2f}"
    if plan.verdict != "made":
        return told + "."
    what = "price" if plan.price is not None and plan.bound_price is not None else "wood"
    if plan.wood_proved:
        return f"{told}: the least {what} at {_many(plan.joints, 'joint')}, proved by {plan.wood_proved}."
    if what == "price":
        return f"{told}: at most {float((plan.price or 0) - (plan.bound_price or 0)):.2f} too dear."
    assert plan.bound_consumed is not None
    over = float(plan.consumed - plan.bound_consumed)
    return f"{told}: at most {say.up(over)} ({100 * over / float(plan.bound_consumed):.1f} %) too much."


def row_line(say: Say, request: Request, plan: Plan) -> str:
    """The count behind a proof, for people to check."""
    row = plan.bound_row
    if row is None:
        return "One piece a blank is the fewest there can be."
    names = ", ".join(_blank_name(request, b) for b in row.blanks)
    if row.kind == "alone":
        if row.pieces is None:
            return f"{names} can't be made even from all the boards: no row of pieces keeps its joints in place."
        return f"Each blank taken alone already needs its pieces, {row.pieces} in all."
    if row.kind == "side by side":
        return (
            f"Side by side, with their joints apart, {names} need {float(row.need or 0):.0f} pieces by themselves "
            f"(fewer were ruled out one by one); with the other blanks, each taken alone, {row.pieces} in all."
        )
    return _count(say, row)


def _count(say: Say, row: Row) -> str:
    tau, have, need = float(row.tau or 0), float(row.have or 0), float(row.need or 0)
    fewer = "any number of pieces" if row.pieces is None else f"{_many(row.pieces - 1, 'piece')} or fewer"
    if row.kind == "length" and tau <= 0:
        return (
            f"The blanks with their overlaps and saw cuts need at least {say(need)} of wood; "
            f"the clear stretches hold {say(have)}."
        )
    if row.kind == "length":
        return (
            f"Count of every clear stretch only what it has over {say(tau)}: {say(have)} in all. "
            f"With {fewer} the blanks need at least {say(need)} over it."
        )
    if row.kind == "pieces":
        return (
            f"With {fewer} at least {need:.0f} of them are longer than {say(tau)}; "
            f"the boards give at most {have:.0f} such."
        )
    return (
        f"With {fewer} at least {need:.0f} lie between two joints and are {say(tau)} or longer; "
        f"the boards give at most {have:.0f} such."
    )


def remedy_line(say: Say, request: Request, remedy: Remedy) -> str:
    """One way out, tried: with it every blank is made."""
    if remedy.kind == "buy":
        bought = " and ".join(f"{many} x {say(float(request.buy[k].length))}" for k, many in remedy.boards)
        price = "" if remedy.price is None else f", price {float(remedy.price):.2f}"
        sure = " (no fewer would do)" if remedy.fewest and remedy.price is None else ""
        sure = " (nothing cheaper would do)" if remedy.fewest and remedy.price is not None else sure
        return f"Buy {bought}{price}{sure}."
    name = "" if remedy.blank is None else _blank_name(request, remedy.blank, remedy.copy)
    if remedy.kind == "without":
        return f"Leave {name} out: all others are made."
    if remedy.kind == "opposite":
        return "Let joints of a pair lie opposite each other: mirrored = false."
    if remedy.kind == "beside":
        return "Let joints of a group lie beside each other: take group and stagger out."
    value, was = float(remedy.value or 0), float(remedy.was or 0)
    if remedy.kind == "spacing":
        return f"Let joints stand nearer: spacing {value:g} instead of {was:g} overlaps."
    if remedy.kind == "length":
        return f"Make {name} {say.down(value)} long instead of {say(was)}."
    if remedy.kind == "allowance":
        return f"Allow {say.down(value)} at each end instead of {say(was)}."
    return f"Shorten the overlap to {say.down(value)} from {say(was)}, by a steeper slope where strength permits."


def spare_line(say: Say, where: str, cut: Cut) -> str:
    """Where the length for the test joint comes from; `where`: the board's name."""
    return f"{where}, {say(float(cut.start))} to {say(float(cut.end))}"


def joint_line(say: Say, joint: JointPlace) -> str:
    """Where a joint lies, and what the bend asks of it there."""
    used = "" if joint.use is None else f" (bend uses {100 * joint.use:.0f} %)"
    return f"{say(float(joint.station))}{used}"


def joints_of_a_blank(request: Request, plan: Plan, counted: int) -> str | None:
    """Where twist is judged over fewer joints than a blank has; `counted`: [limits] joints of the job."""
    most = max(plan.blanks, key=lambda b: len(b.joints), default=None)
    if most is None or len(most.joints) <= counted:
        return None
    many, name = len(most.joints), _blank_name(request, most.blank, most.copy)
    return (
        f"{name} has {_many(many, 'joint')}, whose twists add; its limit is held against {counted}. Set [limits] "
        f"joints = {many}."
    )


def why_missing(why: str) -> str:
    """Why a blank is not made."""
    if why == "alone":
        return "no row of pieces from these boards keeps its joints in place"
    return "nothing that is left serves with its joints where they may lie"


def _blank_name(request: Request, blank: int, copy: int | None = None) -> str:
    one = request.blanks[blank]
    return f"{one.name} no. {copy}" if copy is not None and one.count > 1 else one.name


def _many(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"
