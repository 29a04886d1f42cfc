"""The command line as a user meets it: fresh processes, exit codes, one message, nothing lost."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.cli_runs import GOOD, run, write

HEAVY = ("cadquery", "OCP", "trimesh", "matplotlib", "scipy", "ortools", "ezdxf", "reportlab")


@pytest.mark.parametrize("words", [["--help"], ["check"], ["schema"], ["make", "--help"]])
def test_light_commands_load_no_heavy_module(tmp_path: Path, words: list[str]) -> None:
    entry = (
        "import sys\nfrom scarfwright.cli.entry import run\n"
        "try: run()\nexcept SystemExit as e: assert not e.code, e.code\n"
        f"print('loaded', [m for m in {HEAVY!r} if m in sys.modules], file=sys.stderr)"
    )
    done = run(*words, cwd=tmp_path, code=entry)
    assert done.stderr.strip() == "loaded []"


@pytest.mark.parametrize("command", [[], ["make"], ["check"], ["start"], ["schema"]])
def test_every_command_has_help(tmp_path: Path, command: list[str]) -> None:
    done = run(*command, "--help", cwd=tmp_path)
    assert done.returncode == 0
    assert "Usage" in done.stdout


BAD_JOBS = {
    "wrong type": (GOOD + "[sled]\nlayers = 'two'\n", "[sled] layers"),
    "unknown key": (GOOD.replace("height", "heigth"), 'nearest known one is "height"'),
    "unknown table": (GOOD + "[swa]\nkerf = 2\n", 'nearest known one is "saw"'),
    "no unit": (GOOD.replace('"22 mm"', '"22"'), "unit is missing"),
    "zero below": (GOOD.replace('"22 mm"', '"3/0 in"'), "zero under the line"),
    "negative": (GOOD.replace('"22 mm"', "-22"), "not negative"),
    "zero": (GOOD.replace('"22 mm"', "0"), "more than zero"),
    "infinite": (GOOD.replace('"22 mm"', "inf"), "finite"),
    "not a number": (GOOD.replace('"22 mm"', "nan"), "finite"),
    "absurd": (GOOD.replace('"22 mm"', "1e9"), "over 100 m"),
    "mixed units": (GOOD.replace('"22 mm"', '"2 in 3 mm"'), "mixes units"),
    "no such unit": (GOOD.replace('"22 mm"', '"22 furlong"'), "no unit known"),
    "degrees": (GOOD.replace("ratio = 12", 'ratio = "5 deg"'), "degrees are not a ratio"),
    "broken": (GOOD + "[saw\n", "line 9, column 5"),
    "units": ("units = 'cubit'\n" + GOOD, 'expected "mm" or "in"'),
    "missing": ("[stock]\nthickness = 22\nheight = 60\n", "joint"),
}


@pytest.mark.parametrize("command", ["check", "make"])
@pytest.mark.parametrize("name", BAD_JOBS)
def test_a_job_that_cannot_be_read_is_one_message(tmp_path: Path, command: str, name: str) -> None:
    text, expected = BAD_JOBS[name]
    done = run(command, write(tmp_path, text), cwd=tmp_path)
    assert done.returncode == 2
    assert expected in done.stderr
    assert "job.toml" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert not done.stdout
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_files_that_are_no_job(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "empty.toml").write_text("")
    (tmp_path / "binary.toml").write_bytes(bytes(range(256)))
    for name, expected in {
        "none.toml": "no such file",
        "folder": "is a folder",
        "empty.toml": "empty",
        "binary.toml": "not UTF-8",
    }.items():
        done = run("check", name, cwd=tmp_path)
        assert (done.returncode, len(done.stderr.splitlines())) == (2, 1), done.stderr
        assert expected in done.stderr


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (('height = "60 mm"', 'height = "20 mm"'), "stock.not_upright"),
        (("[clamp]", '[sled]\nnotch_length = "3 m"\n[clamp]'), "notch.longer_than_sled"),
        (("[clamp]", '[saw]\nkerf = "300 mm"\n[clamp]'), "plank.kerf_too_wide"),
        (("[clamp]", '[sled]\nheel_station = "200 mm"\n[clamp]'), "clamp.meets_blade"),
    ],
)
def test_impossible_geometry_is_a_finding_and_make_writes_nothing(
    tmp_path: Path, change: tuple[str, str], code: str
) -> None:
    job = write(tmp_path, GOOD.replace(*change))
    checked = run("check", job, "--json", cwd=tmp_path)
    assert checked.returncode == 1
    assert code in [f["code"] for f in json.loads(checked.stdout)["findings"] if f["level"] == "fault"]
    made = run("make", job, cwd=tmp_path)
    assert made.returncode == 1
    assert code in made.stderr
    assert "Traceback" not in made.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_make_says_what_it_made_and_the_five_numbers(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    done = run("make", job, "--only", "cut", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    for word in ("slope  ", "degrees", "fence", "heel as measured", "blade height", "overlap", "heel station"):
        assert word in done.stdout
    assert "manual" in done.stdout
    folder = tmp_path / "job-files"
    assert (folder / ".scarfwright").is_file()
    assert (folder / "cut" / "sled.dxf").is_file()
    assert not (folder / "cad").exists()


def test_make_json_lists_the_files(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    done = run("make", job, "--only", "cut", "--json", "--out", "there", cwd=tmp_path)
    data = json.loads(done.stdout)
    assert data["folder"] == "there"
    assert all((tmp_path / "there" / name).is_file() for name in data["files"])
    assert data["joint"]["ratio"] == 12


def test_the_job_understood_makes_the_same_files(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    run("make", job, "--only", "cut", "--out", "one", cwd=tmp_path)
    run("make", "one/job.toml", "--only", "cut", "--out", "two", cwd=tmp_path)
    names = sorted(p.relative_to(tmp_path / "one") for p in (tmp_path / "one").rglob("*") if p.is_file())
    assert len(names) > 4
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes(), name


def test_without_a_job_the_first_example_is_used(tmp_path: Path) -> None:
    done = run("check", cwd=tmp_path)
    assert done.returncode == 0
    assert "plank-metric.toml" in done.stdout


def test_a_group_that_is_none(tmp_path: Path) -> None:
    done = run("make", "--only", "cut,cod", cwd=tmp_path)
    assert done.returncode == 2
    assert "cad,cut,print,paper" in done.stderr


def test_words_the_command_does_not_know(tmp_path: Path) -> None:
    for words in (["mak"], ["check", "--fast"], ["make", "a", "b"]):
        done = run(*words, cwd=tmp_path)
        assert done.returncode == 2
        assert len(done.stderr.strip().splitlines()) == 1
        assert done.stderr.startswith("scarfwright: ")


@pytest.mark.parametrize("units", ["mm", "in"])
def test_start_writes_a_job_that_checks_and_never_overwrites(tmp_path: Path, units: str) -> None:
    assert run("start", "new.toml", "--units", units, cwd=tmp_path).returncode == 0
    assert run("check", "new.toml", cwd=tmp_path).returncode == 0
    text = (tmp_path / "new.toml").read_text()
    again = run("start", "new.toml", cwd=tmp_path)
    assert again.returncode == 2
    assert "is there already" in again.stderr
    assert (tmp_path / "new.toml").read_text() == text


def test_schema_is_json_schema_that_names_every_table(tmp_path: Path) -> None:
    schema = json.loads(run("schema", cwd=tmp_path).stdout)
    assert {"stock", "joint", "saw", "clamp", "sled"} <= set(schema["properties"])
    assert schema["required"] == ["stock", "joint"]
    assert schema["$defs"]["Saw"]["properties"]["kerf"]["default"] == "3.2 mm"


def test_version(tmp_path: Path) -> None:
    assert run("--version", cwd=tmp_path).stdout.startswith("scarfwright ")


@pytest.mark.parametrize("after", [0.1, 0.8, 1.8, 2.6])
def test_interrupted_while_making(tmp_path: Path, after: float) -> None:
    """At whatever moment, loading a compiled library included: exit 130, one message, nothing left."""
    entry = "from scarfwright.cli.entry import run; print('on', flush=True); run()"
    command = [sys.executable, "-c", entry, "make", "--out", "out"]
    maker = subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert maker.stdout
    assert maker.stdout.readline() == "on\n"  # what comes before is Python's own start
    time.sleep(after)
    maker.send_signal(signal.SIGINT)
    _, said = maker.communicate(timeout=60)
    if maker.returncode == 0:  # a fast machine may have been done
        return
    assert maker.returncode == 130
    assert "Traceback" not in said
    assert "interrupted" in said
    assert list(tmp_path.iterdir()) == []


def test_groups_that_belonged_to_another_job_are_said_to_be_gone(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    run("make", job, "--only", "cut,paper", "--out", "out", cwd=tmp_path)
    same = run("make", job, "--only", "cut", "--out", "out", cwd=tmp_path)
    assert "Removed" not in same.stdout
    assert (tmp_path / "out" / "paper" / "sled.svg").is_file()
    other = run("make", job, "--only", "cut", "--dxf", "r12", "--out", "out", cwd=tmp_path)
    assert "Removed paper/: made with other settings" in other.stdout
    assert not (tmp_path / "out" / "paper").exists()
