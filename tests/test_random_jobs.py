"""Random jobs over wide ranges: a valid one-body sled that agrees with the closed form, or a finding; never an error.

The fast run takes 200 seeded jobs through joint, sled and cut, and a few more through gauges and machines;
--slow takes 10 000 through everything.
"""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import HealthCheck, given, settings
from scarfwright.models.findings import CODES, faults
from scarfwright.models.job.tables import Job
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.part.part import Part
from scarfwright.models.sled.plank import plank_plan
from scarfwright.models.sled.shape import shape_of, sled_of
from scarfwright.models.solve import work_out, work_up
from scarfwright.models.workup import Workup
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from tests.strategies import jobs, likely_jobs

QUIET = [HealthCheck.too_slow, HealthCheck.data_too_large]


ARC = 0.001  # arcs are drawn for shapely in chords no further than this from them [mm]


def seeded(count: int) -> settings:
    return settings(derandomize=True, max_examples=count, deadline=None, suppress_health_check=QUIET)


def check_all(job: Job) -> Workup:
    """Everything a user gets: gauges and machines too, numbers.json, the solid."""
    work = work_up(job)
    json.dumps(numbers(work), allow_nan=False)  # a number that is none would be refused
    return check(work)


def check(work: Workup) -> Workup:
    """Findings, or for a sled without a fault the shape, and its solid, against the closed form."""
    assert all(f.code in CODES and f.text and "nan" not in f.text for f in work.findings)
    if faults(list(work.findings)):
        return work
    part = sled_of(shape_of(work.way))
    check_shape(part, work)
    if work.job.sled.made_from == "plank":
        check_plank(work)
    check_solid(part, closed_form(work) * part.thickness)
    return work


def closed_form(work: Workup) -> float:
    """Area [mm2] from the numbers alone: trapezium less nose flat, slots and holes."""
    sled, layout = work.way.sled, work.way.layout
    area = (sled.heel + sled.nose) / 2 * sled.length - sled.nose_flat**2 / sled.ratio / 2
    for notch in layout.notches:
        area -= max(notch.length - notch.width, 0.0) * notch.width + math.pi * notch.width**2 / 4
    area -= math.pi * layout.handle_radius**2 * len(layout.handle_holes)
    return area - math.pi * layout.dowel_radius**2 * len(layout.dowels)


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
    assert wood.area == pytest.approx(closed_form(work), abs=ARC * rim + 1e-2)
    for x, y in work.way.layout.handle_holes:
        assert work.way.sled.length - x >= work.way.layout.hand_line
        assert ground.contains(ShapelyPoint(x, y))


def check_plank(work: Workup) -> None:
    """Both halves lie on the plank, a kerf apart, mirror images about its middle."""
    plan = plank_plan(work.way)
    one, other = (Polygon(p.outline.points()) for p in plan.placed)
    plank = Polygon(plan.outline.points())
    assert plank.buffer(1e-6).contains(one)
    assert plank.buffer(1e-6).contains(other)
    assert one.area == pytest.approx(other.area)
    assert one.distance(other) == pytest.approx(work.job.saw.kerf, abs=1e-6)
    (line,) = [m for m in plan.marks if m.name == "dividing line"]
    middle = LineString(line.points)
    assert middle.distance(one) == pytest.approx(work.job.saw.kerf / 2, abs=1e-6)


def check_solid(part: Part, volume: float) -> None:
    """One valid body of the closed form's volume, as high as the sled is thick."""
    from scarfwright.models.solids.solids import solid

    plain = Part(part.name, part.title, part.outline, part.thickness, tuple(f for f in part.features if not f.depth))
    body = solid(plain)
    assert body.isValid()
    assert body.Volume() == pytest.approx(volume, rel=1e-6)
    box = body.BoundingBox()
    assert (box.xmax - box.xmin, box.zmax - box.zmin) == pytest.approx(
        (part.outline.bounds[2] - part.outline.bounds[0], part.thickness), abs=1e-5
    )


@seeded(70)
@given(jobs())
def test_wild_jobs(job: Job) -> None:
    check(work_out(job))


@seeded(70)
@given(likely_jobs())
def test_likely_jobs(job: Job) -> None:
    check(work_out(job))


def test_likely_jobs_through_gauges_and_machines() -> None:
    """A good part of them has no fault: the shapes above are looked at, not passed over."""
    sound = []

    @seeded(25)
    @given(likely_jobs())
    def count(job: Job) -> None:
        sound.append(not faults(list(check_all(job).findings)))

    count()
    assert sum(sound) >= 8


@pytest.mark.slow
@seeded(5000)
@given(jobs())
def test_many_wild_jobs(job: Job) -> None:
    check_all(job)


@pytest.mark.slow
@seeded(5000)
@given(likely_jobs())
def test_many_likely_jobs(job: Job) -> None:
    check_all(job)
