"""What is made for which machine: as the job's shop says, or as the command line names it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from scarfwright.models.job.file import job_from_text
from scarfwright.models.job.shop import cutter
from scarfwright.models.solve import work_up
from scarfwright.outputs.make import items

from tests.cli_runs import GOOD, run, write


def made(tmp_path: Path, text: str, *words: str) -> tuple[int, dict[str, Any]]:
    done = run("make", write(tmp_path, text), *words, "--json", cwd=tmp_path)
    return done.returncode, json.loads(done.stdout)


def names(text: str) -> set[str]:
    return {item.path for item in items(work_up(job_from_text(text)))}


EMPTY = "shop_has = []\n" + GOOD


def test_only_print_with_nothing_to_print_with_says_so(tmp_path: Path) -> None:
    code, data = made(tmp_path, EMPTY, "--only", "print")
    assert code == 2
    (one,) = data["problems"]
    assert one["key"] == "shop_has"
    assert "no machine" in one["found"]
    assert "printer" in one["expected"]
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]
    code, data = made(tmp_path, 'shop_has = ["router"]\n' + GOOD, "--only", "print")
    assert (code, "router" in data["problems"][0]["found"]) == (2, True)


def test_a_machine_that_is_named_needs_no_shop(tmp_path: Path) -> None:
    code, data = made(tmp_path, EMPTY, "--only", "cut", "--machine", "laser")
    assert code == 0
    assert any(name.startswith("cut/template-") for name in data["files"])
    code, data = made(tmp_path, EMPTY, "--only", "cut", "--machine", "router")
    assert any(name.startswith("cut/sheet-") for name in data["files"])


def test_a_group_names_its_machine_where_the_job_says_nothing(tmp_path: Path) -> None:
    """Job files from before there was such a key."""
    code, data = made(tmp_path, GOOD, "--only", "cut")
    assert code == 0
    assert any(name.startswith("cut/sheet-") for name in data["files"])
    code, data = made(tmp_path, EMPTY, "--only", "cut")
    names_in_cut = {Path(name).name for name in data["files"] if name.startswith("cut/")}
    assert names_in_cut == {"sled.dxf", "plank.dxf", "carrier.dxf", "README.txt"}


def test_a_list_of_gauges_is_all_that_is_printed() -> None:
    text = 'shop_has = ["printer"]\n' + GOOD
    some = {n for n in names(text + '[printer]\ngauges = ["height_step"]\n') if n.startswith("print/")}
    assert {name for name in some if name.endswith(".stl")} == {"print/height_step.stl"}
    useful = {n for n in names(text) if n.endswith(".stl")}
    everything = {n for n in names(text + '[printer]\ngauges = "all"\n') if n.endswith(".stl")}
    assert {"print/square_block.stl", "print/taper_fork.stl"} <= everything - useful


def test_what_is_left_out_as_too_coarse_is_one_note() -> None:
    work = work_up(job_from_text('shop_has = ["printer"]\n' + GOOD))
    (note,) = [f for f in work.findings if f.code == "gauges.left_out"]
    assert "square block" in note.text
    assert not [f for f in work.findings if f.code.endswith(".coarse")]
    all_of_them = work_up(job_from_text('shop_has = ["printer"]\n' + GOOD + '[printer]\ngauges = "all"\n'))
    assert [f for f in all_of_them.findings if f.code.endswith(".coarse")]
    assert not [f for f in all_of_them.findings if f.code == "gauges.left_out"]


@pytest.mark.parametrize(
    ("shop", "machine", "expected"),
    [
        ([], "router", None),
        (["printer"], "laser", None),
        (["router"], "laser", "router"),
        (["laser"], "router", "laser"),
        (["router", "laser"], "laser", "laser"),
        (["router", "laser"], "router", "router"),
    ],
)
def test_which_machine_cuts(shop: list[str], machine: str, expected: str | None) -> None:
    job = job_from_text(f'shop_has = {json.dumps(shop)}\n{GOOD}[files]\nmachine = "{machine}"\n')
    assert cutter(job) == expected


def test_what_a_router_cannot_cut_does_not_stop_the_printer(tmp_path: Path) -> None:
    text = (
        'shop_has = ["printer", "router"]\n'
        + GOOD
        + '[router]\nspacing = "1 mm"\n[printer]\ngauges = ["height_step"]\n'
    )
    code, data = made(tmp_path, text)
    assert code == 0
    assert not [name for name in data["files"] if "sheet-" in name]
    (told,) = [f for f in data["findings"] if f["code"] == "router.spacing_small"]
    assert (told["stops"], told["part"]) == (False, "sheets")
    assert made(tmp_path, text, "--only", "print")[0] == 0


def test_a_group_made_alone_keeps_the_others_and_the_job(tmp_path: Path) -> None:
    """The machine a group names is there for that run: the job is still the same job."""
    job = write(tmp_path, GOOD)
    assert run("make", job, "--only", "paper", "--out", "out", cwd=tmp_path).returncode == 0
    kept = (tmp_path / "out" / "job.toml").read_bytes()
    again = run("make", job, "--only", "cut", "--out", "out", cwd=tmp_path)
    assert "Removed" not in again.stdout
    assert (tmp_path / "out" / "paper" / "sled.pdf").is_file()
    assert list((tmp_path / "out" / "cut").glob("sheet-*.dxf"))
    assert (tmp_path / "out" / "job.toml").read_bytes() == kept
    assert b"# shop_has: not given" in kept
