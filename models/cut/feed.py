"""How fast the rim runs, how much each tooth takes, and what that says about burning.

Source: rim speed = pi D n and tooth feed = feed / (teeth x rpm), definitions. The usual range of tooth feed is
common practice, no source, and the user's to set. Power = cutting energy x kerf x height x feed, only from the
user's own figure: published ones differ several times over with wood, moisture, blade and sharpness.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.sled.way import SledWay

THIN_KERF = 2.4  # middle of the usual thin kerfs, 2.2 to 2.5 mm; from memory, high
FULL_KERF = 3.0  # from here on a kerf counts as full; common practice, no source
MOST_RIP_TEETH = 30  # more teeth than this and it is no rip blade of 10 in; common practice, no source


def rim_speed(diameter: float, rpm: float) -> float:
    """Speed of the teeth [m/s] of a blade of `diameter` [mm] at `rpm` [1/min]."""
    return math.pi * diameter / 1000 * rpm / 60


def tooth_feed(feed: float, teeth: int, rpm: float) -> float:
    """What each tooth takes along the feed [mm], for a feed in mm/s."""
    return feed * 60 / (teeth * rpm)


def cutting_power(energy: float, kerf: float, height: float, feed: float) -> float:
    """Power [W] that a cut of `kerf` x `height` [mm] takes at a feed in mm/s, for an energy in J/cm3 (= N/mm2)."""
    return energy * kerf * height * feed / 1000


@dataclass(frozen=True)
class Feed:
    """The feed of one cut. `path` is cut from first touch to taper complete [mm]; times in s, speeds in m/s and mm/s,
    powers in W; None where the job doesn't say enough. `time_range` is the time that keeps to the range of tooth
    feed, least first. `advice` are sentences about blade, kerf and burning."""

    path: float
    rim_speed: float | None
    feed: float | None
    tooth_feed: float | None
    tooth_range: tuple[float, float]
    time_range: tuple[float, float] | None
    power: float | None
    text: str
    advice: tuple[str, ...]


def feed_of_cut(way: SledWay) -> Feed:
    """Feed, tooth feed and what to do about them."""
    saw, say = way.job.saw, say_in(way.job.units)
    path = max(way.travel.done + way.blade.reach(0.0), 0.0)
    low, high = float(saw.tooth_feed[0]), float(saw.tooth_feed[1])
    feed = None if saw.feed_time is None else path / saw.feed_time
    each, times = None, None
    if saw.teeth is not None and saw.rpm is not None:
        per_second = saw.teeth * saw.rpm / 60
        times = (path / (high * per_second), path / (low * per_second))
        each = None if feed is None else tooth_feed(feed, saw.teeth, saw.rpm)
    power = None
    if feed is not None and saw.cutting_energy is not None:
        power = cutting_power(saw.cutting_energy, way.blade.kerf, way.joint.height, feed)
    return Feed(
        path=path,
        rim_speed=None if saw.rpm is None else rim_speed(way.blade.diameter, saw.rpm),
        feed=feed,
        tooth_feed=each,
        tooth_range=(low, high),
        time_range=times,
        power=power,
        text=_text(way, path, each, times, power, say),
        advice=_advice(way, say),
    )


def _text(
    way: SledWay,
    path: float,
    each: float | None,
    times: tuple[float, float] | None,
    power: float | None,
    say: Say,
) -> str:
    saw = way.job.saw
    told = []
    if saw.rpm is not None:
        told.append(f"The teeth run at {rim_speed(way.blade.diameter, saw.rpm):.1f} m/s.")
    if times is None:
        told.append("Give [saw] teeth and rpm to learn what each tooth takes.")
        return " ".join(told)
    span = f"{say.fine(saw.tooth_feed[0])} to {say.fine(saw.tooth_feed[1])} a tooth"
    told.append(
        f"For {span}{_source(way)} take {times[0]:.1f} to {times[1]:.1f} s over the {say(path)} from first touch to "
        "taper complete."
    )
    if each is not None and saw.feed_time is not None:
        told.append(f"Your {saw.feed_time:g} s give {say.fine(each)} a tooth.")
    if power is not None:
        told.append(f"By your cutting energy that takes {power:.0f} W at the arbor.")
    return " ".join(told)


def _source(way: SledWay) -> str:
    """The default range says where it comes from; one that the user set is the user's."""
    default = type(way.job.saw).model_fields["tooth_feed"].default
    same = [float(x) for x in way.job.saw.tooth_feed] == [float(x) for x in default]
    return " (common practice, no source)" if same else ""


def _advice(way: SledWay, say: Say) -> tuple[str, ...]:
    kerf = way.blade.kerf
    full = kerf >= FULL_KERF
    less = 1 - THIN_KERF / kerf
    first = (
        f"A full kerf ({say(kerf)}) is for a strong saw only: a thin kerf of {say(THIN_KERF)} takes {100 * less:.0f} % "
        "less wood. On a weak saw use a sharp thin-kerf rip blade."
        if full
        else f"A thin kerf ({say(kerf)}) suits a weak saw: a rip blade, and sharp."
    )
    return (
        first,
        "Feed steadily without stopping: a blade that rubs burns. Ease off before the motor bogs down. Where it still "
        "burns, the blade is dull or not parallel to the fence.",
        "A burnt face does not glue: cut it again.",
    )
