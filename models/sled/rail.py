"""The guide rail for a hand-held saw, the other way to divide a plank: where it lies, and what carries it.

Frame of the plank: x from the first half's nose end, y from the edge of the plank that becomes its fence edge. The
rail lies on the first half's side of the line. All lengths mm. Source: plane geometry, the project's own derivation.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scarfwright.models.flat.loop import Loop, polygon
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import round_up
from scarfwright.models.sled.sled import Sled

RAIL_WIDTH = 100.0  # of the straight board the saw runs along; common practice, no source
PAST_END = 200.0  # rail beyond either end of the plank, for the saw's base; common practice, no source
PIECE_LENGTH = 200.0  # of a piece that carries the rail, along the plank; common practice, no source
DEEPER = 3.0  # blade below the plank, into waste; common practice, no source


@dataclass(frozen=True)
class RailPiece:
    """A piece as thick as the plank, against the plank's edge from `start` to `end` (from the heel end of that edge),
    and `width` from the plank outwards."""

    start: float
    end: float
    width: float


@dataclass(frozen=True)
class Rail:
    """`offset` from the dividing line to the rail's edge, square to the line; `at_nose`, `at_heel` where that edge
    crosses the plank's ends: from the plank's edge, negative beside it. `heel` and `nose` are the widths this saw's
    `kerf` leaves; `saw_depth` how deep it is set."""

    offset: float
    kerf: float
    heel: float
    nose: float
    at_nose: float
    at_heel: float
    length: float
    pieces: tuple[RailPiece, ...]
    saw_depth: float
    outline: Loop


def guide_rail(job: Job, sled: Sled) -> Rail:
    """The rail for the nominal sled, one half of a plank."""
    if sled.mark is None or sled.plank_width is None:
        raise ValueError("the sled is not made from a plank")
    step = 10.0 if job.units == "mm" else 25.4 / 2
    kerf = float(job.saw.hand_kerf)
    cos, mark, other = math.cos(sled.angle), sled.mark, sled.plank_width - sled.mark
    offset = job.saw.base_to_blade + kerf / 2
    at_nose, at_heel = other - offset / cos, mark - offset / cos

    def edge(x: float) -> float:
        return at_nose + (at_heel - at_nose) * x / sled.length

    long = min(PIECE_LENGTH, sled.length / 3)
    pieces = []
    for low, high in ((sled.length - long, sled.length), (0.0, long)):
        beside = RAIL_WIDTH / cos - edge(low)  # the rail's far side is further out at the narrow end of the piece
        if beside > 0:
            pieces.append(RailPiece(sled.length - high, sled.length - low, round_up(beside, step)))
    corners = [(x, edge(x) - down) for x, down in ((-PAST_END, 0.0), (-PAST_END, RAIL_WIDTH / cos))]
    corners += [(x, edge(x) - down) for x, down in ((sled.length + PAST_END, RAIL_WIDTH / cos),
                                                    (sled.length + PAST_END, 0.0))]  # fmt: skip
    return Rail(
        offset=offset,
        kerf=kerf,
        heel=mark - kerf / 2 / cos,
        nose=other - kerf / 2 / cos,
        at_nose=at_nose,
        at_heel=at_heel,
        length=round_up(sled.length + 2 * PAST_END, step),
        pieces=tuple(pieces),
        saw_depth=sled.thickness + DEEPER,
        outline=polygon(corners),
    )
