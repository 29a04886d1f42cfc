"""`start`: what matters first, every line fit to be put to use, five questions, and never half a file."""

from __future__ import annotations

import os
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from scarfwright.cli.starting import ask_and_start, asked, start_job
from scarfwright.models.findings import faults
from scarfwright.models.job.file import job_from_text
from scarfwright.models.job.forms.start_text import Start, starting_text
from scarfwright.models.job.tables import Job
from scarfwright.models.lengths.length import Unit
from scarfwright.models.solve import work_up

from tests.cli_runs import run

UNITS: tuple[Unit, ...] = ("mm", "in")
LINE = re.compile(r"^# (?P<key>[a-z_]+\.[a-z_]+) = (?P<value>.+?) +# (?P<about>.+)$")
MM_AS_SOLD = ("adhesive.gap_limit", "printer.bed", "printer.layer", "printer.tolerance", "laser.kerf")


def commented(text: str) -> dict[str, tuple[int, str]]:
    """Keys behind a #, each with the number of its line and what is said of it."""
    found = {}
    for number, line in enumerate(text.splitlines()):
        match = LINE.match(line)
        if match:
            found[match["key"]] = (number, match["about"])
    return found


def put_to_use(text: str, keys: list[str]) -> str:
    lines, found = text.splitlines(), commented(text)
    for key in keys:
        number = found[key][0]
        lines[number] = lines[number].removeprefix("# ")
    return "\n".join(lines)


def all_keys() -> set[str]:
    return {f"{table}.{key}" for table in Job.model_fields for key in _fields(table)}


def _fields(table: str) -> list[str]:
    model = Job.model_fields[table].annotation
    return list(getattr(model, "model_fields", {}))


@pytest.mark.parametrize("units", UNITS)
def test_every_key_is_there_once_and_can_be_put_to_use_alone(units: Unit) -> None:
    text = starting_text(Start(units))
    found = commented(text)
    assert len(found) > 60
    as_made = {key for key in all_keys() if key.endswith("_as_made")}
    assert set(found) | {"stock.thickness", "stock.height", "joint.ratio"} == all_keys() - as_made
    same = job_from_text(text)
    for key, (_, about) in found.items():
        job = job_from_text(put_to_use(text, [key]), key)
        if about.startswith("(no default)"):
            assert not faults(list(work_up(job).findings)), key
        else:
            assert job == same, key


@pytest.mark.parametrize("units", UNITS)
def test_all_of_them_together_still_make_a_job(units: Unit) -> None:
    text = starting_text(Start(units))
    work = work_up(job_from_text(put_to_use(text, list(commented(text)))))
    assert not faults(list(work.findings))


@pytest.mark.parametrize("units", UNITS)
def test_what_is_shown_as_a_default_is_the_default(units: Unit) -> None:
    text = starting_text(Start(units))
    defaults = [key for key, (_, about) in commented(text).items() if not about.startswith("(no default)")]
    assert len(defaults) > 50
    assert job_from_text(put_to_use(text, defaults)) == job_from_text(text)


def test_inch_files_speak_inches() -> None:
    text = starting_text(Start("in"))
    for key, (number, _) in commented(text).items():
        value = text.splitlines()[number].split("=", 1)[1].split(" # ")[0]
        assert key in MM_AS_SOLD or not re.search(r"\d mm|\d m\b", value), key


@pytest.mark.parametrize("units", UNITS)
def test_what_matters_comes_first_and_the_guesses_stand_together(units: Unit) -> None:
    lines = starting_text(Start(units)).splitlines()
    heads = [i for i, line in enumerate(lines) if line.startswith("# -- ")]
    assert len(heads) == 3
    first = [line.removeprefix("# ").split(" =")[0] for line in lines[heads[0] + 1 : heads[1] - 1]]
    assert first == ["stock.thickness", "stock.height", "stock.length", "joint.ratio", "sled.plank"]
    measured = {line.removeprefix("# ").split(" =")[0] for line in lines[heads[1] + 1 : heads[2] - 1]}
    assert "measure these" in lines[heads[1]]
    assert {"saw.kerf", "saw.table_front", "clamp.opening", "clamp.throat"} <= measured
    assert {key.split(".")[0] for key in measured} == {"saw", "clamp"}
    assert len(lines) < 125


# -- asking ----------------------------------------------------------------------------------------------


def answers(*given: str) -> Iterator[str]:
    yield from given
    raise EOFError


def ask_with(*given: str) -> Start:
    these = answers(*given)
    return asked(lambda _question: next(these), None)


def test_answers_become_the_job() -> None:
    start = ask_with("in", "7/8 in x 2 1/4 in", "1 in 10", "2x10", "printer, laser")
    job = job_from_text(starting_text(start))
    assert (job.units, job.stock.thickness.text, job.stock.height.text) == ("in", "7/8 in", "2 1/4 in")
    assert (job.joint.ratio, job.sled.plank.name, job.shop_has) == (10, "2x10", ("printer", "laser"))


def test_enter_alone_takes_what_is_usual() -> None:
    job = job_from_text(starting_text(ask_with("", "", "", "", "")))
    assert (job.units, job.stock.thickness.text, job.joint.ratio, job.shop_has) == ("mm", "22 mm", 12, ())


def test_bare_numbers_and_commas() -> None:
    job = job_from_text(starting_text(ask_with("mm", "21,5 x 60", "12:1", "38 x 184", "no")))
    assert (job.stock.thickness.text, job.stock.height.text) == ("21.5 mm", "60 mm")
    assert [x.text for x in job.sled.plank] == ["38 mm", "184 mm"]


@pytest.mark.parametrize(
    ("board", "plank", "sizes"),
    [
        ("7/8 x 1 3/4", "1 1/2 x 7 1/4", ("7/8 in", "1 3/4 in", "1 1/2 in", "7 1/4 in")),
        ('7/8" x 1 3/4"', '1-1/2 x 7-1/4"', ("7/8 in", "1 3/4 in", "1 1/2 in", "7 1/4 in")),
        ("⅞ by 1 ¾ in", "1.5X7.25", ("7/8 in", "1 3/4 in", "1 1/2 in", "7 1/4 in")),
        ("22 x 60 mm", "2x8", ("22 mm", "60 mm", "1 1/2 in", "7 1/4 in")),  # the unit after the second is both's
    ],
)
def test_inches_as_they_are_said(board: str, plank: str, sizes: tuple[str, ...]) -> None:
    job = job_from_text(starting_text(ask_with("in", board, "12:1", plank, "none")))
    found = (job.stock.thickness, job.stock.height, job.sled.plank.thickness, job.sled.plank.width)
    assert tuple(x.text for x in found) == sizes


def test_a_fraction_alone_is_no_metric_size(capsys: pytest.CaptureFixture[str]) -> None:
    """Whoever types it thinks in inches; and what is said of an answer names no key."""
    start = ask_with("mm", "3/4 x 2", "22 x 60", "", "", "")
    assert start.values["stock.thickness"] == 22
    said = capsys.readouterr().out
    assert 'found "3/4", where the unit is missing' in said
    assert "[stock]" not in said


def test_nonsense_is_asked_again(capsys: pytest.CaptureFixture[str]) -> None:
    start = ask_with(
        "cubits", "mm", "thick", "22 mm x", "1,500 mm x 60 mm", "22 x 60", "steep", "12", "oak", "2x8", "mill", "router"
    )
    assert start.shop_has == ("router",)
    said = capsys.readouterr().out
    for word in ('"cubits"', '"thick"', "1500 or 1.500", '"steep"', '"oak"', "printer, router, laser"):
        assert word in said
    assert said.count("expected") == 7


def test_end_of_input_leaves_no_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    these = answers("mm", "22 x 60")
    assert ask_and_start(tmp_path / "new.toml", None, lambda _q: next(these)) == 2
    assert "no file was written" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_questions_only_on_a_terminal(tmp_path: Path) -> None:
    done = run("start", "--ask", "new.toml", cwd=tmp_path)
    assert done.returncode == 2
    assert "no terminal" in done.stderr
    assert not list(tmp_path.iterdir())


@pytest.mark.skipif(sys.platform == "win32", reason="pseudo-terminals are POSIX's")
@pytest.mark.parametrize(("typed", "code"), [("in||||printer", 0), ("in|\x03", 130), ("mm|\x04", 2)])
def test_on_a_terminal(tmp_path: Path, typed: str, code: int) -> None:
    import pty
    import select
    import subprocess

    ours, theirs = pty.openpty()
    command = [sys.executable, "-c", "from scarfwright.cli.entry import run; run()", "start", "--ask", "new.toml"]
    asking = subprocess.Popen(
        command, cwd=tmp_path, stdin=theirs, stdout=theirs, stderr=subprocess.PIPE, start_new_session=True,
        preexec_fn=_controlling,
    )  # fmt: skip
    os.close(theirs)
    said = b""
    for count, answer in enumerate(typed.split("|"), 1):
        while said.count(b"]: ") < count:  # a control character reaches only who is reading
            assert select.select([ours], [], [], 60)[0], said
            said += os.read(ours, 1000)
        os.write(ours, answer.encode() if answer in ("\x03", "\x04") else answer.encode() + b"\n")
    try:
        _, wrong = asking.communicate(timeout=60)
    finally:
        asking.kill()
        os.close(ours)
    assert asking.returncode == code, (said, wrong)
    assert b"Traceback" not in wrong
    assert (tmp_path / "new.toml").exists() == (code == 0)
    if code:
        assert b"no file was written" in wrong
    else:
        assert tomllib.loads((tmp_path / "new.toml").read_text())["shop_has"] == ["printer"]


def _controlling() -> None:
    import fcntl
    import termios

    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


# -- never half a file -------------------------------------------------------------------------------------


def test_a_full_disk_leaves_nothing(tmp_path: Path) -> None:
    """The system lets a file grow to 100 bytes only, which is what a full disk looks like to a writer."""
    resource = pytest.importorskip("resource")
    assert resource is not None
    code = (
        "import resource, signal\nsignal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))\nfrom scarfwright.cli.entry import run\nrun()"
    )
    done = run("start", "new.toml", cwd=tmp_path, code=code)
    assert done.returncode == 2
    assert "can't be written" in done.stderr
    assert "no file was written" in done.stderr
    assert not list(tmp_path.iterdir())


def test_a_name_that_is_taken_is_left(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine")
    assert start_job(path, "mm") == 2
    assert path.read_text() == "mine"


def test_interrupted_while_writing_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    real = Path.open

    def opened(self: Path, *words: str, **options: str) -> object:
        stream = real(self, *words, **options)  # type: ignore[call-overload]
        stream.write = stop
        return stream

    monkeypatch.setattr(Path, "open", opened)
    with pytest.raises(KeyboardInterrupt):
        start_job(tmp_path / "new.toml", "mm")
    assert not list(tmp_path.iterdir())
