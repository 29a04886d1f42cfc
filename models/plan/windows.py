"""Sets of whole numbers as sorted, disjoint, closed intervals; where a joint may end, in marks.

Pieces p_1, p_2, ... of a blank add up to N_j = p_1 + ... + p_j. Joint j lies from N_j - j X to N_j - (j - 1) X, so a
stretch that a joint must keep out of is a stretch of whole numbers that N_j must keep out of: exact windows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

Span = tuple[int, int]
Spans = tuple[Span, ...]


def without(low: int, high: int, forbidden: Sequence[Span]) -> Spans:
    """low..high less the forbidden intervals (sorted or not, may overlap)."""
    found = []
    for a, b in sorted(forbidden):
        if b < low:
            continue
        if a > high:
            break
        if a > low:
            found.append((low, a - 1))
        low = max(low, b + 1)
    if low <= high:
        found.append((low, high))
    return tuple(found)


def reach(spans: Spans, least: int, most: int, into: Spans) -> Spans:
    """What can be got by adding a piece of least..most to a number of `spans`, so far as it lies in `into`."""
    if least > most:
        return ()
    grown: list[Span] = []
    for a, b in spans:
        low, high = a + least, b + most
        if grown and low <= grown[-1][1] + 1:
            if high > grown[-1][1]:
                grown[-1] = (grown[-1][0], high)
        else:
            grown.append((low, high))
    return cross(grown, into)


def cross(first: Sequence[Span], second: Sequence[Span]) -> Spans:
    """What is in both."""
    found = []
    i = j = 0
    while i < len(first) and j < len(second):
        low, high = max(first[i][0], second[j][0]), min(first[i][1], second[j][1])
        if low <= high:
            found.append((low, high))
        if first[i][1] < second[j][1]:
            i += 1
        else:
            j += 1
    return tuple(found)


def zone_forbids(joint: int, zone: tuple[Fraction, Fraction], overlap: Fraction) -> Span:
    """The N_j with which joint j would lie in the zone in part (touching is free); empty as (1, 0) alike."""
    low = math.floor(zone[0] + (joint - 1) * overlap) + 1
    high = math.ceil(zone[1] + joint * overlap) - 1
    return (low, high)


def start_forbids(joint: int, other: Fraction, overlap: Fraction, clear: Fraction) -> Span:
    """The N_j with which joint j would lie nearer than `clear` to a mate's joint that starts at `other`."""
    low = math.floor(other - overlap - clear + joint * overlap) + 1
    high = math.ceil(other + overlap + clear + joint * overlap) - 1
    return (low, high)
