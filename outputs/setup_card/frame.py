"""Where the set-up card's views stand on the page."""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.cut.scene import State
from scarfwright.outputs.drawing.display import View

FREE_STRIP = 45.0  # table shown beyond the work [mm]
Area = tuple[float, float, float, float]


@dataclass(frozen=True)
class Frame:
    """Where the views stand and how far along the feed they reach [mm]. `out` is +1 if the blade lies up the page
    from the fence, -1 for a fence on the left."""

    area: Area
    state: State
    start: State
    low: float
    high: float
    plan: View
    side: View
    out: float
