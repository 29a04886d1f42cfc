"""What is said of the end of the cut: the ways to end it, the travel limit, the lip, the offcut, stop block, start.

What is said of risks is common practice, no source, and never replaces the saw maker's manual.
"""

from __future__ import annotations

from scarfwright.models.cut.endings import Bound, Ending, Offcut, Start, StopBlock, TravelAdvice
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.at_the_saw.place import OF, from_centre, heel_at

NAMES = {"hold": "hold", "run_on": "run on", "draw_back": "draw back"}
HOW = {
    "hold": "Against the stop block hold the sled down, switch off by knee or helper, and wait until the blade has "
    "stopped.",
    "run_on": "Push on in one go until the blade is clear of the taper, then switch off and wait until it has stopped.",
    "draw_back": "With the taper complete, draw the sled straight back out of the running blade, along the fence.",
}
RISKS = {
    "hold": "Risk: a sled that moves or lifts while the blade runs down is marked or thrown. Keep both hands on it, on "
    "your side of the hand line; switch off by knee or helper.",
    "run_on": "Risk: the sled runs far past the blade, and its clamps come nearest to the teeth. Stop at the block: "
    "pushed further, a clamp meets the teeth.",
    "draw_back": "Risk: KICKBACK. The teeth at the far side of the blade rise and run towards you along the finished "
    "face; the least twist, or an offcut in the way, lets them throw sled and board at you. Last choice.",
}


def why(ending: Ending, say: Say) -> str:
    """Whether an ending is possible, what comes into its way, and what it needs."""
    return (
        f"{_possible(ending, say)} Needs: heel notch at least {say.up(ending.least_station)} from the heel, sled at "
        f"least {say.up(ending.least_length)} long."
    )


def _possible(ending: Ending, say: Say) -> str:
    first, over = ending.first, f"The cut is over {heel_at(ending.travel, say, OF)}"
    if first is None:
        return f"Possible. {over}; nothing ever comes into the way."
    if ending.possible:
        later = say.down(first.travel - ending.travel)
        return f"Possible. {over}; {bound(first, say)} would reach the {first.meets} {later} further on."
    early = "; ".join(f"{bound(b, say)} meets the {b.meets} {meeting(b.travel, say)}" for b in ending.lacks)
    if ending.needed < 0:
        free = f"must be free until the heel is {say.down(-ending.needed)} short of the blade's centre"
    else:
        free = f"needs {say.up(ending.needed)} of free travel"
    return f"Not with these clamps: it {free}, but {early}."


def meeting(travel: float, say: Say) -> str:
    """Where the heel is when something meets something: never a travel below nothing."""
    if travel <= 0:
        return f"{say.up(-travel)} before the heel reaches the blade's centre"
    return f"at {say.down(travel)} of travel"


def bound(one: Bound, say: Say) -> str:
    """What limits the travel, by name."""
    if one.station is None:
        return "the board's tail" + ("" if one.sure else ", if it is long enough,")
    return f"the {clamp(one.where)} at {say(one.station)}"


def clamp(where: str) -> str:
    """A clamp by its place."""
    return {"nose_flat": "nose clamp", "extra": "further clamp"}.get(where, f"{where} clamp")


def limit(advice: TravelAdvice, say: Say) -> str:
    """The travel limit and what sets it."""
    if not advice.bounds:
        return "Nothing limits the travel."
    first = advice.bounds[0]
    if first.travel <= 0:
        return f"No travel: {bound(first, say)} meets the {first.meets} {meeting(first.travel, say)}."
    return f"Travel limit {say.down(first.travel)}: there {bound(first, say)} meets the {first.meets}."


def go_on(advice: TravelAdvice, say: Say) -> str:
    """How far to push after the offcut drops."""
    return (
        f"Keep pushing {say.up(advice.go_on)} after the offcut drops. Until then a lip up to {say(advice.lip)} thick "
        "is "
        "left on the board and holds the joint open."
    )


def offcut(piece: Offcut, say: Say) -> str:
    """The wedge that falls, and to leave it."""
    if piece.thick <= 0:
        return "There is no offcut: the kerf is as wide as the board is thick."
    return (
        f"The offcut, a wedge {say(piece.length)} long and {say(piece.thick)} thick at its heel end, falls on the "
        f"{piece.side}, the free side, never between blade and fence. Keep that side clear. Leave it where it fell "
        "until "
        "the blade has stopped; then take it off with a push stick, never with a hand."
    )


def stop_block(stop: StopBlock, heel: float, say: Say) -> str:
    """Where the stop block is clamped; `heel` is the sled's width there [mm]."""
    text = (
        f"Clamp it to the fence, on its blade side and clear of the blade, its near face {say(stop.from_front)} from "
        f"the table's front edge ({from_centre(stop.from_axis, say)}). The sled's heel end runs against "
        f"it. Make it narrower than the heel ({say(heel)}). Chamfer its lower edge, so that sawdust can't hold the "
        "sled "
        "off."
    )
    if not stop.on_table:
        text += (
            f" It would hang {say.up(stop.past_table)} past the table's far edge: add an outfeed table and a longer "
            "fence."
        )
    if stop.cleat is not None:
        text += (
            f" Or screw a cleat under the sled, {say(stop.cleat)} from the heel, to meet the table's front edge (no "
            "infeed support in its way)."
        )
    return text


def start(place: Start, say: Say) -> str:
    """Where the heel stands when the blade runs up."""
    side = "outside" if place.from_front < 0 else "inside"
    return (
        f"Start with the heel {say(abs(place.from_front))} {side} the table's front edge, {say(place.from_axis)} short "
        "of the blade's centre. Let the blade reach full speed, touching nothing."
    )
