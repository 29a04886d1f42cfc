"""The last resort: everything on the sled left to the tool, on a wider plank and with larger clamps."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.findings import Remedy
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import round_up
from scarfwright.models.lengths.say import say_in
from scarfwright.models.remedies.offers import measured, step

PLACED = ("length", "nose_flat", "heel_station", "nose_station", "hand_line", "handle_station")
WIDER = (0.0, 40.0, 90.0, 150.0)
LARGER = (0.0, 50.0, 120.0)


def afresh(work: Groundwork) -> Iterator[Remedy]:
    """Changes from small to large; none for a sled that is made already."""
    job, sled = work.job, work.job.sled
    if measured(work):
        return
    say = say_in(job.units)
    base: Remedy = tuple((f"sled.{key}", "auto") for key in PLACED if getattr(sled, key) != "auto")
    if sled.extra_stations:
        base += (("sled.extra_stations", []),)
    for larger in LARGER:
        for wider in WIDER if sled.made_from == "plank" else (0.0,):
            change = base
            if larger:
                change += (("clamp.opening", say(round_up(job.clamp.opening + larger, step(work)))),)
            if wider:
                change += (
                    ("sled.plank", [say(sled.plank.thickness), say(round_up(sled.plank.width + wider, step(work)))]),
                )
            if change:
                yield change
