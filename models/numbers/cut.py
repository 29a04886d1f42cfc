"""What numbers.json says of the cut beyond its travels: advice, knife and guard, feed, support, procedure."""

from __future__ import annotations

from typing import Any

from scarfwright.models.cut.endings import Ending
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.say import Say, say_in
from scarfwright.models.words.at_the_saw import endings, feed, knife_and_guard, support
from scarfwright.models.words.at_the_saw.procedure import before_the_cut, cautions, order_of_work


def cut_numbers(work: Groundwork) -> dict[str, Any]:
    """Further keys of numbers.json's table saw."""
    checks = before_the_cut(work)
    return {
        "fence_to_plate_mm": work.cut.fence.to_plate,
        "advice": _advice(work),
        "riving": _riving(work),
        "feed": _feed(work),
        "support": _support(work),
        "cautions": list(cautions(work)),
        "before_the_cut": [{"what": c.what, "text": c.text, "value_mm": c.value} for c in checks],
        "order_of_work": list(order_of_work(work)),
    }


def _advice(work: Groundwork) -> dict[str, Any]:
    say, advice = say_in(work.job.units), work.cut.advice
    offcut, stop, start = advice.offcut, advice.stop, advice.start
    return {
        "endings": [_ending(e, say) for e in advice.endings],
        "limit": endings.limit(advice, say),
        "go_on_mm": advice.go_on,
        "lip_mm": advice.lip,
        "go_on": endings.go_on(advice, say),
        "offcut": {
            "length_mm": offcut.length,
            "thick_mm": offcut.thick,
            "falls_to_the": offcut.side,
            "text": endings.offcut(offcut, say),
        },
        "stop_block": {
            "from_table_front_mm": stop.from_front,
            "from_axis_mm": stop.from_axis,
            "on_table": stop.on_table,
            "cleat_from_heel_mm": stop.cleat,
            "text": endings.stop_block(stop, work.way.sled.heel, say),
        },
        "start": {
            "heel_from_table_front_mm": start.from_front,
            "heel_from_axis_mm": start.from_axis,
            "text": endings.start(start, say),
        },
    }


def _ending(ending: Ending, say: Say) -> dict[str, Any]:
    return {
        "name": ending.name,
        "asked": ending.asked,
        "possible": ending.possible,
        "travel_mm": ending.travel,
        "needed_mm": ending.needed,
        "spare_mm": ending.spare,
        "least_station_mm": ending.least_station,
        "least_length_mm": ending.least_length,
        "how": endings.HOW[ending.name],
        "why": endings.why(ending, say),
        "risk": endings.RISKS[ending.name],
    }


def _riving(work: Groundwork) -> dict[str, Any]:
    say, knife, hood = say_in(work.job.units), work.cut.knife, work.cut.guard
    return {
        "knife_mm": knife.thickness,
        "least_mm": knife.least,
        "under_mm": knife.most,
        "top_at_most_mm": knife.top,
        "fits": knife.fitted and knife.thinner_than_kerf and knife.thick_enough,
        "text": knife_and_guard.knife(knife, say),
        "guard_over_mm": hood.over,
        "guard_over_clamps_mm": hood.over_clamps,
        "guard_reach_mm": hood.free_ahead,
        "guard_passes": hood.passes,
        "guard_text": knife_and_guard.guard(hood, say),
    }


def _feed(work: Groundwork) -> dict[str, Any]:
    say, one = say_in(work.job.units), work.cut.feed
    return {
        "path_mm": one.path,
        "rim_speed_m_s": one.rim_speed,
        "feed_mm_s": one.feed,
        "tooth_feed_mm": one.tooth_feed,
        "tooth_feed_range_mm": list(one.tooth_range),
        "time_range_s": None if one.time_range is None else list(one.time_range),
        "text": feed.feed(one, say),
        "advice": list(feed.advice(one, say)),
    }


def _support(work: Groundwork) -> dict[str, Any]:
    say, need = say_in(work.job.units), work.cut.support
    stand = need.stand
    return {
        "board_length_mm": need.board_length,
        "board_length_assumed": need.assumed,
        "balance": [
            {
                "at": b.name,
                "travel_mm": b.travel,
                "centre_from_heel_mm": b.centre,
                "over_front_mm": b.over_front,
                "over_back_mm": b.over_back,
                "hand_over_front_mm": b.hand_over,
                "carried": b.carried,
            }
            for b in need.balances
        ],
        "infeed": None
        if stand is None
        else {
            "nearest_mm": stand.nearest,
            "furthest_mm": stand.furthest,
            "best_mm": stand.best,
            "fits": stand.fits,
            "across_mm": list(stand.across),
        },
        "infeed_text": support.infeed(need, say),
        "handle_from_heel_mm": need.handle,
        "reckoned": support.RECKONED,
        "past_back_mm": need.past_back,
        "outfeed_needed": need.outfeed,
        "outfeed_text": support.outfeed(need, say),
    }
