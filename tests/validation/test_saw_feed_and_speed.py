"""Tooth feed and rim speed, computed from their definitions: 5 m/min, 24 teeth, 4000 rpm -> 0.052083 mm;
254 mm at 4000 rpm -> 53.198 m/s."""

from __future__ import annotations

import pytest
from scarfwright.models.cut.feed import rim_speed, tooth_feed

from tests.cut_jobs import worked


def test_tooth_feed() -> None:
    assert tooth_feed(5000 / 60, 24, 4000) == pytest.approx(0.052083, abs=5e-7)


def test_rim_speed() -> None:
    assert rim_speed(254, 4000) == pytest.approx(53.198, abs=5e-4)


def test_a_job_that_feeds_5_m_a_minute_takes_the_same_per_tooth() -> None:
    saw = {"teeth": 24, "rpm": 4000}
    path = worked(saw=saw).cut.feed.path
    found = worked(saw={**saw, "feed_time": path / (5000 / 60)}).cut.feed
    assert found.tooth_feed == pytest.approx(0.052083, abs=5e-7)
    assert found.rim_speed == pytest.approx(53.198, abs=5e-4)
