"""Findings about the blade's speed, its teeth and the feed."""

from __future__ import annotations

from collections.abc import Iterator

from scarfwright.models.cut.feed import FAST_RIM, HAND_FEED, MOST_RIM, MOST_RIP_TEETH, rpm_for
from scarfwright.models.findings import Finding, Numbers, finding
from scarfwright.models.groundwork import Groundwork

SAME = 1e-9  # of a feed: what is on the limit passes, whatever its last bits


def check_feed(work: Groundwork) -> Iterator[Finding]:
    yield from _speed(work)
    saw = work.job.saw
    if saw.teeth is not None and saw.teeth > MOST_RIP_TEETH:
        yield finding("blade.not_for_ripping", teeth=float(saw.teeth), most=float(MOST_RIP_TEETH))
    yield from _feed(work)


def _speed(work: Groundwork) -> Iterator[Finding]:
    """Marked speed: EN 1870-19 6.3 n), WAC 296-78-70509. Rim speed: blade makers' tables."""
    saw, rim = work.job.saw, work.cut.feed.rim_speed
    if saw.rpm is None or rim is None:
        return
    if saw.max_rpm is not None and saw.rpm > saw.max_rpm:
        yield finding("blade.over_marked_speed", speed_per_min=saw.rpm, marked_per_min=saw.max_rpm)
    numbers: Numbers = {
        "rim_m_s": rim,
        "speed_per_min": saw.rpm,
        "usual_m_s": FAST_RIM,
        "usual_per_min": rpm_for(FAST_RIM, work.way.blade.diameter),
    }
    if rim > MOST_RIM:
        yield finding("blade.rim_too_fast", **numbers, most_m_s=MOST_RIM)
    elif rim > FAST_RIM:
        yield finding("blade.rim_fast", **numbers)


def _feed(work: Groundwork) -> Iterator[Finding]:
    feed = work.cut.feed
    if feed.feed is None:
        return
    if feed.feed > HAND_FEED * (1 + SAME):
        yield finding("feed.faster_than_hand", feed_time_s=feed.time, feed_mm_s=feed.feed, shortest_s=feed.shortest)
    if feed.tooth_feed is None:
        return
    low, high = feed.tooth_range
    numbers: Numbers = {"tooth_feed_mm": feed.tooth_feed, "feed_time_s": feed.time}
    if feed.tooth_feed < low * (1 - SAME):
        longest = None if feed.time_range is None else feed.time_range[1]
        yield finding("feed.too_slow", **numbers, least_mm=low, longest_s=longest)
    elif feed.tooth_feed > high * (1 + SAME) and feed.time_range is not None:
        yield finding("feed.too_fast", **numbers, most_mm=high, shortest_s=feed.time_range[0])
