"""Where the handle's holes and the dowels' go: down the middle of the sled's width, with wood around them. All mm."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from heapq import merge

from scarfwright.models.flat.loop import Point
from scarfwright.models.flat.room import Capsule, between, inside_by
from scarfwright.models.job.tables import Job
from scarfwright.models.sled.sled import Sled

WOOD_AROUND = 8.0  # least wood round a drilled hole; common practice, no source
MOST_DOWELS = 3


def handle_holes(job: Job, sled: Sled, hand_line: float, taken: list[Capsule]) -> tuple[Point, ...]:
    """Two holes along the middle of the sled's width, behind the hand line and clear of the notches.

    "auto" takes the first place where they fit and gives none where they fit nowhere; a station that was asked
    for is taken as it is, and checked later.
    """
    if job.sled.handle_hole <= 0:
        return ()
    half = job.sled.handle_spacing / 2
    if job.sled.handle_station != "auto":
        return _hole_pair(sled, job.sled.handle_station, half)
    radius = job.sled.handle_hole / 2
    corners = sled.corners()
    station = hand_line + half + radius + WOOD_AROUND
    while station + half + radius < sled.length:
        pair = _hole_pair(sled, station, half)
        if all(fits(Capsule(p, p, radius), corners, taken) for p in pair):
            return pair
        station += 5.0
    return ()


def _hole_pair(sled: Sled, station: float, half: float) -> tuple[Point, ...]:
    xs = (sled.length - station - half, sled.length - station + half)
    return tuple((x, sled.width_at(x) / 2) for x in xs)


def nearest_first(places: Sequence[float], wish: float) -> Iterator[float]:
    """Places, which go up, the nearest to a wish first: one of the first usually does."""
    at = bisect_left(places, wish)
    return merge(reversed(places[:at]), places[at:], key=lambda place: abs(place - wish))


def fits(hole: Capsule, corners: list[Point], taken: list[Capsule]) -> bool:
    """Whether a hole keeps enough wood around it."""
    return inside_by(hole, corners) >= WOOD_AROUND and all(between(hole, t) >= WOOD_AROUND for t in taken)


def dowel_holes(sled: Sled, radius: float, taken: list[Capsule]) -> tuple[Point, ...]:
    """Up to three dowel holes down the middle of the width, as far apart as the other openings let them."""
    corners = sled.corners()
    step = sled.length / 200
    room = radius + WOOD_AROUND  # nearer to fence edge, nose or heel none keeps its wood: that spares most of the work
    along = [x for x in (i * step for i in range(1, 200)) if room <= x <= sled.length - room]
    along = along[bisect_left(along, room, key=lambda x: sled.width_at(x) / 2) :]

    def first(order: Iterable[float]) -> Point | None:
        places = ((x, sled.width_at(x) / 2) for x in order)
        return next((p for p in places if fits(Capsule(p, p, radius), corners, taken)), None)

    nose = first(along)
    if nose is None:
        return ()
    heel = first(reversed(along)) or nose
    middle = first(nearest_first(along, (nose[0] + heel[0]) / 2)) or nose
    chosen = [nose, middle, heel]
    least = 2 * radius + WOOD_AROUND
    kept = [chosen[0]]
    for point in chosen[1:MOST_DOWELS]:
        if math.dist(point, kept[-1]) >= least:
            kept.append(point)
    return tuple(kept) if len(kept) > 1 else ()
