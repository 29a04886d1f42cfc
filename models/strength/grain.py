"""What run-out of the grain costs: strength at an angle to the grain by Hankinson's formula.

Source: Hankinson's formula as the Wood Handbook ch. 5 gives it, exponent 2, strength across the grain 0.04 of that
along it (tension and bending). The handbook's own row for bending (1 in 15: 0.89) is from memory.
"""

from __future__ import annotations

import math

ACROSS = 0.04  # strength across the grain to that along it, tension and bending
MOST_RUN_OUT = 15.0  # 1 in 15: FAA AC 43.13-1B, Table 1-1 and 1-39


def grain_share(run_out: float, across: float = ACROSS, exponent: float = 2.0) -> float:
    """Share of the strength along the grain where the grain runs out 1 in `run_out`."""
    angle = math.atan(1 / run_out)
    along, over = math.pow(math.cos(angle), exponent), math.pow(math.sin(angle), exponent)
    return across / (over + across * along)
