"""What numbers.json says of the cut beyond its travels: advice, knife and guard, feed, support, procedure."""

from __future__ import annotations

from typing import Any

from scarfwright.models.cut.endings import Ending
from scarfwright.models.cut.order_of_work import before_the_cut, cautions, order_of_work
from scarfwright.models.groundwork import Groundwork


def cut_numbers(work: Groundwork) -> dict[str, Any]:
    """Further keys of numbers.json's table saw."""
    checks = before_the_cut(work.way, work.cut)
    return {
        "advice": _advice(work),
        "riving": _riving(work),
        "feed": _feed(work),
        "support": _support(work),
        "cautions": list(cautions(work.way, work.cut)),
        "before_the_cut": [{"what": c.what, "text": c.text, "value_mm": c.value} for c in checks],
        "order_of_work": list(order_of_work(work.way, work.cut)),
    }


def _advice(work: Groundwork) -> dict[str, Any]:
    advice = work.cut.advice
    offcut, stop, start = advice.offcut, advice.stop, advice.start
    return {
        "endings": [_ending(e) for e in advice.endings],
        "limit": advice.limit_text,
        "go_on_mm": advice.go_on,
        "lip_mm": advice.lip,
        "go_on": advice.go_on_text,
        "offcut": {
            "length_mm": offcut.length,
            "thick_mm": offcut.thick,
            "falls_to_the": offcut.side,
            "text": offcut.text,
        },
        "stop_block": {
            "from_table_front_mm": stop.from_front,
            "from_axis_mm": stop.from_axis,
            "on_table": stop.on_table,
            "cleat_from_heel_mm": stop.cleat,
            "text": stop.text,
        },
        "start": {"heel_from_table_front_mm": start.from_front, "text": start.text},
    }


def _ending(ending: Ending) -> dict[str, Any]:
    return {
        "name": ending.name,
        "asked": ending.asked,
        "possible": ending.possible,
        "travel_mm": ending.travel,
        "needed_mm": ending.needed,
        "spare_mm": ending.spare,
        "least_station_mm": ending.least_station,
        "least_length_mm": ending.least_length,
        "how": ending.how,
        "why": ending.why,
        "risk": ending.risk,
    }


def _riving(work: Groundwork) -> dict[str, Any]:
    knife, hood = work.cut.knife, work.cut.guard
    return {
        "knife_mm": knife.thickness,
        "least_mm": knife.least,
        "under_mm": knife.most,
        "top_at_most_mm": knife.top,
        "fits": knife.fitted and knife.thinner_than_kerf and knife.thick_enough,
        "text": knife.text,
        "guard_over_mm": hood.over,
        "guard_over_clamps_mm": hood.over_clamps,
        "guard_reach_mm": hood.free_ahead,
        "guard_passes": hood.passes,
        "guard_text": hood.text,
    }


def _feed(work: Groundwork) -> dict[str, Any]:
    feed = work.cut.feed
    return {
        "path_mm": feed.path,
        "rim_speed_m_s": feed.rim_speed,
        "feed_mm_s": feed.feed,
        "tooth_feed_mm": feed.tooth_feed,
        "tooth_feed_range_mm": list(feed.tooth_range),
        "time_range_s": None if feed.time_range is None else list(feed.time_range),
        "power_w": feed.power,
        "text": feed.text,
        "advice": list(feed.advice),
    }


def _support(work: Groundwork) -> dict[str, Any]:
    need = work.cut.support
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
        "infeed_text": need.infeed_text,
        "past_back_mm": need.past_back,
        "outfeed_needed": need.outfeed,
        "outfeed_text": need.outfeed_text,
    }
