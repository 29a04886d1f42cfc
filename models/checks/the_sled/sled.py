"""Findings about how the board stands on the sled, the sled's size, its nose and its dowels."""

from __future__ import annotations

import math
from collections.abc import Iterator

from scarfwright.models.findings import Finding, finding
from scarfwright.models.groundwork import Groundwork
from scarfwright.models.lengths.length import rule_step
from scarfwright.models.sled.sled import longest_from_plank, plank_width_for

MEASURED = 1.0  # what a width measured on a sled may be short of a wish [mm]; common practice, no source


def check_sled(work: Groundwork, unmeasurable: bool) -> Iterator[Finding]:
    yield from _upright(work)
    yield from _as_made(work, unmeasurable)
    yield from _plank(work)
    yield from _length(work)
    yield from _nose_clamp(work)
    yield from _nose_flat(work)
    yield from _dowels(work)


def _upright(work: Groundwork) -> Iterator[Finding]:
    """On this sled the board stands on its narrow edge; the joint itself has no up."""
    stock = work.job.stock
    if stock.thickness > stock.height:
        yield finding("stock.not_upright", thickness_mm=stock.thickness, height_mm=stock.height)


def _as_made(work: Groundwork, unmeasurable: bool) -> Iterator[Finding]:
    asked, nominal = work.job.sled, work.way.nominal
    if unmeasurable:
        yield finding(
            "sled.as_made_reversed",
            heel_mm=nominal.heel if asked.heel_as_made is None else asked.heel_as_made,
            nose_mm=nominal.nose if asked.nose_as_made is None else asked.nose_as_made,
        )
    measured = (asked.heel_as_made, asked.nose_as_made, asked.length_as_made)
    if asked.length == "auto" and any(size is not None for size in measured):
        yield finding("sled.as_made_needs_length", length_mm=nominal.length)


def _plank(work: Groundwork) -> Iterator[Finding]:
    sled, job = work.way.nominal, work.job
    if sled.plank_width is not None and job.saw.kerf >= sled.plank_width:
        yield finding("plank.kerf_too_wide", kerf_mm=job.saw.kerf, plank_width_mm=sled.plank_width)
        return
    least, nose = float(job.sled.nose_min), work.way.sled.nose
    if sled.plank_width is not None:
        # rounding M takes up to half a mark off the nose: what is told holds whichever way it goes
        spare = least + job.sled.round_marks / 2
        longest = longest_from_plank(sled.plank_width, job.joint.ratio, job.saw.kerf, spare)
        if longest <= 0 or sled.nose <= 0:
            yield finding(
                "plank.too_narrow",
                plank_width_mm=sled.plank_width,
                length_mm=sled.length,
                needed_width_mm=plank_width_for(sled.length, job.joint.ratio, job.saw.kerf, spare),
                longest_mm=max(longest, 0.0),
            )
            return
    tolerance = rule_step(job.units) / 2 if job.sled.nose_as_made is None else MEASURED
    if nose < least - tolerance - 1e-6:
        yield finding("sled.nose_thin", nose_mm=nose, nose_min_mm=least)


def _length(work: Groundwork) -> Iterator[Finding]:
    sled = work.way.sled
    heel = next((n for n in work.way.layout.notches if n.where == "heel"), None)
    if heel is None:
        return
    reach = heel.station + max(heel.length, heel.width) / 2
    if sled.work_edge < reach - 1e-6:
        yield finding(
            "sled.too_short",
            station_mm=heel.station,
            length_mm=sled.length,
            needed_length_mm=reach * math.cos(sled.angle) * work.way.stretch,
        )


def _nose_clamp(work: Groundwork) -> Iterator[Finding]:
    job, flat, pad = work.job, work.way.sled.nose_flat, float(work.job.clamp.pad_width)
    clamp = next((c for c in work.way.layout.clamps if c.where in ("nose", "nose_flat")), None)
    if clamp is None:
        yield finding("nose.no_clamp", needed_left_mm=job.sled.web)
        return
    asked = job.sled.nose_station
    if clamp.where != "nose_flat" or asked == "auto" or flat < pad:
        return
    if not pad / 2 - 1e-6 <= asked <= flat - pad / 2 + 1e-6:
        yield finding(
            "nose.pad_off_flat",
            nose_station_mm=asked,
            least_mm=pad / 2,
            most_mm=flat - pad / 2,
            pad_width_mm=pad,
            nose_flat_mm=flat,
        )


def _nose_flat(work: Groundwork) -> Iterator[Finding]:
    flat, length, pad = work.way.sled.nose_flat, work.way.sled.length, float(work.job.clamp.pad_width)
    if flat <= 0:
        return
    if flat > length / 2:
        yield finding("nose.flat_too_long", nose_flat_mm=flat, length_mm=length, pad_width_mm=pad)
    if flat < pad - 1e-6:
        yield finding("nose.flat_short", nose_flat_mm=flat, pad_width_mm=pad)


def _dowels(work: Groundwork) -> Iterator[Finding]:
    job = work.job.sled
    if job.made_from == "sheet" and job.dowel > 0 and job.layers > 1 and not work.way.layout.dowels:
        yield finding("dowel.no_room", dowel_mm=job.dowel)
