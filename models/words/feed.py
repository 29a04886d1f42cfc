"""What is said of blade speed, feed and burning, and of what was found about them."""

from __future__ import annotations

from scarfwright.models.cut.feed import FULL_KERF, THIN_KERF, Feed
from scarfwright.models.lengths.say import Say
from scarfwright.models.words.sentence import Sentence


def feed(one: Feed, say: Say) -> str:
    """Rim speed, the time that keeps to the range of tooth feed, and what the user's own time comes to."""
    told = []
    if one.rim_speed is not None:
        told.append(f"The teeth run at {one.rim_speed:.1f} m/s.")
    if one.time_range is None:
        told.append("Give [saw] teeth and rpm to learn what each tooth takes.")
        return " ".join(told)
    span = f"{say.fine(one.tooth_range[0])} to {say.fine(one.tooth_range[1])} a tooth"
    source = " (common practice, no source)" if one.usual_range else ""
    told.append(
        f"For {span}{source} take {one.time_range[0]:.1f} to {one.time_range[1]:.1f} s over the {say(one.path)} from "
        "first touch to taper complete."
    )
    if one.tooth_feed is not None and one.time is not None:
        told.append(f"Your {one.time:g} s give {say.fine(one.tooth_feed)} a tooth.")
    return " ".join(told)


def advice(one: Feed, say: Say) -> tuple[str, ...]:
    """About blade, kerf and burning."""
    kerf = one.kerf
    first = (
        f"A full kerf ({say(kerf)}) is for a strong saw only: a thin kerf of {say(THIN_KERF)} takes "
        f"{100 * (1 - THIN_KERF / kerf):.0f} % less wood. On a weak saw use a sharp thin-kerf rip blade."
        if kerf >= FULL_KERF
        else f"A thin kerf ({say(kerf)}) suits a weak saw: a rip blade, and sharp."
    )
    return (
        first,
        "Feed steadily without stopping: a blade that rubs burns. Ease off before the motor bogs down. Where it still "
        "burns, the blade is dull or not parallel to the fence.",
        "A burnt face does not glue: cut it again.",
    )


def _not_for_ripping(_say: Say, *, teeth: float, most: float) -> str:
    return (
        f"A blade of {teeth:.0f} teeth is made for cross cuts: along the grain its gullets clog, it burns, and a "
        f"burnt face does not glue. Take a rip blade of {most:.0f} teeth or fewer (common practice, no "
        "source)."
    )


def _too_slow(
    say: Say, *, tooth_feed_mm: float, least_mm: float, feed_time_s: float, longest_s: float, **_: float
) -> str:
    return (
        f"In {feed_time_s:g} s each tooth takes only {say.fine(tooth_feed_mm)}, less than {say.fine(least_mm)}: "
        f"it rubs and burns, and a burnt face does not glue. Take {longest_s:.1f} s or less, or fewer teeth."
    )


def _too_fast(
    say: Say, *, tooth_feed_mm: float, most_mm: float, feed_time_s: float, shortest_s: float, **_: float
) -> str:
    return (
        f"In {feed_time_s:g} s each tooth takes {say.fine(tooth_feed_mm)}, more than {say.fine(most_mm)}: the "
        f"saw bogs down or throws the work. Take {shortest_s:.1f} s or more."
    )


SENTENCES: dict[str, Sentence] = {
    "blade.not_for_ripping": _not_for_ripping,
    "feed.too_slow": _too_slow,
    "feed.too_fast": _too_fast,
}
