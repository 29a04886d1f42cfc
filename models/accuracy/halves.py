"""Which half of the plank takes the tilt of the blade back.

The plank is cut apart on the saw that later cuts the tapers, with the blade out of square by the same tilt. One half
goes through with its heel first, the other with its nose first. At the taper cut the heel always leads and the fence
edge lies on the fence, which settles how the half is laid.

    half lay          went first   is laid               lean of its work edge
    fence to blade    heel         as it lay             tilt: cancels
    beyond the blade  heel         turned over           tilt: cancels
    fence to blade    nose         turned end over end   -tilt: doubles
    beyond the blade  nose         turned end for end    -tilt: doubles

The two feeds lie the slope's angle apart, so "cancels" leaves tilt (1 - cos theta): 0.003 degrees of 0.8 at 12:1.

Source: the project's own derivation, proved by cutting a plank with a tilted plane and using each half.
"""

from __future__ import annotations

from typing import Literal

from scarfwright.models.accuracy.effects import lean

Leads = Literal["heel", "nose"]
Lay = Literal["fence", "free"]  # between fence and blade, or beyond the blade
Turn = Literal["as_it_lay", "turned_over", "end_over_end", "end_for_end"]


def edge_lean(tilt: float, led: Leads) -> float:
    """Lean of the work edge [rad] of a half whose heel or nose went through a blade tilted by `tilt` [rad] first."""
    return tilt if led == "heel" else -tilt


def half_lean(tilt: float, led: Leads) -> float:
    """The lean e of the joints cut on that half [rad], with the blade at the same tilt: 0 or twice the tilt."""
    return lean(tilt, edge_lean(tilt, led))


def turn(lay: Lay, led: Leads) -> Turn:
    """How the half is turned between the dividing cut and the taper cut, so that its heel leads.

    turned_over: about its length; end_over_end: about the line across the table; end_for_end: about the upright axis.
    """
    if led == "heel":
        return "as_it_lay" if lay == "fence" else "turned_over"
    return "end_over_end" if lay == "fence" else "end_for_end"
