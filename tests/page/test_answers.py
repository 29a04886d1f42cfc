"""What the page shows of a job is what `check --json` prints, whatever else is worked out at the same time."""

from __future__ import annotations

import ast
import json
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from scarfwright.cli.main import check
from scarfwright.models.job.reading.plain import plain_to_text
from scarfwright.outputs.page.answer import at_once
from scarfwright.outputs.page.looking import in_full

from tests.page.served import JOB
from tests.strategies import raw_jobs

ROOT = Path(__file__).parents[2]
WILD, TAME, SLOW = 3, 8, 300  # wild jobs have faults whose ways out take seconds


def answer(tables: dict[str, Any]) -> dict[str, Any]:
    """Both halves of what the page gets."""
    first, then = at_once(tables), in_full(tables, lambda: False, whole_sheets=False)
    assert first.get("ticket") == then["ticket"]
    return {**first, **then, "pieces": [*first.get("pieces", []), *then.get("pieces", [])]}


def some_jobs(count: int) -> list[dict[str, Any]]:
    """Random jobs, the same in every run."""
    found: list[dict[str, Any]] = []

    @settings(max_examples=count, derandomize=True, database=None, deadline=None, phases=[Phase.generate],
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(raw_jobs())
    def draw(raw: dict[str, Any]) -> None:
        found.append(raw)

    draw()
    assert len(found) >= count
    return found[:count]


def checked(tables: dict[str, Any], folder: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """What `check --json` prints of the job saved to a file."""
    import typer

    path = folder / "job.toml"
    path.write_text(plain_to_text(tables), encoding="utf-8")
    with pytest.raises(typer.Exit):
        check(path, json=True, cut=False, sled=False, joint=False, everything=False)
    return json.loads(capsys.readouterr().out)


def agree(jobs: list[dict[str, Any]], folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for tables in jobs:
        shown = json.loads(json.dumps(answer(json.loads(json.dumps(tables)))))
        wanted = checked(tables, folder, capsys)
        assert shown["numbers"] == wanted
        assert shown["stops"] == any(one["stops"] for one in wanted["findings"])
        assert {(one["code"], one["text"]) for one in shown["findings"]} == {
            (one["code"], one["text"]) for one in wanted["findings"]
        }


def test_numbers_and_findings_are_those_of_check(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    agree([*some_jobs(WILD), *differing(TAME)], tmp_path, capsys)


@pytest.mark.slow
def test_numbers_and_findings_are_those_of_check_for_many(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    agree(some_jobs(SLOW), tmp_path, capsys)


def differing(count: int) -> list[dict[str, Any]]:
    """Jobs that differ in what parts and findings are made of: thickness, title, units, machines."""
    return [
        {
            "title": f"job {n}",
            "units": ("mm", "in")[n % 2],
            "shop_has": (["printer"], ["router"], ["laser"], [])[n % 4],
            "stock": {"thickness": f"{15 + n % 23} mm", "height": f"{40 + n % 31} mm"},
            "joint": {"ratio": 8 + n % 9},
            "clamp": {"opening": f"{60 + n % 50} mm"},
        }
        for n in range(count)
    ]


def threads_agree(count: int) -> None:
    jobs = differing(count)
    alone = [json.dumps(answer(one)) for one in jobs]
    with ThreadPoolExecutor(2) as pool:
        forth = pool.map(lambda one: json.dumps(answer(one)), jobs)
        back = pool.map(lambda one: json.dumps(answer(one)), reversed(jobs))
        assert list(forth) == alone
        assert list(back) == alone[::-1]


def test_two_threads_get_each_its_own_answer() -> None:
    threads_agree(8)


@pytest.mark.slow
def test_two_threads_of_200_jobs_get_each_its_own_answer() -> None:
    threads_agree(200)


def test_nothing_computed_is_kept_in_a_global() -> None:
    """No function of models or outputs rebinds a module's name: what a job's thread works out stays its own."""
    found = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for top in ("models", "outputs")
        for path in sorted((ROOT / top).rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Global)
    ]
    assert found == []


@settings(max_examples=2)
@given(raw_jobs())
def test_every_way_out_mends_its_finding(tables: dict[str, Any]) -> None:
    """The button does what it says: written into the plain tables, the finding is gone."""
    shown = answer(tables)
    for one in [one for one in shown["findings"] if one["ways"]][:2]:
        changed = json.loads(json.dumps(tables))
        for change in one["ways"][0]["changes"]:
            table, key = change["path"]
            changed.setdefault(table, {})[key] = change["value"]
        after = answer(changed)
        assert after["problems"] == []
        told = [(f["code"], f["text"]) for f in after["findings"]]
        assert (one["code"], one["text"]) not in told


def test_findings_lead_to_keys_that_the_form_has() -> None:
    bad = {**JOB, "stock": {"thickness": "22 mm", "height": "200 mm"}}
    shown = answer(bad)
    assert shown["stops"]
    for one in shown["findings"]:
        assert one["field"]
        assert one["path"]


def test_of_a_faulty_job_there_is_nothing_to_work_by() -> None:
    shown = answer({**JOB, "stock": {"thickness": "22 mm", "height": "20 mm"}})
    assert {one["key"] for one in shown["pieces"]} <= {"moving_cut", "joint"}


@pytest.mark.parametrize("units", ["mm", "in"])
def test_an_answer_is_json_of_moderate_size(units: str) -> None:
    data = json.dumps(answer({**JOB, "units": units}))
    assert len(data) < 400_000
