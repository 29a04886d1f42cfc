"""Findings about what is to be expected of the joint."""

from __future__ import annotations

import math
from collections.abc import Iterator

from scarfwright.models.accuracy.outlook import Outlook
from scarfwright.models.findings import Finding, finding

FEW = 0.6  # share of joints inside the limits, with a careful set-up, below which a test joint can't be done without


def check_outlook(ahead: Outlook) -> Iterator[Finding]:
    """Where more joints than not may come out outside the limits however well blade and sled are squared."""
    found = ahead.budget
    if found.inside >= FEW:
        return
    best = max(found.sources, key=lambda one: one.inside_if_halved)
    twist = ahead.limits.twist
    yield finding(
        "accuracy.few_inside",
        inside_percent=100 * found.inside,
        gap_limit_mm=ahead.limits.gap,
        twist_limit_deg=None if twist is None else math.degrees(twist),
        lean_allowed_deg=math.degrees(ahead.lean_allowed),
        improve_first=best.name,
        inside_if_halved_percent=100 * best.inside_if_halved,
    )
