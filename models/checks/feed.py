"""Findings about the blade's teeth and the feed."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.cut.feed import MOST_RIP_TEETH
from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say


def check_feed(work: Groundwork, say: Say) -> Iterator[Finding]:
    saw, feed = work.job.saw, work.cut.feed
    if saw.teeth is not None and saw.teeth > MOST_RIP_TEETH:
        yield finding(
            "blade.not_for_ripping",
            f"A blade of {saw.teeth} teeth is made for cross cuts: along the grain its gullets clog, it burns, and a "
            f"burnt face does not glue. Take a rip blade of {MOST_RIP_TEETH} teeth or fewer (common practice, no "
            "source).",
            teeth=float(saw.teeth),
            most=float(MOST_RIP_TEETH),
        )
    low, high = feed.tooth_range
    if feed.tooth_feed is not None and feed.time_range is not None:
        least, most = feed.time_range
        numbers = {"tooth_feed_mm": feed.tooth_feed, "least_mm": low, "most_mm": high, "feed_time_s": saw.feed_time}
        if feed.tooth_feed < low * (1 - 1e-9):
            yield finding(
                "feed.too_slow",
                f"In {saw.feed_time:g} s each tooth takes only {say.fine(feed.tooth_feed)}, less than {say.fine(low)}: "
                f"it rubs and burns, and a burnt face does not glue. Take {most:.1f} s or less, or fewer teeth.",
                **numbers,
            )
        elif feed.tooth_feed > high * (1 + 1e-9):
            yield finding(
                "feed.too_fast",
                f"In {saw.feed_time:g} s each tooth takes {say.fine(feed.tooth_feed)}, more than {say.fine(high)}: the "
                f"saw bogs down or throws the work. Take {least:.1f} s or more.",
                **numbers,
            )
    if feed.power is not None and saw.motor_power is not None and feed.power > saw.motor_power and saw.feed_time:
        slower = saw.feed_time * feed.power / saw.motor_power
        yield finding(
            "feed.saw_too_weak",
            f"By your cutting energy the feed takes {feed.power:.0f} W, and the motor gives {saw.motor_power:g} W: it "
            f"bogs down and burns. Take {slower:.1f} s or more, or a thinner kerf and a sharp rip blade.",
            power_w=feed.power,
            motor_power_w=saw.motor_power,
            needed_time_s=slower,
        )
