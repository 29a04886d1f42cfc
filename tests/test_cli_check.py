"""What `check` answers: forty lines for a good job, each finding once and in its group, and why "auto" chose so."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli_runs import GOOD, TRIALS, run, write
from tests.examples import EVERY_EXAMPLE, LOOKED_INTO

INCHES = 'units = "in"\n[stock]\nthickness = "7/8 in"\nheight = "1 3/4 in"\n[joint]\nratio = "12:1"\n'


@pytest.mark.parametrize("path", EVERY_EXAMPLE, ids=lambda p: p.stem)
def test_forty_lines_of_eighty_columns(path: Path, tmp_path: Path) -> None:
    done = run("check", path, cwd=tmp_path)
    assert done.returncode == 0
    lines = done.stdout.splitlines()
    assert len(lines) <= 40
    assert max(len(line) for line in lines[1:]) <= 80
    for word in ("slope", "fence", "blade height", "overlap", "heel station"):
        assert sum(line.startswith(f"  {word}  ") for line in lines) == 1, word
    assert "Next" in lines


@pytest.mark.parametrize("path", LOOKED_INTO, ids=lambda p: p.stem)
def test_each_finding_once_and_none_stops_an_example(path: Path, tmp_path: Path) -> None:
    shown = run("check", path, cwd=tmp_path).stdout
    found = json.loads(run("check", path, "--json", cwd=tmp_path).stdout)["findings"]
    assert "Stops the job" not in shown
    for one in found:
        assert one["stops"] is False
        assert shown.replace("\n", " ").count(one["code"]) == 1
    cautions = {f["code"] for f in found if f["level"] == "caution"}
    assert cautions <= {"support.infeed_needed"}


def test_groups_stand_in_order_and_the_next_step_follows(tmp_path: Path) -> None:
    wrong = GOOD.replace('"60 mm"', '"20 mm"')
    done = run("check", write(tmp_path, wrong), cwd=tmp_path)
    assert done.returncode == 1
    assert "Stops the job" in done.stdout
    assert done.stdout.index("Stops the job") < done.stdout.index("stock.not_upright") < done.stdout.index("Next")
    assert "scarfwright make" not in done.stdout


def test_tables_only_when_asked_for(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    short, cut, sled, everything = (
        run("check", job, *words, cwd=tmp_path).stdout for words in ([], ["--cut"], ["--sled"], ["--all"])
    )
    assert "Ways to end the cut" not in short
    assert "Ways to end the cut" in cut
    assert "taper run" not in short
    assert "taper run" in sled
    assert "Ways to end the cut" in everything
    assert "taper run" in everything


def test_auto_says_why_with_the_number_and_asks_once(tmp_path: Path) -> None:
    """Clamps that open 2 in make a sled of 60 in where 6 in would make it 32: found by working both jobs out."""
    assumed = write(tmp_path, INCHES, "a.toml")
    wide = write(tmp_path, INCHES + '[clamp]\nopening = "6 in"\n', "b.toml")
    lengths = [
        json.loads(run("check", job, "--json", cwd=tmp_path).stdout)["sled"]["length_mm"] / 25.4
        for job in (assumed, wide)
    ]
    said = " ".join(run("check", assumed, cwd=tmp_path).stdout.split())
    assert f'Length "auto": {lengths[0]:.0f} in is the shortest' in said
    assert f"Clamps that open 6 in would make it {lengths[1]:.0f} in (2 in is assumed, measure yours)" in said
    assert lengths[1] < lengths[0]
    other = run("check", wide, cwd=tmp_path).stdout
    assert "would make it" not in other
    given = run("check", write(tmp_path, INCHES + '[sled]\nlength = "60 in"\n', "c.toml"), cwd=tmp_path).stdout
    assert 'Length "auto"' not in given


@pytest.mark.parametrize("units", ["mm", "in"])
def test_forty_lines_with_every_machine_and_nothing_measured(units: str, tmp_path: Path) -> None:
    job = f'units = "{units}"\nshop_has = ["printer", "router", "laser"]\n'
    job += '[stock]\nthickness = "7/8 in"\nheight = "1 3/4 in"\n[joint]\nratio = 12\n'
    done = run("check", write(tmp_path, job).name, cwd=tmp_path)
    assert done.returncode == 0
    assert len(done.stdout.splitlines()) <= 40
    assert "Assumed, measure yours: every size of your saw and clamps" in done.stdout
    assert "printed" not in run("check", write(tmp_path, job.replace('"printer", ', "")), cwd=tmp_path).stdout


def test_sizes_that_are_assumed_are_named(tmp_path: Path) -> None:
    shown = " ".join(run("check", write(tmp_path, GOOD), cwd=tmp_path).stdout.split())
    assumed = shown[shown.index("Assumed, measure yours:") : shown.index("Next")]
    assert "kerf" in assumed
    assert "opening" not in assumed


def test_what_is_equal_as_read_is_equal(tmp_path: Path) -> None:
    """1 3/4 in and 1/4 in are 2 in, which in binary fractions of a millimetre is a hair more."""
    job = TRIALS / "saw-that-just-reaches.toml"
    assert run("check", job, cwd=tmp_path).returncode == 0
    lower = write(tmp_path, job.read_text().replace('max_depth = "2 in"', 'max_depth = "1 63/64 in"'))
    done = run("check", lower, cwd=tmp_path)
    assert (done.returncode, "blade.too_low" in done.stdout) == (1, True)
