"""Random jobs over wide ranges: a valid one-body sled that agrees with the closed form, or a finding; never an error.

200 of each kind in the fast run, 5000 with --slow.
"""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from scarfwright.models.findings import CODES, faults
from scarfwright.models.job import Job
from scarfwright.models.layout import Layout
from scarfwright.models.numbers import numbers
from scarfwright.models.part import Part
from scarfwright.models.parts.sled import shape_of, sled
from scarfwright.models.sheets import plank_plan
from scarfwright.models.solve import work_up
from scarfwright.models.workup import Workup
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from tests.strategies import jobs, likely_jobs

QUIET = [HealthCheck.too_slow, HealthCheck.data_too_large]
FEW = settings(derandomize=True, max_examples=200, deadline=None, suppress_health_check=QUIET)
MANY = settings(derandomize=True, max_examples=5000, deadline=None, suppress_health_check=QUIET)
ARC = 0.001  # arcs are drawn for shapely in chords no further than this from them [mm]


def check(job: Job, *, solids: bool) -> Workup:
    """Numbers or findings; for a sled without a fault the shape, and its solid, against the closed form."""
    work = work_up(job)
    data = numbers(work)
    json.dumps(data, allow_nan=False)  # a number that is none would be refused
    assert all(f.code in CODES and f.text and "nan" not in f.text for f in work.findings)
    if faults(list(work.findings)):
        return work
    assert math.isfinite(work.fence)
    part = sled(**shape_of(work))
    check_shape(part, work)
    if work.job.sled.made_from == "plank":
        check_plank(work)
    if solids:
        check_solid(part, closed_form(work.layout, data) * part.thickness)
    return work


def closed_form(layout: Layout, data: dict[str, Any]) -> float:
    """Area [mm2] from the numbers alone: trapezium less nose flat, slots and holes."""
    s = data["sled"]
    area = (s["heel_mm"] + s["nose_mm"]) / 2 * s["length_mm"] - s["nose_flat_mm"] * s["nose_flat_step_mm"] / 2
    for notch in s["notches"]:
        wide = notch["width_mm"]
        area -= max(notch["length_mm"] - wide, 0.0) * wide + math.pi * wide**2 / 4
    area -= math.pi * layout.handle_radius**2 * len(s["handle_holes_mm"])
    return float(area - math.pi * layout.dowel_radius**2 * len(s["dowels_mm"]))


def check_shape(part: Part, work: Workup) -> None:
    """Outline less notches and holes is one piece of wood of the closed form's area."""
    wood = Polygon(part.outline.points(ARC))
    assert wood.is_valid
    ground = wood
    rim = 0.0
    for feature in part.features:
        if feature.depth is not None:
            continue  # letters and scales cut into the top
        opening = Polygon(feature.loop.points(ARC))
        assert ground.contains(opening), feature.name
        wood = wood.difference(opening)
        rim += opening.length
    assert wood.geom_type == "Polygon"
    expected = closed_form(work.layout, numbers(work))
    assert wood.area == pytest.approx(expected, abs=ARC * rim + 1e-2)
    for x, y in work.layout.handle_holes:
        assert work.sled.length - x >= work.layout.hand_line
        assert ground.contains(ShapelyPoint(x, y))


def check_plank(work: Workup) -> None:
    """Both halves lie on the plank, a kerf apart, mirror images about its middle."""
    plan = plank_plan(work)
    one, other = (Polygon(p.outline.points()) for p in plan.placed)
    plank = Polygon(plan.outline.points())
    assert plank.buffer(1e-6).contains(one)
    assert plank.buffer(1e-6).contains(other)
    assert one.area == pytest.approx(other.area)
    assert one.distance(other) == pytest.approx(work.job.kerf, abs=1e-6)
    (line,) = [m for m in plan.marks if m.name == "dividing line"]
    middle = LineString(line.points)
    assert middle.distance(one) == pytest.approx(work.job.kerf / 2, abs=1e-6)


def check_solid(part: Part, volume: float) -> None:
    """One valid body of the closed form's volume, as high as the sled is thick."""
    from scarfwright.models.solids import solid

    plain = Part(part.name, part.title, part.outline, part.thickness, tuple(f for f in part.features if not f.depth))
    body = solid(plain)
    assert body.isValid()
    assert body.Volume() == pytest.approx(volume, rel=1e-6)
    box = body.BoundingBox()
    assert (box.xmax - box.xmin, box.zmax - box.zmin) == pytest.approx(
        (part.outline.bounds[2] - part.outline.bounds[0], part.thickness), abs=1e-5
    )


@FEW
@given(jobs())
def test_wild_jobs(job: Job) -> None:
    check(job, solids=False)


@FEW
@given(likely_jobs())
def test_likely_jobs(job: Job) -> None:
    check(job, solids=False)


@pytest.mark.slow
@MANY
@given(jobs())
def test_many_wild_jobs(job: Job) -> None:
    check(job, solids=True)


@pytest.mark.slow
@MANY
@given(likely_jobs())
def test_many_likely_jobs(job: Job) -> None:
    check(job, solids=True)


def test_the_likely_jobs_are_likely() -> None:
    """Of 60 likely jobs a good part have no fault: the shapes above are looked at, not passed over."""
    sound = []

    @settings(derandomize=True, max_examples=60, deadline=None, database=None)
    @given(likely_jobs())
    def count(job: Job) -> None:
        sound.append(not faults(list(check(job, solids=len(sound) < 10).findings)))

    count()
    assert sum(sound) > 15
