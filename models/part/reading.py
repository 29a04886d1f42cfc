"""How well a gauge measures: errors of size and of reading, carried through to what is read.

Every error is taken as anywhere within its half width with equal chance, so its standard uncertainty is a / sqrt(3);
errors that do not hang together add as squares, each times how far it moves the result; twice the sum's root covers
about 95 % of cases.

Source: JCGM 100:2008 (GUM) 4.3.7, 5.1.2 and 6.3.3; clause numbers from memory, high.
"""

from __future__ import annotations

import math

# How well people read; common practice, no source.
EYE = 0.1  # light under a straight edge, or a tooth that just touches [mm]
PENCIL = 0.25  # a pencil line, and its distance from another, by rule [mm]
RULE = 0.5  # a width read off a rule over an edge cut by hand [mm]
CALLIPER = 0.05  # jaws on wood [mm]
FEELER = 0.02  # a strip of steel feeler gauge [mm]

COVER = 2.0


def expanded(*terms: tuple[float, float]) -> float:
    """U = 2 sqrt(sum (c a)^2 / 3).

    Parameters: pairs (c, a), how far the result moves per unit of the error, and the error's half width.
    Returns U, in the unit of the result: the result is within ± U in about 95 of 100 cases.
    """
    return COVER * math.sqrt(sum((c * a) ** 2 for c, a in terms) / 3)


def slope_from_ends(ratio: float, length: float, end: float, read: float = 0.0) -> float:
    """± of N [-] for a slope told from two widths `length` apart, each out by `end`, and one reading out by `read`.

    1/N = (w1 - w0) / L, so dN = N^2 d(w1 - w0) / L.
    """
    step = ratio**2 / length
    return expanded((step, end), (step, end), (step, read))


def slope_by_rule(ratio: float, length: float) -> float:
    """± of N [-] for a sled `length` long [mm], heel and nose read off a rule."""
    return slope_from_ends(ratio, length, RULE)


def slope_from_stops(ratio: float, difference: float, tolerance: float) -> float:
    """± of N [-] for a fork whose slots differ by `difference`, each out by `tolerance` [mm].

    N = D / (w2 - w1) with D between two pencil lines, read on a printed scale: dN = (N d(w2 - w1) + dD) / (w2 - w1).
    """
    slot, line = ratio / difference, 1 / difference
    return expanded((slot, tolerance), (slot, tolerance), (line, PENCIL), (line, PENCIL), (line, tolerance))


def tolerance_for_stops(ratio: float, difference: float, off: float) -> float:
    """The tolerance [mm] at which `slope_from_stops` comes down to `off`; 0 where the pencil lines alone are worse."""
    spare = 3 * (off * difference / COVER) ** 2 - 2 * PENCIL**2
    return math.sqrt(max(spare, 0.0) / (2 * ratio**2 + 1))


def slope_by_calliper(ratio: float, distance: float) -> float:
    """± of N [-] for thickness taken with a calliper at two pencil lines `distance` apart on the taper [mm]."""
    step = ratio**2 / distance
    return expanded((step, CALLIPER), (step, CALLIPER), (ratio / distance, PENCIL), (ratio / distance, PENCIL))


def length_for_slope(ratio: float, off: float, end: float, read: float) -> float:
    """The length [mm] at which `slope_from_ends` comes down to `off`."""
    return slope_from_ends(ratio, 1.0, end, read) / off


def square(height: float, base: float, tolerance: float, read: float) -> float:
    """± of an angle [deg] between two faces `height` and `base` long, each end out by `tolerance`, read by light."""
    angle = expanded((1 / height, tolerance), (1 / height, tolerance), (1 / base, tolerance), (1 / base, tolerance))
    return math.degrees(math.hypot(angle, expanded((1 / height, read))))
