"""What a board must be like to be scarfed: grain, knots, moisture, trueness, each as a figure with its source.

Sources: FAA AC 43.13-1B Table 1-1 and 1-39 (run-out 1 in 15, the scarf cut in the direction of the grain's slope);
FAA-H-8083-31 (moisture 8 to 12 %). The rest is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from scarfwright.models.joint.joint import Joint
from scarfwright.models.lengths.length import Unit
from scarfwright.models.strength.grain import MOST_RUN_OUT, grain_share

# a handy length to judge run-out over
RUN_OUT_LENGTH: dict[Unit, float] = {"mm": 300.0, "in": 304.8}
MOISTURE = (8.0, 12.0)  # %; FAA-H-8083-31, seen, quoted
ALIKE = 2.0  # % between boards glued together; common practice, no source
KNOT_ROOM = 1.0  # in thicknesses beyond the taper; common practice, no source


@dataclass(frozen=True)
class BoardNeeds:
    """`clear`: length from each end to be tapered that has no knot, shake or pith; `run_out`: most rise of the grain
    over `run_out_length`; `grain_share`: strength left at that run-out; `moisture`: range [%]; `alike`: most difference
    between boards [%]."""

    clear: float
    run_out: float
    run_out_length: float
    grain_share: float
    moisture: tuple[float, float]
    alike: float


def board_needs(joint: Joint, units: Unit, moisture: tuple[float, float] | None = None) -> BoardNeeds:
    """The figures for a joint. `units`: the job's. `moisture`: the adhesive kind's range [%], if known."""
    return BoardNeeds(
        clear=joint.taper_run + KNOT_ROOM * joint.thickness,
        run_out=RUN_OUT_LENGTH[units] / MOST_RUN_OUT,
        run_out_length=RUN_OUT_LENGTH[units],
        grain_share=grain_share(MOST_RUN_OUT),
        moisture=MOISTURE if moisture is None else moisture,
        alike=ALIKE,
    )
