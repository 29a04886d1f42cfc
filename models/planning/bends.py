"""What the bends of a job ask of its plan: where no joint may stand, and how much a joint uses where it does."""

from __future__ import annotations

from collections.abc import Sequence

from scarfwright.models.bending.members import Member
from scarfwright.models.bending.use import Bend
from scarfwright.models.job.blank import Blank
from scarfwright.models.plan.data import Request, Stretch
from scarfwright.models.planning.request import Use, with_bends


def bent(request: Request, blanks: Sequence[Blank], members: Sequence[Member]) -> Request:
    """The request with the bends of its blanks; those of unknown wood are left as they are (a finding says so)."""
    planned = [number for number, blank in enumerate(blanks, 1) if blank.length is not None]
    zones: dict[int, tuple[Stretch, ...]] = {}
    uses: dict[int, Use] = {}
    for one in members:
        if one.number in planned and one.bend is not None and one.bend.share is not None:
            at = planned.index(one.number)
            zones[at] = _forbidden(one.bend, float(request.blanks[at].length))
            uses[at] = _use(one.bend)
    return with_bends(request, zones, uses)


def _forbidden(bend: Bend, length: float) -> tuple[Stretch, ...]:
    """What the allowed stretches leave of the blank; beyond the end of its curve nothing is known to bend it."""
    edges = [0.0, *(edge for stretch in bend.allowed for edge in stretch), min(bend.end, length)]
    return tuple((low, high) for low, high in zip(edges[::2], edges[1::2], strict=True) if high > low)


def _use(bend: Bend) -> Use:
    places, values = bend.curve.arc, bend.use_joint

    def at(station: float) -> float:
        for a, b, u, v in zip(places, places[1:], values, values[1:], strict=False):
            if a <= station <= b:
                return u + (v - u) * (station - a) / (b - a) if b > a else max(u, v)
        return 0.0  # beyond the curve

    def over(low: float, high: float) -> float:
        inside = [v for p, v in zip(places, values, strict=True) if low <= p <= high]
        return max([at(low), at(high), *inside])

    return over
