"""A folder against its manifest: which files are whole, changed, missing, or not listed at all."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from scarfwright.models.sharing.manifest import NAME, Manifest
from scarfwright.outputs.share.seal import sealed
from scarfwright.outputs.share.zip_directory import is_litter

MARKER = ".scarfwright"  # the tool's own note of what it made, beside the manifest
MOST_FILES = 20_000  # looked at in a folder; more is somebody's disk


@dataclass(frozen=True)
class Files:
    """Names of a folder's files by how they stand to its manifest."""

    whole: tuple[str, ...]
    changed: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    unlisted: tuple[str, ...] = ()

    @property
    def untouched(self) -> bool:
        """Every listed file is there as it was made."""
        return not (self.changed or self.missing)


def files_of(folder: Path, manifest: Manifest) -> Files:
    """Compare a folder's files with its manifest: size first, then sha256. A link is no file. Raises OSError."""
    whole: list[str] = []
    changed: list[str] = []
    missing: list[str] = []
    for name, told in manifest.files.items():
        path = folder / name
        if _through_a_link(folder, name):
            changed.append(name)
            continue
        try:
            found = os.lstat(path)
        except (FileNotFoundError, NotADirectoryError):
            missing.append(name)
            continue
        same = stat.S_ISREG(found.st_mode) and found.st_size == told.size and sealed(path) == told
        (whole if same else changed).append(name)
    known = {*manifest.files, NAME, MARKER}
    unlisted = sorted(name for name in _all(folder) if name not in known and not is_litter(name))
    return Files(tuple(whole), tuple(changed), tuple(missing), tuple(unlisted))


def _through_a_link(folder: Path, name: str) -> bool:
    """Whether a folder on the way to a file is a link, which may lead anywhere."""
    steps = name.split("/")[:-1]
    return any((folder / "/".join(steps[: count + 1])).is_symlink() for count in range(len(steps)))


def _all(folder: Path) -> Iterator[str]:
    count = 0
    for place, below, names in os.walk(folder):
        linked = [name for name in below if (Path(place) / name).is_symlink()]
        for name in (*names, *linked):
            count += 1
            if count > MOST_FILES:
                return
            yield (Path(place) / name).relative_to(folder).as_posix()
