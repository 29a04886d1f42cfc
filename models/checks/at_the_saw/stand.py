"""Findings about what sled and board stand on and run along: table, fence, stop block, supports."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork


def check_stand(work: Groundwork) -> Iterator[Finding]:
    yield from _table(work)
    yield from _fence(work)
    yield from _stop(work)
    yield from _support(work)


def _table(work: Groundwork) -> Iterator[Finding]:
    front, needed = work.job.saw.table_front, -work.way.travel.start
    if front < needed:
        yield finding("table.no_room_to_start", table_front_mm=front, needed_mm=needed)


def _fence(work: Groundwork) -> Iterator[Finding]:
    """The fence must guide the sled before the teeth reach it: over the heel's width at least, or it can skew."""
    front, start = work.job.saw.fence_front, -work.way.travel.start
    guided, wanted = front - start, work.way.sled.heel
    if guided <= 0:
        yield finding("fence.behind_blade", fence_front_mm=front, start_mm=start, needed_mm=start + wanted)
    elif guided < wanted:
        yield finding("fence.short_lead", guided_mm=guided, wanted_mm=wanted, needed_mm=start + wanted)


def _stop(work: Groundwork) -> Iterator[Finding]:
    stop = work.cut.advice.stop
    if not stop.on_table:
        yield finding(
            "stop.off_table",
            from_axis_mm=stop.from_axis,
            table_back_mm=work.job.saw.table_back,
            cleat_mm=stop.cleat,
        )


def _support(work: Groundwork) -> Iterator[Finding]:
    need = work.cut.support
    if need.stand is not None:
        yield finding("support.infeed_needed", **need.infeed_numbers())
    if need.outfeed:
        yield finding("support.outfeed_needed", past_back_mm=need.past_back, board_length_mm=need.board_length)
