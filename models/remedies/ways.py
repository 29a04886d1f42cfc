"""What may mend each finding: for each code the kinds of change to try, the most natural first."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from scarfwright.models.findings import Finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.steps import fine_step
from scarfwright.models.remedies import clamps, cut, notches
from scarfwright.models.remedies.offers import (
    Family,
    automatic,
    longer,
    measured,
    number,
    said,
    setting,
    shorter,
    together,
    wider,
)

LENGTH = ("sled.length", "auto")
Ways = Callable[[Groundwork, Finding], Iterator[Family]]


def _above_reach(work: Groundwork, one: Finding) -> Iterator[Family]:
    """Ripped to the most the saw reaches, or to half that, where clamps and sled are for smaller sticks."""
    stock, say = work.job.stock, said(work)
    if one.numbers["reach_mm"] is None:
        return
    most = number(one, "reach_mm")
    heights = [("stock.height", say.down(share * most)) for share in (1.0, 0.75, 0.5)]
    if stock.thickness > stock.height:
        yield [(("stock.thickness", stock.height.text), high) for high in heights]
    else:
        yield [(high,) for high in heights]


def _not_upright(work: Groundwork, _one: Finding) -> Iterator[Family]:
    stock = work.job.stock
    yield [(("stock.thickness", stock.height.text), ("stock.height", stock.thickness.text))]


def _gap(work: Groundwork, _one: Finding) -> Iterator[Family]:
    yield setting("saw.fence_gap", "0.4 mm" if work.job.units == "mm" else "1/64 in")


def _finish(work: Groundwork, one: Finding) -> Iterator[Family]:
    thickest, say = number(one, "thickest_mm"), said(work)
    if thickest > say.step:
        yield setting("stock.finished_thickness", say.down(thickest))
    if "tip_mm" in one.numbers:
        yield setting("stock.thickness", say.up(number(one, "finished_mm") + 2 * number(one, "tip_mm") + say.step / 2))


def _degrees(work: Groundwork, one: Finding) -> Iterator[Family]:
    if measured(work):
        return
    yield together(setting("joint.ratio", round(number(one, "ratio_if_degrees"), 1)), LENGTH)


def _steep(work: Groundwork, _one: Finding) -> Iterator[Family]:
    if measured(work):
        return
    yield together(setting("joint.ratio", 12, 10, 8), LENGTH)


def _flat(work: Groundwork, _one: Finding) -> Iterator[Family]:
    if measured(work):
        return
    yield together(setting("joint.ratio", 16, 12, 20), LENGTH)


def _slope_off(work: Groundwork, _one: Finding) -> Iterator[Family]:
    if work.job.sled.made_from == "plank" and not measured(work):
        finer = ("0.5 mm", "0.1 mm", 0) if work.job.units == "mm" else ("1/32 in", "1/64 in", 0)
        yield setting("sled.round_marks", *finer)
        yield longer(work)


def _as_made_length(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("sled.length", said(work)(number(one, "length_mm")))


def _narrow(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield shorter(work, number(one, "longest_mm"))
    yield wider(work, number(one, "needed_width_mm"))
    yield automatic(work, "sled.length")


def _thin(work: Groundwork, one: Finding) -> Iterator[Family]:
    if not measured(work) and work.job.sled.made_from == "plank":
        yield shorter(work, work.way.nominal.length)
        yield wider(work)
    if number(one, "nose_mm") >= 10.0:
        yield setting("sled.nose_min", said(work).down(number(one, "nose_mm")))


def _short(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield longer(work, number(one, "needed_length_mm"))
    yield automatic(work, "sled.length")
    yield automatic(work, "sled.heel_station")


def _hands(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield automatic(work, "sled.hand_line")
    yield longer(work, number(one, "needed_length_mm"))
    yield automatic(work, "sled.length")
    inch = work.job.units == "in"
    yield setting("saw.hands_clear", *(("10 in", "8 in", "6 in") if inch else ("250 mm", "200 mm", "150 mm")))


def _clear(work: Groundwork, _one: Finding) -> Iterator[Family]:
    yield setting("saw.hands_clear", *(("12 in", "6 in") if work.job.units == "in" else ("300 mm", "150 mm")))


def _line(work: Groundwork, one: Finding) -> Iterator[Family]:
    stride = fine_step(work.job.units)
    marked = -(-number(one, "needed_mm") // stride) * stride
    yield setting("sled.hand_line", said(work)(marked))
    yield automatic(work, "sled.hand_line")


def _handle_room(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield longer(work)
    spacings = (64.0, 48.0, 32.0) if work.job.units == "mm" else (76.2, 63.5, 50.8, 38.1)
    closer = [spacing for spacing in spacings if spacing < number(one, "spacing_mm")]
    yield setting("sled.handle_spacing", *(said(work)(spacing) for spacing in closer))
    yield setting("sled.handle_hole", 0)


def _handle_overlap(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("sled.handle_spacing", said(work).up(number(one, "needed_mm")))


def _handle_out(_work: Groundwork, _one: Finding) -> Iterator[Family]:
    yield together(setting("sled.handle_station", "auto"), ("sled.hand_line", "auto"), ("sled.length", "auto"))
    yield setting("sled.handle_hole", 0)


def _no_nose_clamp(work: Groundwork, _one: Finding) -> Iterator[Family]:
    yield automatic(work, "sled.nose_flat")
    yield longer(work)
    yield wider(work)


def _off_flat(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield automatic(work, "sled.nose_station")
    least, most, say = number(one, "least_mm"), number(one, "most_mm"), said(work)
    yield setting("sled.nose_station", say.up(least) if number(one, "nose_station_mm") < least else say.down(most))


def _flat_long(work: Groundwork, one: Finding) -> Iterator[Family]:
    if measured(work):
        return
    say, pad, half = said(work), number(one, "pad_width_mm"), number(one, "length_mm") / 2
    if pad <= half:
        yield setting("sled.nose_flat", say.down(half), say.up(pad))
    yield automatic(work, "sled.nose_flat")
    yield longer(work, 2 * number(one, "nose_flat_mm"))


def _flat_short(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("sled.nose_flat", said(work).up(number(one, "pad_width_mm")))
    yield automatic(work, "sled.nose_flat")


def _dowel(work: Groundwork, one: Finding) -> Iterator[Family]:
    yield setting("sled.dowel", *(said(work).down(number(one, "dowel_mm") * share) for share in (0.75, 0.5, 0.25)))
    yield setting("sled.dowel", 0)


def _margin(key: str, mm: str, inch: str) -> Ways:
    def ways(work: Groundwork, _one: Finding) -> Iterator[Family]:
        moved = (("sled.heel_station", "auto"), ("sled.hand_line", "auto"), ("sled.length", "auto"))
        yield together(setting(key, mm if work.job.units == "mm" else inch), *moved)

    return ways


def _stop(work: Groundwork, _one: Finding) -> Iterator[Family]:
    say = said(work)
    yield setting("sled.heel_station", say.up(work.way.layout.least_station))
    yield automatic(work, "sled.heel_station")
    yield longer(work)
    now = [s.text for s in work.job.sled.extra_stations]
    yield setting("sled.extra_stations", [s for s in now if s not in now[:1]], [])


WAYS: dict[str, Ways] = {
    "stock.above_reach": _above_reach,
    "stock.not_upright": _not_upright,
    "joint.gap_eats_joint": _gap,
    "joint.finish_too_thick": _finish,
    "joint.tips_stay": _finish,
    "joint.slope_degrees": _degrees,
    "joint.slope_steep": _steep,
    "joint.slope_flat": _flat,
    "joint.slope_off": _slope_off,
    "sled.as_made_needs_length": _as_made_length,
    "plank.too_narrow": _narrow,
    "sled.nose_thin": _thin,
    "sled.too_short": _short,
    "sled.hands_have_no_room": _hands,
    "hands.clear_short": _clear,
    "hands.line_near": _line,
    "hands.line_too_near": _line,
    "handle.no_room": _handle_room,
    "handle.overlap": _handle_overlap,
    "handle.breaks_out": _handle_out,
    "nose.no_clamp": _no_nose_clamp,
    "nose.pad_off_flat": _off_flat,
    "nose.flat_too_long": _flat_long,
    "nose.flat_short": _flat_short,
    "dowel.no_room": _dowel,
    "margin.travel_small": _margin("saw.travel_margin", "50 mm", "2 in"),
    "margin.side_small": _margin("saw.side_clearance", "10 mm", "3/8 in"),
    "margin.blade_small": _margin("saw.blade_above_work", "6 mm", "1/4 in"),
    "margin.gap_small": _margin("saw.fence_gap", "0.4 mm", "1/64 in"),
    "margin.stop_beyond": _stop,
    **notches.WAYS,
    **clamps.WAYS,
    **cut.WAYS,
}
