"""Where clamps stand along a joint, and which way the work lies under them [mm].

A pad's pressure spreads through the wood at 45 degrees, on average over half the thickness to each side: a clamp covers
pad + t, each long edge takes ceil(overlap / (pad + t)) of them. The outermost stand with their pads flush with
the tips: a tip is too thin to spread anything, it is pressed only where a pad lies on it.

Source: the project's own derivation; a 12 in joint in 3/4 in stock with 1 in pads gives 14, common practice 12 to 14.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from scarfwright.models.lengths.length import Unit

# strip of scrap under each row of pads, and a batten's thickness; common practice, no source
STRIP: dict[Unit, float] = {"mm": 6.0, "in": 6.35}
BATTEN: dict[Unit, float] = {"mm": 20.0, "in": 19.05}


def clamps_needed(overlap: float, pad: float, thickness: float) -> int:
    """Clamps on each long edge so that their pressure covers the joint; the same number stands on the other edge.

    A second condition counts where they stand flush with both tips: what lies between two pads is covered too, once
    the pressure has spread through the strip under them.
    """
    covering = math.ceil(overlap / (pad + thickness) - 1e-9)
    between = math.ceil((overlap - pad) / (pad + thickness + 2 * STRIP["mm"]) - 1e-9) + 1
    return max(covering, between if overlap > pad else 1)


def clamp_stations(overlap: float, pad: float, count: int) -> tuple[float, ...]:
    """Middles of `count` clamps along one edge, from the first tip: pads flush with both tips, the rest evenly between.

    A single clamp, or a pad wider than the joint, stands in the middle; pads that have no room between the tips stand
    side by side over both.
    """
    if count <= 1 or pad >= overlap:
        return (overlap / 2,) * min(count, 1)
    pitch = max((overlap - pad) / (count - 1), pad)
    return tuple(overlap / 2 + (i - (count - 1) / 2) * pitch for i in range(count))


def clamp_order(count: int) -> tuple[int, ...]:
    """For each clamp of an edge, from the first tip, when it is set: the middle first, then the tips, then the rest
    from the middle outwards. From 1."""
    middle = (count - 1) / 2
    outwards = sorted(range(count), key=lambda i: (abs(i - middle), i))
    first = list(dict.fromkeys([*outwards[:1], 0, count - 1, *outwards])) if count else []
    return tuple(first.index(i) + 1 for i in range(count))


@dataclass(frozen=True)
class Lay:
    """How the work lies while it is clamped.

    "flat" on its face: a clamp reaches in from each long edge and presses strips of scrap on both faces.
    "edge" on its long edge: the clamps' throats are too shallow to reach the middle, so a pair of battens as long as
    the work is high, and longer by a pad at each end, stands at every station, a clamp on each end of a pair.
    `opening`: what a clamp must close on; `reach`: the throat that flat work needs; `between`: thickness of the strip
    or batten under a pad; `batten`: length of one, 0 if none.
    """

    way: Literal["flat", "edge"]
    opening: float
    reach: float
    between: float
    batten: float
    opens: bool


def lay(thickness: float, height: float, opening: float, throat: float, pad_height: float, units: Unit) -> Lay:
    """Flat where the throat reaches half the height, so that the pads of both edges meet; else on edge with battens.

    `opens`: whether the clamps open wide enough for that.
    """
    reach = height / 2
    if throat >= reach:
        needed = thickness + 2 * STRIP[units]
        return Lay("flat", needed, reach, STRIP[units], 0.0, opening >= needed)
    needed = thickness + 2 * BATTEN[units]
    return Lay("edge", needed, reach, BATTEN[units], height + 2 * pad_height, opening >= needed)
