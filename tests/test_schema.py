"""The JSON Schema of the job: clean by an independent reader, complete, with the defaults that a job really has."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from jsonschema import Draft202012Validator
from scarfwright.models.findings import CODES, finding
from scarfwright.models.job.by_name import is_list, table_model
from scarfwright.models.job.file import job_from_dict, job_to_toml
from scarfwright.models.job.forms.schema import DRAFT, INCLUDE, MEASURE, job_schema
from scarfwright.models.job.problems import JobError
from scarfwright.models.job.tables import Job, old_keys_read
from scarfwright.models.lengths.length import Unit
from scarfwright.models.remedies.fields import KEYS, field_of

from tests.strategies import raw_jobs

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.toml"))
UNITS: tuple[Unit, ...] = ("mm", "in")
STANDARD = {
    "$schema", "$defs", "$ref", "title", "description", "type", "additionalProperties", "required", "properties",
    "items", "default", "examples", "enum", "anyOf", "minimum", "maximum", "exclusiveMinimum", "minItems", "maxItems",
    "maxLength", "uniqueItems",
}  # fmt: skip
LEAST: dict[str, dict[str, Any]] = {
    "mm": {"stock": {"thickness": "22 mm", "height": "60 mm"}, "joint": {"ratio": 12}},
    "in": {"units": "in", "stock": {"thickness": "7/8 in", "height": "1 3/4 in"}, "joint": {"ratio": 12}},
}


def keys_of(units: Unit = "mm") -> dict[str, dict[str, Any]]:
    """Every key by its dotted name, those of lists of tables too."""
    schema, found = job_schema(units), {}
    for table, one in schema["properties"].items():
        reference = one.get("$ref") or one.get("items", {}).get("$ref")
        found[table] = one
        if reference:
            model = schema["$defs"][reference.rpartition("/")[2]]
            found |= {f"{table}.{key}": value for key, value in model["properties"].items()}
    return found


def words_of(node: object) -> set[str]:
    """Every keyword of a schema, names of properties left out."""
    if isinstance(node, list):
        return {word for one in node for word in words_of(one)}
    if not isinstance(node, dict):
        return set()
    found = set(node)
    for word, value in node.items():
        inner = list(value.values()) if word in ("properties", "$defs") else value
        found |= set() if word in ("default", "examples", "enum") else words_of(inner)
    return found


@pytest.mark.parametrize("units", UNITS)
def test_is_a_clean_schema(units: Unit) -> None:
    schema = job_schema(units)
    assert schema["$schema"] == DRAFT
    Draft202012Validator.check_schema(schema)
    assert words_of(schema) == STANDARD | {MEASURE}
    assert "null" not in json.dumps(schema)


@pytest.mark.parametrize("units", UNITS)
def test_each_key_has_a_title_in_words_and_says_what_it_is(units: Unit) -> None:
    for name, one in keys_of(units).items():
        assert one["title"][0].isupper(), name
        assert "_" not in one["title"], name
        assert "." not in name or len(one["description"]) > 5, name


def test_has_exactly_the_keys_of_the_job() -> None:
    wanted = set(Job.model_fields)
    for table in Job.model_fields:
        model = table_model(table)
        wanted |= {f"{table}.{key}" for key in model.model_fields} if model else set()
    assert set(keys_of()) == wanted | {INCLUDE}


@pytest.mark.parametrize("units", UNITS)
def test_defaults_are_those_a_job_has(units: Unit) -> None:
    """Every default written into the file leaves the job as it was."""
    least = job_to_toml(job_from_dict(LEAST[units]))
    whole: dict[str, Any] = {}
    for name, one in keys_of(units).items():
        table, _, key = name.partition(".")
        if "default" in one and not is_list(table) and table != "shop_has":
            if key:
                whole.setdefault(table, {})[key] = one["default"]
            else:
                whole[table] = one["default"]
    for table, least_of in LEAST[units].items():
        whole[table] = {**whole.get(table, {}), **least_of} if isinstance(least_of, dict) else least_of
    assert job_to_toml(job_from_dict(whole)) == least
    assert whole["saw"]["kerf"] == {"mm": "3.2 mm", "in": "1/8 in"}[units]


@pytest.mark.parametrize("units", UNITS)
def test_examples_can_be_used(units: Unit) -> None:
    tried = 0
    for name, one in keys_of(units).items():
        table, _, key = name.partition(".")
        for shown in one.get("examples", ()):
            raw = dict(LEAST[units])
            if is_list(table):
                raw[table] = [{"length": shown, key: shown}]
            else:
                raw[table] = {**raw.get(table, {}), key: shown}
            problems: tuple[Any, ...] = ()
            try:
                job_from_dict(raw)
            except JobError as error:
                problems = error.problems
            assert [p.text for p in problems if p.path[-1] == key] == [], name
            tried += 1
    assert tried > 25


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_examples_of_the_package_fit(path: Path) -> None:
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    Draft202012Validator(job_schema(raw.get("units", "mm"))).validate(raw)


@given(raw_jobs())
def test_what_the_reader_takes_the_schema_takes(raw: dict[str, Any]) -> None:
    job_from_dict(raw)
    Draft202012Validator(job_schema()).validate(old_keys_read(raw))


def test_the_schema_refuses_what_is_no_job() -> None:
    check = Draft202012Validator(job_schema())
    assert {e.validator for e in check.iter_errors({"stock": {"thickness": True}, "jont": {}})} == {
        "required", "type", "additionalProperties",
    }  # fmt: skip


def test_every_problem_carries_its_key_and_all_come_at_once() -> None:
    raw = {
        "units": "cm",
        "stock": {"thicknes": 3, "height": "x"},
        "joint": {"ratio": 0},
        "saw": {"tooth_feed": ["1 mm", "q"]},
        "board": [{"length": "1 m"}, {"count": 0}],
        "clamp": 4,
    }
    with pytest.raises(JobError) as caught:
        job_from_dict(raw)
    found = {problem.path: problem for problem in caught.value.problems}
    assert set(found) == {
        ("stock", "thicknes"), ("units",), ("stock", "height"), ("joint", "ratio"), ("saw", "tooth_feed", 1),
        ("clamp",), ("board", 1, "length"), ("board", 1, "count"),
    }  # fmt: skip
    assert found["units",].text == 'job: units: found "cm", expected "mm" or "in"'
    assert found["board", 1, "count"].as_json()["path"] == ("board", 1, "count")


def test_every_finding_leads_to_a_key_there_is() -> None:
    keys = set(keys_of())
    for code in CODES:
        assert field_of(finding(code)) in keys, code
    assert set(KEYS) <= set(CODES) | {code.partition(".")[0] for code in CODES}
