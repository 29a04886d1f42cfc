"""How fast the rim runs, how much each tooth takes, and what that says about burning.

Source: rim speed = pi D n and tooth feed = feed / (teeth x rpm), definitions. The usual range of tooth feed is
common practice, no source, and the user's to set. Speed: EN 1870-19 6.3 n) (never above the speed marked on the blade;
followed by EN ISO 19085-9); blade makers' tables for the rim (advice, not a limit of any standard).
Words: words/feed.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.sled.way import SledWay

MOST_RIM = 100.0  # m/s; the most that blade makers' tables give for carbide in wood
FAST_RIM = 80.0  # m/s; their usual figure: above it only what is marked on the blade can say
HAND_FEED = 5000 / 60  # mm/s, 5 m/min: faster than this no hand should push; common practice, no source
THIN_KERF = 2.4  # middle of the usual thin kerfs, 2.2 to 2.5 mm; from memory, high
FULL_KERF = 3.0  # from here on a kerf counts as full; common practice, no source
MOST_RIP_TEETH = 30  # more teeth than this and it is no rip blade of 10 in; common practice, no source


def rim_speed(diameter: float, rpm: float) -> float:
    """Speed of the teeth [m/s] of a blade of `diameter` [mm] at `rpm` [1/min]."""
    return math.pi * diameter / 1000 * rpm / 60


def rpm_for(rim: float, diameter: float) -> float:
    """Speed [1/min] at which a blade of `diameter` [mm] has a rim speed of `rim` [m/s]."""
    return rim * 60 / (math.pi * diameter / 1000)


def tooth_feed(feed: float, teeth: int, rpm: float) -> float:
    """What each tooth takes along the feed [mm], for a feed in mm/s."""
    return feed * 60 / (teeth * rpm)


@dataclass(frozen=True)
class Feed:
    """The feed of one cut. `path` is cut from first touch to taper complete [mm]; times in s, speeds in m/s and mm/s;
    None where the job doesn't say enough. `time` is the user's own; `time_range` the time that keeps to the range of
    tooth feed and under HAND_FEED, least first, None where none does both (then `rubs` if speed and teeth are known);
    `shortest` the time at HAND_FEED; `usual_range`: the range is the default, not the user's."""

    path: float
    kerf: float
    rim_speed: float | None
    time: float | None
    feed: float | None
    tooth_feed: float | None
    tooth_range: tuple[float, float]
    usual_range: bool
    time_range: tuple[float, float] | None
    shortest: float
    rubs: bool


def feed_of_cut(way: SledWay) -> Feed:
    """Feed and tooth feed."""
    saw = way.job.saw
    path = max(way.travel.done + way.blade.reach(0.0), 0.0)
    low, high = float(saw.tooth_feed[0]), float(saw.tooth_feed[1])
    feed = None if saw.feed_time is None else path / saw.feed_time
    each, times = None, None
    known = saw.teeth is not None and saw.rpm is not None
    if saw.teeth is not None and saw.rpm is not None:
        per_second = saw.teeth * saw.rpm / 60
        least, most = max(path / (high * per_second), path / HAND_FEED), path / (low * per_second)
        times = (least, most) if least <= most else None
        each = None if feed is None else tooth_feed(feed, saw.teeth, saw.rpm)
    return Feed(
        path=path,
        kerf=way.blade.kerf,
        rim_speed=None if saw.rpm is None else rim_speed(way.blade.diameter, saw.rpm),
        time=saw.feed_time,
        feed=feed,
        tooth_feed=each,
        tooth_range=(low, high),
        usual_range=_usual(way),
        time_range=times,
        shortest=path / HAND_FEED,
        rubs=known and times is None,
    )


def _usual(way: SledWay) -> bool:
    """Whether the range of tooth feed is the default; one that the user set is the user's."""
    default = type(way.job.saw).model_fields["tooth_feed"].default
    return [float(x) for x in way.job.saw.tooth_feed] == [float(x) for x in default]
