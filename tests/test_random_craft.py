"""Any glue, wood and curve: numbers without holes, sentences, lines and sheets that hold together."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scarfwright.models.checks.craft import check_craft
from scarfwright.models.craft import craft_of
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml
from scarfwright.models.numbers.craft import craft_numbers, glue_numbers
from scarfwright.models.solve import work_out
from scarfwright.models.words.sentences import worded
from scarfwright.models.words.the_joint.craft import bend_lines, craft_lines
from scarfwright.outputs.craft_papers import bend_papers, glue_papers, wood_papers

from tests.clear_sheets import unclear
from tests.strategies import craft_tables, lengths

SHEET = {"made_from": "sheet", "length": "1500 mm", "layers": 3}


@st.composite
def raw_jobs(draw: st.DrawFn) -> dict[str, Any]:
    tables: dict[str, Any] = draw(craft_tables())
    stock = {"thickness": draw(lengths(5, 60)), "height": draw(lengths(60, 160)), **tables.pop("stock")}
    if draw(st.booleans()):
        stock["length"] = draw(lengths(300, 6000))
    clamp = {"opening": draw(lengths(20, 300)), "throat": draw(lengths(20, 200)), **tables.pop("clamp")}
    return {
        "units": draw(st.sampled_from(["mm", "in"])),
        "stock": stock,
        "joint": {"ratio": draw(st.floats(3, 25).map(lambda n: round(n, 2)))},
        "clamp": {**clamp, "pad_width": draw(lengths(5, 80))},
        "sled": SHEET,
        "files": {"paper": draw(st.sampled_from(["A4", "Letter"]))},
        **tables,
    }


@settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True, database=None)
@given(raw_jobs())
def test_numbers_words_and_sheets(raw: dict[str, Any]) -> None:
    job = job_from_dict(raw)
    text = job_to_toml(job)
    assert job_to_toml(job_from_text(text)) == text
    work = work_out(job)
    assume(work.joint.overlap > 1)
    craft = craft_of(work)
    told = {**craft_numbers(craft), "gluing": glue_numbers(craft.gluing)}
    assert "null" not in json.dumps(told["boards"])
    json.dumps(told, allow_nan=False)
    rows = craft_lines(craft, work.joint, job.units)
    for one in craft.members:
        rows += bend_lines(one, job.units)
        assert one.curve.length >= one.curve.station[-1] - one.curve.station[0] - 1e-6
    sentences = [f.text for f in worded(check_craft(job, craft), job.units)]
    for sentence in [*sentences, *(text for _, text in rows)]:
        assert sentence
        assert not any(word in sentence.split() for word in ("nan", "inf", "None")), sentence
        assert "  " not in sentence
    for sheet in [*glue_papers(work, craft), *wood_papers(work, craft), *bend_papers(work, craft)]:
        # a curve that doubles back on itself may run under its own figures; everything else is clear
        wrong = [fault for fault in unclear(sheet) if not fault.endswith(("'member'", "'joint may stand'", "'tick'"))]
        assert wrong == []


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True, database=None)
@given(raw_jobs())
def test_the_stretches_are_where_a_joint_is_strong_enough(raw: dict[str, Any]) -> None:
    """Looked at sample by sample: inside a stretch the use in a joint is at most 1."""
    job = job_from_dict(raw)
    work = work_out(job)
    assume(work.joint.overlap > 1)
    for one in craft_of(work).members:
        bend = one.bend
        if bend is None or not bend.use_joint:
            continue
        for low, high in bend.allowed:
            assert high - low >= bend.joint_length
            assert high <= bend.end + 1e-9
            inside = [use for s, use in zip(one.curve.arc, bend.use_joint, strict=True) if low <= s <= high]
            assert max(inside, default=0) <= 1 + 1e-6
        if bend.most_joint is not None and bend.most_joint <= 1 and bend.end > bend.joint_length:
            assert bend.allowed[0] == pytest.approx((0.0, bend.end))
