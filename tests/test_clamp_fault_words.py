"""A clamp that meets blade or fence: whether before the end of the cut or only in the margin after it, and where."""

from __future__ import annotations

import math
from typing import Any

import pytest
from scarfwright.models.findings import Level
from scarfwright.models.lengths.say import say_in
from scarfwright.models.words.at_the_saw import endings

from tests.cut_jobs import of_code, worked

BEFORE, AFTER = "before", "within the margin after"
ENDS = {
    "hold": "220.9 mm (the taper is complete and the sled held there)",
    "run_on": "430.8 mm (the blade is clear of the work)",
    "draw_back": "220.9 mm (the taper is complete and the sled drawn back)",
}
BLADE = "The heel clamp at {at} from the heel meets the blade at {limit} of travel, {when} the end of the cut at {end}."
FENCE = "The nose clamp at 837.5 mm from the heel meets the near end of the fence at {limit} of travel, {when} the end "
FENCE += "of the cut at {end}."

# the sled of 850: slope 850 / 71, the cut ends at 220.93, or 430.76 where the sled runs on; the margin is 50
N = 850 / 71
SLANT = math.hypot(1, N)
AT_PADS = math.sqrt(127**2 - 79**2)  # the blade's front 18 above the table


def meets_at(station: float) -> float:
    """Travel at which a jaw, 22 to 34 off the work edge and 25 nearer the heel, has the blade at its first corner."""
    u = station - 25
    off = max(22.0, (-9.6 * SLANT + u) / N)  # from there on it lies on the blade's side of F - 10
    assert off <= 34
    return (u * N + off) / SLANT - AT_PADS


@pytest.mark.parametrize(
    ("end", "station", "limit", "when"),
    [
        ("hold", "344.8 mm", "221 mm", AFTER),
        ("hold", "344.5 mm", "220.7 mm", BEFORE),
        ("hold", "394.7 mm", "270.8 mm", AFTER),
        ("draw_back", "344.8 mm", "221 mm", AFTER),
        ("draw_back", "344.5 mm", "220.7 mm", BEFORE),
        ("run_on", "344.8 mm", "221 mm", BEFORE),  # past the taper's end, and still before the cut's
        ("run_on", "500 mm", "376.4 mm", BEFORE),
    ],
)
def test_a_clamp_that_meets_the_blade(end: str, station: str, limit: str, when: str) -> None:
    work = worked(saw={"end_of_cut": end, "fence_front": "300 mm"}, sled={"heel_station": station})
    (found,) = of_code(work, "clamp.meets_blade")
    assert found.level is Level.FAULT
    assert found.text.startswith(BLADE.format(at=station, limit=limit, when=when, end=ENDS[end]))
    by_hand = meets_at(float(station.removesuffix(" mm")))
    assert found.numbers["limit_mm"] == pytest.approx(by_hand, abs=1e-6)
    assert 0 <= by_hand - float(limit.removesuffix(" mm")) < 0.1  # short, never long
    done = 22 * SLANT - 0.4 * N - math.sqrt(127**2 - 121**2)
    clear = 22 * SLANT - 0.4 * N + math.sqrt(127**2 - 61**2) + 5 * N
    assert (by_hand < (clear if end == "run_on" else done)) == (when == BEFORE)


@pytest.mark.parametrize(
    ("end", "front", "limit", "when"),
    [
        ("hold", 590.0, "219 mm", BEFORE),
        ("hold", 580.0, "229 mm", AFTER),
        ("run_on", 390.0, "419 mm", BEFORE),
        ("run_on", 370.0, "439 mm", AFTER),
        ("draw_back", 590.0, "219 mm", BEFORE),
    ],
)
def test_a_clamp_that_meets_the_fence(end: str, front: float, limit: str, when: str) -> None:
    """The jaw on the nose flat stands at its step, 40 from the nose, and leads by its 12 aslant."""
    work = worked(saw={"end_of_cut": end, "fence_front": f"{front} mm"}, sled={"heel_station": "560 mm"})
    (found,) = of_code(work, "clamp.meets_fence")
    assert found.level is Level.FAULT
    assert found.text.startswith(FENCE.format(limit=limit, when=when, end=ENDS[end]))
    by_hand = 850 - 40 - 12 / SLANT - front
    assert found.numbers["limit_mm"] == pytest.approx(by_hand, abs=1e-6)
    assert 0 <= by_hand - float(limit.removesuffix(" mm")) < 0.1  # short, never long


# -- what is said of an ending that a clamp leaves or denies -------------------------------------------------

# heel clamp at 397.6: it meets the blade at 273.70, 52.77 after the taper is complete; nothing else comes sooner
LIMIT = "Travel limit 273.6 mm: there the heel clamp at 397.6 mm meets the blade."
POSSIBLE = (
    "Possible. The cut is over at 220.9 mm of travel; the heel clamp at 397.6 mm would reach the blade 52.7 mm further "
    "on."
)
DENIED = (
    "Not with these clamps: it needs 480.8 mm of free travel, but the heel clamp at 397.6 mm meets the blade at 273.6 "
    "mm of travel; the nose clamp at 837.5 mm meets the fence at 359 mm of travel."
)


@pytest.mark.parametrize("end", ["hold", "draw_back"])
def test_clamp_limits_are_told_short_never_long(end: str) -> None:
    """To the nearest tenth they would be 273.7 and 52.8: further than the sled may go."""
    by_hand = meets_at(397.6)
    done = 22 * SLANT - 0.4 * N - math.sqrt(127**2 - 121**2)
    assert 273.65 < by_hand < 273.7
    assert 52.75 < by_hand - done < 52.8
    advice = worked(saw={"end_of_cut": end}, sled={"heel_station": "397.6 mm"}).cut.advice
    assert endings.limit(advice, say_in("mm")) == LIMIT
    whys: dict[str, Any] = {ending.name: endings.why(ending, say_in("mm")) for ending in advice.endings}
    assert whys["hold"].startswith(POSSIBLE)
    assert whys["draw_back"].startswith(POSSIBLE)
    assert whys["run_on"].startswith(DENIED)
    assert [ending.possible for ending in advice.endings] == [True, False, True]
