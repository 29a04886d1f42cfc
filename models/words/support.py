"""What is said of table, fence, stop block and support, and of what was found about them."""

from __future__ import annotations

from scarfwright.models.cut.balance import Support, coarse
from scarfwright.models.lengths.length import round_to
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def infeed(need: Support, say: Say) -> str:
    """Where sled and board balance at the start, and the stand or table that they need."""
    start, stand, step = need.balances[0], need.stand, coarse(say.units)
    if stand is not None:
        return _infeed_needed(say, **need.infeed_numbers())  # type: ignore[arg-type]
    board = f"a board {say(need.board_length)} long" + (" (assumed: the job gives no length)" if need.assumed else "")
    return (
        f"With {board} sled and board balance on the table from the start: "
        f"about {say(round_to(-start.over_front, step))} inside its front edge. No infeed support needed."
    )


def _infeed_needed(
    say: Say,
    *,
    board_length_mm: float,
    board_length_is: str,
    over_front_mm: float,
    nearest_mm: float,
    furthest_mm: float,
    best_mm: float,
    across_from_mm: float,
    across_to_mm: float,
) -> str:
    step = coarse(say.units)
    board = f"a board {say(board_length_mm)} long"
    if board_length_is == "assumed":
        board += " (assumed: the job gives no length)"
    rough = say(round_to(abs(over_front_mm), step))
    where = f"about {rough} before" if over_front_mm > 0 else f"only about {rough} inside"
    told = (
        f"With {board} sled and board have their centre of mass {where} the table's front edge at the start: without "
        "infeed support everything tips off. "
    )
    if nearest_mm <= furthest_mm:
        told += (
            f"Set a roller or trestle level with the table, {say(nearest_mm)} to {say(furthest_mm)} "
            f"before the front edge (best {say(best_mm)}), under the board: "
            f"{_across(across_from_mm, across_to_mm, say)}."
        )
    else:
        told += (
            f"No single stand serves from start to end: set an infeed table level with the saw's, from the front edge "
            f"to {say(nearest_mm)} before it or more."
        )
    return told + " Sled and board taken as equally dense, clamps left out."


def _across(least: float, most: float, say: Say) -> str:
    step = coarse(say.units)
    low, high = round_to(least, step), round_to(most, step)
    if low >= 0:
        return f"{say(low)} to {say(high)} from the fence's line, on the blade's side"
    return f"from {say(-low)} beyond the fence's line to {say(max(high, 0.0))} on the blade's side of it"


def outfeed(need: Support, say: Say) -> str:
    """Where the heel ends, and whether the table still carries sled and board."""
    if need.past_back <= 0:
        return "At the end of the cut the sled's heel still lies on the table."
    if need.outfeed:
        return _outfeed_needed(say, past_back_mm=need.past_back)
    return f"{_past(say, need.past_back)}. The table still carries sled and board."


def _past(say: Say, past: float) -> str:
    return f"At the end of the cut the heel runs {say.up(past)} past the table's back edge: keep that room free"


def _outfeed_needed(say: Say, *, past_back_mm: float, **_: float) -> str:
    if past_back_mm <= 0:
        return "At the end of the cut the sled's heel still lies on the table."
    return (
        f"{_past(say, past_back_mm)}, with an outfeed support level with the table, as sled and board would tip over "
        "the edge."
    )


def _no_room_to_start(say: Say, *, table_front_mm: float, needed_mm: float) -> str:
    return (
        f"The heel must stand {say(needed_mm)} before the blade's axis at the start, and the table's front edge is "
        f"only {say(table_front_mm)} before it. Measure table_front again; or fix an infeed table level with the saw's "
        f"and give its front edge, {say.up(needed_mm)} or more."
    )


def _behind_blade(say: Say, *, fence_front_mm: float, start_mm: float, needed_mm: float) -> str:
    return (
        f"The fence begins {say(fence_front_mm)} before the blade's axis, and the heel starts {say(start_mm)} before "
        f"it: nothing guides the sled when the teeth reach it. Slide the fence forward to {say.up(needed_mm)} or "
        "more, and measure fence_front again."
    )


def _short_lead(say: Say, *, guided_mm: float, wanted_mm: float, needed_mm: float) -> str:
    return (
        f"At the start only {say(guided_mm)} of the sled lie along the fence, less than its heel is wide "
        f"({say(wanted_mm)}): it can skew (common practice, no source). Slide the fence forward to "
        f"{say.up(needed_mm)} before the axis or more."
    )


def _off_table(say: Say, *, from_axis_mm: float, table_back_mm: float, cleat_mm: float | None) -> str:
    cleat = "" if cleat_mm is None else f", or use a cleat under the sled {say(cleat_mm)} from the heel"
    return (
        f"The sled's heel ends {say(from_axis_mm)} past the blade's axis, "
        f"{say(from_axis_mm - table_back_mm)} past the table's back edge: the stop block has no "
        f"ground. Add an outfeed table and a fence that reaches so far{cleat}."
    )


SENTENCES: dict[str, Sentence] = {
    "table.no_room_to_start": _no_room_to_start,
    "fence.behind_blade": _behind_blade,
    "fence.short_lead": _short_lead,
    "stop.off_table": _off_table,
    "support.infeed_needed": _infeed_needed,
    "support.outfeed_needed": _outfeed_needed,
}
