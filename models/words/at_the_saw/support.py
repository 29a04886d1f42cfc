"""What is said of table, fence, stop block and support, and of what was found about them."""

from __future__ import annotations

from scarfwright.models.cut.balance import HAND, Support
from scarfwright.models.lengths.length import round_to
from scarfwright.models.lengths.say import Say
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.words.at_the_saw.place import from_centre
from scarfwright.models.words.sentence import Sentence

LEVEL = "Level with the table or a hair high, never low; a roller's axis square to the fence."
A_HAND = f"a hand on the far handle ({HAND:.0f} N; common practice, no source)"
RECKONED = f"Sled and board taken as equally dense and light, clamps left out; {HAND:.0f} N down on the far handle."
RECEIVES = {
    "mm": "The table ends less than 1200 mm beyond the blade's centre (HSE, circular saw bench): add an outfeed "
    "table, or "
    "have a helper who only receives and never pulls.",
    "in": "The table ends less than 4 ft beyond the blade's centre (HSE, circular saw bench): add an outfeed table, or "
    "have a helper who only receives and never pulls.",
}


def infeed(need: Support, say: Say) -> str:
    """The stand or table that is needed on the near side, and why; or where sled and board balance without."""
    start, step = need.balances[0], fine_step(say.units)
    if need.stand is not None:
        return _infeed_needed(say, **need.infeed_numbers())  # type: ignore[arg-type]
    inside = say(round_to(-start.over_front, step))
    return (
        f"No infeed support needed. Sled and {_board(say, need.board_length, need.assumed)} balance {inside} inside "
        "the "
        f"table's front edge from the start, with {A_HAND} too."
    )


def _board(say: Say, length: float, assumed: bool) -> str:
    return f"a board {say(length)} long" + (" (assumed: the job gives no length)" if assumed else "")


def _infeed_needed(
    say: Say,
    *,
    board_length_mm: float,
    board_length_is: str,
    over_front_mm: float,
    hand_over_mm: float,
    nearest_mm: float,
    furthest_mm: float,
    best_mm: float,
    across_from_mm: float,
    across_to_mm: float,
) -> str:
    if nearest_mm <= furthest_mm:
        told = (
            f"Set a roller or trestle in front of the table, on your side: {say(nearest_mm)} to {say(furthest_mm)} out "
            f"from its edge (best {say(best_mm)}), under the board, {_across(across_from_mm, across_to_mm, say)}."
        )
    else:
        told = (
            f"Set an infeed support as long as a bench on your side, from the table's front edge to {say(nearest_mm)} "
            "out or more. No single roller or trestle serves from start to end."
        )
    board = _board(say, board_length_mm, board_length_is == "assumed")
    outside = over_front_mm > 0
    tips = not outside and hand_over_mm > 0
    rough = round_to(abs(over_front_mm), fine_step(say.units))
    only = "" if outside or tips else "only "
    where = f"{only}{say(rough)} {'outside' if outside else 'inside'}" if rough else "right on"
    why = f"balance {where} the table's front edge at the start" + (f", and {A_HAND} tips them" if tips else "")
    return f"{told} {LEVEL} Without it everything tips off: sled and {board} {why}."


def _across(least: float, most: float, say: Say) -> str:
    step = fine_step(say.units)
    low, high = round_to(least, step), round_to(most, step)
    if low >= 0:
        return f"{say(low)} to {say(high)} from the fence's face towards the blade"
    return f"from {say(-low)} beyond the fence's face to {say(max(high, 0.0))} on the blade's side of it"


def outfeed(need: Support, say: Say) -> str:
    """Where the heel ends, whether the table still carries sled and board, and what a helper may do."""
    if need.past_back <= 0:
        told = "At the end of the cut the sled's heel still lies on the table."
    elif need.outfeed:
        told = _outfeed_needed(say, past_back_mm=need.past_back)
    else:
        told = f"{_past(say, need.past_back)} The table still carries sled and board."
    return f"{told} {RECEIVES[say.units]}" if need.short_table else told


def _past(say: Say, past: float) -> str:
    return f"Keep {say.up(past)} free beyond the table's far edge: the heel runs out there at the end of the cut."


def _outfeed_needed(say: Say, *, past_back_mm: float, **_: float) -> str:
    free = f"{_past(say, past_back_mm)} " if past_back_mm > 0 else ""
    return (
        f"{free}Set an outfeed support beyond the table's far edge, level with the table: without it sled and board "
        "tip "
        "over the edge at the end of the cut."
    )


def _no_room_to_start(say: Say, *, table_front_mm: float, needed_mm: float) -> str:
    return (
        f"At the start the heel must be {say(needed_mm)} short of the blade's centre, and the table's front edge is "
        "only "
        f"{say(table_front_mm)} from it. Measure table_front again; or fix an infeed support level with the table and "
        f"give its front edge, {say.up(needed_mm)} or more."
    )


def _behind_blade(say: Say, *, fence_front_mm: float, start_mm: float, **_: float) -> str:
    return (
        f"The near end of the fence is {say(fence_front_mm)} from the blade's centre, and the heel starts "
        f"{say(start_mm)} from it: nothing guides the sled when the teeth reach it."
    )


def _short_lead(say: Say, *, guided_mm: float, wanted_mm: float, **_: float) -> str:
    return (
        f"At the start only {say(guided_mm)} of the sled lie along the fence, less than its heel is wide "
        f"({say(wanted_mm)}): it can skew (common practice, no source)."
    )


def _off_table(say: Say, *, from_axis_mm: float, table_back_mm: float, cleat_mm: float | None) -> str:
    cleat = "" if cleat_mm is None else f", or screw a cleat under the sled {say(cleat_mm)} from the heel"
    return (
        f"The stop block would hang past the table: the heel ends {from_centre(from_axis_mm, say)}, "
        f"{say.up(from_axis_mm - table_back_mm)} past the table's far edge. Add an outfeed table and a longer "
        f"fence{cleat}."
    )


SENTENCES: dict[str, Sentence] = {
    "table.no_room_to_start": _no_room_to_start,
    "fence.behind_blade": _behind_blade,
    "fence.short_lead": _short_lead,
    "stop.off_table": _off_table,
    "support.infeed_needed": _infeed_needed,
    "support.outfeed_needed": _outfeed_needed,
}
