"""What is worked out about the cut, once, for everybody who tells of it."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.cut.balance import Support, support
from scarfwright.models.cut.endings import TravelAdvice, travel_advice
from scarfwright.models.cut.feed import Feed, feed_of_cut
from scarfwright.models.cut.fence import FenceSetting, fence_setting
from scarfwright.models.cut.knife_and_guard import Guard, Knife, guard, riving_knife
from scarfwright.models.sled.way import SledWay


@dataclass(frozen=True)
class Cut:
    """Ways to end it, fence, riving knife, guard, feed, and how sled and board balance."""

    advice: TravelAdvice
    fence: FenceSetting
    knife: Knife
    guard: Guard
    feed: Feed
    support: Support


def the_cut(way: SledWay) -> Cut:
    """The cut along this sled."""
    return Cut(travel_advice(way), fence_setting(way), riving_knife(way), guard(way), feed_of_cut(way), support(way))
