"""Findings about what sled and board stand on and run along: table, fence, stop block, supports."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say


def check_stand(work: Groundwork, say: Say) -> Iterator[Finding]:
    yield from _table(work, say)
    yield from _fence(work, say)
    yield from _stop(work, say)
    yield from _support(work)


def _table(work: Groundwork, say: Say) -> Iterator[Finding]:
    front, needed = work.job.saw.table_front, -work.way.travel.start
    if front < needed:
        yield finding(
            "table.no_room_to_start",
            f"The heel must stand {say(needed)} before the blade's axis at the start, and the table's front edge is "
            f"only {say(front)} before it. Measure table_front again; or fix an infeed table level with the saw's and "
            f"give its front edge, {say.up(needed)} or more.",
            table_front_mm=front,
            needed_mm=needed,
        )


def _fence(work: Groundwork, say: Say) -> Iterator[Finding]:
    """The fence must guide the sled before the teeth reach it: over the heel's width at least, or it can skew."""
    front, start = work.job.saw.fence_front, -work.way.travel.start
    guided, wanted = front - start, work.way.sled.heel
    if guided <= 0:
        yield finding(
            "fence.behind_blade",
            f"The fence begins {say(front)} before the blade's axis, and the heel starts {say(start)} before it: "
            f"nothing guides the sled when the teeth reach it. Slide the fence forward to {say.up(start + wanted)} or "
            "more, and measure fence_front again.",
            fence_front_mm=front,
            start_mm=start,
            needed_mm=start + wanted,
        )
    elif guided < wanted:
        yield finding(
            "fence.short_lead",
            f"At the start only {say(guided)} of the sled lie along the fence, less than its heel is wide "
            f"({say(wanted)}): it can skew (common practice, no source). Slide the fence forward to "
            f"{say.up(start + wanted)} before the axis or more.",
            guided_mm=guided,
            wanted_mm=wanted,
            needed_mm=start + wanted,
        )


def _stop(work: Groundwork, say: Say) -> Iterator[Finding]:
    stop = work.cut.advice.stop
    if stop.on_table:
        return
    cleat = "" if stop.cleat is None else f", or use a cleat under the sled {say(stop.cleat)} from the heel"
    yield finding(
        "stop.off_table",
        f"The sled's heel ends {say(stop.from_axis)} past the blade's axis, "
        f"{say(stop.from_axis - work.job.saw.table_back)} past the table's back edge: the stop block has no "
        f"ground. Add an outfeed table and a fence that reaches so far{cleat}.",
        from_axis_mm=stop.from_axis,
        table_back_mm=work.job.saw.table_back,
        cleat_mm=stop.cleat,
    )


def _support(work: Groundwork) -> Iterator[Finding]:
    need = work.cut.support
    if need.stand is not None:
        yield finding(
            "support.infeed_needed",
            need.infeed_text,
            over_front_mm=need.balances[0].over_front,
            nearest_mm=need.stand.nearest,
            furthest_mm=need.stand.furthest,
            board_length_mm=need.board_length,
        )
    if need.outfeed:
        yield finding(
            "support.outfeed_needed",
            need.outfeed_text,
            past_back_mm=need.past_back,
            board_length_mm=need.board_length,
        )
