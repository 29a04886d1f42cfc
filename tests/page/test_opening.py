"""Jobs opened from a file and saved to one."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from scarfwright.models.job.file import job_from_dict, job_from_text, job_to_toml
from scarfwright.models.job.problems import JobError
from scarfwright.models.job.reading.plain import plain_from_text, plain_to_text

from tests.strategies import raw_jobs

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example_opened_and_saved_is_the_same_job(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    if "include" in tomllib.loads(text):
        pytest.skip("takes its shop from another file")
    tables = plain_from_text(text, path.name)
    assert job_to_toml(job_from_text(plain_to_text(tables))) == job_to_toml(job_from_text(text))
    assert tomllib.loads(plain_to_text(tables)) == tables


@given(raw_jobs())
def test_any_job_saved_and_opened_is_the_same(tables: dict[str, Any]) -> None:
    text = plain_to_text(tables)
    assert job_to_toml(job_from_text(text)) == job_to_toml(job_from_dict(tables))
    assert plain_to_text(plain_from_text(text, "x")) == plain_to_text(plain_from_text(plain_to_text(tables), "x"))


@pytest.mark.parametrize("junk", [{"stock": 5}, {"board": [1, {"a": {"b": None}}]}, {"saw": {"a b": [[], {}]}}, {}])
def test_anything_can_be_saved(junk: dict[str, Any]) -> None:
    """What was typed is never lost because it is wrong: the text is TOML all the same."""
    tomllib.loads(plain_to_text(junk))


def test_an_include_is_refused_with_the_reason() -> None:
    with pytest.raises(JobError, match="a page reads no other file") as caught:
        plain_from_text('include = "shop.toml"\n' + EXAMPLES[0].read_text(encoding="utf-8"), "mine.toml")
    assert caught.value.problems[0].path == ("include",)


@pytest.mark.parametrize("text", ["", "[stock", "\0", "a = 1", "[stock]\nthickness = 1"])
def test_what_is_no_job_is_refused(text: str) -> None:
    with pytest.raises(JobError):
        plain_from_text(text, "mine.toml")
