"""The packaged examples: what each shows, that each is quiet, and one of them as the beginning of one's own job."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from scarfwright.cli.examples import example, listed, names
from scarfwright.cli.starting import start_like
from scarfwright.models.findings import Level
from scarfwright.models.job.file import job_from_text, job_to_toml
from scarfwright.models.solve import work_up
from scarfwright.outputs.make import items

from tests.cli_runs import run
from tests.examples import EVERY_EXAMPLE

# name -> units, made from, machines: each job differs from every other
DIFFER = {
    "plank-metric": ("mm", "plank", ("printer", "router")),
    "battens-laser": ("in", "plank", ("printer", "laser")),
    "chine-bent": ("in", "plank", ()),
    "laminations": ("mm", "sheet", ("laser",)),
    "mast-staves": ("mm", "plank", ("printer",)),
    "plank-inch": ("in", "plank", ()),
    "sheet-layers": ("mm", "sheet", ("router",)),
    "stringers": ("mm", "plank", ("printer",)),
}


def test_there_are_eight_and_they_differ() -> None:
    assert names() == list(DIFFER)
    assert len({example(name).shows for name in names()}) == 8
    jobs = {name: job_from_text(example(name).text) for name in names()}
    assert {n: (j.units, j.sled.made_from, j.shop_has) for n, j in jobs.items()} == DIFFER
    assert len({(j.stock.species, float(j.stock.thickness), j.joint.ratio) for j in jobs.values()}) == 8
    assert sorted(path.stem for path in EVERY_EXAMPLE) == sorted(names())


@pytest.mark.parametrize("name", sorted(DIFFER))
def test_an_example_is_quiet_and_its_files_are_those_of_its_shop(name: str) -> None:
    """No fault; of cautions only the one that every board longer than the table asks for. Cheap: nothing is written."""
    one = example(name)
    assert one.text.startswith(f"# {one.shows}\n")
    assert 40 < len(one.shows) <= 130
    job = job_from_text(one.text)
    work = work_up(job)
    cautions = {f.code for f in work.findings if f.level is Level.CAUTION and not f.part}
    assert cautions <= {"support.infeed_needed"}
    assert not [f.code for f in work.findings if f.level is Level.FAULT]
    paths = [item.path for item in items(work, ("cad", "cut", "print"))]
    assert len(paths) == len(set(paths))
    assert any(path.startswith("print/") for path in paths) == ("printer" in job.shop_has)
    assert any(path.startswith("cut/sheet-") for path in paths) == ("router" in job.shop_has)
    assert any(path.startswith("cut/template-") for path in paths) == ("laser" in job.shop_has)
    again = job_from_text(job_to_toml(job))
    assert again == job


def test_start_like_writes_the_example_as_it_is(tmp_path: Path) -> None:
    done = run("start", "mine.toml", "--like", "mast-staves", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "scarfwright check mine.toml" in done.stdout
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == example("mast-staves").text
    assert tomllib.loads((tmp_path / "mine.toml").read_text(encoding="utf-8"))["title"] == "Staves, box mast"
    again = run("start", "mine.toml", "--like", "plank-inch", cwd=tmp_path)
    assert again.returncode == 2
    assert "is there already" in again.stderr
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == example("mast-staves").text


def test_a_name_that_is_none_lists_all_and_names_the_nearest(tmp_path: Path) -> None:
    done = run("start", "mine.toml", "--like", "chines", cwd=tmp_path)
    assert done.returncode == 2
    first, *lines = done.stderr.splitlines()
    assert first == 'scarfwright: start --like: found "chines", expected an example; the nearest is "chine-bent"'
    assert lines == listed()
    assert [line.split()[0] for line in lines] == names()
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("more", [("--ask",), ("--units", "in")], ids=" ".join)
def test_like_goes_with_no_other_choice(tmp_path: Path, more: tuple[str, ...]) -> None:
    done = run("start", "mine.toml", "--like", "plank-inch", *more, cwd=tmp_path)
    assert done.returncode == 2
    assert "its own units and sizes" in done.stderr
    assert not list(tmp_path.iterdir())


def test_names_out_of_the_folder_are_none(tmp_path: Path) -> None:
    for name in ("../pyproject", "plank-metric.toml", "", "__init__"):
        assert start_like(tmp_path / "mine.toml", name) == 2
    assert not list(tmp_path.iterdir())
