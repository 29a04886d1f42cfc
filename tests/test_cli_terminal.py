"""Any terminal, any title, a reader that goes, a disk that is full, a library or a signal that is missing."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from scarfwright.cli.interruption import listen
from scarfwright.cli.terminal import visible

from tests.cli_runs import ENTRY, GOOD, TRIALS, run, write

BRACKETS = TRIALS / "brackets-in-title.toml"
TITLE = "Oars [/] spare [red] [12 mm]"


def test_brackets_are_shown_as_they_are_written(tmp_path: Path) -> None:
    """In titles, names of files and folders, and the tool's own sentences about "[saw]"."""
    folder = tmp_path / "[red]a[end]"
    folder.mkdir()
    job = folder / "[bold]job[red].toml"
    job.write_text(BRACKETS.read_text() + "[saw]\nplate = 4\n[sled]\nlength = 900\n")
    done = run("check", job.name, cwd=folder)
    assert f"{job.name}: {TITLE}" in done.stdout
    assert done.stderr == ""
    good = run("make", BRACKETS, "--only", "cut", "--out", "[i]out", cwd=folder)
    assert good.returncode == 0, good.stderr
    assert "[i]out: " in good.stdout
    part = run("part", "riser", "label=[/] [red]", "--out", "[b]riser.dxf", cwd=folder)
    assert part.returncode == 0, part.stderr
    assert "[b]riser.dxf: Riser" in part.stdout
    wrong = run("check", write(tmp_path, "[saw]\nkerf = '[red]'\n" + GOOD), cwd=tmp_path)
    assert "[saw] kerf" in wrong.stderr
    assert '"[red]"' in wrong.stderr


def test_control_characters_are_shown_and_not_sent(tmp_path: Path) -> None:
    text = 'title = "clear\\u001b[2Jscreen\\u009b31m"\n' + GOOD
    for words in (["check"], ["check", "--json"], ["make", "--only", "cut"], ["make", "--only", "cut", "--json"]):
        done = run(words[0], write(tmp_path, text), *words[1:], cwd=tmp_path)
        assert done.returncode == 0
        assert not set(done.stdout + done.stderr) & {"\x1b", "\x9b", "\x07"}, words
    assert "clear\\x1b[2Jscreen\\x9b31m" in run("check", tmp_path / "job.toml", cwd=tmp_path).stdout
    missing = run("check", "\x1b[2Jno.toml", cwd=tmp_path)
    assert "\\x1b[2Jno.toml" in missing.stderr
    assert visible("a\x07b\u202ec\nd") == "a\\x07b\\u202ec\nd"


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_any_terminal_can_show_it(tmp_path: Path, encoding: str) -> None:
    job = write(tmp_path, 'title = "Mål ½ ≥ 木"\n' + GOOD)
    first = f"import sys; [one.reconfigure(encoding={encoding!r}) for one in (sys.stdout, sys.stderr)]"
    for words in (["check", "--all"], ["parts"], ["--help"], ["check", "--json"]):
        target = [job] if words[0] == "check" else []
        done = run(words[0], *target, *words[1:], cwd=tmp_path, first=first)
        assert done.returncode == 0, done.stderr
        text = done.stdout.encode("utf-8", "surrogateescape").decode(encoding)
        if words[-1] == "--json":
            assert json.loads(text)["title"] == "Mål ½ ≥ 木"
        elif words[0] == "check" and encoding == "ascii":
            assert "M\\xe5l 1/2 >= \\u6728" in " ".join(text.split())


def closed_after(count: int, *words: str, cwd: Path) -> subprocess.CompletedProcess[bytes]:
    """The tool with its output read for `count` bytes only."""
    tool = subprocess.Popen(
        [sys.executable, "-c", ENTRY, *words], cwd=cwd, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert tool.stdout is not None
    assert tool.stderr is not None
    tool.stdout.read(count) if count else None
    tool.stdout.close()
    said = tool.stderr.read()
    return subprocess.CompletedProcess(words, tool.wait(timeout=120), b"", said)


@pytest.mark.parametrize("words", [["check"], ["check", "--json"], ["schema"], ["parts"], ["--help"], ["--version"]])
def test_a_reader_that_has_gone_is_told_apart(tmp_path: Path, words: list[str]) -> None:
    done = closed_after(0, *words, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (141, b"")


def test_a_reader_that_goes_after_the_files_are_made_leaves_them(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    done = closed_after(0, "make", str(job), "--only", "cut", cwd=tmp_path)
    assert done.returncode == 141
    assert b"as it was" not in done.stderr
    assert (tmp_path / "job-files" / "cut" / "sled.dxf").is_file()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no disk that is always full")
def test_output_to_a_full_disk_says_what_is_true(tmp_path: Path) -> None:
    job = write(tmp_path, GOOD)
    with Path("/dev/full").open("w") as full:
        for words, true in ((["check"], "as it was"), (["make", "--only", "cut"], "the files are in job-files, whole")):
            done = subprocess.run(
                [sys.executable, "-c", ENTRY, words[0], job.name, *words[1:]],
                cwd=tmp_path, stdout=full, stderr=subprocess.PIPE, text=True, timeout=120,
            )  # fmt: skip
            assert done.returncode == 2
            assert "No space left" in done.stderr
            assert true in done.stderr
            assert "Traceback" not in done.stderr


def test_a_library_of_the_system_that_is_missing_is_named_with_its_package(tmp_path: Path) -> None:
    """Stands for a machine without it: the kernel's import fails as the loader words it."""
    (tmp_path / "cadquery.py").write_text(
        'raise ImportError("libGL.so.1: cannot open shared object file: No such file or directory")\n'
    )
    job = write(tmp_path, GOOD)
    done = run("make", job, "--only", "cad", cwd=tmp_path, env={"PYTHONPATH": _before(tmp_path)})
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) == 1
    assert "libGL.so.1" in done.stderr
    assert "apt install libgl1" in done.stderr
    assert not (tmp_path / "job-files").exists()
    other = run("part", "riser", "--out", "x.stl", cwd=tmp_path, env={"PYTHONPATH": _before(tmp_path)})
    assert (other.returncode, "libgl1" in other.stderr) == (2, True)


def _before(folder: Path) -> str:
    return os.pathsep.join([str(folder), os.environ.get("PYTHONPATH", "")]).rstrip(os.pathsep)


@pytest.mark.parametrize("name", ["SIGTERM", "SIGINT"])
def test_a_system_without_a_signal(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = {n: signal.getsignal(getattr(signal, n)) for n in ("SIGINT", "SIGTERM")}
    numbers = {n: getattr(signal, n) for n in kept}
    monkeypatch.delattr(signal, name)
    try:
        listen()
        other = "SIGINT" if name == "SIGTERM" else "SIGTERM"
        assert signal.getsignal(numbers[other]) is not kept[other]
    finally:
        for n, handler in kept.items():
            signal.signal(numbers[n], handler)


def test_a_system_that_lets_no_signal_be_set(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise ValueError("signal only works in main thread of the main interpreter")

    monkeypatch.setattr(signal, "signal", refused)
    listen()


@pytest.mark.parametrize(
    "words",
    [
        ["check", "none.toml"],
        ["make", "none.toml"],
        ["make", "--only", "cod"],
        ["parts", "nothing"],
        ["chek"],
        ["check", "--fast"],
    ],
)
def test_what_cannot_be_used_is_data_for_those_who_ask_for_json(words: list[str], tmp_path: Path) -> None:
    done = run(*words, "--json", cwd=tmp_path)
    assert done.returncode == 2
    data = json.loads(done.stdout)
    assert data["format"] == 1
    assert data["problems"]
    for one in data["problems"]:
        assert set(one) - {"path"} == {"file", "line", "key", "found", "expected", "text"}
        assert f"scarfwright: {one['text']}\n" in done.stderr


def test_all_that_is_wrong_with_a_job_at_once(tmp_path: Path) -> None:
    wrong = GOOD.replace('"22 mm"', '"1,500 mm"').replace("ratio = 12", "ratio = 0") + "[saw]\nkerf = -1\n"
    done = run("check", write(tmp_path, wrong), "--json", cwd=tmp_path)
    assert done.returncode == 2
    assert [(p["line"], p["key"]) for p in json.loads(done.stdout)["problems"]] == [
        (3, "[stock] thickness"),
        (6, "[joint] ratio"),
        (10, "[saw] kerf"),
    ]
    assert len(done.stderr.splitlines()) == 3
