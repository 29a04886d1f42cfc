"""Hands to blade, published: 300 mm from the blade's front (a large British contractor, after HSE WIS16); 6 in (152 mm)
or 12 in (305 mm) (saw makers' manuals, United States). They disagree, and none is for a sled with handles. EN 1870-19
and EN ISO 19085-9, which follows it, were not found to give one (of the latter only the scope was read)."""

from __future__ import annotations

import math

import pytest
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.lengths.length import Unit
from scarfwright.models.solve import work_out

from tests.cut_jobs import of_code, raw, worked

PUBLISHED = (152.4, 300.0, 304.8)


@pytest.mark.parametrize(("units", "least", "usual"), [("mm", 150.0, 300.0), ("in", 152.4, 304.8)])
def test_default_and_least_are_the_published_ones(units: Unit, least: float, usual: float) -> None:
    job = job_from_dict({**raw(saw={"hands_clear": None}), "units": units})
    assert float(job.saw.hands_clear) == pytest.approx(usual)
    assert min(abs(usual - one) for one in PUBLISHED) < 1
    assert min(abs(least - one) for one in PUBLISHED) < 3
    short = job_from_dict({**raw(saw={"hands_clear": f"{least - 0.5} mm"}), "units": units})
    enough = job_from_dict({**raw(saw={"hands_clear": f"{least} mm"}), "units": units})
    assert of_code(work_out(short), "hands.clear_short")
    assert not of_code(work_out(enough), "hands.clear_short")


@pytest.mark.parametrize("clear", [150.0, 300.0])
def test_the_line_keeps_the_hands_so_far_from_the_blades_front_at_the_end_of_the_cut(clear: float) -> None:
    """From the blade's front at the table, half its chord there, with the margin of travel gone: never nearer."""
    work = worked(saw={"hands_clear": f"{clear} mm"}, sled={"length": "1000 mm"})
    half_chord = math.sqrt(127**2 - (127 - work.way.blade.height) ** 2)
    at_end = work.way.layout.hand_line - (work.way.travel_end + 50)
    assert clear <= at_end - half_chord < clear + 10


def test_that_the_figures_disagree_is_said_where_one_is_refused() -> None:
    (found,) = of_code(worked(saw={"hands_clear": "100 mm"}), "hands.clear_short")
    assert "published figures disagree, and none is for a sled with handles" in found.text
