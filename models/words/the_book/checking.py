"""The sled as made: what to measure on it, and the gauges that help."""

from __future__ import annotations

from collections.abc import Iterable

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import say_in, slope
from scarfwright.models.wanted.wanted import Wanted


def measured_sled(work: Groundwork) -> tuple[str, ...]:
    """One act each."""
    say, sled = say_in(work.job.units), work.way.sled
    return (
        f"Measure the heel with callipers, square to the fence edge: {say(sled.heel)} planned.",
        f"Measure the nose the same way: {say(sled.nose)} planned.",
        f"Measure the length along the fence edge: {say(sled.length)} planned.",
        "Put the three into the job as the sizes as made, then make the files again: slope, fence and travels follow "
        f"your sled. Planned is a slope of {slope(sled.ratio)}.",
        "Try a straightedge along fence edge and work edge: no light. A hollow work edge bends the cut.",
        "Try a square from the face to the work edge at heel, middle and nose: no light.",
        "Draw the hand line across the sled, square to the fence edge, and write HANDS on your side of it: "
        f"{say(work.way.layout.hand_line)} from the heel.",
    )


def gauges_made(wanted: Iterable[Wanted]) -> tuple[str, ...]:
    """The gauges and aids that this job makes, each with what it is for."""
    return tuple(
        f"{one.kind.name.replace('_', ' ').capitalize()}: {one.kind.summary.rstrip('.')}."
        for one in wanted
        if not one.left_out and one.printed
    )
