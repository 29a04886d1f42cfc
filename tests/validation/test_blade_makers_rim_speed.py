"""Blade makers' tables of rim speed, carbide in wood: 60 to 90 m/s, standard 80, most 100. Advice, no standard.

And EN 1870-19:2013 6.3 n), WAC 296-78-70509: never above the speed marked on the blade. EN 1870-19 is followed by
EN ISO 19085-9 (2019, 2024), of which only the scope was read.
"""

from __future__ import annotations

import math

import pytest
from scarfwright.models.cut.feed import rim_speed, rpm_for
from scarfwright.models.findings import Level

from tests.cut_jobs import worked


def speed(rpm: float, **saw: float) -> dict[str, Level]:
    found = worked(saw={"rpm": rpm, **saw}).findings
    return {f.code: f.level for f in found if "rim" in f.code or "speed" in f.code}


def test_a_usual_saw_is_quiet() -> None:
    """254 mm at 3450 to 4800 a minute: 46 to 64 m/s."""
    assert speed(3450) == speed(4800) == {}


def test_above_80_m_s_a_caution_and_above_100_a_fault() -> None:
    at = {rim: rim / (math.pi * 0.254) * 60 for rim in (80, 100)}
    assert speed(at[80] - 1) == {}
    assert speed(at[80] + 1) == speed(at[100] - 1) == {"blade.rim_fast": Level.CAUTION}
    assert speed(at[100] + 1) == {"blade.rim_too_fast": Level.FAULT}


def test_never_above_the_marked_speed() -> None:
    assert speed(4000, max_rpm=4000) == {}
    assert speed(4001, max_rpm=4000) == {"blade.over_marked_speed": Level.FAULT}


def test_there_and_back() -> None:
    assert rim_speed(254, rpm_for(80, 254)) == pytest.approx(80)
