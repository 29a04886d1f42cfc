"""What is said of blade speed, feed and burning, and of what was found about them. Sources: cut/feed.py."""

from __future__ import annotations

import math

from scarfwright.models.cut.feed import FULL_KERF, HAND_FEED, THIN_KERF, Feed
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence

FOOT = 304.8
NO_SOURCE = "(common practice, no source)"


def feed(one: Feed, say: Say) -> str:
    """Rim speed, the time that keeps to the range of tooth feed, and what the user's own time comes to."""
    told = []
    if one.rim_speed is not None:
        told.append(f"The teeth run at {rim_words(one.rim_speed, say)}.")
    if one.rubs:
        told.append(
            f"Even at {hand_speed(say)}, as fast as a hand should push {NO_SOURCE}, each tooth cuts less than "
            f"{say.fine(one.tooth_range[0])} and rubs: use fewer teeth, or a slower blade."
        )
        return " ".join(told)
    if one.time_range is None:
        told.append("Give [saw] teeth and rpm to learn how much each tooth cuts.")
        return " ".join(told)
    span = f"{say.fine(one.tooth_range[0])} to {say.fine(one.tooth_range[1])} per tooth"
    source = f" {NO_SOURCE}" if one.usual_range else ""
    told.append(
        f"Push the {say(one.path)} from first touch to taper complete in {seconds(one)}: {span}{source}, and no "
        f"faster than {hand_speed(say)} by hand {NO_SOURCE}."
    )
    if one.tooth_feed is not None and one.time is not None:
        told.append(f"Your {one.time:g} s give {say.fine(one.tooth_feed)} per tooth.")
    return " ".join(told)


def seconds(one: Feed) -> str:
    """The range of time, each end on its safe side."""
    assert one.time_range is not None
    return f"{_up(one.time_range[0])} to {_down(one.time_range[1])} s"


def _up(value: float) -> str:
    return f"{math.ceil(value * 10 - 1e-6) / 10:.1f}"


def _down(value: float) -> str:
    return f"{math.floor(value * 10 + 1e-6) / 10:.1f}"


def rim_words(speed: float, say: Say) -> str:
    """A rim speed [m/s] in the job's units."""
    return f"{speed:.1f} m/s" if say.units == "mm" else f"{speed * 60000 / FOOT:.0f} ft/min ({speed:.1f} m/s)"


def hand_speed(say: Say) -> str:
    """The fastest that a hand should push, in the job's units."""
    a_minute = HAND_FEED * 60
    return f"{a_minute / 1000:g} m/min" if say.units == "mm" else f"{math.floor(a_minute / FOOT)} ft/min"


def advice(one: Feed, say: Say) -> tuple[str, ...]:
    """About blade, kerf and burning."""
    kerf = say.fine(one.kerf)
    first = (
        f"A full kerf ({kerf}) is for a strong saw only: a thin one ({say.fine(THIN_KERF)}) cuts away "
        f"{100 * (1 - THIN_KERF / one.kerf):.0f} % less wood. On a weak saw use a sharp thin-kerf rip blade."
        if one.kerf >= FULL_KERF
        else f"A thin kerf ({kerf}) suits a weak saw: use a rip blade, and a sharp one."
    )
    return (
        first,
        "Feed steadily, without stopping: a blade that rubs burns. Ease off before the motor bogs down. Where it still "
        "burns, the blade is dull or not parallel to the fence.",
        "A burnt face does not glue: cut it again.",
    )


def _over_marked_speed(_say: Say, *, speed_per_min: float, marked_per_min: float) -> str:
    return (
        f"The saw turns the blade at {speed_per_min:g} a minute, and {marked_per_min:g} is marked on it: it can burst. "
        f"Run it at {marked_per_min:g} or slower, or fit a blade that is marked for {speed_per_min:g} or more."
    )


def _rim_too_fast(
    say: Say, *, rim_m_s: float, most_m_s: float, usual_m_s: float, usual_per_min: float, **_: float
) -> str:
    return (
        f"The teeth would run at {rim_words(rim_m_s, say)}, more than the {rim_words(most_m_s, say)} that makers of "
        "carbide blades give for wood at most: the blade can burst. Measure rpm again. Run this blade at "
        f"{math.floor(usual_per_min)} a minute or slower ({rim_words(usual_m_s, say)})."
    )


def _rim_fast(say: Say, *, rim_m_s: float, usual_m_s: float, usual_per_min: float, **_: float) -> str:
    return (
        f"The teeth run at {rim_words(rim_m_s, say)}, more than the {rim_words(usual_m_s, say)} that makers of carbide "
        f"blades call usual (advice, no standard). Read the speed marked on the blade and never exceed it; "
        f"{math.floor(usual_per_min)} a minute or slower keeps to the usual."
    )


def _not_for_ripping(_say: Say, *, teeth: float, most: float) -> str:
    return (
        f"A blade of {teeth:.0f} teeth is made for cross cuts: along the grain its gullets clog, it burns, and a "
        f"burnt face does not glue. Use a rip blade of {most:.0f} teeth or fewer {NO_SOURCE}."
    )


def _faster_than_hand(say: Say, *, feed_time_s: float, shortest_s: float, **_: float) -> str:
    return (
        f"In {feed_time_s:g} s the sled runs faster than {hand_speed(say)}, and a hand that pushes so fast can't stop "
        f"{NO_SOURCE}. Take {_up(shortest_s)} s or more."
    )


def _too_slow(say: Say, *, tooth_feed_mm: float, least_mm: float, feed_time_s: float, longest_s: float | None) -> str:
    way_out = (
        "Use fewer teeth, or a slower blade."
        if longest_s is None
        else f"Take {_down(longest_s)} s or less, or use fewer teeth."
    )
    return (
        f"In {feed_time_s:g} s each tooth cuts only {say.fine(tooth_feed_mm)}, less than {say.fine(least_mm)}: "
        f"it rubs and burns, and a burnt face does not glue. {way_out}"
    )


def _too_fast(say: Say, *, tooth_feed_mm: float, most_mm: float, feed_time_s: float, shortest_s: float) -> str:
    return (
        f"In {feed_time_s:g} s each tooth cuts {say.fine(tooth_feed_mm)}, more than {say.fine(most_mm)}: the "
        f"saw bogs down or throws the work. Take {_up(shortest_s)} s or more."
    )


SENTENCES: dict[str, Sentence] = {
    "blade.over_marked_speed": _over_marked_speed,
    "blade.rim_too_fast": _rim_too_fast,
    "blade.rim_fast": _rim_fast,
    "blade.not_for_ripping": _not_for_ripping,
    "feed.faster_than_hand": _faster_than_hand,
    "feed.too_slow": _too_slow,
    "feed.too_fast": _too_fast,
}
