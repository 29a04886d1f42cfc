"""What is said of the end of the cut: the ways to end it, the travel limit, the lip, the offcut, stop block, start.

What is said of risks is common practice, no source, and never replaces the saw maker's manual.
"""

from __future__ import annotations

from scarfwright.models.cut.endings import Bound, Ending, Offcut, Start, StopBlock, TravelAdvice
from scarfwright.models.lengths.say import Say

NAMES = {"hold": "hold", "run_on": "run on", "draw_back": "draw back"}
HOW = {
    "hold": "against the stop block, hold the sled down, switch off by knee or helper, wait until the blade stands",
    "run_on": "push on in one go until the blade is clear of the taper, then switch off and wait until it stands",
    "draw_back": "with the taper complete, draw the sled straight back out of the running blade, against the fence",
}
RISKS = {
    "hold": "Risk: the blade runs down beside the finished face; a sled that moves or lifts meanwhile is marked or "
    "thrown, so both hands stay on it, behind the line, and the switch is knocked by knee or by a helper.",
    "run_on": "Risk: the sled travels far past the blade and its clamps come nearest to it; whatever is pushed too "
    "far brings a clamp into the teeth.",
    "draw_back": "Risk: KICKBACK. The rising teeth at the back of the blade run towards the operator along the "
    "finished face; the least twist or a dropped offcut in the way lets them throw sled and work. Last choice.",
}


def why(ending: Ending, say: Say) -> str:
    """Whether an ending is possible, what comes into its way, and what it needs."""
    return (
        f"{_possible(ending, say)} It takes, at this slope, a heel station of {say.up(ending.least_station)}"
        f" or more and a sled of {say.up(ending.least_length)} or more."
    )


def _possible(ending: Ending, say: Say) -> str:
    first, travel = ending.first, ending.travel
    if first is None:
        return f"Possible: it ends at a travel of {say(travel)}, and nothing ever comes into the way."
    if ending.possible:
        return (
            f"Possible: it ends at a travel of {say(travel)}, and the first to be in the way, {bound(first, say)}, "
            f"meets the {first.meets} {say.down(first.travel - travel)} later."
        )
    told = "; ".join(f"{bound(b, say)} meets the {b.meets} at {say.down(b.travel)}" for b in ending.lacks)
    return (
        f"Not with these clamps: it ends at a travel of {say(travel)} and wants {say.up(ending.needed)} free, but "
        f"{told}."
    )


def bound(one: Bound, say: Say) -> str:
    """What limits the travel, by name."""
    if one.station is None:
        return "the board's tail" + ("" if one.sure else ", if it is long enough,")
    return f"the {one.where.replace('_', ' ')} clamp at {say(one.station)}"


def limit(advice: TravelAdvice, say: Say) -> str:
    """The travel limit and what sets it."""
    if not advice.bounds:
        return "Nothing limits the travel."
    first = advice.bounds[0]
    return f"Travel limit {say.down(first.travel)}: there {bound(first, say)} meets the {first.meets}."


def go_on(advice: TravelAdvice, say: Say) -> str:
    """How far to push after the offcut drops."""
    return (
        f"When the offcut drops the cut is not done: go on by {say.up(advice.go_on)}. Until then a lip up to "
        f"{say(advice.lip)} thick stands on the work, and the joint cannot close on it."
    )


def offcut(piece: Offcut, say: Say) -> str:
    """The wedge that falls, and to leave it."""
    if piece.thick <= 0:
        return "There is no offcut: the kerf is as wide as the work is thick."
    return (
        f"The offcut, a wedge {say(piece.length)} long and {say(piece.thick)} thick at its heel end, falls on the "
        f"{piece.side}, the free side of the blade, never between blade and fence. Keep that side clear, and leave it "
        "where it fell until the blade stands: never reach for it, never push it with a hand."
    )


def stop_block(stop: StopBlock, heel: float, say: Say) -> str:
    """Where the stop block is clamped; `heel` is the sled's width there [mm]."""
    text = (
        f"Stop block clamped to the fence, on its blade side and clear of the blade, its near face "
        f"{say(stop.from_front)} from the table's front edge ({say(stop.from_axis)} past the blade's axis): the sled's "
        f"heel end runs against it. Make it narrower than the heel ({say(heel)}) and chamfer its lower edge: sawdust "
        "must not hold the sled off."
    )
    if not stop.on_table:
        text += (
            f" That is {say(stop.past_table)} past the table's back edge: it needs an outfeed table and a "
            "fence that reaches so far."
        )
    if stop.cleat is not None:
        text += (
            f" Or, without infeed table in its way, a cleat under the sled {say(stop.cleat)} from the heel that meets "
            "the table's front edge."
        )
    return text


def start(place: Start, say: Say) -> str:
    """Where the heel stands when the blade runs up."""
    return (
        f"Start with the heel {say.down(place.from_front)} inside the table's front edge, {say.up(-place.travel)} "
        "before the blade's axis, the blade at full speed and touching nothing."
    )
