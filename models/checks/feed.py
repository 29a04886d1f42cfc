"""Findings about the blade's teeth and the feed."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.cut.feed import MOST_RIP_TEETH
from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork


def check_feed(work: Groundwork) -> Iterator[Finding]:
    saw, feed = work.job.saw, work.cut.feed
    if saw.teeth is not None and saw.teeth > MOST_RIP_TEETH:
        yield finding("blade.not_for_ripping", teeth=float(saw.teeth), most=float(MOST_RIP_TEETH))
    low, high = feed.tooth_range
    if feed.tooth_feed is not None and feed.time_range is not None:
        least, most = feed.time_range
        numbers = {
            "tooth_feed_mm": feed.tooth_feed,
            "least_mm": low,
            "most_mm": high,
            "feed_time_s": feed.time,
            "shortest_s": least,
            "longest_s": most,
        }
        if feed.tooth_feed < low * (1 - 1e-9):
            yield finding("feed.too_slow", **numbers)
        elif feed.tooth_feed > high * (1 + 1e-9):
            yield finding("feed.too_fast", **numbers)
