"""Which findings a builder is to hear: none that only follows from another."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.findings import ABOVE_REACH, Finding


def heard(found: Sequence[Finding]) -> tuple[Finding, ...]:
    """Above the saw's reach that alone, since every other size follows from it; of a clamp whose notch is no place on
    the sled at all only that."""
    alone = tuple(f for f in found if f.code == ABOVE_REACH)
    nowhere = [f.numbers for f in found if f.code == "notch.off_sled" and not _on_work_edge(f)]
    if alone or not nowhere:
        return alone or tuple(found)
    places = {(n["where"], n["station_mm"]) for n in nowhere}
    there = [f for f in found if (f.numbers.get("where"), f.numbers.get("station_mm")) in places]
    follows = [f for f in there if f.code.startswith("clamp.")]
    codes = {"margin.stop_beyond"} if any(f.code.startswith("clamp.meets_") for f in follows) else set()
    return tuple(f for f in found if f not in follows and f.code not in codes)


def _on_work_edge(off_sled: Finding) -> bool:
    station, edge = (off_sled.numbers[key] for key in ("station_mm", "work_edge_mm"))
    assert isinstance(station, float)
    assert isinstance(edge, float)
    return 0 <= station <= edge
