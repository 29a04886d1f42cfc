"""What `tune` says, as plain data for machines: SI-mm and degrees, the unit in the key, null for what is untold."""

from __future__ import annotations

import math
from typing import Any

from scarfwright.models.tuning.corrections import Correction, Expected
from scarfwright.models.tuning.fit import Residual, Value
from scarfwright.models.tuning.tune import Tuned

FORMAT = 1
PLACES = 6


def report(found: Tuned) -> dict[str, Any]:
    """All of it; floats rounded to 6 decimals. Sentences are not made here."""
    lean = _value(found.fit.lean, math.degrees(1))
    return {
        "format": FORMAT,
        "ratio": _value(found.ratio),
        "tip_mm": _value(found.fit.tip),
        "fence_gap_mm": _value(found.fence_gap),
        "lean_deg": None if lean is None else {**lean, "signed": found.fit.signed},
        "untold": list(found.untold),
        "would_tell": {name: [list(keys) for keys in ways] for name, ways in found.would_tell.items()},
        "unused": [{"test_joint": number, "key": key, "needs": needs} for number, key, needs in found.unused],
        "contradictions": [_residual(one) for one in found.contradictions],
        "corrections": [_correction(one) for one in found.corrections],
        "now": _expected(found.now),
        "after": _expected(found.after),
        "residuals": [_residual(one) for one in found.fit.residuals],
    }


def _value(value: Value | None, factor: float = 1.0) -> dict[str, float] | None:
    if value is None:
        return None
    return {"value": round(value.value * factor, PLACES), "sigma": round(value.sigma * factor, PLACES)}


def _correction(one: Correction) -> dict[str, Any]:
    if one.what in ("blade_tilt", "other_half"):
        by = {"by_deg": None if one.by is None else round(math.degrees(one.by), PLACES)}
    else:
        by = {"by_mm": None if one.by is None else round(one.by, PLACES)}
    at = None if one.at is None else round(one.at, PLACES)
    return {
        "what": one.what,
        **by,
        "towards": one.towards,
        "at": at,
        "instead_of": one.instead_of,
        "why": one.why,
    }


def _expected(one: Expected | None) -> dict[str, Any] | None:
    if one is None:
        return None
    return {
        "glue_gap_mm": round(one.gap, PLACES),
        "twist_deg": round(math.degrees(one.twist), PLACES),
        "inside_limits": one.inside,
        "chance_inside": round(one.chance, 4),
    }


def _residual(one: Residual) -> dict[str, Any]:
    return {
        "reading": one.row.key,
        "what": one.row.what,
        "read_mm": round(one.row.read, PLACES),
        "expected_mm": round(one.expected, PLACES),
        "sigma_mm": round(one.row.sigma, PLACES),
        "out_sigmas": round(one.out, 3),
    }
