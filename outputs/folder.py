"""Putting a folder in place whole: built beside the target, swapped in at the end.

Whatever goes wrong, the old folder stays as it was. What a killed run leaves lying beside it is cleared by the next
run. Files and folders in the old one that the tool did not make are the user's: they are carried over as they are,
or, where one stands in the way of a file to be made, nothing is done.
"""

from __future__ import annotations

import contextlib
import ctypes
import errno
import os
import shutil
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from scarfwright.models.sharing.manifest import NAME, Manifest, Sealed, Terms
from scarfwright.models.sharing.versions import library_versions
from scarfwright.outputs.share.seal import manifest_in, seal
from scarfwright.outputs.share.whole import MARKER

_BUILDING = ".scarfwright-building-"
_OLD = "-old"
_FORGOTTEN = 3600.0  # where no process can be asked for, a folder untouched for so long was left behind [s]


class FolderError(Exception):
    """The target folder can't be used; `str()` is one line that says why and what would do."""


@contextlib.contextmanager
def replaced_whole(
    target: Path, groups: set[str], version: str, same_job: bytes | None = None, terms: Terms | None = None
) -> Iterator[Path]:
    """Yield an empty folder to write into; on leaving without an exception it takes the place of `target`.

    `groups` are the sub-folders being made anew. Files in the old folder that the tool did not make are carried
    over; other groups too, if the old folder holds the very same job (`same_job`: the bytes of job.toml) made by the
    same versions of the tool, the libraries and the plug-ins. Its manifest, with the `terms`, is written last, for
    all that the tool made. Raises FolderError if the target is not ours or can't be written.
    """
    told = terms or Terms()
    target = Path(os.path.abspath(target.resolve() if target.is_symlink() else target))
    _clear_leftovers(target)
    _check(target, groups)
    made_parents = _make_parents(target)
    building = target.parent / f"{_BUILDING}{target.name}-{os.getpid()}"
    try:
        try:
            building.mkdir()
        except OSError as error:
            raise FolderError(f"{target}: can't write there ({error.strerror}); choose another --out") from None
        yield building
        old = _old(target)
        carried = _carry_over(old, building, groups, _same(old, version, same_job, told))
        ours = [name for name in _files_in(building) if name not in carried.foreign]
        seal(building, ours, version, told, carried.as_made(old))
        _mark(building, version, [*ours, NAME])
        _keep_modes(target, building)
        _swap(building, target)
    except BaseException:
        _remove(building)
        for parent in made_parents:
            with contextlib.suppress(OSError):
                parent.rmdir()
        raise


# -- before the work -------------------------------------------------------------------------------------------


def _check(target: Path, groups: set[str]) -> None:
    """Refuse at once what could not be replaced at the end."""
    if os.path.ismount(target):
        raise FolderError(
            f"{target}: is where a disk is mounted, which can't be replaced whole; use a folder on it, "
            f"such as {target / 'scarf-files'}"
        )
    if not target.exists():
        return
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
    for group in sorted(groups & names):
        if not (target / group).is_dir():
            raise _in_the_way(target / group)


def _in_the_way(path: Path) -> FolderError:
    return FolderError(f"{path}: is yours and in the way of what is to be made; move it, or choose another --out")


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
    """Half-built folders of runs that are no longer alive; an old folder that one had moved aside is put back."""
    with contextlib.suppress(OSError):
        for path in sorted(target.parent.glob(f"{_BUILDING}{_escaped(target.name)}-*")):
            owner = path.name.removesuffix(_OLD).rpartition("-")[2]
            if not owner.isdigit() or _alive(int(owner), path):
                continue
            if path.name.endswith(_OLD) and not target.exists():
                path.rename(target)
            else:
                _remove(path)


def _remove(folder: Path) -> None:
    """Take a folder away, those in it that are closed to writing too."""
    for place, below, _ in os.walk(folder):
        for inner in (Path(place), *(Path(place) / name for name in below)):
            if not inner.is_symlink():
                with contextlib.suppress(OSError):
                    inner.chmod(inner.stat().st_mode | 0o700)
    shutil.rmtree(folder, ignore_errors=True)


def _escaped(name: str) -> str:
    return "".join(f"[{c}]" if c in "*?[" else c for c in name)


def _alive(process: int, path: Path) -> bool:
    """Whether the run that builds `path` still goes on."""
    if not _posix():  # elsewhere the same call would stop the process it asks for
        return time.time() - path.stat().st_mtime < _FORGOTTEN
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _posix() -> bool:
    return os.name == "posix"


# -- what the old folder held ----------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Held:
    """What lies in the old folder: its first marker line, the files we made, all folders and files in it, and its
    manifest."""

    root: Path
    first_line: str
    ours: frozenset[str]
    folders: tuple[Path, ...]
    files: tuple[Path, ...]
    manifest: Manifest | None


def _old(target: Path) -> _Held | None:
    if not target.exists():
        return None
    marker = target / MARKER
    lines = marker.read_text(encoding="utf-8").splitlines() if marker.is_file() else []
    folders, files = [], []
    for place, below, names in os.walk(target, onerror=_raise):
        linked = [name for name in below if (Path(place) / name).is_symlink()]
        folders += [Path(place) / name for name in below if name not in linked]
        files += [Path(place) / name for name in (*names, *linked)]
    first, ours = (lines[0], frozenset(lines[1:])) if lines else ("", frozenset[str]())
    return _Held(target, first, ours, tuple(folders), tuple(sorted(files)), manifest_in(target))


def _raise(error: OSError) -> None:
    raise error


def _same(old: _Held | None, version: str, same_job: bytes | None, terms: Terms) -> bool:
    """Whether the old folder holds the same job, made by the same versions."""
    if old is None or old.manifest is None or old.first_line != _first_line(version):
        return False
    job, made = old.root / "job.toml", old.manifest
    same_versions = made.libraries == library_versions() and made.terms.plug_ins == terms.plug_ins
    return same_versions and job.is_file() and same_job == job.read_bytes()


@dataclass(frozen=True)
class _Carried:
    """What was copied from the old folder: the user's own files, and ours of an earlier run."""

    foreign: frozenset[str] = frozenset()
    ours: frozenset[str] = frozenset()

    def as_made(self, old: _Held | None) -> dict[str, Sealed]:
        """Ours as they were once made: who changed one since is not told by a new seal that it is whole."""
        made = {} if old is None or old.manifest is None else old.manifest.files
        return {name: told for name, told in made.items() if name in self.ours}


def _carry_over(old: _Held | None, building: Path, groups: set[str], same: bool) -> _Carried:
    """Copy what is to be kept from the old folder; our files of other groups too where the job is the `same`."""
    if old is None:
        return _Carried()
    foreign: set[str] = set()
    ours: set[str] = set()
    for path in old.files:
        relative = path.relative_to(old.root)
        name = relative.as_posix()
        if name == MARKER or (name == NAME and name in old.ours):
            continue
        if name == NAME:
            raise _in_the_way(path)
        if name not in old.ours:
            foreign.add(name)
            _copy(path, building / relative, path)
        elif same and relative.parts[0] not in groups and not os.path.lexists(building / relative):
            ours.add(name)
            _copy(path, building / relative, path)
    for folder in _users_own(old):
        there = building / folder.relative_to(old.root)
        if os.path.lexists(there) and not there.is_dir():
            raise _in_the_way(folder)
        there.mkdir(parents=True, exist_ok=True)
    return _Carried(frozenset(foreign), frozenset(ours))


def _copy(path: Path, there: Path, shown: Path) -> None:
    if os.path.lexists(there) or not (path.is_symlink() or path.is_file()):
        raise _in_the_way(shown)
    for parent in reversed(there.parents):
        if os.path.lexists(parent) and not parent.is_dir():
            raise _in_the_way(shown.parent)
    there.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy2(path, there, follow_symlinks=False)


def _users_own(old: _Held) -> Iterator[Path]:
    """Folders that hold nothing we made: where all they held was ours they go with it, even if now empty."""
    made = {parent for name in old.ours for parent in Path(name).parents}
    for folder in old.folders:
        if folder.relative_to(old.root) not in made:
            yield folder


def _first_line(version: str) -> str:
    return f"Made by scarfwright {version}. Files listed here are replaced when it is made again."


def _files_in(building: Path) -> list[str]:
    return sorted(p.relative_to(building).as_posix() for p in building.rglob("*") if p.is_symlink() or not p.is_dir())


def _mark(building: Path, version: str, ours: list[str]) -> None:
    lines = [_first_line(version), *sorted(ours)]
    (building / MARKER).write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def _keep_modes(target: Path, building: Path) -> None:
    """Folders that were there keep who may read them; innermost first, for a closed one can't be written to."""
    if not target.exists():
        return
    below = [p.relative_to(building) for p in building.rglob("*") if p.is_dir() and not p.is_symlink()]
    for relative in [*sorted(below, key=lambda p: -len(p.parts)), Path()]:
        if (target / relative).is_dir():
            with contextlib.suppress(OSError, NotImplementedError):  # not every disk keeps modes
                shutil.copymode(target / relative, building / relative)


# -- in place --------------------------------------------------------------------------------------------------


def _swap(building: Path, target: Path) -> None:
    if not target.exists():
        building.rename(target)
        return
    if not _exchange(building, target):
        old = building.with_name(building.name + _OLD)
        target.rename(old)
        try:
            building.rename(target)
        except BaseException:
            old.rename(target)
            raise
        building = old
    _remove(building)


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
