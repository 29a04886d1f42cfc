"""Putting a folder in place whole: built beside the target, swapped in at the end.

Whatever goes wrong, the old folder stays as it was and nothing is left lying beside it. Against kill -9 a small
watcher process, forked before the work begins, waits on a pipe: when the maker dies, it clears the half-built folder.
"""

from __future__ import annotations

import contextlib
import ctypes
import errno
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

MARKER = ".scarfwright"
_BUILDING = ".scarfwright-building-"


class FolderError(Exception):
    """The target folder can't be used; `str()` is one line that says why and what would do."""


@contextlib.contextmanager
def replaced_whole(target: Path, groups: set[str], version: str, same_job: bytes | None = None) -> Iterator[Path]:
    """Yield an empty folder to write into; on leaving without an exception it takes the place of `target`.

    `groups` are the sub-folders being made anew. Files in the old folder that the tool did not make are carried
    over; other groups too, if the old folder holds the very same job (`same_job`: the bytes of job.toml) made by the
    same version. Raises FolderError if the target is not ours or can't be written.
    """
    target = _checked(target)
    made_parents = _make_parents(target)
    building = target.parent / f"{_BUILDING}{target.name}-{os.getpid()}"
    _clear_leftovers(target)
    watcher = None
    try:
        try:
            building.mkdir()
        except OSError as error:
            raise FolderError(f"{target}: can't write there ({error.strerror}); choose another --out") from None
        watcher = _Watcher(building)
        yield building
        foreign = _carry_over(target, building, groups, version, same_job)
        _mark(building, version, foreign)
        _swap(building, target)
    except BaseException:
        shutil.rmtree(building, ignore_errors=True)
        for parent in made_parents:
            with contextlib.suppress(OSError):
                parent.rmdir()
        raise
    finally:
        if watcher is not None:
            watcher.dismiss()


def _checked(target: Path) -> Path:
    target = Path(os.path.abspath(target.resolve() if target.is_symlink() else target))
    if not target.exists():
        return target
    if not target.is_dir():
        raise FolderError(f"{target}: is a file; expected a folder to write to, or a name not yet taken")
    try:
        names = {p.name for p in target.iterdir()}
    except OSError as error:
        raise FolderError(f"{target}: can't be read ({error.strerror}); choose another --out") from None
    if names and MARKER not in names:
        raise FolderError(
            f"{target}: holds files that scarfwright did not make (such as {min(names)}); "
            "expected an empty folder, one made by scarfwright, or a name not yet taken"
        )
    return target


def _make_parents(target: Path) -> list[Path]:
    """Create missing parents; returns those made, innermost first."""
    missing = []
    parent = target.parent
    while not parent.exists():
        missing.append(parent)
        parent = parent.parent
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FolderError(f"{target}: can't write there ({error.strerror}); choose another --out") from None
    return missing


def _clear_leftovers(target: Path) -> None:
    """Half-built folders of makers that are no longer alive, where no watcher could clear them."""
    with contextlib.suppress(OSError):
        for path in target.parent.glob(f"{_BUILDING}{_escaped(target.name)}-*"):
            owner = path.name.rpartition("-")[2]
            if owner.isdigit() and not _alive(int(owner)):
                shutil.rmtree(path, ignore_errors=True)


def _escaped(name: str) -> str:
    return "".join(f"[{c}]" if c in "*?[" else c for c in name)


def _alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _carry_over(target: Path, building: Path, groups: set[str], version: str, same_job: bytes | None) -> set[str]:
    """Copy what is to be kept from the old folder; what has just been made anew wins.

    Returns the names of the files that are not ours.
    """
    foreign: set[str] = set()
    if not target.exists():
        return foreign
    first_line, ours = _read_marker(target)
    job = target / "job.toml"
    same = first_line == _first_line(version) and job.is_file() and same_job == job.read_bytes()
    for path in sorted(target.rglob("*")):
        relative = path.relative_to(target)
        made_by_us = relative.as_posix() in ours or relative.name == MARKER
        keep = (same and relative.parts[0] not in groups) if made_by_us else True
        if not keep or (path.is_dir() and not path.is_symlink()) or (building / relative).exists():
            continue
        (building / relative).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(path, building / relative, follow_symlinks=False)
        if not made_by_us:
            foreign.add(relative.as_posix())
    return foreign


def _first_line(version: str) -> str:
    return f"Made by scarfwright {version}. Files listed here are replaced when it is made again."


def _read_marker(folder: Path) -> tuple[str, set[str]]:
    lines = (folder / MARKER).read_text(encoding="utf-8").splitlines() if (folder / MARKER).is_file() else []
    return (lines[0] if lines else ""), set(lines[1:])


def _mark(building: Path, version: str, foreign: set[str]) -> None:
    files = sorted(p.relative_to(building).as_posix() for p in building.rglob("*") if not p.is_dir())
    lines = [_first_line(version), *(name for name in files if name not in foreign)]
    (building / MARKER).write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def _swap(building: Path, target: Path) -> None:
    if not target.exists():
        building.rename(target)
        return
    if not _exchange(building, target):
        old = building.with_name(building.name + "-old")
        target.rename(old)
        try:
            building.rename(target)
        except BaseException:
            old.rename(target)
            raise
        building = old
    shutil.rmtree(building, ignore_errors=True)


def _exchange(one: Path, other: Path) -> bool:
    """Swap two folders in one step where the system can (Linux renameat2 with RENAME_EXCHANGE)."""
    if sys.platform != "linux":
        return False
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    at_cwd, exchange = -100, 2
    done = renameat2(at_cwd, os.fsencode(one), at_cwd, os.fsencode(other), exchange)
    if done != 0 and ctypes.get_errno() not in (errno.ENOSYS, errno.EINVAL):
        raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()), str(other))
    return bool(done == 0)


class _Watcher:
    """A forked process that clears `building` if this one dies without dismissing it."""

    def __init__(self, building: Path) -> None:
        self.writing = -1
        self.process = 0
        if not hasattr(os, "fork"):
            return
        reading, self.writing = os.pipe()
        self.process = os.fork()
        if self.process == 0:  # the watcher
            os.close(self.writing)
            _watch(reading, building)
        os.close(reading)

    def dismiss(self) -> None:
        if self.writing < 0:
            return
        with contextlib.suppress(OSError):
            os.write(self.writing, b"done")
        os.close(self.writing)
        self.writing = -1
        with contextlib.suppress(ChildProcessError):
            os.waitpid(self.process, 0)


def _watch(reading: int, building: Path) -> None:
    """Never returns: waits for word or for the maker's end, deaf to the terminal's signals."""
    try:
        os.setsid()
        quiet = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):  # held-open pipes would keep a reader of our output waiting
            os.dup2(quiet, stream)
        if os.read(reading, 8) == b"":
            shutil.rmtree(building, ignore_errors=True)
    finally:
        os._exit(0)
