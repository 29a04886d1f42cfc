"""What the gauges resolve, against simulation: sizes put out by the printer's tolerance, the outcome measured.

Each outcome is worked out from the perturbed part or from the plain geometry of its use, not from the formula that is
tested. Errors are drawn evenly within their half width; the formula's claim is twice the spread (JCGM 100:2008 4.3.7,
6.3.3, from memory, high; JCGM 101 for doing it by simulation). 40 000 draws know a spread to 0.35 %, so 2 % is asked.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.job.tables import Job
from scarfwright.models.part.reading import CALLIPER, EYE, FEELER, PENCIL, RULE
from scarfwright.models.parts import registry
from scarfwright.models.solve import work_up
from scarfwright.models.words.for_machines.gauges import use_instead
from scarfwright.models.workup import Workup

from tests.shops import in_full_shop

DRAWS = 40_000
Values = npt.NDArray[np.float64]


def job(**tables: object) -> Job:
    base = {
        "stock": {"thickness": "22 mm", "height": "60 mm", "length": "2.4 m", "finished_thickness": "20 mm"},
        "joint": {"ratio": 12},
        "sled": {"made_from": "sheet", "length": "1500 mm"},
        "clamp": {"opening": "80 mm"},
        "adhesive": {"gap_limit": "0.5 mm"},
    }
    return job_from_dict({**base, **tables})


@pytest.fixture(scope="module")
def work() -> Workup:
    return work_up(job())


@pytest.fixture
def out() -> Callable[[float], Values]:
    """Errors within a half width, the same draws every time."""
    generator = np.random.default_rng(20)

    def draw(half: float) -> Values:
        return generator.uniform(-half, half, DRAWS)

    return draw


def resolution(work: Workup, name: str) -> dict[str, Any]:
    kind = registry()[name]
    parameters = kind.from_job(work)
    assert parameters is not None
    assert kind.resolution is not None
    return dict(kind.reads(work, parameters))


def claims(claim: float, outcome: Values) -> None:
    """The claim is twice the outcome's spread, and at least 95 of 100 outcomes keep to it."""
    assert claim == pytest.approx(2 * outcome.std(), rel=0.02)
    assert np.mean(np.abs(outcome - outcome.mean()) <= claim) >= 0.945


def test_slope_gauge(work: Workup, out: Callable[[float], Values]) -> None:
    """The long edge's corners of the built part moved by the tolerance; the sled's edge lies along it but for the eye's
    error at the far end."""
    kind = registry()["slope_gauge"]
    parameters = kind.from_job(work)
    assert parameters is not None
    corners = [v.point for v in kind.drawn(parameters).outline.vertices]
    (x0, y0), (x1, y1) = max(corners, key=lambda p: p[1]), max(corners, key=lambda p: (p[0], p[1]))
    tolerance = float(work.job.printer.tolerance)
    read = (x1 - x0) / ((y0 + out(tolerance)) - (y1 + out(tolerance)) + out(EYE))
    claims(resolution(work, "slope_gauge")["resolution_ratio"], read)
    assert read.mean() == pytest.approx(12, rel=0.002)


def test_rule_on_the_sleds_ends(work: Workup, out: Callable[[float], Values]) -> None:
    sled = work.way.sled
    read = sled.length / (sled.heel + out(RULE) - sled.nose - out(RULE))
    claims(resolution(work, "slope_gauge")["by_rule_ratio"], read)


def test_taper_fork(work: Workup, out: Callable[[float], Values]) -> None:
    """Slots put out, slid along a taper with a tip, stops marked, distance read on a scale put out too."""
    r = resolution(work, "taper_fork")
    slots, tolerance = r["slots_mm"], float(work.job.printer.tolerance)
    tip, ratio = work.joint.tip, work.joint.ratio

    def stop(nominal: float) -> Values:
        return (nominal + out(tolerance) - tip) * ratio + out(PENCIL)

    distance = stop(slots[2]) - stop(slots[0]) + out(tolerance)
    read = distance / (slots[2] - slots[0])
    claims(r["resolution_ratio"], read)
    assert read.mean() == pytest.approx(ratio, rel=0.002)
    assert r["stops_apart_mm"] == pytest.approx(distance.mean(), rel=0.002)


def test_a_printer_as_true_as_asked_makes_the_fork_good_enough(work: Workup) -> None:
    asked = resolution(work, "taper_fork")["needed_tolerance_mm"]
    better = work_up(job(printer={"tolerance": f"{asked:.6f} mm"}))
    r = resolution(better, "taper_fork")
    assert r["resolution_ratio"] == pytest.approx(r["needed_ratio"], rel=1e-4)


def test_calliper_on_the_taper(work: Workup, out: Callable[[float], Values]) -> None:
    r = resolution(work, "taper_fork")
    apart, ratio = r["stops_apart_mm"], work.joint.ratio
    thicker = apart / ratio + out(CALLIPER) - out(CALLIPER)
    claims(r["by_calliper_ratio"], (apart + out(PENCIL) - out(PENCIL)) / thicker)


def test_taper_scale(work: Workup, out: Callable[[float], Values]) -> None:
    """Distance between a mark put out and the zero, two pencil lines laid to it."""
    step, ratio = work.joint.thickness / 2, work.joint.ratio
    lines = ratio * step + out(PENCIL) - out(PENCIL) + out(float(work.job.printer.tolerance))
    every = replace(work, job=in_full_shop(work.job))
    claims(resolution(every, "taper_scale")["resolution_ratio"], lines / step)


def test_square_block(work: Workup, out: Callable[[float], Values]) -> None:
    """Face and base of the built block turned by their ends' errors; light is missed by the eye's error."""
    kind = registry()["square_block"]
    parameters = kind.from_job(work)
    assert parameters is not None
    points = [v.point for v in kind.drawn(parameters).outline.vertices]
    base, face = (points[0], points[1]), (points[7], points[6])
    tolerance = float(work.job.printer.tolerance)
    along = np.arctan((out(tolerance) - out(tolerance)) / math.dist(*base))
    up = np.arctan((out(tolerance) - out(tolerance) + out(EYE)) / math.dist(*face))
    claims(resolution(work, "square_block")["resolution_deg"], np.degrees(up - along))


def test_lean_the_joint_allows_and_what_a_test_joint_shows(work: Workup, out: Callable[[float], Values]) -> None:
    """A lean e opens the joint by 2 h tan(e): physics of the half-turned mate."""
    r, high = resolution(work, "square_block"), work.joint.height
    assert 2 * high * math.tan(math.radians(r["needed_deg"])) == pytest.approx(work.job.adhesive.gap_limit)
    seen = np.degrees(np.arctan((out(FEELER) - out(FEELER)) / (2 * high)))
    claims(r["by_test_joint_deg"], seen)


def test_height_step(work: Workup, out: Callable[[float], Values]) -> None:
    touched = work.way.blade.height + out(float(work.job.printer.tolerance)) + out(EYE)
    claims(resolution(work, "height_step")["resolution_mm"], touched)


def test_one_error_alone_is_covered_by_less_than_a_bell_would(work: Workup, out: Callable[[float], Values]) -> None:
    """A single even error: twice its spread is wider than the error ever is."""
    for name, half in (("thickness_fork", 0.2),):
        claim = resolution(work, name)["resolution_mm"]
        assert claim == pytest.approx(2 * out(half).std(), rel=0.02)
        assert claim > half


def test_gap_shim(work: Workup, out: Callable[[float], Values]) -> None:
    """Its layers' squeeze, and a tooth that touches within 1 mm of the heel's corner, aslant by the slope."""
    claims(resolution(work, "gap_shim")["resolution_mm"], out(0.1) + out(1.0) / work.joint.ratio)


def test_thickness_fork_slide_and_gap(work: Workup) -> None:
    """Slid apart by dx, held flat: the two faces of the glue line, drawn as lines, stand apart by the gap limit. Slid
    together by dx they are closed, and thicker by what planes away."""
    r = resolution(work, "thickness_fork")
    slope = 1 / work.joint.ratio
    lower, upper = (0.0, 0.0), (r["apart_mm"], 0.0)  # the same point of both faces, after sliding
    across = abs((upper[0] - lower[0]) * slope - (upper[1] - lower[1])) / math.hypot(1, slope)
    assert across == pytest.approx(work.job.adhesive.gap_limit)
    finished = work.job.stock.finished_thickness
    assert finished is not None
    assert r["together_mm"] * slope == pytest.approx(22.0 - finished)
    assert r["slots_mm"][1] - r["slots_mm"][0] == pytest.approx(22.0 - finished)


def test_risers(work: Workup, out: Callable[[float], Values]) -> None:
    tolerance = float(work.job.printer.tolerance)
    claims(resolution(work, "riser")["resolution_mm"], out(tolerance) - out(tolerance))


def test_notch_guide(work: Workup, out: Callable[[float], Values]) -> None:
    centre = out(float(work.job.printer.tolerance)) + out(0.1)
    claims(resolution(work, "notch_guide")["resolution_mm"], centre)


def test_shim_takes_fence_and_overlap_along() -> None:
    """A gap of 0.5 in layers of 0.2 is a shim of 0.6 (two and a half layers, rounded up)."""
    work = work_up(job(saw={"fence_gap": "0.5 mm"}, printer={"layer": "0.2 mm"}))
    r = resolution(work, "gap_shim")
    assert r["layers"] == 3
    assert r["thickness_mm"] == pytest.approx(0.6)
    assert r["fence_mm"] == pytest.approx(work.way.sled.heel + 0.6)
    theta = math.atan(1 / 12)
    assert r["tip_mm"] == pytest.approx(0.6 / math.cos(theta))
    assert r["overlap_mm"] == pytest.approx((22 - 2 * 0.6 / math.cos(theta)) * 12)


def test_what_reads_better_is_named_best_first() -> None:
    text = use_instead(1.0, [("a", 0.5), ("b", 2.0), ("c", 0.1)], lambda v: f"{v:.1f}")
    assert text == "Use c (reads to ±0.1), or a (reads to ±0.5)."
    assert "Nothing simpler is better" in use_instead(0.1, [("a", 0.5)], lambda v: f"{v:.1f}")
