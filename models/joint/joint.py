"""The scarf joint in numbers.

Slope 1 in N, angle theta = atan(1 / N). The work lies with one face on the sled's work edge; the blade's fence
side leaves a tip b thick at the feather end: how thick, the way it is cut decides.

Source: plane geometry of the cut (the project's own derivation, checked by cutting solids);
"1 in 16 in 3/4 in stock is 12 in" is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

MOST_OFF = 0.02  # share by which the realised slope may differ from the asked one; common practice, no source


@dataclass(frozen=True)
class Joint:
    """A scarf of slope 1 in `ratio` through `thickness`, `height` high, with a `tip` left at the feather end (mm)."""

    ratio: float
    thickness: float
    height: float
    tip: float

    @property
    def angle(self) -> float:
        """theta [rad]."""
        return math.atan(1 / self.ratio)

    @property
    def taper_run(self) -> float:
        """Along the board from tip to full thickness, (t - b) N [mm]."""
        return (self.thickness - self.tip) * self.ratio

    @property
    def overlap(self) -> float:
        """Tip to tip when mated at board thickness, (t - 2 b) N [mm]: what each joint eats."""
        return (self.thickness - 2 * self.tip) * self.ratio

    @property
    def glue_area(self) -> float:
        """Area of one face that meets the mate: slant length over the overlap x height [mm2]."""
        return math.hypot(self.overlap, self.overlap / self.ratio) * self.height

    @property
    def thickest_finish(self) -> float:
        """Greatest finished thickness that still planes the tips' grooves away, t - 2 b [mm]."""
        return self.thickness - 2 * self.tip

    def finished_run(self, finished: float) -> float:
        """Glue line from face to face after planing to `finished` [mm]: t_f N."""
        return finished * self.ratio
