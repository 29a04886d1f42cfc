"""Findings about the travel: nothing may meet blade or fence before the cut has ended as asked."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say
from scarfwright.models.sled.layout import ClampPlace, flat_jaw

_ENDS = {
    "hold": "the taper is complete and the sled held there",
    "run_on": "the blade is clear of the work",
    "draw_back": "the taper is complete and the sled drawn back",
}


def check_cut(work: Groundwork, say: Say) -> Iterator[Finding]:
    end = work.way.travel_end
    needed = end + work.job.saw.travel_margin
    ends = _ENDS[work.job.saw.end_of_cut]
    for clamp in work.way.layout.clamps:
        if clamp.limit is None or clamp.limit >= needed - 1e-6:
            continue
        when = "before" if clamp.limit < end else "within the margin after"
        numbers = {"station_mm": clamp.station, "limit_mm": clamp.limit, "end_mm": end, "needed_mm": needed}
        where = f"The {clamp.where.replace('_', ' ')} clamp at {say(clamp.station)} from the heel"
        if clamp.meets == "fence":
            longer = _length_for(work, needed - clamp.limit)
            yield finding(
                "clamp.meets_fence",
                f"{where} meets the fence's front end at a travel of {say(clamp.limit)}, {when} the end of the cut "
                f"at {say(end)} ({ends}). Make the sled {say.up(longer)} long or more, or hold the nose in a notch "
                f"(nose_flat = 0), or slide the fence back by {say.up(needed - clamp.limit)}.",
                **numbers,
                needed_length_mm=longer,
            )
        else:
            yield finding(
                "clamp.meets_blade",
                f"{where} meets the blade at a travel of {say(clamp.limit)}, {when} the end of the cut at {say(end)} "
                f"({ends}). {_further_back(clamp, work, say)}",
                **numbers,
                least_station_mm=least_for(clamp, work),
            )
    tail = work.way.board_limit
    if tail is not None and tail < needed:
        yield finding(
            "board.meets_fence",
            f"A long board's tail meets the fence's front end at a travel of {say(tail)}, and the cut ends at "
            f"{say(end)} ({ends}). Slide the fence back by {say.up(needed - tail)} or cut shorter boards "
            f"(up to {say.down(work.way.sled.heel * work.way.sled.ratio)}).",
            limit_mm=tail,
            end_mm=end,
            needed_mm=needed,
        )


def _length_for(work: Groundwork, lacking: float) -> float:
    """Sled length [mm] at which the nose clamp has the travel it lacks, whichever way its own mark is rounded."""
    front = work.job.saw.fence_front
    return (work.way.sled.length + lacking - front) * work.way.stretch + front


def least_for(clamp: ClampPlace, work: Groundwork) -> float:
    """Least station of this clamp: on the nose flat it slides by the flat's length, not by a slot's."""
    if clamp.where != "nose_flat":
        return work.way.layout.least_station
    needed = work.way.travel_end + work.job.saw.travel_margin
    return flat_jaw(work.job, work.way.sled, clamp.station).least_station(needed, work.joint, work.way.blade)


def _further_back(clamp: ClampPlace, work: Groundwork, say: Say) -> str:
    least = least_for(clamp, work)
    if clamp.where == "nose_flat":
        return f"Make the sled longer, so that its nose lies {say.up(least)} or more from the heel."
    return f"Put it {say.up(least)} or more from the heel."
