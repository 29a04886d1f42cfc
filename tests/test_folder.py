"""The folder is put in place whole: faults, signals and full disks leave what was there and no litter."""

from __future__ import annotations

import ctypes
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from scarfwright.outputs import folder as folder_room
from scarfwright.outputs.folder import FolderError, replaced_whole
from scarfwright.outputs.share.whole import MARKER

from tests.cli_runs import run

GROUPS = {"cad", "cut"}


def fill(target: Path, text: str, groups: set[str] = GROUPS, job: bytes = b"job") -> None:
    with replaced_whole(target, groups, "1", job) as folder:
        (folder / "job.toml").write_bytes(job)
        for group in groups:
            (folder / group).mkdir()
            (folder / group / "file").write_text(text)


def names(folder: Path) -> list[str]:
    return sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())


def test_new_and_again(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "out"
    fill(target, "one")
    fill(target, "two")
    assert (target / "cad" / "file").read_text() == "two"
    assert names(target) == [MARKER, "cad/file", "cut/file", "job.toml", "manifest.json"]
    assert [p.name for p in target.parent.iterdir()] == ["out"]


def test_a_fault_leaves_the_old_folder_and_no_litter(tmp_path: Path) -> None:
    target = tmp_path / "out"
    fill(target, "one")
    with pytest.raises(FileNotFoundError), replaced_whole(target, GROUPS, "1") as folder:
        (folder / "missing" / "half").write_text("half")
    assert (target / "cad" / "file").read_text() == "one"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_a_fault_on_a_new_folder_leaves_nothing_not_even_parents(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError), replaced_whole(tmp_path / "a" / "b", GROUPS, "1"):
        raise RuntimeError
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_ours_is_refused(tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_text("years of work")
    with pytest.raises(FolderError, match=r"thesis\.txt"), replaced_whole(tmp_path, GROUPS, "1"):
        pass
    assert (tmp_path / "thesis.txt").read_text() == "years of work"


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(FolderError, match="is a file"), replaced_whole(tmp_path / "out", GROUPS, "1"):
        pass
    with pytest.raises(FolderError), replaced_whole(tmp_path / "out" / "deeper", GROUPS, "1"):
        pass


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    fill(tmp_path / "out", "one")
    assert (tmp_path / "out" / MARKER).is_file()


def test_a_link_keeps_pointing(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to("real")
    fill(tmp_path / "link", "one")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "cad" / "file").read_text() == "one"


def test_the_users_own_files_in_our_folder_stay(tmp_path: Path) -> None:
    target = tmp_path / "out"
    fill(target, "one")
    (target / "cad" / "my notes.txt").write_text("mine")
    for text in ("two", "three"):
        fill(target, text)
        assert (target / "cad" / "my notes.txt").read_text() == "mine"


def test_some_groups_only_keep_the_others_of_the_same_job_but_not_of_another(tmp_path: Path) -> None:
    target = tmp_path / "out"
    fill(target, "one")
    fill(target, "two", {"cad"})
    assert (target / "cut" / "file").read_text() == "one"
    assert (target / "cad" / "file").read_text() == "two"
    fill(target, "three", {"cad"}, b"another job")
    assert not (target / "cut").exists()


def test_not_writable() -> None:
    """Root may write anywhere, so the refusal is asked of a place where not even root can: /proc."""
    with pytest.raises(FolderError, match="choose another"), replaced_whole(Path("/proc/scarfwright/out"), GROUPS, "1"):
        pass


def test_files_of_another_version_are_not_kept(tmp_path: Path) -> None:
    """The same job made by a newer tool: only what is made anew may lie there, and what is the user's own."""
    target = tmp_path / "out"
    fill(target, "one")
    (target / "cut" / "my notes.txt").write_text("mine")
    with replaced_whole(target, {"cad"}, "2", b"job") as folder:
        (folder / "job.toml").write_bytes(b"job")
        (folder / "cad").mkdir()
        (folder / "cad" / "file").write_text("two")
    assert names(target) == [MARKER, "cad/file", "cut/my notes.txt", "job.toml", "manifest.json"]
    assert (target / "cad" / "file").read_text() == "two"


# A run started in the background by a shell without job control hands on an interrupt signal that is ignored, and the
# maker would sleep on and then put its folder in place: it takes Python's own handler back, as at a terminal.
SLOW_MAKER = """
import signal, sys, time
from pathlib import Path
from scarfwright.outputs.folder import replaced_whole
signal.signal(signal.SIGINT, signal.default_int_handler)
with replaced_whole(Path(sys.argv[1]), {"cad"}, "1") as folder:
    (folder / "half").write_text("half")
    print("building", flush=True)
    time.sleep(60)
"""


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGINT])
def test_killed_while_building(tmp_path: Path, how: signal.Signals) -> None:
    """The old folder is intact; what a kill leaves lying beside it is gone after the next run."""
    target = tmp_path / "out"
    fill(target, "one")
    maker = subprocess.Popen(
        [sys.executable, "-c", SLOW_MAKER, str(target)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    )
    assert maker.stdout is not None
    assert maker.stdout.readline() == "building\n"
    assert len(list(tmp_path.iterdir())) == 2
    os.kill(maker.pid, how)
    maker.wait()
    assert (target / "cad" / "file").read_text() == "one"
    assert names(target) == [MARKER, "cad/file", "cut/file", "job.toml", "manifest.json"]
    assert len(list(tmp_path.iterdir())) == (2 if how is signal.SIGKILL else 1)
    fill(target, "two")
    assert [p.name for p in tmp_path.iterdir()] == ["out"]
    assert (target / "cad" / "file").read_text() == "two"


def dead_process() -> int:
    dead = subprocess.Popen([sys.executable, "-c", ""])
    dead.wait()
    return dead.pid


def test_leftovers_of_the_dead_are_cleared_and_those_of_the_living_stay(tmp_path: Path) -> None:
    for process in (dead_process(), os.getppid()):
        left = tmp_path / f".scarfwright-building-out-{process}"
        left.mkdir()
        (left / "half").write_text("half")
    fill(tmp_path / "out", "one")
    assert sorted(p.name for p in tmp_path.iterdir()) == [f".scarfwright-building-out-{os.getppid()}", "out"]


def test_killed_between_moving_the_old_folder_aside_and_the_new_one_in(tmp_path: Path) -> None:
    """Where folders can't be exchanged in one step the old one stands aside for a moment: the next run puts it back."""
    target = tmp_path / "out"
    fill(target, "one")
    (target / "my notes.txt").write_text("mine")
    target.rename(tmp_path / f".scarfwright-building-out-{dead_process()}-old")
    with pytest.raises(RuntimeError), replaced_whole(target, GROUPS, "1"):
        raise RuntimeError
    assert (target / "my notes.txt").read_text() == "mine"
    fill(target, "two")
    assert (target / "my notes.txt").read_text() == "mine"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


@pytest.mark.parametrize("lacking", ["exchange", "library", "system", "modes", "posix"])
def test_a_system_that_lacks_a_call(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, lacking: str) -> None:
    """With a call taken away that not every system has the folder comes out whole and the user's own stays."""
    target = tmp_path / "out"
    fill(target, "one")
    (target / "my notes.txt").write_text("mine")
    left = tmp_path / f".scarfwright-building-out-{dead_process()}"
    left.mkdir()
    if lacking == "exchange":
        monkeypatch.setattr(folder_room, "_exchange", lambda _one, _other: False)
    elif lacking == "library":
        monkeypatch.setattr(ctypes, "CDLL", missing)
    elif lacking == "system":
        monkeypatch.setattr(sys, "platform", "darwin")
    elif lacking == "modes":
        monkeypatch.setattr(shutil, "copymode", missing)
    else:
        monkeypatch.setattr(folder_room, "_posix", lambda: False)
        monkeypatch.setattr(os, "kill", missing)
        os.utime(left, (0, 0))
    fill(target, "two")
    assert (target / "cad" / "file").read_text() == "two"
    assert (target / "my notes.txt").read_text() == "mine"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def missing(*_: object, **__: object) -> None:
    raise OSError("there is no such call here")


# -- what is the user's --------------------------------------------------------------------------------------------


def test_the_users_own_folders_and_modes_stay(tmp_path: Path) -> None:
    target = tmp_path / "out"
    fill(target, "one")
    (target / "empty").mkdir()
    (target / "closed").mkdir(mode=0o700)
    (target / "closed" / "note").write_text("mine")
    (target / "closed").chmod(0o500)
    (target / "cad").chmod(0o750)
    target.chmod(0o700)
    fill(target, "two")
    modes = {name: (target / name).stat().st_mode & 0o777 for name in ("", "closed", "cad")}
    assert modes == {"": 0o700, "closed": 0o500, "cad": 0o750}
    assert (target / "empty").is_dir()
    assert (target / "closed" / "note").read_text() == "mine"
    assert (target / "cad" / "file").read_text() == "two"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_an_output_folder_in_an_output_folder_stays_whole(tmp_path: Path) -> None:
    fill(tmp_path / "out", "one")
    fill(tmp_path / "out" / "other boat", "inner")
    for text in ("two", "three"):
        fill(tmp_path / "out", text)
        assert names(tmp_path / "out" / "other boat") == [MARKER, "cad/file", "cut/file", "job.toml", "manifest.json"]
    fill(tmp_path / "out" / "other boat", "inner again")
    assert (tmp_path / "out" / "cad" / "file").read_text() == "three"


@pytest.mark.parametrize("mine", ["cut", "cad/file", "job.toml/note"])
def test_a_file_of_the_users_in_the_way_is_refused_not_lost(tmp_path: Path, mine: str) -> None:
    target = tmp_path / "out"
    target.mkdir()
    (target / MARKER).write_text("Made by scarfwright 1.\n")
    (target / mine).parent.mkdir(exist_ok=True)
    (target / mine).write_text("mine")
    with pytest.raises(FolderError, match=r"is yours and in the way"):
        fill(target, "two")
    assert (target / mine).read_text() == "mine"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_links_are_carried_over_as_links(tmp_path: Path) -> None:
    target = tmp_path / "out"
    fill(target, "one")
    (tmp_path / "elsewhere").mkdir()
    (target / "link").symlink_to(tmp_path / "elsewhere")
    (target / "broken").symlink_to("nowhere")
    fill(target, "two")
    assert (target / "link").readlink() == tmp_path / "elsewhere"
    assert (target / "broken").is_symlink()


def test_a_mount_point_is_refused_before_the_work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path) == tmp_path / "disk")
    begun = False
    with pytest.raises(FolderError, match="use a folder on it"), replaced_whole(tmp_path / "disk", GROUPS, "1"):
        begun = True
    assert not begun
    fill(tmp_path / "disk" / "scarf-files", "one")


def test_a_real_mount_point_is_refused() -> None:
    with pytest.raises(FolderError, match="use a folder on it"), replaced_whole(Path("/proc"), GROUPS, "1"):
        pass


@pytest.mark.parametrize("limit", [100, 2_000, 20_000, 60_000])
def test_a_disk_that_fills_up(tmp_path: Path, limit: int) -> None:
    """A limit on file size stands for the full disk: the write fails in the middle, at whichever writer it hits."""
    first = (
        "import resource, signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN);"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({limit}, {limit}))"
    )
    (tmp_path / "out").mkdir()
    done = run("make", "--out", "out", cwd=tmp_path, first=first)
    assert done.returncode == 2, done.stderr
    assert "Traceback" not in done.stderr
    assert "what was there before is as it was" in done.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["out"]
    assert list((tmp_path / "out").iterdir()) == []
