"""What is said about the risers of the glue-up."""

from __future__ import annotations

from scarfwright.models.lengths.say import Say
from scarfwright.models.words.for_machines.gauges import use_instead
from scarfwright.models.words.sentence import Sentence


def _top_too_small(
    _say: Say,
    *,
    width_mm: float,
    needed_width_mm: float,
    height_mm: float,
    needed_height_mm: float,
    tape_mm: float,
    edge_mm: float,
) -> str:
    return (
        f"Make the riser {needed_width_mm:g} mm wide or more and over {needed_height_mm:g} mm high, or take narrower "
        f"tape: {width_mm:g} mm wide and {height_mm:g} mm high it has no room for a groove of {tape_mm:g} mm and edges "
        f"rounded by {edge_mm:g} mm."
    )


def _uneven(_say: Say, *, resolution_mm: float, needed_mm: float, by_feeler_mm: float) -> str:
    return (
        "Print the risers together, try them under a straightedge, pack low ones with paper. Printed ones differ by up "
        f"to {resolution_mm:.2f} mm, and a stiff joint needs them level to {needed_mm:.2f} mm. "
        + use_instead(resolution_mm, [("a straightedge and a feeler gauge", by_feeler_mm)], lambda v: f"{v:.2f} mm")
    )


def _long_span(say: Say, *, span_mm: float, most_mm: float, clear_mm: float, thicknesses: float) -> str:
    return (
        f"Prop the joint's middle once the clamps are on: the clamps stand too close for a riser "
        f"between them ({say(clear_mm)} clear of each pad), so the joint spans {say(span_mm)} from riser to riser, "
        f"over {thicknesses:g} thicknesses ({say(most_mm)}; common practice, no source)."
    )


SENTENCES: dict[str, Sentence] = {
    "riser.top_too_small": _top_too_small,
    "riser.uneven": _uneven,
    "riser.long_span": _long_span,
}
