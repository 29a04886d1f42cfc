"""Glue-up: clamps and risers against common practice and against each other."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scarfwright.models.findings import Level
from scarfwright.models.gluing.places import CLEAR, GlueUp
from scarfwright.models.job.file import job_from_dict
from scarfwright.models.numbers.numbers import numbers
from scarfwright.models.part.label import job_label, short_title
from scarfwright.models.part.part import Place
from scarfwright.models.parts import registry
from scarfwright.models.solve import work_up
from scarfwright.models.wanted.wanted import wanted


def test_common_practice_of_a_foot_long_joint() -> None:
    """12 in joint, 3/4 x 2 1/2 in, 1 in pads: common practice is 12 to 14 clamps, no source; the formula's 14."""
    work = work_up(
        job_from_dict(
            {
                "units": "in",
                "stock": {"thickness": "3/4 in", "height": "2 1/2 in", "length": "8 ft"},
                "joint": {"ratio": 16},
                "saw": {"fence_gap": "0 in"},
                "clamp": {"pad_width": "1 in"},
                "sled": {"made_from": "sheet"},
            }
        )
    )
    assert work.joint.overlap == pytest.approx(12 * 25.4)
    assert work.glue.clamp_count == 14


def raw(**tables: Any) -> dict[str, Any]:
    base: dict[str, Any] = {
        "stock": {"thickness": "22 mm", "height": "60 mm", "length": "2.4 m"},
        "joint": {"ratio": 12},
        "sled": {"made_from": "sheet"},
        "clamp": {"opening": "150 mm", "throat": "120 mm"},
    }
    return {**base, **{k: {**base.get(k, {}), **v} for k, v in tables.items()}}


def clear(glue: GlueUp) -> bool:
    """No riser under any clamp's pad, by interval arithmetic on every pair."""
    return all(abs(s.place - c) >= (s.width + glue.pad) / 2 + CLEAR - 1e-9 for s in glue.supports for c in glue.clamps)


@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True, database=None)
@given(
    thickness=st.floats(5, 60),
    ratio=st.floats(5, 25),
    pad=st.floats(5, 60),
    length=st.floats(300, 6000),
    gap=st.floats(0.05, 1.5),
    tolerance=st.floats(0, 1),
    layer=st.floats(0.05, 0.6),
    bed=st.floats(60, 500),
)
def test_any_sensible_job_gets_its_parts(
    thickness: float, ratio: float, pad: float, length: float, gap: float, tolerance: float, layer: float, bed: float
) -> None:
    """Risers clear of clamps, none beyond the boards, and every part built or said to be left out."""
    work = work_up(
        job_from_dict(
            raw(
                stock={"thickness": round(thickness, 2), "height": 70, "length": round(length, 1)},
                joint={"ratio": round(ratio, 2)},
                clamp={"pad_width": round(pad, 1)},
                saw={"fence_gap": round(gap, 2)},
                printer={
                    "tolerance": round(tolerance, 3),
                    "layer": round(layer, 2),
                    "bed": [round(bed, 1), round(bed, 1), 200],
                },
            )
        )
    )
    glue = work.glue
    assert clear(glue)
    end = work.joint.overlap + max(length - work.joint.overlap, 60.0)
    assert all(s.place < end for s in glue.supports)
    numbers(work)
    for one in wanted(work):
        assert one.part is None or one.part.volume > 0
        assert one.part is not None or any(f.level is Level.FAULT for f in one.findings)


def test_two_lips_a_board_make_a_line() -> None:
    glue = work_up(job_from_dict(raw())).glue
    middle = glue.clamps[len(glue.clamps) // 2]
    for side in (-1, 1):
        assert sum(s.lip for s in glue.supports if (s.place - middle) * side > 0) == 2


def test_counts_match_the_places() -> None:
    work = work_up(job_from_dict(raw()))
    supports = work.glue.supports
    assert registry()["riser"].count(work) + registry()["riser_lip"].count(work) == len(supports)
    told = numbers(work)["gluing"]["risers"]
    assert [(r["place_mm"], r["lip"]) for r in told] == [(round(s.place, 6), s.lip) for s in supports]


def test_narrow_pads_leave_room_for_a_riser_under_the_joint() -> None:
    glue = work_up(job_from_dict(raw(clamp={"pad_width": 10}, stock={"thickness": 40, "height": 70}))).glue
    inside = [s for s in glue.supports if 0 < s.place < glue.clamps[-1]]
    assert len(inside) == 1
    assert clear(glue)


def test_short_boards_get_one_riser_each() -> None:
    glue = work_up(job_from_dict(raw(stock={"length": "350 mm"}))).glue
    assert [s.lip for s in glue.supports] == [True, True]


def test_riser_is_as_high_as_jaw_and_fingers_ask() -> None:
    work = work_up(job_from_dict(raw(clamp={"jaw": "14 mm"})))
    parameters = registry()["riser_lip"].from_job(work)
    assert parameters is not None
    assert parameters["height"] == pytest.approx(14 + 25)


def test_label_says_less_where_there_is_less_room() -> None:
    work = work_up(job_from_dict({**raw(), "title": "Oar looms, sled Plover"}))
    labels = [job_label(work.job, work.planned, Place(0, 0, width, 8)) for width in (200, 60, 35, 1)]
    assert labels == ["Oar looms: 12:1, 22 mm", "12:1, 22 mm", "12:1", "Oar looms: 12:1, 22 mm"]


@pytest.mark.parametrize(
    ("title", "short"),
    [
        ("Gunwales, touring canoe Wagtail", "Gunwales"),
        ("A very long name of a boat without stops", "A very long name"),
        ("Supercalifragilistic", "Supercalifragili"),
        ("  ", ""),
    ],
)
def test_short_titles(title: str, short: str) -> None:
    assert short_title(title) == short
